"""An outline and its photographs as one HTML file.

The file needs nothing beside it: no script, no font, no address to fetch from, which it also
forbids itself. The same outline and photographs give the same bytes.
"""

import io
from base64 import b64encode
from dataclasses import replace
from pathlib import Path

from witnessmark.catalogue import ENGLISH_CATALOGUE, Catalogue, said, speaking
from witnessmark.outline.records import Facts, Outline, Photograph, Section
from witnessmark.report.press.html.blocks import HtmlPage, ShownPhotograph, blocks_of, facts_of
from witnessmark.report.press.html.markup import Markup, element, joined
from witnessmark.report.press.pictures import LONGEST_SIDE, small_jpeg
from witnessmark.report.records import Picture

OPENING = b"<!doctype html>\n<!-- set by Witnessmark -->\n"
"""How every file of ours begins, by which it is known."""

STYLE = Path(__file__).with_name("page.css")
ALLOWED = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
"""What a browser may do with the page: show its own pictures and style, and fetch nothing."""

SIDES = {1: LONGEST_SIDE, 2: 1000}
SMALL_SIDE = 640
"""Pixels of the longer side of a photograph by how many stand in a row, and in any longer row."""


def write_html(
    outline: Outline, pictures: tuple[Picture, ...] = (), catalogue: Catalogue = ENGLISH_CATALOGUE
) -> bytes:
    """The outline as one file, in UTF-8; `pictures` are those that its photographs name."""
    with speaking(catalogue):
        page = HtmlPage(outline.words, _Album(pictures).shown)
        head = (
            element("meta", charset="utf-8"),
            element("meta", http_equiv="Content-Security-Policy", content=ALLOWED),
            element("meta", name="viewport", content="width=device-width, initial-scale=1"),
            element("meta", name="color-scheme", content="light dark"),
            element("title", _named(outline)),
            element("style", Markup(STYLE.read_text("utf-8"))),
        )
        body = joined(_header(outline), _main(outline, page), _footer(outline))
        whole = element(
            "html",
            element("head", *head),
            element("body", body),
            lang=outline.language,
        )
    return OPENING + whole.encode() + b"\n"


def _named(outline: Outline) -> str:
    """What the window is called."""
    words, title = outline.words, outline.title
    if outline.number:
        return words.titled.format(title=title, report=outline.number)
    return words.document.format(title=title, case=outline.case_id) if outline.case_id else title


def _printed(outline: Outline) -> str:
    """The report by its number, else the case, and the day."""
    words, day = outline.words, outline.printed
    if outline.number:
        return words.numbered.format(report=outline.number, printed=day)
    if outline.case_id:
        return words.case.format(case=outline.case_id, printed=day)
    return words.printed.format(printed=day) if day else ""


def _header(outline: Outline) -> Markup:
    told = (element("p", each) for each in (outline.label, _printed(outline)) if each)
    return element("header", element("h1", outline.title), *told)


def _contents(outline: Outline) -> Markup:
    """The sections, each a step away; nothing where there is but one."""
    if len(outline.sections) < 2:
        return Markup("")
    rows = (
        element("li", element("a", _title(outline, number, each), href=f"#{number}"))
        for number, each in enumerate(outline.sections, start=1)
    )
    title = element("h2", said("Contents"), id="contents")
    return element("nav", title, element("ul", *rows), aria_labelledby="contents")


def _main(outline: Outline, page: HtmlPage) -> Markup:
    front = blocks_of(outline.front, replace(page, level=2))
    cover = facts_of(Facts(outline.cover), page) if outline.cover else Markup("")
    sections = (_section(outline, at, page) for at in range(len(outline.sections)))
    first = element("div", front, class_="front") if outline.front else Markup("")
    return element("main", first, _contents(outline), cover, *sections)


def _section(outline: Outline, at: int, page: HtmlPage) -> Markup:
    section, number = outline.sections[at], at + 1
    title = element("h2", _title(outline, number, section), id=str(number))
    on_new_page = "new-page" if section.new_page else None
    return element(
        "section",
        title,
        blocks_of(section.blocks, page),
        class_=on_new_page,
        aria_labelledby=str(number),
    )


def _title(outline: Outline, number: int, section: Section) -> Markup:
    before = element("span", str(number), class_="number") if outline.is_numbered else Markup("")
    return joined(before, f" {section.title}" if before else section.title)


def _footer(outline: Outline) -> Markup:
    told = (element("p", each) for each in (_printed(outline), outline.footer) if each)
    return element("footer", *told)


class _Album:
    """The photographs of one page, each reduced to what its row has room for."""

    def __init__(self, pictures: tuple[Picture, ...]) -> None:
        self.jpegs = {each.exhibit: each.jpeg for each in pictures if each.jpeg}
        self.made: dict[tuple[str, int], ShownPhotograph] = {}

    def shown(self, photograph: Photograph, across: int) -> ShownPhotograph | None:
        """The photograph for a row of so many; None where there is none to be shown."""
        asked = (photograph.id, SIDES.get(across, SMALL_SIDE))
        if photograph.id in self.jpegs and asked not in self.made:
            self.made[asked] = _as_address(self.jpegs[photograph.id], asked[1])
        return self.made.get(asked)


def _as_address(jpeg: bytes, side_px: int) -> ShownPhotograph:
    from PIL import Image  # late: most commands need none

    with Image.open(io.BytesIO(jpeg)) as image:
        if max(image.size) > side_px:
            jpeg = small_jpeg(image, side_px)
        width, height = image.size
    return ShownPhotograph(f"data:image/jpeg;base64,{b64encode(jpeg).decode()}", width, height)
