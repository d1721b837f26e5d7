"""A reading and a code book give the meanings that fit, in order.

The fields of one mark speak of one car: for each set of cars that they leave
(hypotheses.py) a field's options are those of such cars, and an alternative is one option
of each, its share the product of theirs and of the cars'. Alternatives that mean the same
are one.
"""

from collections.abc import Hashable
from dataclasses import replace
from functools import partial
from heapq import heappop, heappush
from math import prod

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.codebook.records import Applies, CarContext
from witnessmark.decoding.align import Alignment, align
from witnessmark.decoding.date_options import joined_dates
from witnessmark.decoding.fields import SURE, Fields, cars_of
from witnessmark.decoding.hypotheses import (
    hull,
    says_of_car,
)
from witnessmark.decoding.options import (
    Asked,
    FieldOption,
)
from witnessmark.decoding.records import (
    UNTYPED_COLUMN,
    Alternative,
    Beside,
    Decoding,
    FieldMeaning,
    Slip,
)
from witnessmark.decoding.same_codes import kept_decoding, same_codes
from witnessmark.decoding.seen import is_read
from witnessmark.decoding.seventeen import notes_on
from witnessmark.decoding.slips import exchange_in_codes, nothing_listed, slip_in
from witnessmark.decoding.two_marks import beside
from witnessmark.decoding.unexplained import unexplained_in
from witnessmark.reading import CellKind, Reading, ReadingRates, parse_reading, shipped_rates
from witnessmark.reading.layout import STRAINED
from witnessmark.reading.records import Cell

ANY_CAR = CarContext()
"""Nothing is given about the car."""

MOST_ALTERNATIVES = 12
"""Alternatives that are listed; the rest is too unlikely to help anybody."""

LEAST_ALTERNATIVE = 0.0005
"""An alternative with a smaller share is not listed, unless it is the first."""


MOST_EXCHANGED = 20
"""Characters of a text in which an exchange of neighbours is looked for."""

type _Ways = list[tuple[float, list[tuple[FieldOption, ...]]]]


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
    other = beside(reading, book, mark)
    if other is not None:
        reading = other.own
        context = completed(context, decode(other.reading, book, other.mark, rates=rates).of_car)
    asked = Asked(reading, book, mark, context, rates or shipped_rates())
    alignment = align(reading, mark)
    answer = partial(_decode, asked, alignment, other)
    codes = None if other is not None else same_codes(reading, book, mark, alignment)
    if codes is None:
        return answer()
    question = ("decoding", mark.id, context, rates, codes)
    return kept_decoding(book, question, reading, alignment, answer)


def _decode(asked: Asked, alignment: Alignment, other: Beside | None) -> Decoding:
    reading, book, mark = asked.reading, asked.book, asked.mark
    decoded = tuple(aligned for aligned in alignment.fields if is_read(aligned.cells))
    fields = Fields(asked, alignment, decoded)
    cars = cars_of(fields)
    known = hull([each.cars for each in cars])
    ways = [(each.weight, fields.options(each.cars, known)) for each in cars]
    alternatives = _alternatives(ways) if decoded else ()
    return Decoding(
        book=book.id,
        mark=mark.id,
        reading=reading,
        alternatives=alternatives,
        not_listed_share=sum(weight * _not_listed_share(options) for weight, options in ways),
        unread="".join([cell.sign() for cell in alignment.unread]),
        missing=alignment.missing(),
        deciding_column=_deciding_column(alternatives, alignment),
        field_cells=tuple([aligned.cells for aligned in alignment.fields]),
        problems=reading.problems,
        unexplained=tuple(
            unexplained
            for aligned, options in zip(decoded, ways[0][1], strict=True)
            for unexplained in unexplained_in(aligned, options)
        )
        if decoded
        else (),
        notes=notes_on(asked, alignment),
        of_car=_said_of_car(book, ways) if decoded else ANY_CAR,
        cars=cars[0].cars,
        slip=_slip(asked, ways, cars[0].cars),
        beside=other,
    )


def _slip(asked: Asked, ways: _Ways, cars: Applies) -> Slip | None:
    """What does not fit the form of the mark, or the codes that the book lists for it."""
    reading, book, mark = asked.reading, asked.book, asked.mark
    found = slip_in(reading, book, mark, cars)
    if found is not None and found.kind == "unlike":
        return found
    codes = [field[0].meaning for field in ways[0][1] if field]
    coded = {field.id for field in mark.fields if field.table or field.date_form}
    listed = [meaning.listed for meaning in codes if meaning.field in coded]
    if mark.windows and reading.layout.strain >= STRAINED and listed and not any(listed):
        return nothing_listed(mark, book, cars)
    if found is None and listed and not all(listed) and not asked.is_supposed:
        return _exchanged_in_codes(asked, cars)
    return found


