"""How far the lists of a book go: complete, partial, or unknown."""

from dataclasses import dataclass

from witnessmark.codebook import CodeBook
from witnessmark.codebook.listed import ListIs

WORST_FIRST = (ListIs.PARTIAL, ListIs.UNKNOWN, ListIs.COMPLETE)
"""A table that several fields read goes only as far as the least that one says of it."""


@dataclass(frozen=True, slots=True)
class ListEnd:
    """A table of codes, or the series of an item, and what the book says of its end."""

    name: str
    listed: ListIs


def list_ends(book: CodeBook) -> tuple[ListEnd, ...]:
    """Every list of the book, in the order in which its marks read them."""
    said: dict[str, list[ListIs]] = {}
    for mark in book.marks:
        for field in mark.fields:
            if field.table:
                said.setdefault(field.table, []).append(field.listed)
    tables = tuple(
        ListEnd(name, min(listed, key=WORST_FIRST.index)) for name, listed in said.items()
    )
    items = {item.id: item.listed for item in book.items}
    numbered = dict.fromkeys(row.item for row in book.series)
    return tables + tuple(ListEnd(item, items.get(item, ListIs.UNKNOWN)) for item in numbered)
