"""What an examiner saw of a car whose parts bear its number, and the case document of it."""

from dataclasses import dataclass

import numpy as np

from benchmarks.proving.days import as_date
from benchmarks.proving.lives import LET_IN, PART
from benchmarks.proving.numbered.maker import Maker
from benchmarks.proving.numbered.records import Car
from benchmarks.proving.numbered.stories import BARE, EXCHANGE, GROUND, OWN, THIRD, X, Y
from benchmarks.proving.numbered.texts import texts_of
from benchmarks.proving.reading import CONDITIONS, as_typed, read_places, shares
from benchmarks.proving.visit import (
    CONDITION_OF_WEAR,
    GONE,
    LOOKS,
    NOT_LOOKED_FOR,
    PAPER_CONDITION,
    TELLS,
    TELLS_BY_PHOTOGRAPH,
    WEAR,
    SeenField,
    SeenMark,
    look_shares,
)
from benchmarks.proving.world import World

Rng = np.random.Generator

GROUND_LOOKS = np.array([0.05, 0.15, 0.80])
"""A place that was ground: factory, doubtful, disturbed."""
RUN = (0.80, 0.85, 0.70, 0.40)
"""By skill: pieces let in with a run of weld round them that can be seen."""


@dataclass(frozen=True, slots=True)
class Sighting:
    """What was seen of each mark: characters, bare metal, or metal from which they were taken;
    how places looked, by photograph or not; what lies round a number."""

    marks: dict[str, SeenMark]
    absent: frozenset[str]
    ground: frozenset[str]
    looks: dict[str, tuple[int, bool]]
    seams: dict[str, int]
    states: dict[str, str]


def looks_of(world: World, what: str, state: int, skill: int, restored: int) -> np.ndarray:
    """Shares of factory, doubtful, disturbed as a place is; shape (3,)."""
    if what == GROUND:
        return GROUND_LOOKS
    return look_shares(world, state, skill, restored)


def seam_shares(state: int, skill: int) -> np.ndarray:
    """Shares of sound sheet, plug welds, a run of weld round the number; shape (3,)."""
    if state == LET_IN:
        return np.array([0.9 - RUN[skill], 0.1, RUN[skill]])
    return np.array([0.32, 0.60, 0.08]) if state == PART else np.array([0.935, 0.06, 0.005])


def visit(world: World, car: Car, rng: Rng) -> Sighting:
    """What one or two examiners saw."""
    maker, texts = car.maker, texts_of(car, rng)
    wear = int(rng.choice(3, p=WEAR))
    lift = rng.random() >= world.no_lift
    readers = 2 if rng.random() < world.second_reader else 1
    marks: dict[str, SeenMark] = {}
    looks: dict[str, tuple[int, bool]] = {}
    states: dict[str, str] = {}
    seams: dict[str, int] = {}
    absent, ground = set(), set()
    places = {place[0]: place for way in car.ways.values() for place in way.places}
    for mark, spec in maker.marks.items():
        if mark == "exchange" or (not spec.site and mark not in texts):
            continue
        photograph = bool(spec.site) and rng.random() < world.photograph
        if spec.site:
            states[spec.site] = _state(spec.underneath, lift, rng)
            if states[spec.site] != "read":
                continue
        condition = int(rng.choice(3, p=CONDITION_OF_WEAR[wear] if spec.site else PAPER_CONDITION))
        how = shares(condition, photograph, world.misread)
        _, what, state = places.get(mark, (mark, X, 0))
        shown = "exchange" if what == EXCHANGE else mark
        if what == GROUND:
            ground.add(mark)
        elif shown not in texts or (spec.site and rng.random() < GONE):
            absent.add(mark)
            states[spec.site] = "absent"
            continue
        else:
            marks[shown] = _read(maker, shown, texts[shown], how, condition, photograph,
                                 readers, rng)  # fmt: skip
        if mark in places:
            tells = TELLS_BY_PHOTOGRAPH if photograph else TELLS
            true = looks_of(world, what, state, car.story.skill, car.story.restored)
            looks[mark] = int(rng.choice(3, p=tells[int(rng.choice(3, p=true))])), photograph
        if spec.seam:
            seams[mark] = int(rng.choice(3, p=seam_shares(state, car.story.skill)))
    return Sighting(marks, frozenset(absent), frozenset(ground), looks, seams, states)


def _state(underneath: bool, lift: bool, rng: Rng) -> str:
    idle = rng.random() < NOT_LOOKED_FOR
    if underneath and not lift:
        return "not accessible"
    return "not looked for" if idle else "read"


