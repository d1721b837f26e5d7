"""The parts of a number put together: what stands in two fields of a mark is one number.

A number may be parted on the metal because its first figure tells something by itself. It is
read by its parts, and everything that is asked of it (its series, known cars, whose it is) is
asked of the whole.
"""

from dataclasses import replace

from witnessmark.codebook import IN_FULL, CodeBook, Field, Mark
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.kept import kept
from witnessmark.decoding.records import FieldCells
from witnessmark.reading import kept_beside

type _Parts = tuple[Field, Field]
"""The first and the last of the characters of one number, which together are all of it."""


def fields_said(book: CodeBook, mark: Mark) -> tuple[Field, ...]:
    """The fields of a mark in their order, with one for all of a number that is parted.

    It has the id and the place of the last part, and the name of the number.
    """
    if not _is_parted(mark):
        return mark.fields
    return kept(book, "fields said", (mark.id, mark.fields), lambda: _fields_said(book, mark))


@kept_beside
def _is_parted(mark: Mark) -> bool:
    """Does a part of a number stand on it that others may follow?"""
    return any(field.part.startswith("first") for field in mark.fields)


def fields_in_order(book: CodeBook, mark: Mark) -> tuple[Field, ...]:
    """The same in reading order, by the windows in which they stand."""
    return tuple(sorted(fields_said(book, mark), key=lambda field: (field.row, field.column)))


def put_together(book: CodeBook, mark: Mark, standing: Alignment) -> Alignment:
    """The cells of a mark by what its fields say."""
    if not _is_parted(mark):
        return standing
    said = {field.id: field for field in fields_said(book, mark)}
    by_id = {aligned.field.id: aligned for aligned in standing.fields}
    of_parts = {last.id: (by_id[first.id], by_id[last.id]) for first, last in _parted(book, mark)}
    fields = tuple(
        [
            _whole(said[own], of_parts[own]) if own in of_parts else aligned
            for own, aligned in by_id.items()
            if own in said
        ]
    )
    return replace(standing, fields=fields)


def _fields_said(book: CodeBook, mark: Mark) -> tuple[Field, ...]:
    parted = _parted(book, mark)
    wholes = {last.id: _field(book, first, last) for first, last in parted}
    first_parts = {first.id for first, _ in parted}
    return tuple(wholes.get(f.id, f) for f in mark.fields if f.id not in first_parts)


def _parted(book: CodeBook, mark: Mark) -> tuple[_Parts, ...]:
    """Every two fields that together are all of one number: "first 1" and "last 6" of seven."""
    found = []
    for first in mark.fields:
        item = book.item(first.says)
        if item is None or first.optional or not first.part.startswith("first"):
            continue
        rest = item.length - first.widths[-1]
        lasts = [f for f in mark.fields if f.says == item.id and f.part == f"last {rest}"]
        if len(lasts) == 1 and not lasts[0].optional:
            found.append((first, lasts[0]))
    return tuple(found)


def _field(book: CodeBook, first: Field, last: Field) -> Field:
    item = book.item(last.says)
    assert item is not None
    alphabet = "".join(dict.fromkeys(first.alphabet + last.alphabet))
    return replace(last, name=item.name, widths=(item.length,), alphabet=alphabet, part=IN_FULL)


def _whole(field: Field, parts: tuple[AlignedField, AlignedField]) -> AlignedField:
    """All of a number. Where a window for one part was left out it is known which places those
    are, so that they are merely worn; where places of one line lack nobody knows which."""
    first, last = (part.cells for part in parts)
    is_unsure = first.is_unsure or last.is_unsure
    typed = [cells for cells in (first, last) if cells.missing < len(cells.cells)]
    lacking = (first, last) if is_unsure or not typed else typed
    own = FieldCells(
        field=field.id,
        says=field.says,
        part=field.part,
        cells=first.cells + last.cells,
        missing=sum(cells.missing for cells in lacking),
        is_empty=first.is_empty and last.is_empty,
        is_unsure=is_unsure,
        lost=first.lost + last.lost,
        lost_at=first.lost_at if first.lost else len(first.cells) + last.lost_at,
        name=field.name,
    )
    keys = [part.key for part in parts]
    is_text = all(isinstance(key, str) and key for key in keys)
    return AlignedField(field, own, "".join(map(str, keys)) if is_text else own.key)
