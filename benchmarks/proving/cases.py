"""Cases of a world, drawn from a seed: each can be made again alone from its number."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Protocol

import numpy as np

from benchmarks.proving.car import Car, draw_car
from benchmarks.proving.factory import Factory, demo_book
from benchmarks.proving.limit import Bank, Limit, make_bank
from benchmarks.proving.lives import Era, draw_lives
from benchmarks.proving.numbered import maker, records, stories
from benchmarks.proving.numbered import visit as numbered_visit
from benchmarks.proving.numbered.exact import Exact
from benchmarks.proving.visit import Sighting, case_document, truth_of, visit
from benchmarks.proving.world import KINDS, WORLDS, World
from witnessmark.codebook import CodeBook

ERAS: tuple[Era, ...] = ("early", "tail", "unit")
DRAWN = (0.30, 0.12, 0.08, 0.13, 0.07, 0.17, 0.13)
"""Shares in which kinds of lives are drawn: rare kinds more often than they are."""


@dataclass(frozen=True, slots=True)
class Case:
    """One car as a case document, and what is true. `weight` is how often such a car is met
    in its world over how often it is drawn; `exact` works out the limit's answers."""

    number: int
    kind: str
    weight: float
    document: dict[str, object]
    truth: dict[str, bool | None]
    exact: Callable[[], dict[str, float]]


class Ground(Protocol):
    """Where the cars of a world come from."""

    @property
    def book(self) -> CodeBook:
        """The code book of its maker."""
        ...

    def case(self, number: int) -> Case:
        """One case of it."""
        ...


def ground_of(world: World, seed: int, bank: int = 0) -> Ground:
    """Where the cars of a world come from; `bank` lives are counted for the limit of those
    whose parts have numbers of their own."""
    if world.maker == "own numbers":
        return OwnNumbers(world, seed, bank)
    return Numbered(world, seed)


def _rng(world: World, seed: int, number: int) -> np.random.Generator:
    return np.random.default_rng([seed, [w.name for w in WORLDS].index(world.name), number])


@dataclass(frozen=True)
class OwnNumbers:
    """Cars of which each part has a number of its own."""

    world: World
    seed: int
    bank: int = 0

    @cached_property
    def factory(self) -> Factory:
        """The factory of this seed."""
        return Factory(demo_book(), self.seed)

    @property
    def book(self) -> CodeBook:
        """The demonstration book."""
        return self.factory.book

    @cached_property
    def banks(self) -> dict[Era, Bank]:
        """How often the parts of lives come about, counted."""
        rng = np.random.default_rng([self.seed, 99])
        return {era: make_bank(self.world, era, self.bank, rng) for era in ERAS}

    def drawn(self, number: int) -> tuple[Car, Sighting]:
        """A car, and what was seen of it."""
        rng = _rng(self.world, self.seed, number)
        kind = int(rng.choice(len(KINDS), p=DRAWN))
        life = draw_lives(
            self.world, ERAS[number % len(ERAS)], np.array([kind], dtype=np.int8), rng
        )
        car = draw_car(self.factory, life, rng)
        return car, visit(self.world, self.factory, car, rng)

    def case(self, number: int) -> Case:
        """One case."""
        car, seen = self.drawn(number)
        kind = int(car.life.kind[0])
        return Case(
            number,
            KINDS[kind],
            self.world.kinds[kind] / DRAWN[kind],
            case_document(self.factory, car, seen, f"proving-{number:05}"),
            truth_of(car),
            lambda: Limit(self.banks[car.claim.era], self.factory, car, seen).log10_ratios(),
        )


@dataclass(frozen=True)
class Numbered:
    """Cars whose parts bear the car's number."""

    world: World
    seed: int

    @property
    def maker(self) -> maker.Maker:
        """Who built them."""
        return maker.MAKERS[self.world.maker]

    @property
    def book(self) -> CodeBook:
        """The maker's book."""
        return self.maker.book

    def case(self, number: int) -> Case:
        """One case."""
        rng = _rng(self.world, self.seed, number)
        car = records.draw_car(self.maker, self.world, self.seed, rng)
        seen = numbered_visit.visit(self.world, car, rng)
        kind = car.story.kind
        return Case(
            number,
            stories.STORIES[kind],
            self.world.kinds[kind] / stories.DRAWN[kind],
            numbered_visit.document_of(car, seen, f"proving-{number:05}"),
            numbered_visit.truth_of(car),
            lambda: Exact(self.maker, self.world, car.claim, seen, self.seed).log10_ratios(),
        )


def write_cases(world: World, seed: int, count: int, folder: Path) -> None:
    """Write ordinary case folders, and the truth of all in `truth.json` beside them."""
    ground = ground_of(world, seed)
    truths = {}
    for number in range(count):
        case = ground.case(number)
        if isinstance(ground, Numbered) and ground.maker.book_name:
            case.document["book"] = str(maker.SMALL_BOOKS / ground.maker.book_name)
        home = folder / str(case.document["id"])
        home.mkdir(parents=True, exist_ok=True)
        (home / "case.json").write_text(json.dumps(case.document, indent=2) + "\n", "utf-8")
        truths[home.name] = {"kind": case.kind, "weight": case.weight, "truth": case.truth}
    told = {"world": world.name, "seed": seed, "cases": truths}
    (folder / "truth.json").write_text(json.dumps(told, indent=2) + "\n", "utf-8")
