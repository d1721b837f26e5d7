"""Series and known numbers that hold only for certain codes beside the number.

A count that began anew with each letter is told apart by the letter. Only what the same mark
bears can say it: a number on another piece is another number. Where it was not read, the row
is told with its condition, as a possibility.
"""

from collections.abc import Iterable, Mapping

from witnessmark.catalogue import all_of, either, said
from witnessmark.codebook import CodeBook, Point, Series, held
from witnessmark.decoding.kept import kept, table_rows
from witnessmark.decoding.records import Decoding, FieldMeaning

LEAST_SAID = 0.05
"""A value with a smaller share than this is not one that an item can have."""

NOT_LISTED = frozenset(("",))
"""What an item has, of which something was read that is none of its listed values."""

NEVER_STRUCK = "_"

type Said = Mapping[str, frozenset[str]]
"""The values that items can have, by what was read of them."""


def condition_items(book: CodeBook, item: str) -> frozenset[str]:
    """The items on which series and known numbers of this item depend."""
    return kept(book, "items of conditions", item, lambda: _condition_items(book, item))


def _condition_items(book: CodeBook, item: str) -> frozenset[str]:
    series = [row.also for row in book.series if row.item == item]
    points = [row.also for row in book.points if row.item == item]
    return frozenset(each.item for also in (*series, *points) for each in also)


def values_said(meanings: Iterable[tuple[FieldMeaning, float]]) -> Said:
    """The values of items by their meanings, each with its share; none of a code that was not
    read, whatever the rest of its mark leaves it."""
    found: dict[str, frozenset[str]] = {}
    for meaning, share in meanings:
        is_read = any(sign.isalnum() or sign == NEVER_STRUCK for sign in meaning.code)
        if share >= LEAST_SAID and is_read:
            value = frozenset((meaning.value,)) if meaning.listed else NOT_LISTED
            found[meaning.says] = found.get(meaning.says, frozenset()) | value
    return found


def values_read(decoding: Decoding) -> Said:
    """What a whole mark says of items."""
    return values_said(
        (meaning, each.share) for each in decoding.alternatives for meaning in each.fields
    )


def holding[R: Series | Point](rows: Iterable[R], said_of: Said) -> tuple[R, ...]:
    """The rows of which every condition is known to hold."""
    return tuple(row for row in rows if not row.also or held(row.also, said_of))


def possible[R: Series | Point](rows: Iterable[R], said_of: Said) -> tuple[R, ...]:
    """The rows of which no condition is known not to hold."""
    return tuple(row for row in rows if not row.also or held(row.also, said_of) is not False)


def conditions_told(book: CodeBook, row: Series | Point) -> str:
    """What must hold for the row, in words that follow a "with": engine letters AE."""
    return all_of([_told(book, each.item, each.values) for each in row.also])


def _told(book: CodeBook, item_id: str, values: frozenset[str]) -> str:
    """The values by the codes that stand for them."""
    item = book.item(item_id)
    tables = dict.fromkeys(
        field.table for mark in book.marks for field in mark.fields if field.says == item_id
    )
    rows = [row for table in tables for row in table_rows(book, table) if row.value in values]
    codes = dict.fromkeys(row.code for row in rows if row.code)
    return said(
        "{item} {codes}",
        item=item.name if item is not None else item_id,
        codes=either(codes or sorted(values)),
    )
