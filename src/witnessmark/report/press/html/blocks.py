"""The blocks of an outline as elements of a page, one small function a kind."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from witnessmark.outline.records import (
    Block,
    Boxed,
    Bullets,
    Columns,
    Drawing,
    Facts,
    Heading,
    PageWords,
    Paragraph,
    Photograph,
    Pictures,
    Pointed,
    Signature,
    Table,
    TableCell,
    Together,
)
from witnessmark.report.press.html.drawings import bar, figure_svg, sign
from witnessmark.report.press.html.markup import Markup, element, joined, typed

MOST_STACKED = 5
"""Columns of a table whose cells stand below each other on a narrow screen; one of more is
moved sideways there."""


@dataclass(frozen=True, slots=True)
class ShownPhotograph:
    """A photograph as it is set: its address, which holds all of it, and its size in pixels."""

    address: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class HtmlPage:
    """What blocks need to know of the page that they stand on.

    `shown` gives a photograph for a row of so many; `level` is that of a heading among blocks;
    `leads` gives name and address of each thing that a cell speaks of, on a page that has them.
    """

    words: PageWords
    shown: Callable[[Photograph, int], ShownPhotograph | None]
    level: int = 3
    leads: Callable[[tuple[str, ...]], Iterable[tuple[str, str]]] = lambda about: ()


def blocks_of(blocks: tuple[Block, ...], page: HtmlPage) -> Markup:
    """Blocks one below the other."""
    return joined(*(_SET[type(block)](block, page) for block in blocks))


def facts_of(block: Facts, page: HtmlPage) -> Markup:
    """Labels with their texts."""
    pairs = (
        element("div", element("dt", each.label), element("dd", each.text)) for each in block.facts
    )
    return element("dl", *pairs)


def _paragraph(block: Paragraph, page: HtmlPage) -> Markup:
    return element("p", block.text, class_=None if block.tone == "plain" else block.tone)


def _heading(block: Heading, page: HtmlPage) -> Markup:
    return element(f"h{page.level}", block.text)


def _bullets(block: Bullets, page: HtmlPage) -> Markup:
    return element("ol" if block.is_numbered else "ul", *(element("li", t) for t in block.items))


def _table(block: Table, page: HtmlPage) -> Markup:
    """In a frame that is moved sideways where the screen is narrow, if it is not stacked."""
    count = len(block.head or block.rows[0]) if block.rows or block.head else 0
    is_stacked = bool(block.head) and count <= MOST_STACKED and block.axis is None
    whole = sum(block.shares)
    columns = (element("col", style=f"width:{100 * each / whole:.1f}%") for each in block.shares)
    head: tuple[Markup, ...] = ()
    if block.head:
        cells = [element("th", each, scope="col", role="columnheader") for each in block.head]
        if block.axis is not None:
            inside = joined(block.head[-1], _cell_body(block.axis, page))
            cells[-1] = element("th", inside, scope="col", role="columnheader")
        head = (element("thead", element("tr", *cells, role="row"), role="rowgroup"),)
    labels = block.head or ("",) * count
    rows = (
        element("tr", *(_cell(*each, page) for each in zip(row, labels, strict=True)), role="row")
        for row in block.rows
    )
    body = element("tbody", *rows, role="rowgroup")
    table = element("table", element("colgroup", *columns), *head, body, role="table")
    kind = "stacked" if is_stacked else "wide" if count > MOST_STACKED or block.axis else "plain"
    named = {"role": "group", "aria_label": ", ".join(filter(None, block.head)) or None}
    moved: dict[str, Any] = {"tabindex": "0", **named} if kind == "wide" else {}
    return element(
        "div", table, class_=f"table {kind}{' dense' if block.is_dense else ''}", **moved
    )


def _cell(cell: TableCell, label: str, page: HtmlPage) -> Markup:
    """A cell, with the head of its column for where it stands alone."""
    body = _cell_body(cell, page)
    kept = element("div", body) if body else body
    return element("td", kept, data_label=label or None, role="cell")


def _cell_body(cell: TableCell, page: HtmlPage) -> Markup:
    ways = tuple(page.leads(cell.about))
    is_way = len(ways) == 1 and ways[0][0] == cell.text
    shown = element("a", cell.text, href=ways[0][1]) if is_way else cell.text
    text = element("span", shown, class_=_face(cell)) if cell.text else Markup("")
    below = (
        element("div", sign(cell.sign) if at == 0 else Markup(""), line, class_=_below(cell, at))
        for at, line in enumerate(cell.below)
    )
    drawn = figure_svg(cell.svg, cell.told, class_="track") if cell.svg else Markup("")
    drawn_bar = Markup("") if cell.bar is None else bar(cell.bar)
    beside = Markup("") if is_way or not ways else element("div", *map(_way, ways), class_="leads")
    return joined(drawn, text, drawn_bar, *below, beside)


def _way(way: tuple[str, str]) -> Markup:
    """The way to something that a cell speaks of."""
    name, address = way
    return element("a", name, href=address)


def _face(cell: TableCell) -> str | None:
    return "mono" if cell.mono else "strong" if cell.strong else None


def _below(cell: TableCell, at: int) -> str:
    return f"below {cell.sign}" if at == 0 and cell.sign else "below"


def _pointed(block: Pointed, page: HtmlPage) -> Markup:
    before = block.text[: block.column - 1].split("\n")[-1]
    line = before + block.text[block.column - 1 :].split("\n")[0]
    pointer = element("span", f"\n{' ' * len(before)}^", aria_hidden="true")
    return joined(
        element("pre", Markup(typed(line) + pointer.replace("<br>", "\n"))),
        element("p", block.told, class_="quiet"),
    )


def _drawing(block: Drawing, page: HtmlPage) -> Markup:
    """A figure with its title and its sentence; that of one that leads stands in what follows."""
    title = element("p", block.title, class_="strong")
    told = Markup("") if block.leads else element("figcaption", block.caption)
    drawn = element(
        "div",
        figure_svg(block.svg, block.title),
        class_="drawn",
        tabindex="0",
        role="group",
        aria_label=block.title,
    )
    return element("figure", title, drawn, told)


def _pictures(block: Pictures, page: HtmlPage) -> Markup:
    shown = (_photograph(each, block.across, page) for each in block.photographs)
    return element("div", *shown, class_=f"pictures across-{block.across}")


def _photograph(block: Photograph, across: int, page: HtmlPage) -> Markup:
    shown = page.shown(block, across)
    told = page.words.photograph.format(number=block.number, caption=block.caption)
    if shown is None:
        picture = element("p", block.missing, class_="missing")
    else:
        size = {"width": str(shown.width), "height": str(shown.height)}
        picture = element("img", src=shown.address, alt=told, **size)
    if not block.number:
        return element("figure", picture)
    caption = joined(element("b", block.number), f" · {block.caption}")
    return element("figure", picture, element("figcaption", caption))


def _signature(block: Signature, page: HtmlPage) -> Markup:
    lines = (element("span", each) for each in (page.words.signature, page.words.date))
    told = (each for each in (block.qualifications, block.answers_for) if each)
    quiet = (element("p", each, class_="quiet") for each in told)
    signed = element("div", *lines, class_="to-sign")
    return element(
        "div", signed, element("p", block.name, class_="strong"), *quiet, class_="signature"
    )


def _columns(block: Columns, page: HtmlPage) -> Markup:
    shares = " ".join(f"minmax(0,{each:g}fr)" for each in block.shares)
    runs = (element("div", blocks_of(each, page)) for each in (block.left, block.right))
    return element("div", *runs, class_="columns", style=f"--shares:{shares}")


def _group(block: Together | Boxed, page: HtmlPage) -> Markup:
    return element("div", blocks_of(block.blocks, page), class_=block.kind)


_SET: Mapping[type, Callable[[Any, HtmlPage], Markup]] = {
    Paragraph: _paragraph,
    Heading: _heading,
    Bullets: _bullets,
    Facts: facts_of,
    Pointed: _pointed,
    Table: _table,
    Drawing: _drawing,
    Pictures: _pictures,
    Signature: _signature,
    Together: _group,
    Boxed: _group,
    Columns: _columns,
}
"""How each kind of block is set; what is filled in by hand stands on paper alone."""