def _exchanged_in_codes(asked: Asked, cars: Applies) -> Slip | None:
    """The one exchange of neighbours with which every code of a clear reading is listed."""
    reading, book, mark = asked.reading, asked.book, asked.mark
    text = reading.as_typed
    if mark.windows or not text.isalnum() or len(text) > MOST_EXCHANGED:
        return None
    found = []
    for at in range(len(text) - 1):
        if text[at] == text[at + 1]:
            continue
        swapped = text[:at] + text[at + 1] + text[at] + text[at + 2 :]
        supposed = parse_reading(swapped, mark)
        if supposed.layout.strain:
            continue
        again = replace(asked, reading=supposed, is_supposed=True)
        if _decode(again, align(supposed, mark), None).not_listed_share < 1.0 - SURE:
            found.append(reading.cells[at])
    return exchange_in_codes(found[0], book, mark, cars) if len(found) == 1 else None


def completed(given: CarContext, said: CarContext) -> CarContext:
    """What is given about a car, and where that is open what one of its marks says."""
    return CarContext(
        given.model_year or said.model_year, given.model or said.model, given.works or said.works
    )


def _said_of_car(
    book: CodeBook, ways: list[tuple[float, list[tuple[FieldOption, ...]]]]
) -> CarContext:
    """What the mark itself surely says of its car's year, works and model, and nothing else."""
    shares: dict[tuple[str, str], float] = {}
    for weight, options in ways:
        for field in options:
            for option in field:
                meaning = option.meaning
                if meaning.listed and meaning.basis.weighs and says_of_car(book, meaning.says):
                    key = (meaning.says, meaning.value)
                    shares[key] = shares.get(key, 0.0) + weight * option.share
    said = {item: value for (item, value), share in shares.items() if share >= SURE}
    year = said.get("model_year", "")
    known = {each.id: each.role for each in book.works}
    works = {value for item, value in said.items() if known.get(value) == item}
    return CarContext(
        int(year) if year.isdigit() else None, said.get("model") or None, frozenset(works)
    )


def _not_listed_share(options: list[tuple[FieldOption, ...]]) -> float:
    """The share of all alternatives in which a field has a code that the book has not."""
    unlisted = (
        sum(option.share for option in field if not option.meaning.listed) for field in options
    )
    return 1.0 - prod(1.0 - min(share, 1.0) for share in unlisted)


def _alternatives(ways: _Ways) -> tuple[Alternative, ...]:
    """The likeliest combinations of all cars together; those that mean the same are one."""
    if len(ways) == 1:
        found = _combined(ways[0][1], 1.0)
    else:
        found = [each for weight, options in ways for each in _combined(options, weight)]
    merged: dict[Hashable, Alternative] = {}
    for each in found:
        key = tuple([_says(meaning) for meaning in each.fields])
        known = merged.get(key)
        merged[key] = each if known is None else _both(known, each)
    ranked = sorted(merged.values(), key=lambda each: -each.share)[:MOST_ALTERNATIVES]
    return tuple(a for k, a in enumerate(ranked) if k == 0 or a.share >= LEAST_ALTERNATIVE)


def _says(meaning: FieldMeaning) -> Hashable:
    """What makes two meanings the same, whatever the rows they rest on."""
    value = "" if meaning.spans else meaning.value
    return (meaning.code, value, meaning.listed, bool(meaning.spans), meaning.placeholder)


def _both(one: Alternative, other: Alternative) -> Alternative:
    """Two alternatives that mean the same as one; where they are listed for different cars
    the meaning is told without these."""
    fields = tuple(
        joined_dates(first, second)
        if first.spans
        else first
        if first.meaning == second.meaning
        else replace(first, meaning=first.plain or first.meaning)
        for first, second in zip(one.fields, other.fields, strict=True)
    )
    return Alternative(one.share + other.share, fields)


def _combined(options: list[tuple[FieldOption, ...]], weight: float) -> list[Alternative]:
    """One option of each field, the likeliest combinations first.

    The best is the first option of each field; from each one taken, the next
    are those that go one option further in one field.
    """
    first = (0,) * len(options)
    waiting = [(-weight * _share(options, first), first)]
    known = {first}
    found: list[Alternative] = []
    while waiting and len(found) < MOST_ALTERNATIVES:
        negative_share, chosen = heappop(waiting)
        if found and -negative_share < LEAST_ALTERNATIVE:
            break
        meanings = [field[each].meaning for field, each in zip(options, chosen, strict=True)]
        found.append(Alternative(-negative_share, tuple(meanings)))
        for field, each in enumerate(chosen):
            if each + 1 < len(options[field]):
                further = (*chosen[:field], each + 1, *chosen[field + 1 :])
                if further not in known:
                    known.add(further)
                    heappush(waiting, (-weight * _share(options, further), further))
    return found


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
