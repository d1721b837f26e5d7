"""A reading and a code book give the meanings that fit, in order.

The fields are taken as independent given the reading, so an alternative is one
option of each field and its share the product of theirs.
"""

from dataclasses import replace
from heapq import heappop, heappush
from math import prod

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.records import CarContext
from witnessmark.decoding.align import UNTYPED_COLUMN, AlignedField, Alignment, align
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.date_options import date_options
from witnessmark.decoding.kept import kept
from witnessmark.decoding.options import (
    Asked,
    FieldOption,
    empty_option,
    number_option,
    unreadable_option,
)
from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning
from witnessmark.decoding.seventeen import notes_on, year_options
from witnessmark.decoding.unexplained import unexplained_in
from witnessmark.reading import SILENT, CellKind, Reading, ReadingRates, shipped_rates
from witnessmark.reading.records import Cell

OF_THE_CAR = ("model_year", "works", "model")
"""The items by which a mark says for which cars its other codes are to be read."""

SURE = 0.9
"""Share from which a mark's own year, works or model is taken as said."""

ANY_CAR = CarContext()
"""Nothing is given about the car."""

MOST_ALTERNATIVES = 12
"""Alternatives that are listed; the rest is too unlikely to help anybody."""

LEAST_ALTERNATIVE = 0.0005
"""An alternative with a smaller share is not listed, unless it is the first."""


def decode(
    reading: Reading,
    book: CodeBook,
    mark: Mark,
    context: CarContext = ANY_CAR,
    rates: ReadingRates | None = None,
) -> Decoding:
    """All meanings of the reading that fit the book, the likeliest first.

    Shares are of everything that the reading allows, codes that the book does
    not list among it: an alternative with such a code has `listed` False in that
    field, and `not_listed_share` is the share of all alternatives that have one.
    A field of which nothing was read has no meaning; it stands in `missing`.
    """
    asked = Asked(reading, book, mark, context, rates or shipped_rates())
    alignment = align(reading, mark)
    decoded = [aligned for aligned in alignment.fields if _is_read(aligned)]
    asked, found = _narrowed(asked, alignment, decoded)
    options = [
        year_options(asked, alignment, aligned, field)
        for aligned, field in zip(decoded, found, strict=True)
    ]
    alternatives = _alternatives(options) if options else ()
    return Decoding(
        book=mark.book or book.id,
        mark=mark.id,
        reading=reading,
        alternatives=alternatives,
        not_listed_share=_not_listed_share(options),
        unread="".join(cell.sign() for cell in alignment.unread),
        missing=alignment.missing(),
        deciding_column=_deciding_column(alternatives, alignment),
        field_cells=tuple(aligned.cells for aligned in alignment.fields),
        problems=reading.problems,
        unexplained=tuple(
            unexplained
            for aligned, field in zip(decoded, options, strict=True)
            for unexplained in unexplained_in(aligned, field)
        ),
        notes=notes_on(asked, alignment),
    )


def said_of_the_car(reading: Reading, book: CodeBook, mark: Mark) -> CarContext:
    """What the mark itself surely says of its car's year, works and model, and nothing else:
    its other codes and its dates are those of such a car, whatever is claimed."""
    seen = (reading.legibility, reading.orientation, reading.seen)

    def answer() -> CarContext:
        asked = Asked(reading, book, mark, ANY_CAR, shipped_rates())
        alignment = align(reading, mark)
        decoded = [aligned for aligned in alignment.fields if _is_read(aligned)]
        return _narrowed(asked, alignment, decoded)[0].context

    return kept(book, ("said of the car", mark.id, reading.as_typed, *seen), answer)


def _narrowed(
    asked: Asked, alignment: Alignment, decoded: list[AlignedField]
) -> tuple[Asked, list[tuple[FieldOption, ...]]]:
    """The same, asked of such a car as the mark itself names, and what each field may say then.

    Once the year is known it may tell which works a letter means. Where characters are left
    over the fields may be cut otherwise, and nothing is taken from them.
    """
    found = [_options(asked, aligned) for aligned in decoded]
    for _ in () if alignment.unread else OF_THE_CAR:
        of_this_car = _of_this_car(asked, found)
        if of_this_car == asked.context:
            break
        asked = replace(asked, context=of_this_car)
        found = [_options(asked, aligned) for aligned in decoded]
    return asked, found


