"""`witnessmark book coverage`: what the books know, and what they do not."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson
from witnessmark.cli.opening import opened_book
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import Sheet, count, print_outline, refuse
from witnessmark.cli.writing import write_whole
from witnessmark.source import Source

if TYPE_CHECKING:
    from witnessmark.bookmaking.listing import BookListed, FieldListed, Listed, MarkListed
    from witnessmark.codebook import BookOpened

SHORT = "What the code books cover, and what is missing."

HELP = """Show what a code book covers: how many rows, on what basis and for which years.

For each mark, field and year, the applicable rows are counted by basis; then comes
what is missing. Without BOOK, a summary of all books that come with Witnessmark.

\b
Example:
  witnessmark book coverage tarvane-1952-1961
"""


def book_coverage(
    book: Annotated[
        str, typer.Argument(metavar="[BOOK]", help="A code book: its name, or its folder.")
    ] = "",
    json: AsJson = False,
    write: Annotated[
        Path | None,
        typer.Option("--write", metavar="FILE", help="Write the full page as Markdown."),
    ] = None,
) -> None:
    """Count the rows of one book, or of all shipped ones."""
    from witnessmark.bookmaking.listing import list_book

    opened = (opened_book(book),) if book else _shipped()
    listed = [list_book(each.book, each.sha256) for each in opened if each.book is not None]
    if write is not None:
        _write(write, listed)
    if json:
        outlines = [_outline(each) for each in listed]
        print_outline(outlines[0] if book else outlines)
        return
    sheet = Sheet()
    if write is not None:
        sheet.say(f"{count(len(listed), 'book')} written to {write}")
    elif book:
        _lay_out(sheet, listed[0])
    else:
        _lay_out_all(sheet, listed)
    sheet.show()


def _shipped() -> "tuple[BookOpened, ...]":
    """All books that come with Witnessmark; a fault in one of them ends the command."""
    from witnessmark.codebook import open_book, shipped_books

    opened = tuple(open_book(folder) for folder in shipped_books())
    problems = [problem for each in opened for problem in each.problems]
    if problems:
        refuse(problems)
    return opened


def _write(path: Path, listed: "list[BookListed]") -> None:
    from witnessmark.bookmaking.listing_page import render_listing_page

    page = render_listing_page(listed)
    if not _may_replace(path, page.partition("\n")[0]):
        reason, wanted = "is there and is no such page", "a new file name"
        refuse((NotOverwritten(Source("--write"), str(path), reason, wanted),))
    fault = write_whole(path, page.encode("utf-8"))
    if fault is not None:
        refuse((fault,))


def _may_replace(path: Path, heading: str) -> bool:
    """Is nothing there, or a page that begins as ours do?"""
    try:
        if not path.exists():
            return True
        with path.open("rb") as file:
            return file.read(len(heading.encode())) == heading.encode()
    except (OSError, ValueError):
        return False


def _lay_out_all(sheet: Sheet, listed: "list[BookListed]") -> None:
    """A few lines for each book."""
    sheet.title("What the code books know")
    for book in listed:
        sheet.gap()
        sheet.say(f"{book.id}   {book.title}, version {book.version}", 2, hanging=2)
        sheet.say(f"{count(len(book.marks), 'mark')}; rows: {book.listed.words()}", 4)
        sheet.say(f"{count(len(book.missing), 'gap')} of those that are looked for", 4)
    sheet.gap()
    sheet.say("One book in full: witnessmark book coverage BOOK")


def _lay_out(sheet: Sheet, book: "BookListed") -> None:
    """The page of one book."""
    sheet.title(f"{book.title} ({book.id}), version {book.version}")
    sheet.say(f"SHA-256 {book.sha256}", 2)
    sheet.say(f"{count(book.listed.total(), 'row')}: {book.listed.words()}", 2)
    sheet.heading("Rows by table")
    sheet.table(((each.name.replace("_", " "), each.listed.words()) for each in book.tables), 2)
    sheet.heading("Rows by mark, field and year")
    for mark in book.marks:
        sheet.gap()
        sheet.say(f"{mark.id}   {mark.name}", 2, 2)
        sheet.table(((field.name, field.reads, field.words()) for field in mark.fields), 4)
    sheet.heading("What is missing")
    for missing in book.missing:
        sheet.say(f"{missing.about}: {missing.sentence}", 2, 2)
    if not book.missing:
        sheet.say("Nothing that is looked for.", 2)


def _outline(book: "BookListed") -> dict[str, Any]:
    """The same for a machine, each year on its own."""
    return {
        "id": book.id,
        "title": book.title,
        "maker": book.maker,
        "version": book.version,
        "sha256": book.sha256,
        "first_year": book.first_year,
        "last_year": book.last_year,
        "rows": _counts(book.listed),
        "tables": {each.name: _counts(each.listed) for each in book.tables},
        "marks": [_mark_outline(mark) for mark in book.marks],
        "missing": [
            {"about": missing.about, "sentence": missing.sentence} for missing in book.missing
        ],
    }


def _counts(listed: "Listed") -> dict[str, int]:
    from witnessmark.bookmaking.listing import BASES

    return {basis.value: n for basis, n in zip(BASES, listed.numbers(), strict=True)}


def _mark_outline(mark: "MarkListed") -> dict[str, Any]:
    return {
        "id": mark.id,
        "name": mark.name,
        "kind": mark.kind,
        "first_year": mark.applies.first_year,
        "last_year": mark.applies.last_year,
        "works": sorted(mark.applies.works),
        "models": sorted(mark.applies.models),
        "basis": mark.basis,
        "fields": [_field_outline(field) for field in mark.fields],
    }


def _field_outline(field: "FieldListed") -> dict[str, Any]:
    return {
        "id": field.id,
        "name": field.name,
        "says": field.says,
        "reads": field.reads,
        "years": {
            str(year): _counts(span.listed)
            for span in field.years
            for year in range(span.first_year, span.last_year + 1)
        },
    }
