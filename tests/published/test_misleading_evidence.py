"""How often a ratio may mislead: by exact sum over every outcome of one place.

P(LR at least x | second proposition true) is at most 1/x: National Institute of Justice, "Are
low LRs reliable?", https://nij.ojp.gov/library/publications/are-low-lrs-reliable; it follows from
E[LR | second] = 1, which holds of ratios of two probabilities that each sum to 1 over all
outcomes, and of no others.

The outcomes: what stands at the place of a number is never struck, taken off, or characters of
which two can be read; each as it looks.
"""

from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np
import pytest

from tests.worked.situations.car import looks, says
from tests.worked.situations.changes import only
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, rate_values
from witnessmark.weighing.evidence.numbers import spreads_of
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted

FIGURES = "0123456789"
LOOKS = ("factory", "doubtful", "disturbed")


@dataclass(frozen=True)
class Place:
    """A place that bears the car's number, the text of its mark, and the question it is for."""

    car: str
    mark: str
    text: str
    question: Asked


PLACES = {
    "the frame": Place("frame", "frame_number", "{}??{}?", Asked.IDENTITY),
    "an engine": Place("frame", "engine_number", "?{}???", Asked.CORE),
    "an engine of another book": Place("labels", "engine_number", "?????{}",
                                       Asked.CORE),
}  # fmt: skip


def texts(place: Place) -> list[str]:
    """Every text: each figure at the places that can be read, all gone, none ever struck."""
    width = place.text.count("{}")
    size = len(place.text.format(*"0" * width))
    read = [place.text.format(*figures) for figures in product(FIGURES, repeat=width)]
    return [*read, "~" * size, "_" * size]


def alone(known: Noted) -> float:
    """P(the characters that were read | any car's number): all else is over this."""
    found = 1.0
    for piece in known.seen:
        for number in piece.numbers:
            if number.status == "read":
                item = known.car.book.item(number.item)
                assert item is not None
                every, _, _ = spreads_of(known.car.book, item, known.car.context)
                found *= float(every.summed(number.rows[None])[0])
    return found


@cache
def chances(name: str) -> np.ndarray:
    """P(outcome | first) and P(outcome | second) of every outcome, shape (outcomes, 2)."""
    place, found = PLACES[name], []
    site = next(m.site for m in book_of(place.car).marks if m.id == place.mark)
    for text, look in product(texts(place), LOOKS):
        car = STANDARD[place.car].but(only(place.mark), says(place.mark, text), looks(site, look))
        known = noted(car_marks(casefile(car), book_of(place.car)))
        network = network_of(known, rate_values())
        question = next(q for q in questions_of(known) if q.asked is place.question
                        and q.is_examined)  # fmt: skip
        side = sides(network, known, question)
        assert side is not None
        two = [
            side.joint[0][which].sum() / side.prior[0][which].sum()
            for which in (side.first, side.second)
        ]
        found.append(np.array(two) * alone(known))
    return np.array(found)


@pytest.mark.parametrize("name", PLACES)
def test_some_outcome_is_certain_under_either_proposition(name: str) -> None:
    """So that E[LR | second] = 1 and E[1/LR | first] = 1: no way of it loses or gains mass."""
    first, second = chances(name).T
    assert first.sum() == pytest.approx(1.0, rel=1e-9)
    assert second.sum() == pytest.approx(1.0, rel=1e-9)
    assert (second * (first / second)).sum() == pytest.approx(1.0, rel=1e-9)
    assert (first * (second / first)).sum() == pytest.approx(1.0, rel=1e-9)


@pytest.mark.parametrize("name", PLACES)
@pytest.mark.parametrize("x", [1.5, 2, 5, 10, 30, 100])
def test_a_ratio_of_x_misleads_no_oftener_than_one_in_x(name: str, x: float) -> None:
    """Either way, by the exact chance of every outcome that reaches it."""
    first, second = chances(name).T
    ratio = first / second
    assert second[ratio >= x].sum() <= 1.0 / x
    assert first[ratio <= 1.0 / x].sum() <= 1.0 / x


@pytest.mark.parametrize("name", PLACES)
def test_the_outcomes_do_tell_the_two_apart(name: str) -> None:
    """Else the bounds would hold of a weighing that says nothing."""
    first, second = chances(name).T
    assert (first / second).max() > 2.0
    assert (first / second).min() < 0.2
