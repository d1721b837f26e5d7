"""The factor over the numbers is plain counting over all numbers, and silent where it should be."""

from dataclasses import dataclass, replace
from itertools import product
from math import log10, prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from tests.examples import tried_on
from witnessmark.casefile.records import Legibility
from witnessmark.reading import (
    EVEN_CONFUSION,
    Cell,
    CellKind,
    Observation,
    place_likelihood,
    shipped_rates,
)
from witnessmark.weighing.numbers import ALONE, CLAIMED, NumberItem, Showing, number_tensor
from witnessmark.weighing.spread import Spread, of_places

Array = NDArray[np.float64]

DONORS = ("donor of the shell", "donor of the engine")


@dataclass(frozen=True)
class Read:
    """An item with what was read of it on each of its nodes: (places, alphabet) each."""

    item: NumberItem
    likelihoods: list[Array]

    def tensor(self) -> Array:
        """The factor with every reading seen."""
        return number_tensor(self.item, self.likelihoods, [False] * len(self.likelihoods))


@st.composite
def reads(draw: st.DrawFn, most_marks: int = 4, is_claimed: bool | None = None) -> Read:
    """Up to 4 marks of one number of up to 3 places of up to 3 characters."""
    marks = draw(st.integers(1, most_marks))
    length, size = draw(st.integers(1, 3)), draw(st.integers(2, 3))
    rng = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    showings = []
    for node in range(marks):
        donors = draw(st.lists(st.sampled_from(DONORS), max_size=2, unique=True))
        showings.append(Showing(node, (CLAIMED, *donors, ALONE)))
    claimed = draw(st.booleans()) if is_claimed is None else is_claimed
    number = np.array([draw(st.integers(0, size - 1)) for _ in range(length)], dtype=np.intp)
    blocks = draw(st.integers(1, 3))
    spreads = [
        Spread(rng.dirichlet(np.ones(blocks)), rng.dirichlet(np.ones(size), (blocks, length)))
        for _ in range(2)
    ]
    own = spreads[1] if draw(st.booleans()) else None
    item = NumberItem("number", tuple(showings), spreads[0], number if claimed else None, own)
    return Read(item, [rng.uniform(0.001, 1.0, (length, size)) for _ in range(marks)])


def counted(read: Read, cars: tuple[str, ...], in_series: bool) -> float:
    """P(readings | which car each mark shows) over each alone, number by number."""
    item = read.item
    length, size = item.shape
    numbers = list(product(range(size), repeat=length))

    def spread(number: tuple[int, ...], of: Spread) -> float:
        return sum(
            float(weight) * prod(float(block[place][t]) for place, t in enumerate(number))
            for weight, block in zip(of.weights, of.shares, strict=True)
        )

    def chance(number: tuple[int, ...], car: str = "") -> float:
        return spread(number, item.own if in_series and car == CLAIMED else item.spread)

    def of(mark: int, number: tuple[int, ...]) -> float:
        return prod(float(read.likelihoods[mark][place][t]) for place, t in enumerate(number))

    alone = [sum(chance(n) * of(m, n) for n in numbers) for m in range(len(cars))]
    found = prod(alone[m] for m, car in enumerate(cars) if car == ALONE)
    for car in set(cars) - {ALONE}:
        marks = [m for m, shown in enumerate(cars) if shown == car]
        if car == CLAIMED and item.claimed is not None:
            found *= prod(of(m, tuple(item.claimed.tolist())) for m in marks)
        else:
            found *= sum(chance(n, car) * prod(of(m, n) for m in marks) for n in numbers)
    return found / prod(alone)


@given(reads())
@tried_on(50)
def test_every_allocation_of_marks_to_cars_is_counted_number_by_number(read):
    """Against enumeration of all numbers that each car could bear."""
    tensor = read.tensor()
    for choice in np.ndindex(*tensor.shape):
        groups = choice[: len(read.item.showings)]
        cars = tuple(s.groups[g] for s, g in zip(read.item.showings, groups, strict=True))
        in_series = read.item.follows_series and choice[-1] == 0
        assert tensor[choice] == pytest.approx(counted(read, cars, in_series), rel=1e-10)


DIGITS = "0123456789"
PRINTED = replace(shipped_rates(), misstrike=0.0, shared=0.0)


def clear(character: str, legibility: Legibility = Legibility.CLEAR) -> Observation:
    return Observation(Cell(CellKind.CLEAR, character, 1), legibility)


