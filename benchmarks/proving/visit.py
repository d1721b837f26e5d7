"""The visit: what one or two examiners saw of a car, as a casefile and place by place."""

from dataclasses import dataclass, field

import numpy as np

from benchmarks.proving.car import Car, field_texts
from benchmarks.proving.days import as_date, month_starts
from benchmarks.proving.factory import BOOK, COACHBUILDERS, Factory
from benchmarks.proving.lives import BLANK, ITEMS, LET_IN, MADE, NOTHING, PART, REFITTED, SINCE, Era
from benchmarks.proving.reading import CONDITIONS, as_typed, read_places, shares
from benchmarks.proving.world import World

Cells = tuple[tuple[str, ...], ...]

LOOKS = ("factory", "doubtful", "disturbed")
SITES = {
    "plate": "scuttle", "frame": "frame_rail", "wing": "inner_wing", "seat": "seat_pan",
    "bulk": "bulkhead", "week": "bulkhead", "block": "engine_deck", "cast": "engine_side",
    "gear": "gearbox_case", "axle": "axle_case",
}  # fmt: skip
UNDERNEATH = ("frame", "cast", "gear", "axle")
NOT_LOOKED_FOR = 0.12
SEAT_SHUT = 0.15
GONE = 0.01
"""Marks that were struck and of which no trace is left."""
CONDITION_OF_WEAR = ((0.85, 0.13, 0.02), (0.55, 0.35, 0.10), (0.25, 0.40, 0.35))
WEAR = (0.5, 0.35, 0.15)
PAPER_CONDITION = (0.85, 0.13, 0.02)
TELLS = np.array([[0.93, 0.05, 0.02], [0.25, 0.65, 0.10], [0.05, 0.15, 0.80]])
"""What a place is called, by what it is: factory, doubtful, disturbed."""
TELLS_BY_PHOTOGRAPH = np.array([[0.93, 0.06, 0.01], [0.50, 0.45, 0.05], [0.25, 0.25, 0.50]])
HAND = ("frame", "wing", "seat", "bulk", "block", "gear", "axle", "plate")
BY_ERA: dict[Era, str] = {
    "early": "{}_body_number",
    "tail": "{}_chassis_tail",
    "unit": "shell_{}_number",
}
LONG = {"wing": "wing", "seat": "seat", "bulk": "bulkhead"}
FIXED_MARKS = {
    "frame": "frame_number",
    "week": "body_week",
    "block": "engine_number",
    "cast": "engine_casting",
    "gear": "gearbox_stamp",
    "axle": "axle_stamp",
    "ledger": "despatch_ledger",
    "card": "build_card",
}


@dataclass(frozen=True, slots=True)
class SeenField:
    """One field as read: the cells of each place, one for each reader."""

    name: str
    alphabet: str
    cells: Cells


@dataclass(frozen=True, slots=True)
class SeenMark:
    """One mark as read."""

    fields: tuple[SeenField, ...]
    how: tuple[float, float, float]
    by_hand: bool
    condition: str
    photograph: bool
    readers: int


@dataclass(frozen=True, slots=True)
class Sighting:
    """All that was seen of a car: marks read, places found bare, how places looked."""

    marks: dict[str, SeenMark]
    absent: frozenset[str]
    looks: dict[str, tuple[int, bool]]
    states: dict[str, str]
    unlooked: frozenset[str] = field(default_factory=frozenset)


def true_look(
    world: World, state: int, skill: int, restored: int, made_openly: bool
) -> tuple[float, float]:
    """Shares of places that look doubtful and disturbed, of this state."""
    if state == SINCE:
        return world.look_since[restored]
    if state == REFITTED:
        return (0.40, 0.15) if restored == 2 else (0.35, 0.10)
    if state == PART:
        return (0.30, 0.15)
    if state == BLANK:
        return (0.30, 0.10)
    if made_openly:
        return (0.35, 0.45) if state == MADE else (0.35, 0.35)
    doubtful, disturbed = world.look_made[skill]
    return (doubtful, 0.9 * disturbed) if state == LET_IN else (doubtful, disturbed)


