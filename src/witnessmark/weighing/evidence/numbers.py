"""The numbers that several marks bear: how probable what was read is, by whose number it is.

Marks that show one car's number are weighed together: for every place the product of their
likelihoods under each character, summed under the book's series. All is relative to each mark
standing alone, so that a mark that says nothing gives exactly 1.
"""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from functools import partial

import numpy as np

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext, Item, Series
from witnessmark.weighing.arrays import Array, Places
from witnessmark.weighing.evidence import spread
from witnessmark.weighing.evidence.noted import READ, NumberSeen, PieceSeen
from witnessmark.weighing.evidence.spread import Spread
from witnessmark.weighing.kept_alike import alike

SERIES_SHARE = 0.9
"""Share of all numbers that follow the book's series; the rest is even, so that a number
outside every known series stays possible."""
SERVED_SHARE = 0.15
"""Of all numbers, those of series that were supplied later: about one core in three is no first
one, and half of these are exchange pieces."""
MOST_WRONG, CLEAR = 2, 0.02
"""Figures of a number that are misread or struck wrongly at once: where more of them differ, and
clearly, another number stands there, or the wrong thing was noted, which is weighed apart."""
PAPER_SLIP = 0.005
"""Numbers of which one figure was copied wrongly onto a paper: one in 200."""
MOST_MARKS = 14
"""Most marks bearing one number that are weighed together."""


class TooManyMarksError(ValueError):
    """More marks bear one number than can be summed exactly."""


@dataclass(frozen=True, slots=True)
class Record:
    """What a mark shows of the claimed car's number, relative to it standing alone:
    exactly; with one figure struck wrongly; with two neighbours exchanged."""

    hit: float
    slip: float
    swap: float


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class NumberItem:
    """One number and the marks that show it, `slots`, each with its place among them. `home`: the
    core whose own number it is, if it is one. `records` are those of the claimed car where its
    number is known, else None; `served` what each mark shows of a number of the series that
    were supplied later, over alone. `own` and `any_car` have the relative likelihood of every
    set of marks that show one number of the claimed car, and of any: shape (2**marks,).
    `is_alone`: the number is claimed, and its piece has no other mark that shows it. `is_later`: no
    car left the works with such a number."""

    id: str
    home: str
    slots: dict[NumberSeen, int]
    records: tuple[Record, ...] | None
    served: tuple[float, ...] | None
    own: Array
    any_car: Array
    is_alone: tuple[bool, ...]
    is_later: bool

    def shown_by(self, number: NumberSeen) -> Hashable:
        """All that this says of one mark by itself, whatever other marks show."""
        slot = self.slots[number]
        return (
            slot,
            None if self.records is None else self.records[slot],
            None if self.served is None else self.served[slot],
            float(self.own[1 << slot]),
            self.is_alone[slot],
            self.is_later,
            len(self.slots) == 1,
        )


def number_items(
    book: CodeBook, context: CarContext, claim: dict[str, str], seen: Iterable[PieceSeen]
) -> dict[str, NumberItem]:
    """The numbers of a car by item."""
    shown: dict[str, dict[NumberSeen, str]] = {}
    for piece in seen:
        for number in piece.numbers:
            if number.status is READ:
                shown.setdefault(number.item, {})[number] = piece.piece.id
    items = {}
    for item_id, marks in shown.items():
        item = book.item(item_id)
        assert item is not None
        if len(marks) > MOST_MARKS:
            raise TooManyMarksError(item_id)
        # Any other number that is claimed was read off the car: nothing ties it to the identity.
        claimed = claim.get(item_id, "") if item.identification else ""
        items[item_id] = alike(
            book,
            "numbers",
            (context, item_id, claimed, tuple(marks.items())),
            partial(_item, book, context, item, claimed, marks),
        )
    return items


