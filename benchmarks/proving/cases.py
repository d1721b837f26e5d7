"""Cases of a world, drawn from a seed: each can be made again alone from its number."""

import json
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.car import Car, draw_car
from benchmarks.proving.factory import Factory, demo_book
from benchmarks.proving.lives import Era, draw_lives
from benchmarks.proving.visit import Sighting, case_document, truth_of, visit
from benchmarks.proving.world import KINDS, WORLDS, World

Array = NDArray[np.float64]

ERAS: tuple[Era, ...] = ("early", "tail", "unit")
DRAWN = (0.30, 0.12, 0.08, 0.13, 0.07, 0.17, 0.13)
"""Shares in which kinds of lives are drawn: rare kinds more often than they are."""


@dataclass(frozen=True, slots=True)
class Case:
    """One car, what was seen of it, and what is true. `weight` is how often such a car is
    met in its world over how often it is drawn."""

    number: int
    era: Era
    kind: int
    weight: float
    car: Car
    seen: Sighting
    truth: dict[str, bool | None]


def draw_case(world: World, factory: Factory, seed: int, number: int, whole: bool = False) -> Case:
    """Case `number` of a world; `whole` is the same car with every reachable place looked at."""
    rng = np.random.default_rng([seed, [w.name for w in WORLDS].index(world.name), number])
    era = ERAS[number % len(ERAS)]
    kind = int(rng.choice(len(KINDS), p=DRAWN))
    life = draw_lives(world, era, np.array([kind], dtype=np.int8), rng)
    car = draw_car(factory, life, rng)
    seen = visit(world, factory, car, rng, whole)
    weight = world.kinds[kind] / DRAWN[kind]
    return Case(number, era, kind, weight, car, seen, truth_of(car))


def document_of(factory: Factory, case: Case) -> dict[str, object]:
    """The case document of a case."""
    return case_document(factory, case.car, case.seen, f"proving-{case.number:05}")


def write_cases(world: World, seed: int, count: int, folder: Path) -> None:
    """Write ordinary case folders, and the truth of all in `truth.json` beside them."""
    factory = Factory(demo_book(), seed)
    truths = {}
    for number in range(count):
        case = draw_case(world, factory, seed, number)
        document = document_of(factory, case)
        home = folder / str(document["id"])
        home.mkdir(parents=True, exist_ok=True)
        (home / "case.json").write_text(json.dumps(document, indent=2) + "\n", "utf-8")
        truths[str(document["id"])] = {
            "kind": KINDS[case.kind], "weight": case.weight, "truth": case.truth,
        }  # fmt: skip
    told = {"world": world.name, "seed": seed, "cases": truths}
    (folder / "truth.json").write_text(json.dumps(told, indent=2) + "\n", "utf-8")
