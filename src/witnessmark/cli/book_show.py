"""`witnessmark book show`: what one code book knows, mark by mark."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson, BookName, ModelYear
from witnessmark.cli.opening import context_of_year, opened_book
from witnessmark.cli.terminal import Sheet, count, print_outline

if TYPE_CHECKING:
    from witnessmark.codebook.book import CodeBook
    from witnessmark.codebook.marks import Field, Mark
    from witnessmark.codebook.piece_records import Piece
    from witnessmark.codebook.records import CarContext, Item
    from witnessmark.codebook.site_records import Feature

SHORT = "Show what a code book covers."

HELP = """Show what a code book covers: what can be claimed, marks and fields, what to look at.

\b
Example:
  witnessmark book show tarvane-1952-1961 --year 1955
"""

MOST_VALUES = 4
"""Values of an item that a line shows; --values shows all."""

AllValues = Annotated[bool, typer.Option("--values", help="Show every value of every item.")]


def book_show(
    book: BookName, year: ModelYear = None, values: AllValues = False, json: AsJson = False
) -> None:
    """Show one book, or the part of it that holds for one year."""
    opened = opened_book(book)
    code_book = opened.book
    assert code_book is not None, "a book that cannot be read has ended the command"
    context = context_of_year(code_book, year)
    if json:
        outline = _outline(code_book, context, opened.sha256)
        print_outline(outline)
        return
    sheet = Sheet()
    lay_out(sheet, code_book, context, None if values else MOST_VALUES)
    sheet.show()


def lay_out(sheet: Sheet, book: "CodeBook", context: "CarContext", most_values: int | None) -> None:
    """The page of one book."""
    years = f"{book.first_year} to {book.last_year}"
    sheet.title(f"{book.title} ({book.id}), version {book.version}")
    sheet.say(" ".join(book.summary.split()), 2)
    if context.model_year is not None:
        sheet.say(f"Only what holds for {context.model_year} is shown; the book covers {years}.", 2)
    sheet.heading("Models")
    sheet.table([(m.id, m.name) for m in book.models if m.applies.covers(context)], 2)
    sheet.heading("Works")
    sheet.say("; ".join(w.name for w in book.works if w.applies.covers(context)), 2)
    sheet.heading("What can be claimed of a car (--claim ITEM=VALUE)")
    claimed = (
        (item.id, _claimable(book, item, context, most_values)) for item in _claimable_items(book)
    )
    sheet.table([(name, said) for name, said in claimed if said], 2)
    _lay_out_pieces(sheet, book, context)
    sheet.heading("Marks")
    for mark in book.marks_for(context):
        sheet.gap()
        _lay_out_mark(sheet, book, mark, context)
    _lay_out_features(sheet, book, context)
    sheet.gap()
    sheet.say(f"Decode one: witnessmark decode {book.id} MARK READING")


def _claimable_items(book: "CodeBook") -> "list[Item]":
    """The items that a claim can name, the number of the car first."""
    from witnessmark.codebook.records import ItemKind

    known = sorted(book.items, key=lambda item: not item.identification)
    return [item for item in known if item.kind is not ItemKind.DATE]


def _claimable(book: "CodeBook", item: "Item", context: "CarContext", most: int | None) -> str:
    """An item in a line: its name, and the first of its values; nothing where a code has none
    on such a car."""
    from witnessmark.codebook.records import ItemKind
    from witnessmark.examination import values_of

    if item.kind is ItemKind.NUMBER:
        return f"{item.name}: {count(item.length, 'place')}" if item.length else item.name
    values = values_of(book, item.id, context)
    if not values:
        return ""
    left = len(values) - len(values[:most])
    more = f" and {left} more (--values)" if left else ""
    return f"{item.name}: {', '.join(values[:most])}{more}"


def _lay_out_pieces(sheet: Sheet, book: "CodeBook", context: "CarContext") -> None:
    """What is made and replaced as one, with its marks; declared pieces with what is known."""
    from witnessmark.codebook.pieces import pieces_of

    found = pieces_of(book, context)
    sheet.heading("Pieces, and the marks that stand on each")
    marks = {piece.id: [m.mark for m in found.marks_on(piece.id)] for piece in found.pieces}
    for piece in found.pieces:
        sheet.say(f"{piece.name} ({piece.kind.value}): {', '.join(marks[piece.id])}", 2, 2)
    for piece in _declared_pieces(book, context):
        sold = {"yes": "sold in service", "no": "not sold in service"}
        said = sold.get(piece.sold_in_service, "not known whether sold in service")
        if piece.service_numbers.value != "never":
            said += f", numbered there {piece.service_numbers.value}"
        told = "" if piece.citation.basis.weighs else "; it explains and never argues"
        sheet.say(f"{piece.name}: {said} [{piece.citation.basis.value}{told}]", 2, 2)


def _declared_pieces(book: "CodeBook", context: "CarContext") -> "list[Piece]":
    return [piece for piece in book.pieces if piece.applies.covers(context)]


def _lay_out_mark(sheet: Sheet, book: "CodeBook", mark: "Mark", context: "CarContext") -> None:
    names = {item.id: item.name for item in book.items}
    limits = f"{mark.applies.first_year} to {mark.applies.last_year}"
    only = sorted(mark.applies.works | mark.applies.models)
    limits += f", only {', '.join(only)}" if only else ""
    sheet.say(f"{mark.id}   {mark.name}; {mark.kind.value}, {mark.how_made.value}; {limits}", 2, 2)
    called = [mark.local_name, *(alias.name for alias in mark.aliases)]
    if any(called):
        sheet.say(f"also called: {', '.join(filter(None, dict.fromkeys(called)))}", 4, 2)
    site = book.site(mark.site, context) or book.site(mark.site)
    if site is not None:
        sheet.say(f"where: {site.where}", 4, 2)
    fields = mark.fields
    sheet.table(((f.name, _places(f), names.get(f.says, f.says)) for f in fields), 4)
    if mark.windows:
        windows = (" ".join(f.name for f in window) for window in mark.windows_in_order())
        sheet.say("typed as: " + " | ".join(windows), 4, 2)


def _lay_out_features(sheet: Sheet, book: "CodeBook", context: "CarContext") -> None:
    """What to look at, place by place: the question, and each answer with what it counts as."""
    found = _features(book, context)
    if found:
        sheet.heading("What to look at (looks of a case: site, feature, outcome)")
    for site in dict.fromkeys(each.site for each in found):
        row = book.site(site, context) or book.site(site)
        sheet.gap()
        sheet.say(f"{site}   {row.name if row else site}", 2, 2)
        for each in found:
            if each.site == site:
                outcomes = "; ".join(
                    o.id if o.id == o.look else f"{o.id} = {o.look}" for o in each.outcomes
                )
                sheet.say(f"{each.id}: {each.prompt} {outcomes}", 4, 2)


def _features(book: "CodeBook", context: "CarContext") -> "list[Feature]":
    """The features of such a car, in the order of the book's sites."""
    order = {site: place for place, site in enumerate(dict.fromkeys(s.id for s in book.sites))}
    found = [each for each in book.features if each.applies.covers(context)]
    return sorted(found, key=lambda each: order.get(each.site, len(order)))