def likelihood(text: str, legibility: Legibility = Legibility.CLEAR, by_hand: bool = False):
    """P(what was seen | t) of a printed number; `?` is a worn place."""
    rows = []
    for sign in text:
        seen = Observation(Cell(CellKind.WORN, "", 1)) if sign == "?" else clear(sign, legibility)
        rows.append(place_likelihood((seen,), DIGITS, by_hand, PRINTED))
    return np.array(rows)


def open_item(marks: int, length: int, chance: Array | None = None) -> NumberItem:
    """An item that the claim does not state, shown by marks that may be of one car or none."""
    even = np.full((length, len(DIGITS)), 1.0 / len(DIGITS))
    showings = tuple(Showing(node, (CLAIMED, ALONE)) for node in range(marks))
    return NumberItem("number", showings, of_places(even if chance is None else chance), None)


@given(
    st.text(DIGITS + "?", min_size=1, max_size=6).flatmap(
        lambda text: st.tuples(
            st.just(text), st.text(DIGITS + "?", min_size=len(text), max_size=len(text))
        )
    ),
    st.sampled_from(list(Legibility)),
    st.integers(0, 1000),
)
@tried_on(60)
def test_two_marks_and_one_open_item_give_the_closed_form(texts, legibility, seed):
    """Section 2: product over places of sum p a b over (sum p a times sum p b)."""
    a, b = (likelihood(text, legibility) for text in texts)
    chance = np.random.default_rng(seed).dirichlet(np.ones(10), len(a))
    closed = 1.0
    for p, of_a, of_b in zip(chance.tolist(), a.tolist(), b.tolist(), strict=True):
        same = sum(x * y * z for x, y, z in zip(p, of_a, of_b, strict=True))
        two = sum(x * y for x, y in zip(p, of_a, strict=True))
        two *= sum(x * z for x, z in zip(p, of_b, strict=True))
        closed *= same / two
    tensor = number_tensor(open_item(2, len(a), chance), [a, b], [False, False])
    assert tensor[0, 0] / tensor[1, 1] == pytest.approx(closed, rel=1e-10)


def test_two_clear_digits_that_agree_speak_for_one_car_by_the_reading_error():
    """By hand: e = 0.003, even confusion among ten digits, p = 1/10.

    One car: 1/10 ((1-e)^2 + 9 (e/9)^2); two cars: 1/10 each.
    """
    e = 0.003
    table = EVEN_CONFUSION
    seen = np.array([place_likelihood((clear("7"),), DIGITS, False, PRINTED, table)])
    tensor = number_tensor(open_item(2, 1), [seen, seen], [False, False])
    by_hand = 10 * ((1 - e) ** 2 + 9 * (e / 9) ** 2)
    assert tensor[0, 0] == pytest.approx(by_hand, rel=1e-12)
    assert log10(tensor[0, 0]) == pytest.approx(0.9974, abs=1e-4)


@given(reads(), st.data())
@tried_on(40)
def test_a_worn_place_changes_nothing(read, data):
    """A place that says nothing may be there or not: the others give the same factor."""
    length, size = read.item.shape
    place = data.draw(st.integers(0, length))
    claimed = None if read.item.claimed is None else np.insert(read.item.claimed, place, 0)

    def widened(spread: Spread) -> Spread:
        shares = np.insert(spread.shares, place, np.full(size, 1.0 / size), axis=1)
        return Spread(spread.weights, shares)

    own = None if read.item.own is None else widened(read.item.own)
    wider = replace(read.item, spread=widened(read.item.spread), own=own, claimed=claimed)
    worn = [np.insert(each, place, np.ones(size), axis=0) for each in read.likelihoods]
    assert Read(wider, worn).tensor() == pytest.approx(read.tensor(), rel=1e-10)


@given(reads(most_marks=3), st.data())
@tried_on(40)
def test_a_fully_worn_mark_changes_nothing_whatever_car_it_shows(read, data):
    """Its axis is flat, and along it stands the factor of the others."""
    donors = data.draw(st.lists(st.sampled_from(DONORS), max_size=2, unique=True))
    showings = (*read.item.showings, Showing(99, (CLAIMED, *donors, ALONE)))
    silent = np.ones_like(read.likelihoods[0])
    wider = Read(replace(read.item, showings=showings), [*read.likelihoods, silent]).tensor()
    axis = len(read.item.showings)
    for g in range(wider.shape[axis]):
        assert wider.take(g, axis) == pytest.approx(read.tensor(), rel=1e-10)


@given(reads(), st.randoms(use_true_random=False))
@tried_on(40)
def test_relabelling_the_alphabet_changes_nothing(read, random):
    """Characters have no meaning of their own: only which of them agree."""
    order = list(range(read.item.shape[1]))
    random.shuffle(order)
    claimed = read.item.claimed
    relabelled = None if claimed is None else np.array([order.index(t) for t in claimed])
    item = moved(read.item, (slice(None), slice(None), order), relabelled)
    other = Read(item, [each[:, order] for each in read.likelihoods])
    assert other.tensor() == pytest.approx(read.tensor(), rel=1e-10)