def _item(
    book: CodeBook, context: CarContext, item: Item, text: str, marks: dict[NumberSeen, str]
) -> NumberItem:
    """The number that these marks show, each with the piece on which it stands."""
    any_car, own, served = alike(
        book, "spreads", (context, item.id), lambda: spreads_of(book, item, context)
    )
    # Many who read a mark differently make each character improbable: only their ratios count.
    rows = [mark.rows / mark.rows.max(axis=1, keepdims=True) for mark in marks]
    products = np.ones((1, item.length, len(item.alphabet)))
    for each in rows:
        products = np.concatenate([products, products * each[None]])
    together = any_car.summed(products)
    size = 1 << len(marks)
    alone = np.ones(size)
    for place in range(len(marks)):
        has = (np.arange(size) >> place) & 1
        alone *= np.where(has, together[1 << place], 1.0)
    single = [float(together[1 << place]) for place in range(len(marks))]
    number, pieces = claimed_number(item, text), list(marks.values())
    return NumberItem(
        id=item.id,
        home=item.home,
        slots={mark: slot for slot, mark in enumerate(marks)},
        records=None if number is None else tuple(
            _record(each, number, one) for each, one in zip(rows, single, strict=True)
        ),
        served=None if served is None else tuple(
            float(served.summed(each[None])[0]) / one
            for each, one in zip(rows, single, strict=True)
        ),
        own=(own or any_car).summed(products) / alone,
        any_car=together / alone,
        is_alone=tuple(number is not None and pieces.count(piece) == 1 for piece in pieces),
        is_later=_is_later(book, item),
    )  # fmt: skip


def _is_later(book: CodeBook, item: Item) -> bool:
    rows = series_of(book, item)
    return bool(rows) and not any(row.with_the_car for row in rows)


def copied(rows: Array, item: Item) -> Array:
    """A number on a paper, which was written from something: a figure may have been copied
    wrongly."""
    slip = PAPER_SLIP / item.length
    return (1.0 - slip) * rows + slip * rows.mean(axis=1, keepdims=True)


def series_of(book: CodeBook, item: Item) -> list[Series]:
    """The series of a number that can argue. Those that depend on a code beside the number are
    compared by agreement alone."""
    return [s for s in book.series if s.item == item.id and s.citation.basis.weighs and not s.also]


def claimed_number(item: Item, text: str) -> Places | None:
    """The claimed number as places in the alphabet; None where it is not claimed in full."""
    characters = [c for c in text.upper() if c in item.alphabet]
    if len(characters) != item.length:
        return None
    return np.array([item.alphabet.index(c) for c in characters], dtype=np.intp)


def _record(rows: Array, number: Places, alone: float) -> Record:
    places = np.arange(number.size)
    hits = rows[places, number]
    if (hits < CLEAR * rows.max(axis=1)).sum() > MOST_WRONG:
        return Record(0.0, 0.0, 0.0)
    whole = float(hits.prod())
    others = (rows.sum(axis=1) - hits) / max(rows.shape[1] - 1, 1)
    slips = [float(others[k] * np.delete(hits, k).prod()) for k in places]
    swaps = []
    for k in places[:-1]:
        swapped = number.copy()
        swapped[[k, k + 1]] = number[[k + 1, k]]
        swaps.append(float(rows[places, swapped].prod()))
    swap = float(np.mean(swaps)) if swaps else whole
    return Record(whole / alone, float(np.mean(slips)) / alone, swap / alone)


def spreads_of(
    book: CodeBook, item: Item, context: CarContext
) -> tuple[Spread, Spread | None, Spread | None]:
    """p(number): of any car; of a car of this context that left the works with it; of what was
    supplied later. The last two are None where the book has no such series.

    The series that fit the claimed car count as much as all series together.
    """
    even = spread.even(item.length, item.alphabet)
    rows = [
        s
        for s in series_of(book, item)
        if s.first.isdecimal() and s.last.isdecimal() and not s.is_beyond
    ]
    new = [s for s in rows if s.with_the_car]
    every, later = _of_series(new, item), _of_series([s for s in rows if s not in new], item)
    alike = _of_series([s for s in new if s.applies.covers(context)], item)
    if every is None:
        return even, None, later
    listed = every if alike is None else spread.mixed([(0.5, every), (0.5, alike)])
    parts = [(SERIES_SHARE, listed), (1.0 - SERIES_SHARE, even)]
    if later is not None:
        share = SERIES_SHARE - SERVED_SHARE
        parts = [(share, listed), (SERVED_SHARE, later), (1.0 - SERIES_SHARE, even)]
    own = None if alike is None else spread.mixed([(0.98, alike), (0.02, every)])
    return spread.mixed(parts), own, later


def _of_series(rows: list[Series], item: Item) -> Spread | None:
    """All numbers of some series, alike; None where there are none of this kind."""
    runs = [
        (int(s.last) - int(s.first) + 1, run)
        for s in rows
        if (run := spread.of_run(s.first, s.last, item.length, item.alphabet)) is not None
    ]
    total = sum(count for count, _ in runs)
    return spread.mixed([(count / total, run) for count, run in runs]) if runs else None