def _places(field: "Field") -> str:
    """How many characters the field has, as a person would say it."""
    widths = " or ".join(str(width) for width in field.widths)
    part = "" if field.part == "all" else f", {field.part}"
    return f"{widths} place{'' if field.widths == (1,) else 's'}{part}"


def _outline(book: "CodeBook", context: "CarContext", sha256: str) -> dict[str, Any]:
    """The same for a machine."""
    return {
        "id": book.id,
        "title": book.title,
        "maker": book.maker,
        "version": book.version,
        "sha256": sha256,
        "first_year": book.first_year,
        "last_year": book.last_year,
        "year": context.model_year,
        "models": [m.id for m in book.models if m.applies.covers(context)],
        "works": [w.id for w in book.works if w.applies.covers(context)],
        "items": [_item_outline(book, item, context) for item in book.items],
        "marks": [_mark_outline(mark) for mark in book.marks_for(context)],
        "pieces": _piece_outlines(book, context),
        "features": [_feature_outline(each) for each in _features(book, context)],
    }


def _piece_outlines(book: "CodeBook", context: "CarContext") -> list[dict[str, Any]]:
    """The pieces as they are weighed, and those that are told alone."""
    from witnessmark.codebook.pieces import pieces_of

    found = pieces_of(book, context)
    weighed = {piece.id: piece for piece in found.pieces}
    told = [piece for piece in _declared_pieces(book, context) if piece.id not in weighed]
    return [
        {
            "id": piece.id,
            "name": piece.name,
            "kind": piece.kind.value,
            "assembly": piece.assembly,
            "marks": [
                {"mark": each.mark, "surface": each.surface} for each in found.marks_on(piece.id)
            ],
            "sold_in_service": piece.sold_in_service,
            "service_numbers": piece.service_numbers.value,
            "stage": piece.stage.value if piece.stage else None,
            "basis": piece.citation.basis.value,
            "source": piece.citation.source,
        }
        for piece in (*weighed.values(), *told)
    ]


def _item_outline(book: "CodeBook", item: "Item", context: "CarContext") -> dict[str, Any]:
    from witnessmark.examination import values_of

    outline: dict[str, Any] = {"id": item.id, "name": item.name, "kind": item.kind.value}
    return outline | {"values": list(values_of(book, item.id, context))}


def _feature_outline(feature: "Feature") -> dict[str, Any]:
    return {
        "id": feature.id,
        "site": feature.site,
        "prompt": feature.prompt,
        "outcomes": [{"outcome": each.id, "look": each.look} for each in feature.outcomes],
        "works": sorted(feature.applies.works),
        "models": sorted(feature.applies.models),
        "basis": feature.citation.basis.value,
        "source": feature.citation.source,
    }


def _mark_outline(mark: "Mark") -> dict[str, Any]:
    return {
        "id": mark.id,
        "name": mark.name,
        "local_name": mark.local_name,
        "aliases": [alias.name for alias in mark.aliases],
        "kind": mark.kind.value,
        "assembly": mark.assembly,
        "site": mark.site,
        "how_made": mark.how_made.value,
        "windows": mark.windows,
        "first_year": mark.applies.first_year,
        "last_year": mark.applies.last_year,
        "works": sorted(mark.applies.works),
        "models": sorted(mark.applies.models),
        "basis": mark.citation.basis.value,
        "source": mark.citation.source,
        "fields": [
            {
                "id": field.id,
                "name": field.name,
                "says": field.says,
                "widths": list(field.widths),
                "alphabet": field.alphabet,
                "part": field.part,
                "optional": field.optional,
            }
            for field in mark.fields
        ],
    }
