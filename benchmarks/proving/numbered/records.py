"""The records of cars whose parts bear their number: drawn, and as text on each mark."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.maker import Maker
from benchmarks.proving.numbered.stories import (
    DECEIT,
    DRAWN,
    STORIES,
    Story,
    Way,
    Ways,
    core_ways,
    engine_ways,
    not_as_claimed,
    paper_shares,
    plate_ways,
    structure_ways,
)
from benchmarks.proving.numbered.stories import PARTS_CAR as OF_PARTS
from benchmarks.proving.world import HONEST, World

Array = NDArray[np.float64]

COPIES_BODY = 0.4
"""Body plates made later that bear the car's true body number."""
SUITS_CODE = 0.9
"""Engines hunted to fit that have the claimed type too."""


@dataclass(frozen=True, slots=True)
class Record:
    """What the works struck on one car and its parts: days, codes and numbers."""

    number: int
    done: int
    package: str
    paint: str
    trim: str
    type: str
    engine: int
    cast: int
    head: int
    gearbox: int
    axle: int
    body: int
    plan: int
    serial: int = 0
    """The engine's own number, where this maker's engines have one."""


@dataclass(frozen=True, slots=True)
class Claim:
    """What is claimed: the number, the day of despatch, and the values of items."""

    number: int
    built: int
    values: dict[str, str]


@dataclass(frozen=True, slots=True)
class Car:
    """A claim and what is true: the story, how every piece came to be, whose papers there are;
    the claimed car's own record, and for every piece what the other car would have there
    (one number, the rest drawn apart) and what a third car would."""

    maker: Maker
    seed: int
    claim: Claim
    story: Story
    ways: dict[str, Way]
    papers: dict[str, str]
    mine: Record
    others: dict[str, Record]
    thirds: dict[str, Record]


def pieces_of(story: Story, maker: Maker) -> dict[str, Ways]:
    """By piece every way in which it may have come to be, with its share."""
    found = {"structure": structure_ways(story, maker), "engine": engine_ways(story, maker)}
    found |= {core: core_ways(story, core) for core in maker.cores if core != "engine"}
    found |= {plate: plate_ways(story, plate) for plate in ("plate", "tag") if plate in maker.marks}
    return found


def chosen[T](table: dict[T, float], rng: np.random.Generator) -> T:
    """One of these, by their shares."""
    shares = np.array(list(table.values()))
    return list(table)[int(rng.choice(len(shares), p=shares / shares.sum()))]


def drawn_day(pmf: Array, rng: np.random.Generator) -> int:
    """Days of a wait."""
    return int(rng.choice(len(pmf), p=pmf / pmf.sum()))


def draw_story(world: World, rng: np.random.Generator) -> Story:
    """A story; rare ones are drawn more often than they are."""
    kind = int(rng.choice(len(STORIES), p=DRAWN))
    skill = 1 + int(rng.choice(3, p=world.skill)) if kind in DECEIT else HONEST
    restored = int(rng.choice(3, p=world.restored))
    return Story(kind, skill, restored, bool(rng.random() < OF_PARTS[kind]))


def draw_record(
    maker: Maker, number: int, done: int, values: dict[str, str], rng: np.random.Generator
) -> Record:
    """The record of a car done on a day."""
    engine = done - drawn_day(m.ASSEMBLED, rng)
    types = maker.types.get(values.get("package", ""), {"": 1.0})
    offset, planned = m.PLANNED
    return Record(
        number,
        done,
        values.get("package", ""),
        values["paint"],
        values.get("trim", ""),
        chosen(types, rng),
        engine,
        engine - drawn_day(m.POURED, rng),
        engine - drawn_day(m.HEAD_POURED, rng),
        done - drawn_day(m.BOXED, rng),
        done - drawn_day(m.AXLED, rng),
        int(rng.choice(m.BODIES)),
        done + offset - drawn_day(planned, rng),
        int(rng.choice(m.SERIALS)) if maker.has_serials else 0,
    )


def draw_other(
    maker: Maker, seed: int, rng: np.random.Generator, place: int | None = None
) -> Record:
    """Any car of the maker, or the one at this place among its numbers."""
    place = int(rng.integers(len(maker.numbers))) if place is None else place
    done = int(maker.done(seed)[place]) + int(rng.choice(m.SHIFTS, p=m.SHIFT_SHARE))
    values = {item: _liked(maker, item, rng) for item in maker.values}
    return draw_record(maker, int(maker.numbers[place]), done, values, rng)


def _liked(maker: Maker, item: str, rng: np.random.Generator, but: str = "") -> str:
    table = dict(zip(maker.values[item], maker.liking[item], strict=True))
    return chosen({value: share for value, share in table.items() if value != but}, rng)


def draw_car(maker: Maker, world: World, seed: int, rng: np.random.Generator) -> Car:
    """One car: its story, its records, how each piece came to be."""
    story = draw_story(world, rng)
    place = int(rng.integers(len(maker.numbers)))
    done = int(maker.done(seed)[place]) + int(rng.choice(m.SHIFTS, p=m.SHIFT_SHARE))
    claimed = {item: _liked(maker, item, rng) for item in maker.values if item != "package"}
    claimed |= {"package": next(iter(maker.values["package"]))} if "package" in maker.values else {}
    differs = not_as_claimed(story)
    built = {
        item: _liked(maker, item, rng, value) if rng.random() < differs[item] else value
        for item, value in claimed.items()
    }
    mine = draw_record(maker, int(maker.numbers[place]), done, built, rng)
    claim = Claim(mine.number, done + drawn_day(m.STOOD, rng), claimed)
    ways = {piece: chosen(table, rng) for piece, table in pieces_of(story, maker).items()}
    papers = {paper: chosen(paper_shares(story, world, paper), rng) for paper in maker.papers}
    thirds = {piece: draw_other(maker, seed, rng) for piece in (*ways, *papers, *maker.structure)}
    if ways["engine"].origin == "suited":
        fits = claimed if rng.random() < SUITS_CODE else built | _plainer(maker, claimed)
        thirds["engine"] = draw_record(
            maker, thirds["engine"].number, done, {**claimed, **fits}, rng
        )
    place = int(rng.integers(len(maker.numbers)))
    others = {piece: draw_other(maker, seed, rng, place) for piece in ways}
    return Car(maker, seed, claim, story, ways, papers, mine, others, thirds)


def _plainer(maker: Maker, claimed: dict[str, str]) -> dict[str, str]:
    """The commonest package that is not claimed."""
    if "package" not in claimed:
        return {}
    return {"package": list(maker.values["package"])[-1]}
