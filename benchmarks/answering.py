"""How long somebody who types waits: one reading changed by one character, then what does not fit
with the ratios, and the Opinion that the pages of a case begin with.

Beside each stands the same work afresh, in the same run: with all that is kept from one
examination to the next forgotten, as in a command. Both are counted in processor time. On the
cars of the demonstration whose sums are the largest and the smallest.
"""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import cycle
from statistics import median

from benchmarks.cars import Car
from benchmarks.figure import Aim, Figure, in_turn, ratio_of, timed
from benchmarks.scale import Scale
from witnessmark.casefile import Casefile
from witnessmark.examination import examine, quick_answer
from witnessmark.weighing import forget

LIVE_AIM = Aim("under", 120.0)
"""Milliseconds of processor time for an answer while somebody types."""
RATIO_AIM = Aim("under", 0.7, of_ratio=True)


def measure(car: Car, scale: Scale) -> list[Figure]:
    """The quick answer, the Opinion at once and the whole Opinion without steadiness."""
    typed = cycle(each_changed(car.casefile))
    return [
        _beside_afresh(f"{name} of {car.name}", work, car, typed, scale, aim)
        for name, work, aim in (
            ("live answer", lambda case: quick_answer(case, car.book), LIVE_AIM),
            ("Opinion at once", lambda case: _opinion(car, case, at_once=True), RATIO_AIM),
            ("Opinion", lambda case: _opinion(car, case, at_once=False), RATIO_AIM),
        )
    ]


def _opinion(car: Car, case: Casefile, *, at_once: bool) -> object:
    return examine(case, car.book, car.version, steady=False, at_once=at_once)


def _beside_afresh(
    name: str,
    work: Callable[[Casefile], object],
    car: Car,
    typed: Iterator[Casefile],
    scale: Scale,
    aim: Aim,
) -> Figure:
    def once(case: Casefile) -> float:
        return timed(lambda: work(case), 1, 0, time.process_time)[0]

    def changed() -> float:
        # As it was before the character was typed.
        work(car.casefile)
        return once(next(typed))

    def afresh() -> float:
        forget(car.book)
        return once(next(typed))

    own, plain = in_turn(changed, afresh, scale.examinations)
    return Figure(
        name,
        median(own),
        "ms",
        len(own),
        min(own),
        max(own),
        ratio_of(own, plain),
        f"afresh ({median(plain):.0f} ms)",
        aim,
        "processor time after one reading changed by one character",
    )


def each_changed(case: Casefile) -> Iterator[Casefile]:
    """The case with the last character of one reading typed otherwise, of each in turn."""
    for place, reading in enumerate(case.readings):
        at = max((k for k, sign in enumerate(reading.text) if sign.isalnum()), default=None)
        if at is not None:
            other = "3" if reading.text[at] != "3" else "8"
            text = f"{reading.text[:at]}{other}{reading.text[at + 1 :]}"
            rest = case.readings[place + 1 :]
            changed = replace(reading, text=text)
            yield replace(case, readings=(*case.readings[:place], changed, *rest))
