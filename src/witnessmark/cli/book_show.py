"""`witnessmark book show`: what one code book knows, mark by mark."""

from typing import TYPE_CHECKING, Any

from witnessmark.cli.arguments import AsJson, BookName, ModelYear
from witnessmark.cli.opening import context_of_year, opened_book
from witnessmark.cli.terminal import Sheet, print_outline

if TYPE_CHECKING:
    from witnessmark.codebook.book import CodeBook
    from witnessmark.codebook.marks import Field, Mark
    from witnessmark.codebook.records import CarContext

SHORT = "What one code book knows."

HELP = """Show what a code book knows: its marks and their fields, works, models, sites.

\b
Example:
  witnessmark book show tarvane-1952-1961 --year 1955
"""


def book_show(book: BookName, year: ModelYear = None, json: AsJson = False) -> None:
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
    lay_out(sheet, code_book, context)
    sheet.show()


def lay_out(sheet: Sheet, book: "CodeBook", context: "CarContext") -> None:
    """The page of one book."""
    from witnessmark.codebook.records import ItemKind

    years = f"{book.first_year} to {book.last_year}"
    sheet.title(f"{book.title} ({book.id}), version {book.version}")
    sheet.say(" ".join(book.summary.split()), 2)
    if context.model_year is not None:
        sheet.say(f"Only what holds for {context.model_year} is shown; the book covers {years}.", 2)
    sheet.heading("Models and works")
    models = [(m.name, m.id) for m in book.models if m.applies.covers(context)]
    works = [(w.name, w.id) for w in book.works if w.applies.covers(context)]
    sheet.table([*models, *works], 2)
    sheet.heading("What can be claimed of a car (--claim ITEM=VALUE)")
    known = sorted(book.items, key=lambda item: not item.identification)
    sheet.table([(item.name, item.id) for item in known if item.kind is not ItemKind.DATE], 2)
    sheet.heading("Marks")
    for mark in book.marks_for(context):
        sheet.gap()
        _lay_out_mark(sheet, book, mark)
    sheet.gap()
    sheet.say(f"Decode one: witnessmark decode {book.id} MARK READING")


def _lay_out_mark(sheet: Sheet, book: "CodeBook", mark: "Mark") -> None:
    names = {item.id: item.name for item in book.items}
    limits = f"{mark.applies.first_year} to {mark.applies.last_year}"
    only = sorted(mark.applies.works | mark.applies.models)
    limits += f", only {', '.join(only)}" if only else ""
    sheet.say(f"{mark.id}   {mark.name}; {mark.kind.value}, {mark.how_made.value}; {limits}", 2, 2)
    site = book.site(mark.site)
    if site is not None:
        sheet.say(f"where: {site.where}", 4, 2)
    fields = mark.fields
    sheet.table(((f.name, _places(f), names.get(f.says, f.says)) for f in fields), 4)
    if mark.windows:
        windows = (" ".join(f.name for f in window) for window in mark.windows_in_order())
        sheet.say("typed as: " + " | ".join(windows), 4, 2)


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
        "marks": [_mark_outline(mark) for mark in book.marks_for(context)],
    }


def _mark_outline(mark: "Mark") -> dict[str, Any]:
    return {
        "id": mark.id,
        "name": mark.name,
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
