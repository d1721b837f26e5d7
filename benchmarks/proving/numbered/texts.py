"""What stands on each mark of one car, field by field, as meant by whoever struck it."""

from dataclasses import replace

import numpy as np

from benchmarks.proving.numbered import maker as m
from benchmarks.proving.numbered.maker import FieldSpec, text_of_day
from benchmarks.proving.numbered.records import (
    COPIES_BODY,
    Car,
    Record,
    chosen,
    draw_other,
    drawn_day,
)
from benchmarks.proving.numbered.stories import (
    ALONE,
    BARE,
    COPIED,
    EXCHANGE,
    GROUND,
    THIRD,
    X,
    Y,
)

Rng = np.random.Generator
Texts = dict[str, list[str]]


def texts_of(car: Car, rng: Rng) -> Texts:
    """The fields of every mark and paper that bears characters."""
    found: Texts = {}
    stamp, tag = _stamp(car, rng), _tag(car, rng)
    for piece, way in car.ways.items():
        for mark, what, _ in way.places:
            if what == EXCHANGE:
                first, last = car.maker.exchanged or (0, 0)
                found["exchange"] = ["X", f"{int(rng.integers(first, last + 1)):05}"]
            elif what not in (BARE, GROUND):
                record = stamp if piece == "engine" else tag if piece == "tag" else None
                record = record or _on_place(car, piece, mark, what)
                found[mark] = _texts(car, mark, record, car.claim.built, what == ALONE, rng)
    cast, head = _castings(car, rng)
    found["cast"] = [text_of_day("casting", cast)]
    if "head" in car.maker.marks:
        found["head"] = [text_of_day("casting", head)]
    for paper, state in car.papers.items():
        if state != "none":
            record, built = _on_paper(car, paper, state, stamp, tag, rng)
            found[paper] = _texts(car, paper, record, built, False, rng)
    return found


def of_origin(car: Car, piece: str) -> Record:
    """The record of the car that a core came from; a new one has none of its own."""
    origin = car.ways[piece].origin
    if origin == "first":
        return car.mine
    return car.others[piece] if origin == "other" else car.thirds[piece]


def names_a_day(car: Car) -> bool:
    """Does the engine's stamp show a type and a day that a booklet could be made from?"""
    return car.ways["engine"].places[0][1] in (X, Y, THIRD, COPIED)


def _claimed_type(car: Car, rng: Rng) -> str:
    return chosen(car.maker.types.get(car.claim.values.get("package", ""), {"": 1.0}), rng)


def _stamp(car: Car, rng: Rng) -> Record:
    """What the engine's stamp shows, whoever struck it."""
    way, record = car.ways["engine"], of_origin(car, "engine")
    if way.places[0][1] == ALONE:
        return car.mine
    if way.places[0][1] != COPIED:
        return record
    record = replace(
        record, number=car.claim.number, type=_claimed_type(car, rng), serial=car.mine.serial
    )
    if way.origin in ("other", "third"):
        day = car.mine.done - drawn_day(m.ASSEMBLED, rng)
        record = replace(record, engine=day)
    return record


def _tag(car: Car, rng: Rng) -> Record | None:
    """What the body plate shows, where it is there."""
    if "tag" not in car.ways:
        return None
    _, what, _ = car.ways["tag"].places[0]
    if what != COPIED:
        return {X: car.mine, Y: car.others["tag"]}.get(what)
    offset, planned = m.PLANNED
    body = car.mine.body if rng.random() < COPIES_BODY else int(rng.choice(m.BODIES))
    day = car.mine.done + offset - drawn_day(planned, rng)
    claimed = car.claim.values["package"]
    return replace(car.mine, body=body, plan=day, package=claimed)


def _on_place(car: Car, piece: str, mark: str, what: str) -> Record:
    """The record that a place shows."""
    if what in (X, Y):
        return car.mine if what == X else car.others[piece]
    if what == THIRD:
        return car.thirds[mark if piece == "structure" else piece]
    record = car.mine if piece in ("structure", "plate") else of_origin(car, piece)
    values = car.claim.values
    return replace(
        record,
        number=car.claim.number,
        paint=values["paint"],
        trim=values.get("trim", ""),
    )


def _castings(car: Car, rng: Rng) -> tuple[int, int]:
    """The days on block and head; the head may be another's."""
    record = of_origin(car, "engine")
    cast, head = record.cast, record.head
    if car.ways["engine"].origin in ("new", "exchange"):
        cast, head = (car.mine.done + int(rng.integers(*m.NEW_DAYS)) for _ in range(2))
    elif rng.random() > m.HEAD_KEPT:
        head = draw_other(car.maker, car.seed, rng).head
    return cast, head


def _on_paper(
    car: Car, paper: str, state: str, stamp: Record, tag: Record | None, rng: Rng
) -> tuple[Record, int]:
    """The record that a paper shows, and the day of despatch that it goes by."""
    if state == X:
        return car.mine, car.claim.built
    if state == THIRD:
        record = car.thirds[paper]
        return record, record.done + drawn_day(m.STOOD, rng)
    values = car.claim.values
    made = replace(
        car.mine,
        paint=values["paint"],
        trim=values.get("trim", ""),
        type=_claimed_type(car, rng),
        engine=car.mine.done - drawn_day(m.ASSEMBLED, rng),
        body=tag.body if tag is not None else int(rng.choice(m.BODIES)),
    )
    if paper == "booklet" and names_a_day(car):
        made = replace(made, type=stamp.type, engine=stamp.engine, serial=stamp.serial)
    return made, car.claim.built


def _texts(car: Car, mark: str, record: Record, built: int, is_alone: bool, rng: Rng) -> list[str]:
    def text(field: FieldSpec) -> str:
        if field.always or field.says == "none":
            return field.always
        if is_alone and field.says not in ("number", "serial"):
            return "_" * field.width
        match field.says:
            case "number":
                return f"{record.number:06}"[6 - field.width :]
            case "year":
                place = int(np.searchsorted(car.maker.numbers, record.number))
                return str(car.maker.years[place])[2:]
            case "serial":
                return f"{record.serial:06}"
            case "body":
                return f"{record.body:05}"
            case "type":
                return record.type
            case "package" | "paint" | "trim" as item:
                return car.maker.values[item][getattr(record, item)]
            case "pad":
                return text_of_day("pad", record.engine)
            case "gearbox":
                return text_of_day("gearbox", record.gearbox)
            case "plan":
                return text_of_day("plan", record.plan)
            case "written":
                return text_of_day("written", built)
            case "delivered":
                return text_of_day("written", built + drawn_day(m.DELIVERED, rng))
            case _:
                return text_of_day(field.says, record.axle)

    return [text(field) for field in car.maker.marks[mark].fields]
