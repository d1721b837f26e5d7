"""`witnessmark book coverage`: what the books know, and what they do not."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.catalogue import counted
from witnessmark.cli.arguments import AsJson
from witnessmark.cli.opening import opened_book
from witnessmark.cli.problems import NotOverwritten
from witnessmark.cli.terminal import print_line, print_outline, print_record, refuse
from witnessmark.cli.writing import write_whole
from witnessmark.outline.records import (
    Block,
    Heading,
    Outline,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.source import Source

if TYPE_CHECKING:
    from witnessmark.bookmaking.listing import BookListed, FieldListed, Listed, MarkListed
    from witnessmark.codebook import BookOpened

SHORT = "What the code books know, and what they do not."

HELP = """Show what a code book knows: how many rows, on what basis, for which years.

For each mark, field and year the rows that hold are counted by their basis; then
comes what is missing. Without BOOK, all books that come with Witnessmark, in short.

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
        typer.Option("--write", metavar="FILE", help="Write it all as a page of Markdown."),
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
        print_record(outlines[0] if book else outlines)
        return
    if write is not None:
        print_line(f"{counted('{number} book', '{number} books', len(listed))} written to {write}")
    else:
        print_outline(_one_book(listed[0]) if book else _all_books(listed))


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


def _all_books(listed: "list[BookListed]") -> Outline:
    """A few lines for each book."""
    blocks: list[Block] = []
    for book in listed:
        marks = counted("{number} mark", "{number} marks", len(book.marks))
        gaps = counted("{number} gap", "{number} gaps", len(book.missing))
        blocks += [
            Heading(f"{book.id}   {book.title}, version {book.version}"),
            Paragraph(f"{marks}; rows: {book.listed.words()}"),
            Paragraph(f"{gaps} of those that are looked for"),
        ]
    more = (Heading("One book in full"), Paragraph("witnessmark book coverage BOOK"))
    return Outline("What the code books know", (*blocks, *more))


def _one_book(book: "BookListed") -> Outline:
    """The page of one book."""
    rows = counted("{number} row", "{number} rows", book.listed.total())
    marks: list[Block] = []
    for mark in book.marks:
        fields = ((field.name, field.reads, field.words()) for field in mark.fields)
        marks += [Heading(f"{mark.id}   {mark.name}"), _table(*fields)]
    missing = [Paragraph(f"{each.about}: {each.sentence}") for each in book.missing]
    tables = ((each.name.replace("_", " "), each.listed.words()) for each in book.tables)
    return Outline(
        f"{book.title} ({book.id}), version {book.version}",
        (Paragraph(f"SHA-256 {book.sha256}"), Paragraph(f"{rows}: {book.listed.words()}")),
        (
            Section("Rows by table", (_table(*tables),)),
            Section("Rows by mark, field and year", tuple(marks)),
            Section(
                "What is missing", tuple(missing) or (Paragraph("Nothing that is looked for."),)
            ),
        ),
        is_numbered=False,
    )


def _table(*rows: tuple[str, ...]) -> Table:
    return Table((), tuple(tuple(map(TableCell, row)) for row in rows))


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
