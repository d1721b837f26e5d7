"""The alternatives of a reading: one option of each field, for each set of cars.

The share of an alternative is the product of theirs and of the cars'. Those that mean the
same are one.
"""

from collections.abc import Hashable
from dataclasses import replace
from heapq import heappop, heappush
from math import prod

from witnessmark.decoding.align import Alignment
from witnessmark.decoding.date_options import joined_dates
from witnessmark.decoding.for_cars import FieldOptions
from witnessmark.decoding.records import UNTYPED_COLUMN, Alternative, FieldMeaning
from witnessmark.reading import Cell, CellKind

MOST_ALTERNATIVES = 12
"""Alternatives that are listed; the rest is too unlikely to help anybody."""

LEAST_ALTERNATIVE = 0.0005
"""An alternative with a smaller share is not listed, unless it is the first."""

JUST_BELOW = 0.999 * LEAST_ALTERNATIVE
"""What is smaller than this is so in whatever order its factors are multiplied."""

type Ways = list[tuple[float, list[FieldOptions]]]
"""For each set of cars its share, and what each field may say for such cars."""


def alternatives_of(ways: Ways) -> tuple[Alternative, ...]:
    """The likeliest combinations of all cars together; those that mean the same are one."""
    merged: dict[Hashable, Alternative] = {}
    for weight, fields in ways:
        for key, each in _combined(fields, weight):
            known = merged.get(key)
            merged[key] = each if known is None else _both(known, each)
    ranked = sorted(merged.values(), key=lambda each: -each.share)[:MOST_ALTERNATIVES]
    return tuple([a for k, a in enumerate(ranked) if k == 0 or a.share >= LEAST_ALTERNATIVE])


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


def _combined(fields: list[FieldOptions], weight: float) -> list[tuple[Hashable, Alternative]]:
    """One option of each field, the likeliest combinations first, each with what makes its
    meaning the same as another's.

    The best is the first option of each field; from each one taken, the next
    are those that go one option further in one field.
    """
    # A field with one option has it in each of them, and its share is 1.
    open_fields = [at for at, field in enumerate(fields) if len(field.shares) > 1]
    shares = [fields[at].shares for at in open_fields]
    constant = weight * prod([f.options[0].share for f in fields if len(f.shares) == 1])
    first = (0,) * len(open_fields)
    best = constant * prod([each[0] for each in shares])
    # Only where the next option is likely enough is it ever gone further.
    told = [at for at, s in enumerate(shares) if best * s[1] >= JUST_BELOW * s[0]]
    waiting = [(-best, first)]
    known = {first}
    found: list[tuple[Hashable, Alternative]] = []
    taken = [0] * len(fields)
    while waiting and len(found) < MOST_ALTERNATIVES:
        negative_share, chosen = heappop(waiting)
        if found and -negative_share < LEAST_ALTERNATIVE:
            break
        for at, option in zip(open_fields, chosen, strict=True):
            taken[at] = option
        key = tuple([field.says[k] for field, k in zip(fields, taken, strict=True)])
        meanings = tuple([f.options[k].meaning for f, k in zip(fields, taken, strict=True)])
        found.append((key, Alternative(-negative_share, meanings)))
        for at in told:
            option = chosen[at]
            if option + 1 == len(shares[at]):
                continue
            further = (*chosen[:at], option + 1, *chosen[at + 1 :])
            if further not in known:
                known.add(further)
                share = constant * prod([each[k] for each, k in zip(shares, further, strict=True)])
                if share >= LEAST_ALTERNATIVE:
                    heappush(waiting, (-share, further))
    return found


def deciding_column(alternatives: tuple[Alternative, ...], alignment: Alignment) -> int | None:
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
