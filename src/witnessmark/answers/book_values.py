"""What can be claimed of one item: each value in words, with its years and what it rests on."""

from dataclasses import asdict, dataclass
from typing import Any

from witnessmark.answers.book_page import places, title_of
from witnessmark.answers.picked import picked
from witnessmark.catalogue import as_said, either, from_to, in_a_row, said
from witnessmark.codebook import CarContext, CodeBook, Item, ItemKind
from witnessmark.codebook.records import MODEL_YEAR
from witnessmark.decoding.number_meant import forms_of
from witnessmark.examination import value_rows
from witnessmark.outline.records import Outline, Paragraph, Table, TableCell

WORDS = 25
"""Characters of the column of words, at least."""


@dataclass(frozen=True, slots=True)
class ItemValue:
    """One value that can be claimed, from all the rows that have it."""

    value: str
    words: tuple[str, ...]
    first_year: int
    last_year: int
    bases: tuple[str, ...]


def item_values(book: CodeBook, item: Item, context: CarContext) -> tuple[ItemValue, ...]:
    """The values of an item on such a car, in the book's order."""
    if item.kind is not ItemKind.CODE or item.id == MODEL_YEAR:
        return ()
    rows = list(value_rows(book, item.id, context))
    found = []
    for value in dict.fromkeys(row.value for row in rows):
        same = [row for row in rows if row.value == value]
        found.append(
            ItemValue(
                value,
                tuple(dict.fromkeys(row.words for row in same)),
                min(row.applies.first_year for row in same),
                max(row.applies.last_year for row in same),
                tuple(dict.fromkeys(row.citation.basis.value for row in same)),
            )
        )
    return tuple(found)


def _form(book: CodeBook, item: Item, context: CarContext) -> str:
    """How a value is written where the book does not list all of them."""
    if item.id == MODEL_YEAR:
        years = from_to(book.first_year, book.last_year)
        return said("A year of the book: {years}.", years=years)
    if item.kind is ItemKind.NUMBER:
        alone = said(
            "{places} of {alphabet}", places=places((item.length,)), alphabet=item.alphabet
        )
        forms = [*([alone] if item.length else []), *forms_of(book, item, context)]
        if not forms:
            return said("A number as it stands on the car.")
        return said("A number as it stands on the car: {forms}.", forms=either(forms))
    if item.kind is ItemKind.DATE:
        return said("A day, a month or a year: 1955-06-06, 1955-06 or 1955.")
    return said("The book lists no values for such a car.")


def values_page(book: CodeBook, item: Item, context: CarContext) -> Outline:
    """A row for each value; of a number or a date, its form."""
    found = item_values(book, item, context)
    title = f"{item.name} ({item.id}): {title_of(book)}"
    if not found:
        return Outline(title, (Paragraph(_form(book, item, context)),))
    head = (said("Value"), said("What it is"), said("Years"), said("Basis"))
    rows = tuple(
        (
            TableCell(each.value),
            TableCell("; ".join(each.words)),
            TableCell(from_to(each.first_year, each.last_year)),
            TableCell(in_a_row(map(as_said, each.bases), ", ")),
        )
        for each in found
    )
    longest = max(len(each.value) for each in found)  # it is typed, so it is not parted
    shares = (longest + 2, max(WORDS, 2 * WORDS - longest), 12, 12)
    return Outline(title, (Table(head, rows, shares, is_dense=True),))


def render_values(book: CodeBook, item: Item, context: CarContext) -> dict[str, Any]:
    """The same for a machine."""
    return {
        "book": book.id,
        "version": book.version,
        "item": item.id,
        **picked(item, "name", "kind"),
        "values": [asdict(each) for each in item_values(book, item, context)],
    }