def look_shares(world: World, state: int, skill: int, restored: int) -> np.ndarray:
    """Shares of factory, doubtful, disturbed as the place is; shape (3,)."""
    doubtful, disturbed = true_look(world, state, skill, restored, skill == 0)
    return np.array([1.0 - doubtful - disturbed, doubtful, disturbed])


def columns_of(factory: Factory, car: Car) -> list[str]:
    """The marks that a car as claimed has."""
    found = ["plate", "wing", "seat", "block", "cast", "gear", "axle"]
    if car.claim.era != "unit":
        found.append("frame")
    if factory.slices[car.claim.slice, 1] == 1:
        found += ["bulk"] if car.claim.era == "unit" else ["bulk", "week"]
    return found


def _is_struck(factory: Factory, car: Car, column: str) -> bool:
    """Did the works strike this mark on the part that is there?"""
    whose = car.shows(column)
    if whose == NOTHING:
        return False
    if column in ("bulk", "week") and whose in car.records:
        return bool(factory.slices[car.records[whose].slice, 1] == 1)
    return True


def visit(world: World, factory: Factory, car: Car, rng: np.random.Generator) -> Sighting:
    """What was seen."""
    wear = int(rng.choice(3, p=WEAR))
    lift = rng.random() >= world.no_lift
    readers = 2 if rng.random() < world.second_reader else 1
    marks: dict[str, SeenMark] = {}
    absent: set[str] = set()
    looks: dict[str, tuple[int, bool]] = {}
    states: dict[str, str] = {}
    unlooked: set[str] = set()
    columns = columns_of(factory, car)
    for column in [*columns, "ledger", "card"]:
        is_paper = column in ("ledger", "card")
        if is_paper and car.shows(column) == NOTHING:
            continue
        by_photograph = not is_paper and rng.random() < world.photograph
        seen = _mark(world, factory, car, column, wear, readers, by_photograph, rng)
        gone = rng.random() < GONE
        look = (
            None
            if column in ("week", *("ledger", "card"))
            else _look(world, car, column, by_photograph, rng)
        )
        if not is_paper and column != "week":
            states[SITES[column]] = _state(column, lift, rng)
        state = "read" if is_paper else states[SITES[column]]
        if state != "read":
            unlooked.add(column)
            continue
        if is_paper or (_is_struck(factory, car, column) and not gone):
            marks[column] = seen if seen is not None else _never()
        else:
            absent.add(column)
            if column != "week":
                states[SITES[column]] = "absent"
        if look is not None and column not in absent:
            looks[column] = look
    return Sighting(marks, frozenset(absent), looks, states, frozenset(unlooked))


def _never() -> SeenMark:
    raise AssertionError("a mark that is there has a text")


def _state(column: str, lift: bool, rng: np.random.Generator) -> str:
    idle, shut = rng.random() < NOT_LOOKED_FOR, rng.random() < SEAT_SHUT
    if (column in UNDERNEATH and not lift) or (column == "seat" and shut):
        return "not accessible"
    return "not looked for" if idle else "read"


def _mark(
    world: World,
    factory: Factory,
    car: Car,
    column: str,
    wear: int,
    readers: int,
    photograph: bool,
    rng: np.random.Generator,
) -> SeenMark | None:
    is_paper = column in ("ledger", "card")
    conditions = PAPER_CONDITION if is_paper else CONDITION_OF_WEAR[wear]
    condition = int(rng.choice(3, p=conditions))
    how = shares(condition, photograph, world.misread)
    by_hand = column in HAND and not (
        column == "plate" and factory.series[car.claim.series].year >= 1958
    )
    if not _is_struck(factory, car, column):
        return None
    texts = field_texts(factory, car, column, rng)
    fields = tuple(
        SeenField(
            t.name, t.alphabet, tuple(read_places(t.text, t.alphabet, how, by_hand, readers, rng))
        )
        for t in texts
    )
    return SeenMark(fields, how, by_hand, CONDITIONS[condition], photograph, readers)


