"""The second edition's sums: one tree of messages beside plain opt_einsum for each question.

Three measures of one car: all its questions once; what each thing noted does; and 512 draws of
the rates, summed over what counts alone. The other side sums the same factors with opt_einsum,
every question anew, and for each thing left out makes the network anew. The draws stand beside
the tree of messages over everything, too. The answers are compared.
"""

import time
from collections.abc import Callable
from statistics import median

import numpy as np
import opt_einsum
from numpy.typing import NDArray

from benchmarks.cars import Car
from benchmarks.figure import Aim, Figure, in_turn, ratio_of
from benchmarks.scale import Scale
from witnessmark.examination.examine import car_marks
from witnessmark.weighing.conclusions.contributions import contributions, things
from witnessmark.weighing.conclusions.steady import TRIED
from witnessmark.weighing.network.build import network_of, noted, with_piece
from witnessmark.weighing.network.factors import Factor, noted_factor, squeezed, way_axis
from witnessmark.weighing.network.network import Network, laid, over_ways
from witnessmark.weighing.network.pruned import Pruned
from witnessmark.weighing.network.questions import Asking, Question, Sides, questions_of, sides
from witnessmark.weighing.pieces.axes import NAMES
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import RateValues, rate_values

Array = NDArray[np.float64]

QUICKER = Aim("under", 1.0, of_ratio=True)
PLAIN = "opt_einsum, each question anew"
EXACT = "one tree over everything"
DRAWS, BESIDE = 512, 8
"""Draws of the rates, and how many of them the other side sums; its time is multiplied."""


class Plain(Network):
    """A network whose every question is one contraction of all its factors."""

    def along(self, axis: str) -> Array:
        """P(what was noted, and each state along an axis), shape (draws, states)."""
        item = axis.removeprefix("item ")
        of = self.asking(item) if item in self.items else self
        pieces = dict(of.summed)
        piece = next((each for each in self.cells if way_axis(each) == axis), None)
        if piece is not None:
            pieces[piece] = self.noted[piece]
            return self._sum([*of.shared(), *pieces.values(), self.ways[piece]], axis)
        if item in of.items and not of.items[item].is_shared:
            piece = of.items[item].pieces[0]
            split = noted_factor(of.cells[piece], of.axes, split=item)
            pieces[piece] = over_ways(piece, of.ways[piece], split)
        return self._sum([*of.shared(), *pieces.values()], axis)

    def before(self, piece: str) -> Array:
        """P(each way of a piece), shape (draws, ways)."""
        return self._sum([squeezed(self.prior, NAMES), self.ways[piece]], way_axis(piece))

    def _sum(self, factors: list[Factor], axis: str) -> Array:
        names = dict.fromkeys(each for factor in factors for each in factor.axes)
        letters = {each: opt_einsum.get_symbol(place) for place, each in enumerate(names)}
        kept = tuple(each for each in ("d", axis) if each in names)
        parts = ["".join(letters[each] for each in factor.axes) for factor in factors]
        equation = f"{','.join(parts)}->{''.join(letters[each] for each in kept)}"
        tables = [factor.table for factor in factors]
        table = np.asarray(opt_einsum.contract(equation, *tables, optimize="greedy"))
        return laid(Factor(table, kept), axis, self.draws)


def plain(of: Network) -> Plain:
    """The same car, summed so."""
    return Plain(
        draws=of.draws,
        prior=of.prior,
        cells=of.cells,
        items=of.items,
        bonds=of.bonds,
        axes=of.axes,
    )


def measure(car: Car, scale: Scale) -> list[Figure]:
    """All questions once, contributions, draws; each beside the same by plain sums."""
    known = noted(car_marks(car.casefile, car.book))
    rates = rate_values()
    network = network_of(known, rates)
    asked = [each for each in questions_of(known) if each.is_examined]
    answers = _answers(network, known, asked)
    pairs: list[tuple[str, Callable[[], object], Callable[[], object], int]] = [
        (
            "answers",
            lambda: _answers(network_of(known, rates), known, asked),
            lambda: _answers(plain(network_of(known, rates)), known, asked),
            scale.reports,
        ),
        (
            "contributions",
            lambda: contributions(known, rates, network_of(known, rates), asked, answers),
            lambda: _each_out(known, rates, asked),
            1,
        ),
    ]
    found = [
        _beside(f"{what} of {car.name}", ours, theirs, runs) for what, ours, theirs, runs in pairs
    ]
    beside = _answers(plain(network), known, asked)
    apart = max(abs(answers[each] - beside[each]) for each in answers)
    found += _draws(car.name, known, asked)
    return [*found, Figure(f"answers of {car.name}: apart", apart, "", 1, note=GREATEST)]


GREATEST = "greatest difference in any log10 LR"


def _draws(name: str, known: Noted, asked: list[Question]) -> list[Figure]:
    """All draws, beside both other sums; and how far the answers are apart at some draws."""
    drawn = rate_values((), DRAWS)
    places = np.arange(0, DRAWS, DRAWS // BESIDE)
    some = drawn.at(places)

    def ours() -> dict[Question, Sides]:
        summed = Pruned(known, rate_values(), asked)
        summed.try_on(drawn.at(np.arange(0, DRAWS, DRAWS // TRIED)))
        return summed.sides(drawn)

    what, times = f"{DRAWS} draws of {name}", DRAWS // BESIDE
    sums: dict[str, Callable[[], object]] = {
        EXACT: lambda: _all_sides(network_of(known, some), known, asked),
        PLAIN: lambda: _all_sides(plain(network_of(known, some)), known, asked),
    }
    figures = [_beside(what, ours, theirs, 1, to, times) for to, theirs in sums.items()]
    found, exact = ours(), _all_sides(network_of(known, some), known, asked)
    apart = max(
        float(np.abs(found[q].log10_by_draw()[places] - side.log10_by_draw()).max())
        for q, side in exact.items()
    )
    return [*figures, Figure(f"{what}: apart", apart, "", 1, note=GREATEST)]


def _beside(
    name: str,
    ours: Callable[[], object],
    theirs: Callable[[], object],
    runs: int,
    what: str = PLAIN,
    times: int = 1,
) -> Figure:
    """`times`: how often the other side would have to be done."""
    us, them = in_turn(lambda: _ms(ours), lambda: times * _ms(theirs), runs)
    to = f"{what} ({median(them):.3g} ms)"
    return Figure(name, median(us), "ms", runs, min(us), max(us), ratio_of(us, them), to, QUICKER)


def _ms(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def _all_sides(network: Asking, known: Noted, asked: list[Question]) -> dict[Question, Sides]:
    found = {question: sides(network, known, question) for question in asked}
    return {question: side for question, side in found.items() if side is not None}


def _answers(network: Asking, known: Noted, asked: list[Question]) -> dict[Question, float]:
    return {q: side.log10_lr() for q, side in _all_sides(network, known, asked).items()}


def _each_out(known: Noted, rates: RateValues, asked: list[Question]) -> None:
    """Every question of the car without each thing noted in turn."""
    for seen in known.seen:
        for thing in things(known, seen):
            without = with_piece(known, thing.without)
            own = (seen.piece.id, seen.piece.assembly, known.bearer)
            bearing = [q for q in asked if q.about in own and q.about not in known.items]
            network = plain(network_of(without, rates))
            _answers(network, without, [q for q in bearing if q.about in network.cells])
