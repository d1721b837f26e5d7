"""Posteriors of one network, ours and a general-purpose library's, in the same run.

The library is pyAgrum (lazy propagation) on the network that the tests build for
it. Two things are asked for: all posteriors of one car as it is; and of many
cars that differ in what was seen (each look, code, date and rule seen or not, by
chance), where its engine is kept and only given new evidence. Both are asked for
the same variables and their answers are compared.
"""

import sys
import time
from dataclasses import dataclass
from statistics import median
from typing import Any

import numpy as np
from numpy.typing import NDArray

from benchmarks.cars import CHECKOUT, Car
from benchmarks.figure import Aim, Figure, in_turn, ratio_of
from benchmarks.scale import Scale
from witnessmark.weighing.calculator import Calculator
from witnessmark.weighing.evidence import SEEN, SILENT
from witnessmark.weighing.network import Network

if str(CHECKOUT) not in sys.path:
    sys.path.insert(0, str(CHECKOUT))  # the tests' second hand lives in the checkout

Array = NDArray[np.float64]
Index = NDArray[np.intp]
Likelihoods = dict[str, list[float]]

FASTER = Aim("under", 1.0, of_ratio=True)
CHUNK = 128
"""Cars in one batch: more do not fit the fast memory of a small machine."""
SEED = 20_260_101


@dataclass(frozen=True, slots=True)
class Many:
    """Cars that differ in what was seen: for each slot, 1 or 0 for every car."""

    variants: dict[str, Index]
    count: int

    def part(self, start: int, stop: int) -> dict[str, Index]:
        """What was seen of the cars from `start` up to `stop`."""
        return {slot: seen[start:stop] for slot, seen in self.variants.items()}


def measure(car: Car, scale: Scale) -> list[Figure]:
    """One car, with and without building the library's engine, and many cars."""
    calculator = car.calculator()
    return [*_one(car.name, calculator, scale), *_many(car.name, calculator, scale)]


def _one(name: str, calculator: Calculator, scale: Scale) -> list[Figure]:
    from tests.second_hand.network_in_pyagrum import build

    network, ones = calculator.network, calculator.ones(1)
    asked = asked_of(network)
    bn, evidence = build(network)
    engine = _engine(bn)

    def ours() -> float:
        start = time.perf_counter()
        calculator.run(ones)
        return (time.perf_counter() - start) * 1e3

    def kept() -> float:
        start = time.perf_counter()
        _asked(engine, evidence, asked)
        return (time.perf_counter() - start) * 1e3

    def afresh() -> float:
        start = time.perf_counter()
        _asked(_engine(bn), evidence, asked)
        return (time.perf_counter() - start) * 1e3

    joints = calculator.run(ones)
    theirs = _asked(engine, evidence, asked)
    found = [joints.variables[each][0] / joints.total[0] for each in asked]
    apart = max(float(np.abs(a - b).max()) for a, b in zip(found, theirs, strict=True))
    figures = []
    for beside, library in (("its engine kept", kept), ("its engine made afresh", afresh)):
        ours(), library()
        us, them = in_turn(ours, library, scale.posteriors)
        figures.append(_beside(f"posteriors of {name}", f"pyAgrum, {beside}", us, them))
    apart_note = "greatest difference in any posterior"
    figures.append(Figure(f"posteriors of {name}: apart", apart, "", 1, note=apart_note))
    return figures


def _beside(name: str, beside: str, ours: list[float], theirs: list[float]) -> Figure:
    """Our time beside the library's."""
    ratio = ratio_of(ours, theirs)
    to = f"{beside} ({median(theirs):.3g} ms)"
    note = "all posteriors; both networks are built already"
    return Figure(
        name, median(ours), "ms", len(ours), min(ours), max(ours), ratio, to, FASTER, note
    )


def _many(name: str, calculator: Calculator, scale: Scale) -> list[Figure]:
    from tests.second_hand.network_in_pyagrum import build

    network = calculator.network
    many = varied(network, scale.many_cars)
    asked = asked_of(network)
    start = time.perf_counter()
    ours = in_chunks(calculator, many, asked)
    our_seconds = time.perf_counter() - start
    bn, evidence = build(network)
    engine = _engine(bn)
    sampled = min(scale.sampled_cars, many.count)
    start = time.perf_counter()
    theirs = [_asked(engine, of_car(network, evidence, many, k), asked) for k in range(sampled)]
    their_seconds = (time.perf_counter() - start) / sampled * many.count
    apart = max(
        float(np.abs(ours[n][k] - theirs[k][n]).max())
        for k in range(sampled)
        for n in range(len(asked))
    )
    ratio = our_seconds / their_seconds
    title = f"posteriors of {many.count:,} cars like {name}"
    beside = f"pyAgrum, its engine kept ({their_seconds:.1f} s)"
    note = f"the library's time is that of {sampled} cars, extrapolated"
    return [
        Figure(title, our_seconds, "s", 1, None, None, ratio, beside, FASTER, note),
        Figure(f"{title}: apart", apart, "", sampled, note="greatest difference in any posterior"),
    ]


def asked_of(network: Network) -> list[str]:
    """The variables asked for: the car, its assemblies, the sources of its marks."""
    assemblies = [f"A:{assembly.id}" for assembly in network.assemblies]
    return ["B", "D", "K", *assemblies, *(f"S:{place}" for place in range(len(network.nodes)))]


def varied(network: Network, count: int) -> Many:
    """So many cars: whatever goes through a channel is seen or not, by a coin.

    Readings of numbers stay as they are: with them the library would need new
    tables for every car.
    """
    coins = np.random.default_rng(SEED)
    slots = {channel.slot for channel in network.evidence.channels}
    slots |= {pair.slot for pair in network.evidence.pairs}
    read = {reading.slot for reading in network.evidence.readings.values()}
    seen = [slot for slot in sorted(slots - read) if network.evidence.slots[slot].is_seen]
    return Many({slot: coins.integers(SILENT, SEEN, count, endpoint=True) for slot in seen}, count)


def in_chunks(calculator: Calculator, many: Many, asked: list[str]) -> list[Array]:
    """Our posteriors of every car, one array (cars, states) for each variable."""
    parts: list[list[Array]] = [[] for _ in asked]
    for start in range(0, many.count, CHUNK):
        stop = min(start + CHUNK, many.count)
        joints = calculator.run(calculator.ones(stop - start), many.part(start, stop))
        for place, name in enumerate(asked):
            parts[place].append(joints.variables[name] / joints.total[:, None])
    return [np.concatenate(each) for each in parts]


def of_car(network: Network, evidence: Likelihoods, many: Many, k: int) -> Likelihoods:
    """The evidence of one of the cars: that of all, without what was not seen."""
    silent = {slot for slot, seen in many.variants.items() if seen[k] == SILENT}
    left_out = {f"E:{n}" for n, c in enumerate(network.evidence.channels) if c.slot in silent}
    left_out |= {f"P:{n}" for n, c in enumerate(network.evidence.pairs) if c.slot in silent}
    return {name: each for name, each in evidence.items() if name not in left_out}


def _engine(bn: object) -> Any:
    """The library's engine on its network; it declares no types."""
    import pyagrum

    return pyagrum.LazyPropagation(bn)  # type: ignore[no-untyped-call]


def _asked(engine: Any, evidence: Likelihoods, asked: list[str]) -> list[Array]:
    """The library's posteriors."""
    engine.setEvidence(evidence)
    engine.makeInference()
    return [np.array(engine.posterior(name).toarray()) for name in asked]