@given(reads(), st.randoms(use_true_random=False))
@tried_on(40)
def test_the_order_of_marks_and_of_places_changes_nothing(read, random):
    """The factor only has its axes in another order."""
    marks = list(range(len(read.likelihoods)))
    places = list(range(read.item.shape[0]))
    random.shuffle(marks)
    random.shuffle(places)
    claimed = read.item.claimed
    item = moved(
        replace(read.item, showings=tuple(read.item.showings[m] for m in marks)),
        (slice(None), places),
        None if claimed is None else claimed[places],
    )
    other = Read(item, [read.likelihoods[m][places] for m in marks])
    axes = [*marks, *([len(marks)] if read.item.follows_series else [])]
    assert other.tensor() == pytest.approx(read.tensor().transpose(axes), rel=1e-10)


def moved(item: NumberItem, where, claimed) -> NumberItem:
    """The item with the characters or places of its spreads in another order."""
    own = item.own
    return replace(
        item,
        spread=Spread(item.spread.weights, item.spread.shares[where]),
        own=None if own is None else Spread(own.weights, own.shares[where]),
        claimed=claimed,
    )


@given(reads(most_marks=1, is_claimed=False))
@tried_on(30)
def test_a_lone_mark_of_an_open_item_says_nothing(read):
    """Nothing ties its number to any car: 1, exactly as if it stood alone."""
    read = Read(replace(read.item, own=None), read.likelihoods)
    assert read.tensor() == pytest.approx(np.ones(read.tensor().shape), rel=1e-12)


@given(reads(is_claimed=False), st.data())
@tried_on(30)
def test_only_marks_of_one_car_speak_to_each_other(read, data):
    """Where no two marks show one car the factor is 1, whatever was read."""
    read = Read(replace(read.item, own=None), read.likelihoods)
    tensor = read.tensor()
    for choice in np.ndindex(*tensor.shape):
        cars = [s.groups[g] for s, g in zip(read.item.showings, choice, strict=True)]
        together = [car for car in cars if car != ALONE]
        if len(together) == len(set(together)):
            assert tensor[choice] == pytest.approx(1.0, rel=1e-12)


@given(reads(most_marks=1, is_claimed=True))
@tried_on(30)
def test_a_claimed_number_is_scored_as_the_reading_of_that_number(read):
    """P(reading | claimed number) over P(reading | any number)."""
    item, (seen,) = read.item, read.likelihoods
    wanted = 1.0
    for place, t in enumerate(item.claimed.tolist()):
        wanted *= float(seen[place, t])
    wanted /= float(item.spread.summed(seen[None])[0])
    tensor = read.tensor()
    assert tensor[0] == pytest.approx(wanted, rel=1e-10)
    assert tensor[1:] == pytest.approx(np.ones(tensor.size - 1), rel=1e-12)


@given(reads(most_marks=3), st.data())
@tried_on(30)
def test_the_outcomes_of_a_reading_not_yet_made_add_up_to_the_unread_mark(read, data):
    """Whatever could be read of one mark, summed, leaves what the others say."""
    mark = data.draw(st.integers(0, len(read.likelihoods) - 1))
    length, size = read.item.shape
    rng = np.random.default_rng(data.draw(st.integers(0, 10_000)))
    # P(c | t) of each place: every row over the outcomes c sums to 1.
    outcome = rng.dirichlet(np.ones(size + 1), (length, size))
    hypothetical = [m == mark for m in range(len(read.likelihoods))]
    summed = sum(
        number_tensor(
            read.item,
            [
                np.array([outcome[place, :, c] for place, c in enumerate(cells)])
                if m == mark
                else each
                for m, each in enumerate(read.likelihoods)
            ],
            hypothetical,
        )
        for cells in product(range(size + 1), repeat=length)
    )
    silent = [np.ones((length, size)) if m == mark else r for m, r in enumerate(read.likelihoods)]
    unread = number_tensor(read.item, silent, [False] * len(silent))
    assert summed == pytest.approx(unread, rel=1e-9)


@given(reads())
@tried_on(40)
def test_readings_scaled_by_anything_give_the_same_factor(read):
    """Constant factors of a reading have no meaning: each is weighed against itself alone."""
    scaled = Read(read.item, [each * (0.1 + m) for m, each in enumerate(read.likelihoods)])
    assert scaled.tensor() == pytest.approx(read.tensor(), rel=1e-10)