def _read(
    maker: Maker,
    mark: str,
    texts: list[str],
    how: tuple[float, float, float],
    condition: int,
    photograph: bool,
    readers: int,
    rng: Rng,
) -> SeenMark:
    spec = maker.marks[mark]
    fields = tuple(
        SeenField(
            field.says,
            field.alphabet,
            tuple(
                ("_",) * readers if each == "_" else
                read_places(each, field.alphabet, how, spec.by_hand, readers, rng)[0]
                for each in text
            ),
        )
        for field, text in zip(spec.fields, texts, strict=True)
    )  # fmt: skip
    return SeenMark(fields, how, spec.by_hand, CONDITIONS[condition], photograph, readers)


def document_of(car: Car, seen: Sighting, name: str) -> dict[str, object]:
    """The case document, as it would be written to case.json."""
    maker, claim = car.maker, car.claim
    place = int(np.searchsorted(maker.numbers, claim.number))
    items = {
        maker.number_item: f"{claim.number:0{len(str(maker.series[0][0]))}}",
        "model_year": str(maker.years[place]),
        **maker.claims,
        **claim.values,
    }
    if "package" in claim.values:
        items["engine_type"] = f"{claim.values['package']}-engine"
    return {
        "format": "witnessmark-case", "format_version": 2, "id": name, "book": maker.book.id,
        "title": "A car of the proving ground",
        "claim": {"items": items, "built": as_date(claim.built).isoformat()},
        "sites": [{"site": site, "state": state} for site, state in seen.states.items()],
        "readings": list(_readings(maker, seen)),
        "looks": list(_looks(maker, seen)),
        "papers": [
            {
                "mark": maker.marks[paper].id,
                "state": "lost" if paper not in seen.marks
                else "copy" if paper == "ledger" else "in hand",
            }
            for paper in maker.papers
        ],
    }  # fmt: skip


def _readings(maker: Maker, seen: Sighting):  # type: ignore[no-untyped-def]
    for mark, read in seen.marks.items():
        spec = maker.marks[mark]
        between = "|" if mark in ("plate", "tag", *maker.papers) else " "
        how = "photograph" if read.photograph else "copy" if mark == "ledger" else "in person"
        for reader in range(read.readers):
            text = between.join(
                "".join(as_typed(cell[reader]) for cell in field.cells) or "_"
                for field in read.fields
            )
            yield {
                "mark": spec.id, "text": text, "legibility": read.condition, "seen": how,
                "by": ("first reader", "second reader")[reader],
            }  # fmt: skip
    for mark in seen.ground:
        spec = maker.marks[mark]
        text = " ".join("~" * field.width for field in spec.fields)
        yield {"mark": spec.id, "text": text, "legibility": "clear", "seen": "in person",
               "by": "first reader"}  # fmt: skip


def _looks(maker: Maker, seen: Sighting):  # type: ignore[no-untyped-def]
    for mark, (kind, photograph) in seen.looks.items():
        how = "photograph" if photograph else "in person"
        yield {"site": maker.marks[mark].site, "outcome": LOOKS[kind], "seen": how}
    for mark, kind in seen.seams.items():
        spec = maker.marks[mark]
        outcome = (spec.seam, "plug welds", "run of weld round the number")[kind]
        yield {"site": spec.site, "feature": "seam", "outcome": outcome}


def truth_of(car: Car) -> dict[str, bool | None]:
    """What is true of each question."""
    mine, claimed = car.mine, car.claim.values
    found: dict[str, bool | None] = {"identity": car.story.kind in OWN}
    found |= {core: car.ways[core].origin == "first" for core in car.maker.cores}
    found |= {item: getattr(mine, item) == value for item, value in claimed.items()}
    if "package" in claimed:
        found["engine_type"] = found["package"]
    for plate in ("plate", "tag"):
        if plate in car.ways:
            what = car.ways[plate].places[0][1]
            found[plate] = what == X if what != BARE else None
    for paper, state in car.papers.items():
        found[paper] = state == X if state != "none" else None
    found["stamp of engine"] = _stamped(car)
    return found


def _stamped(car: Car) -> bool | None:
    """Was the claimed number on the engine struck at the works for this car, or later?"""
    _, what, state = car.ways["engine"].places[0]
    if what in (Y, THIRD, GROUND, BARE, EXCHANGE):
        return None
    return what == X and state == 0