def _look(
    world: World, car: Car, column: str, photograph: bool, rng: np.random.Generator
) -> tuple[int, bool]:
    life = car.life
    true = look_shares(world, int(life.place[column][0]), int(life.skill[0]), int(life.restored[0]))
    tells = TELLS_BY_PHOTOGRAPH if photograph else TELLS
    return int(rng.choice(3, p=tells[int(rng.choice(3, p=true))])), photograph


# ------------------------------------------------------------------------ the casefile


def mark_id(factory: Factory, car: Car, column: str) -> str:
    """The book's name of a mark."""
    if column in LONG:
        return BY_ERA[car.claim.era].format(LONG[column])
    if column == "plate":
        return "plate_brass" if factory.series[car.claim.series].year <= 1957 else "plate_aluminium"
    return FIXED_MARKS[column]


def typed(column: str, mark: SeenMark, reader: int) -> str:
    """One reader's transcript in the notation of a reading."""
    texts = ["".join(as_typed(cell[reader]) for cell in f.cells) or "_" for f in mark.fields]
    return ("|" if column in ("plate", "ledger", "card") else " ").join(texts)


def claim_items(factory: Factory, car: Car) -> dict[str, str]:
    """The items that the claim states."""
    claim = car.claim
    series = factory.series[claim.series]
    return {
        "chassis_number": f"{claim.number:06}",
        "model": series.model,
        "model_year": str(series.year),
        "works": "tarvane",
        "body_works": COACHBUILDERS[int(factory.slices[claim.slice, 1])],
        "paint": claim.paint,
        "trim": claim.trim,
        "axle_ratio": claim.ratio,
    }


def case_document(factory: Factory, car: Car, seen: Sighting, name: str) -> dict[str, object]:
    """The case document, as it would be written to case.json."""
    built = as_date(int(month_starts()[car.claim.built]))
    readings = []
    for column, mark in seen.marks.items():
        how = "photograph" if mark.photograph else "copy" if column == "ledger" else "in person"
        for reader in range(mark.readers):
            readings.append(
                {
                    "mark": mark_id(factory, car, column),
                    "text": typed(column, mark, reader),
                    "legibility": mark.condition,
                    "seen": how,
                    "by": ("first reader", "second reader")[reader],
                }
            )
    looks = [
        {
            "site": SITES[column],
            "outcome": LOOKS[kind],
            "seen": "photograph" if photo else "in person",
        }
        for column, (kind, photo) in seen.looks.items()
    ]
    papers = [
        {
            "mark": FIXED_MARKS[paper],
            "state": ("copy" if paper == "ledger" else "in hand")
            if paper in seen.marks
            else "lost",
        }
        for paper in ("ledger", "card")
    ]
    return {
        "format": "witnessmark-case", "format_version": 2, "id": name, "book": BOOK,
        "title": "A car of the proving ground",
        "claim": {"items": claim_items(factory, car), "built": f"{built:%Y-%m}"},
        "sites": [{"site": site, "state": state} for site, state in seen.states.items()],
        "readings": readings, "looks": looks, "papers": papers,
    }  # fmt: skip


def truth_of(car: Car) -> dict[str, bool | None]:
    """What is true of each question; None where it is not asked of this car."""
    life = car.life
    plate = car.shows("plate")
    return {
        "identity": bool(life.kind[0] < 3),
        **{item: int(life.changed[0]) in right for item, right in ITEMS.items()},
        "engine": bool(life.engine[0] == 0),
        "gearbox": bool(life.gearbox[0] == 0),
        "axle": bool(life.axle[0] == 0),
        "body": bool(life.body[0] == 0) if life.era != "unit" else None,
        "plate": bool(plate == 0) if plate != NOTHING else None,
        "ledger": bool(car.shows("ledger") == 0) if car.shows("ledger") != NOTHING else None,
        "card": bool(car.shows("card") == 0) if car.shows("card") != NOTHING else None,
    }