def _of_this_car(asked: Asked, found: list[tuple[FieldOption, ...]]) -> CarContext:
    """What is given about the car, and what the mark itself says of its year, works and model
    where that is open: another field's code is then read among those of such cars."""
    said = {asked.mark.own(field[0].meaning.says): _surely(field) for field in found}
    year, works, model = (said.get(asked.mark.own(item), "") for item in OF_THE_CAR)
    given, known = asked.context, {each.id for each in asked.book.works}
    return CarContext(
        model_year=given.model_year or (int(year) if year.isdigit() else None),
        model=given.model or model or None,
        works=given.works or frozenset({works} & known),
    )


def _surely(options: tuple[FieldOption, ...]) -> str:
    """The value that has nearly all of what a field may say; empty where none has."""
    shares: dict[str, float] = {}
    for option in options:
        if option.meaning.listed and option.meaning.basis.weighs:
            shares[option.meaning.value] = shares.get(option.meaning.value, 0.0) + option.share
    return next((value for value, share in shares.items() if share >= SURE), "")


def _is_read(aligned: AlignedField) -> bool:
    """Is there anything to decode? Not where no cell of the field was typed."""
    cells = aligned.cells
    return cells.is_empty or len(cells.cells) > cells.missing


def _options(asked: Asked, aligned: AlignedField) -> tuple[FieldOption, ...]:
    """What one field may say, the likeliest first."""
    if aligned.cells.is_empty:
        return (empty_option(aligned.field, aligned.cells.cells, asked.mark),)
    is_free = not (aligned.field.table or aligned.field.date_form)
    if not is_free and all(cell.kind in SILENT for cell in aligned.cells.cells):
        return (unreadable_option(aligned.field, aligned.cells.cells, asked.mark),)
    if aligned.field.table:
        return code_options(asked, aligned)
    if aligned.field.date_form:
        return date_options(asked, aligned)
    return (number_option(asked, aligned),)


def _not_listed_share(options: list[tuple[FieldOption, ...]]) -> float:
    """The share of all alternatives in which a field has a code that the book has not."""
    unlisted = (
        sum(option.share for option in field if not option.meaning.listed) for field in options
    )
    return 1.0 - prod(1.0 - min(share, 1.0) for share in unlisted)


def _alternatives(options: list[tuple[FieldOption, ...]]) -> tuple[Alternative, ...]:
    """One option of each field, the likeliest combinations first.

    The best is the first option of each field; from each one taken, the next
    are those that go one option further in one field.
    """
    first = (0,) * len(options)
    waiting = [(-_share(options, first), first)]
    known = {first}
    found: list[Alternative] = []
    while waiting and len(found) < MOST_ALTERNATIVES:
        negative_share, chosen = heappop(waiting)
        if found and -negative_share < LEAST_ALTERNATIVE:
            break
        meanings = (field[each].meaning for field, each in zip(options, chosen, strict=True))
        found.append(Alternative(-negative_share, tuple(meanings)))
        for field, each in enumerate(chosen):
            if each + 1 < len(options[field]):
                further = (*chosen[:field], each + 1, *chosen[field + 1 :])
                if further not in known:
                    known.add(further)
                    heappush(waiting, (-_share(options, further), further))
    return tuple(found)


def _share(options: list[tuple[FieldOption, ...]], chosen: tuple[int, ...]) -> float:
    return prod(field[each].share for field, each in zip(options, chosen, strict=True))


def _deciding_column(alternatives: tuple[Alternative, ...], alignment: Alignment) -> int | None:
    """The typed place that tells the first two alternatives apart; None if no place does."""
    if len(alternatives) < 2:
        return None
    cells_of = {aligned.field.id: aligned.cells.cells for aligned in alignment.fields}
    for first, second in zip(alternatives[0].fields, alternatives[1].fields, strict=True):
        if first != second:
            place = _telling_cell(first, second, cells_of[first.field])
            return place.column if place else None
    return None


def _telling_cell(
    first: FieldMeaning, second: FieldMeaning, cells: tuple[Cell, ...]
) -> Cell | None:
    """The first unsure cell in which two codes differ; a sure one if there is no unsure one."""
    listed = [meaning.code for meaning in (first, second) if meaning.listed]
    typed = [cell for cell in cells if cell.column != UNTYPED_COLUMN]
    if len(listed) == 2 and len(listed[0]) == len(listed[1]) == len(cells):
        differing = [
            cell
            for cell, one, other in zip(cells, *listed, strict=True)
            if one != other and cell.column != UNTYPED_COLUMN
        ]
    elif len(listed) == 1 and len(listed[0]) == len(cells):
        differing = [c for c, one in zip(cells, listed[0], strict=True) if c.characters != one]
        differing = [cell for cell in differing if cell.column != UNTYPED_COLUMN]
    else:
        differing = typed if first.code != second.code else []
    unsure = [cell for cell in differing if cell.kind is not CellKind.CLEAR]
    return next(iter(unsure or differing), None)
