"""What books know and what they do not: the outline of one book or of all, and the same for a
machine."""

from typing import Any

from witnessmark.answers.picked import picked
from witnessmark.bookmaking.listing import BASES, BookListed, FieldListed, Listed, MarkListed
from witnessmark.catalogue import counted
from witnessmark.outline.records import (
    Block,
    Heading,
    Outline,
    Paragraph,
    Section,
    table_of,
)


def listed_books(listed: "list[BookListed]") -> Outline:
    """A few lines for each book."""
    blocks: list[Block] = []
    for book in listed:
        marks = counted("{number} mark", "{number} marks", len(book.marks))
        gaps = counted("{number} gap", "{number} gaps", len(book.missing))
        blocks += [
            Heading(f"{book.book.id}   {book.book.title}, version {book.book.version}"),
            Paragraph(f"{marks}; rows: {book.listed.words()}"),
            Paragraph(f"{gaps} of those that are looked for"),
        ]
    more = (Heading("One book in full"), Paragraph("witnessmark book coverage BOOK"))
    return Outline("What the code books know", (*blocks, *more))


def listed_book(book: "BookListed") -> Outline:
    """The page of one book."""
    rows = counted("{number} row", "{number} rows", book.listed.total())
    marks: list[Block] = []
    for mark in book.marks:
        fields = ((field.name, field.reads, field.words()) for field in mark.fields)
        marks += [Heading(f"{mark.mark.id}   {mark.mark.name}"), table_of(*fields)]
    missing = [Paragraph(f"{each.about}: {each.sentence}") for each in book.missing]
    tables = ((each.name.replace("_", " "), each.listed.words()) for each in book.tables)
    return Outline(
        f"{book.book.title} ({book.book.id}), version {book.book.version}",
        (Paragraph(f"SHA-256 {book.sha256}"), Paragraph(f"{rows}: {book.listed.words()}")),
        (
            Section("Rows by table", (table_of(*tables),)),
            Section("Rows by mark, field and year", tuple(marks)),
            Section(
                "What is missing", tuple(missing) or (Paragraph("Nothing that is looked for."),)
            ),
        ),
        is_numbered=False,
    )


def render_listed(listed: "BookListed") -> dict[str, Any]:
    """The same for a machine, each year on its own."""
    book = listed.book
    return {
        **picked(book, "id", "title", "maker", "version"),
        "sha256": listed.sha256,
        **picked(book, "first_year", "last_year"),
        "rows": _counts(listed.listed),
        "tables": {each.name: _counts(each.listed) for each in listed.tables},
        "marks": [_mark_outline(mark) for mark in listed.marks],
        "missing": [picked(each, "about", "sentence") for each in listed.missing],
    }


def _counts(listed: "Listed") -> dict[str, int]:
    return {basis.value: n for basis, n in zip(BASES, listed.numbers(), strict=True)}


def _mark_outline(listed: "MarkListed") -> dict[str, Any]:
    mark = listed.mark
    return {
        **picked(mark, "id", "name", "kind"),
        **picked(mark.applies, "first_year", "last_year", "works", "models"),
        **picked(mark.citation, "basis"),
        "fields": [_field_outline(field) for field in listed.fields],
    }


def _field_outline(field: "FieldListed") -> dict[str, Any]:
    years = {
        str(year): _counts(span.listed)
        for span in field.years
        for year in range(span.first_year, span.last_year + 1)
    }
    return picked(field, "id", "name", "says", "reads") | {"years": years}
