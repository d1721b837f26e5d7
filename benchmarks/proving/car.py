"""One car of the world: the records of all cars that its parts came from, and the text
that stands on each of its marks."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.days import N_DAYS, codes, day_of, month_starts
from benchmarks.proving.factory import (
    CAST_BEFORE,
    CLOSED_BEFORE,
    COACHBUILDERS,
    UNSOLD,
    WAITS,
    Factory,
)
from benchmarks.proving.lives import (
    AS_CLAIMED,
    BEARER_DONOR,
    BODY_DONOR,
    CHANGED,
    CLAIMED,
    EXCHANGE,
    INVENTED,
    STRANGER,
    Era,
    Lives,
)
from benchmarks.proving.reading import BOTH, DIGITS, LETTERS

Array = NDArray[np.float64]

YEARS_OF: dict[Era, tuple[int, int]] = {
    "early": (1952, 1956),
    "tail": (1957, 1958),
    "unit": (1959, 1959),
}
TYPE_FIGURE = {"solent-saloon": "1", "solent-drophead": "2", "solent-sprint": "4"}
PLATE_TYPE = {"solent-saloon": "SA", "solent-drophead": "SD", "solent-sprint": "SP"}
PRINTED_TYPE = {"solent-saloon": "11", "solent-drophead": "20"}
RATIO_DIGITS = {"3-70": "370", "3-90": "390", "4-10": "410", "4-55": "455"}
RATIO_LETTER = {"3-70": "A", "3-90": "B", "4-10": "C", "4-55": "D"}
EXCHANGED = (2001, 2874)
EXCHANGE_DAYS = (day_of(1953), day_of(1966))
COLOUR_AND_TRIM = CHANGED.index("colour and trim")
SLIP = (0.03, 0.10, 0.03, 0.01)
"""By skill: plates and papers made later whose paint code is not the one claimed."""


@dataclass(frozen=True, slots=True)
class Claim:
    """What is claimed: the number and slice, the month of despatch, the colours."""

    era: Era
    slice: int
    series: int
    number: int
    built: int
    """The month of despatch, counted from January 1950."""
    paint: str
    trim: str
    ratio: str


@dataclass(frozen=True, slots=True)
class Record:
    """What the works struck on and wrote of one car."""

    slice: int
    number: int
    engine: int
    engine_kind: str
    cast: int
    gearbox: int
    gearbox_day: int
    axle: int
    axle_day: int
    body: int
    body_day: int
    paint: str
    trim: str
    ratio: str
    extras: str
    closed: int
    despatched: int


@dataclass(frozen=True, slots=True)
class Car:
    """A claim, the life behind it (the first of `life`), and all the records in it."""

    claim: Claim
    life: Lives
    records: dict[int, Record]

    def shows(self, column: str) -> int:
        """Whose record a column shows."""
        return int(self.life.shows[column][0])


def in_era(factory: Factory, era: Era) -> NDArray[np.bool_]:
    """Slices of an era, shape (slices,)."""
    first, last = YEARS_OF[era]
    return (factory.year >= first) & (factory.year <= last)


def donor_share(factory: Factory, claim: Claim, record: int) -> Array:
    """P(kin of a donor), shape (kin,): parts come most often from like cars."""
    year = factory.series[claim.series].year
    like = factory.kin_model == factory.series[claim.series].model
    close = like & (abs(factory.kin_year - year) <= 1)
    allowed = np.ones(len(like), dtype=bool)
    if record in (BEARER_DONOR, BODY_DONOR, STRANGER):
        first, last = YEARS_OF[claim.era]
        allowed = (factory.kin_year >= first) & (factory.kin_year <= last)
        allowed &= (factory.kin_year <= 1957) == (year <= 1957)
    found = np.zeros(len(like))
    for chosen, weight in ((close, 0.5), (like, 0.2), (allowed, 0.3)):
        shares = factory.kin_share * (chosen & allowed)
        found += weight * shares / shares.sum()
    return found


def claimed_share(factory: Factory, claim: Claim) -> Array:
    """P(slice of the claimed car | its number, coachbuilder and month of despatch); (slices,)."""
    series = factory.series[claim.series]
    by_month = factory.month_of_number[claim.series][claim.number - series.first]
    coachbuilder = factory.slices[claim.slice, 1]
    found = np.zeros(len(factory.slices))
    for z, (k, c, month) in enumerate(factory.slices):
        stood = claim.built - factory.month[z]
        if k == claim.series and c == coachbuilder and 0 <= stood < len(UNSOLD):
            found[z] = by_month[month] * UNSOLD[stood]
    whole: Array = found / found.sum()
    return whole


def engine_kind(model: str) -> str:
    """The engine that a model had."""
    return "two-litre" if model == "solent-sprint" else "standard"


def draw_claim(factory: Factory, era: Era, rng: np.random.Generator) -> tuple[Claim, int]:
    """A claimed car, and the day it was completed. Costly models are claimed more often."""
    costly = np.where(
        factory.model == "solent-sprint",
        12.0,
        np.where(factory.model == "solent-drophead", 3.0, 1.0),
    )
    shares = factory.share * in_era(factory, era) * costly
    z = int(rng.choice(len(shares), p=shares / shares.sum()))
    number = _number(factory, z, rng)
    completed = int(rng.choice(N_DAYS, p=factory.completed[z]))
    k = int(factory.slices[z, 0])
    series = factory.series[k]
    built = int(factory.month[z]) + int(rng.choice(len(UNSOLD), p=UNSOLD / UNSOLD.sum()))
    pairs, pair_shares = factory.colours(series.model, series.year)
    paint, trim = pairs[int(rng.choice(len(pairs), p=pair_shares))]
    ratios = factory.ratios(series.model, series.year)
    ratio = str(rng.choice(list(ratios), p=list(ratios.values())))
    return Claim(era, z, k, number, built, paint, trim, ratio), completed


def _number(factory: Factory, z: int, rng: np.random.Generator) -> int:
    k, _, month = factory.slices[z]
    by_number = factory.month_of_number[k][:, month]
    return int(factory.series[k].first) + int(
        rng.choice(len(by_number), p=by_number / by_number.sum())
    )


def draw_record(
    factory: Factory, z: int, days: tuple[int, ...], number: int, rng: np.random.Generator
) -> Record:
    """What the works struck on a car of this slice; `days` of completion count for its
    engine, gearbox, axle, body, and card, in this order."""
    k = int(factory.slices[z, 0])
    model, year = factory.series[k].model, factory.series[k].year
    parts = ("engine", "gearbox", "axle", "body")
    engine_day, gearbox_day, axle_day, body_day = (
        day - int(rng.choice(300, p=WAITS[part] / WAITS[part].sum()))
        for part, day in zip(parts, days[:4], strict=True)
    )
    cast = engine_day - int(rng.choice(len(CAST_BEFORE), p=CAST_BEFORE))
    bodies = factory.body_share[_slice_of(factory, z, days[3])]
    pairs, shares = factory.colours(model, year)
    paint, trim = pairs[int(rng.choice(len(pairs), p=shares))]
    ratios, extras = factory.ratios(model, year), factory.extras(model, year)
    month = int(np.searchsorted(month_starts(), days[4], side="right") - 1)
    month += int(rng.choice(len(UNSOLD), p=UNSOLD / UNSOLD.sum()))
    kind = engine_kind(model)
    return Record(
        z, number,
        factory.number_on("engine_number", kind, engine_day, rng), kind, cast,
        factory.number_on("gearbox_number", "", gearbox_day, rng), gearbox_day,
        factory.number_on("axle_number", "", axle_day, rng), axle_day,
        int(rng.choice(10000, p=bodies / bodies.sum())) if bodies.any() else 0, body_day,
        paint, trim,
        str(rng.choice(list(ratios), p=list(ratios.values()))),
        str(rng.choice(list(extras), p=list(extras.values()))),
        days[4] - int(rng.choice(len(CLOSED_BEFORE), p=CLOSED_BEFORE)),
        day_in(min(month, len(month_starts()) - 2), rng),
    )  # fmt: skip


def _slice_of(factory: Factory, z: int, day: int) -> int:
    """The slice of the same kin whose month holds a day."""
    month = int(np.searchsorted(month_starts(), day, side="right") - 1)
    same = (factory.slices[:, :2] == factory.slices[z, :2]).all(axis=1) & (factory.month == month)
    return int(np.flatnonzero(same)[0])


def day_in(month: int, rng: np.random.Generator) -> int:
    """A day of a month counted from January 1950."""
    starts = month_starts()
    return int(rng.integers(starts[month], starts[month + 1]))


def draw_car(factory: Factory, life: Lives, rng: np.random.Generator) -> Car:
    """The records behind one life: the claimed car's, its donors', what was invented."""
    claim, completed = draw_claim(factory, life.era, rng)
    mine = draw_record(factory, claim.slice, (completed,) * 5, claim.number, rng)
    changed = int(life.changed[0])
    built = _built(factory, claim, changed, rng)
    mine = _with(mine, *built, day_in(claim.built, rng))
    records = {CLAIMED: mine}
    for record in range(1, 6):
        records[record] = _stranger(factory, claim, record, rng)
    records[EXCHANGE] = _exchange(records[BEARER_DONOR], rng)
    made_up = _stranger(factory, claim, CLAIMED, rng)
    _, numbers = factory.line("engine_number", engine_kind(factory.series[claim.series].model))
    records[INVENTED] = _engine(made_up, int(rng.choice(numbers)), mine.engine_kind, mine.cast)
    return Car(claim, life, records)


def _stranger(factory: Factory, claim: Claim, record: int, rng: np.random.Generator) -> Record:
    """A donor's record. Its parts are drawn for its series, each for a month of its own:
    nothing is known of the donor but what it has in common with others of its year."""
    shares = donor_share(factory, claim, record)
    kin = int(rng.choice(len(shares), p=shares))
    months = factory.month_share[kin]
    drawn = rng.choice(len(months), 6, p=months)
    days = tuple(int(rng.choice(N_DAYS, p=factory.completed[z])) for z in drawn[:5])
    z = int(drawn[5])
    return draw_record(factory, z, days, _number(factory, z, rng), rng)


def another_record(factory: Factory, claim: Claim, rng: np.random.Generator) -> Record:
    """The record of a car that has nothing to do with this one."""
    return _stranger(factory, claim, STRANGER, rng)


def _built(
    factory: Factory, claim: Claim, changed: int, rng: np.random.Generator
) -> tuple[str, str, str]:
    """Paint, trim and axle ratio as built, given what is claimed and what differs."""
    found = [claim.paint, claim.trim, claim.ratio]
    if changed == COLOUR_AND_TRIM:
        pairs, pair_shares = other_pairs(factory, claim)
        found[:2] = pairs[int(rng.choice(len(pairs), p=pair_shares))]
    elif changed:
        names, shares = others(factory, claim, changed)
        found[changed - 1] = str(rng.choice(names, p=shares))
    return found[0], found[1], found[2]


def other_pairs(factory: Factory, claim: Claim) -> tuple[list[tuple[str, str]], Array]:
    """Paints and trims that differ both from what is claimed, and their shares."""
    series = factory.series[claim.series]
    pairs, shares = factory.colours(series.model, series.year)
    left = [
        (pair, share)
        for pair, share in zip(pairs, shares, strict=True)
        if pair[0] != claim.paint and pair[1] != claim.trim
    ]
    whole = np.array([share for _, share in left])
    return [pair for pair, _ in left], whole / whole.sum()


def others(factory: Factory, claim: Claim, changed: int) -> tuple[list[str], Array]:
    """What else the changed item can have been, and the shares."""
    series = factory.series[claim.series]
    if changed == 3:
        shares = dict(factory.ratios(series.model, series.year))
        claimed = claim.ratio
    else:
        pairs, pair_shares = factory.colours(series.model, series.year)
        shares = {}
        for pair, share in zip(pairs, pair_shares, strict=True):
            shares[pair[changed - 1]] = shares.get(pair[changed - 1], 0.0) + share
        claimed = claim.paint if changed == 1 else claim.trim
    left = {name: share for name, share in shares.items() if name != claimed}
    total = sum(left.values())
    return list(left), np.array([share / total for share in left.values()])


def _with(record: Record, paint: str, trim: str, ratio: str, despatched: int) -> Record:
    return replace(record, paint=paint, trim=trim, ratio=ratio, despatched=despatched)


def _engine(record: Record, engine: int, kind: str, cast: int) -> Record:
    return replace(record, engine=engine, engine_kind=kind, cast=cast)


def _exchange(record: Record, rng: np.random.Generator) -> Record:
    cast = int(rng.integers(EXCHANGE_DAYS[0] - 40, EXCHANGE_DAYS[1] - 40))
    return _engine(record, int(rng.integers(EXCHANGED[0], EXCHANGED[1] + 1)), "exchange", cast)


# -------------------------------------------------------------- what stands on a mark


@dataclass(frozen=True, slots=True)
class FieldText:
    """One field of a mark as meant: its name, text and alphabet."""

    name: str
    text: str
    alphabet: str


def _text(form: str, day: int) -> str:
    return "".join(codes(form)[min(max(day, 0), N_DAYS - 1)])


def field_texts(
    factory: Factory, car: Car, column: str, rng: np.random.Generator
) -> list[FieldText]:
    """The fields of a mark as meant, in the order in which they stand."""
    whose = car.shows(column)
    if whose == STRANGER:
        record = another_record(factory, car.claim, rng)
    else:
        record = car.records[CLAIMED if whose == AS_CLAIMED else whose]
    made = whose == AS_CLAIMED
    series = factory.series[int(factory.slices[record.slice, 0])]
    claim = car.claim
    paint = claim.paint if made else record.paint
    trim = claim.trim if made else record.trim
    ratio = claim.ratio if made else record.ratio
    paint_code = factory.code_for("paints", paint, series.year)
    if made and rng.random() < SLIP[int(car.life.skill[0])]:
        rows = [row.code for row in factory.book.table("paints")]
        paint_code = str(rng.choice(rows))
    extras = record.extras
    if made:
        shares = factory.extras(series.model, series.year)
        extras = str(rng.choice(list(shares), p=list(shares.values())))
    letter = COACHBUILDERS[int(factory.slices[record.slice, 1])][0].upper()
    figure = "6" if claim.era == "unit" else TYPE_FIGURE[series.model]

    def of(sub: str, name: str) -> int:
        other = car.shows(f"{column}_{sub}")
        value: int = getattr(record if other == STRANGER else car.records[other], name)
        return value

    number = FieldText("chassis", f"{record.number:06}", DIGITS)
    if column in ("wing", "seat", "bulk"):
        first = FieldText("letter", letter, LETTERS)
        if claim.era == "early":
            return [first, FieldText("body", f"{record.body:04}", DIGITS)]
        return [
            first,
            FieldText("chassis", f"{record.number:06}"[2 if claim.era == "tail" else 0 :], DIGITS),
        ]
    match column:
        case "frame":
            return [FieldText("figure", figure, DIGITS), number]
        case "week":
            return [FieldText("week", _text("body", record.body_day), "ABCDEFGHIJKL" + DIGITS)]
        case "block":
            kind = {"standard": "S", "two-litre": "L", "exchange": "X"}[record.engine_kind]
            return [
                FieldText("series", kind, LETTERS),
                FieldText("engine", f"{record.engine:05}", DIGITS),
            ]
        case "cast":
            return [FieldText("cast", _text("casting", record.cast), BOTH)]
        case "gear":
            return [
                FieldText("gear", f"{record.gearbox:05}", DIGITS),
                FieldText("gear_day", _text("gearbox", record.gearbox_day), DIGITS),
            ]
        case "axle":
            return [
                FieldText("axle", f"{record.axle:05}", DIGITS),
                FieldText("axle_day", _text("axle", record.axle_day), DIGITS),
            ]
        case "plate":
            engine = FieldText("engine", f"{of('engine', 'engine'):05}", DIGITS)
            colours = [
                FieldText("paint", paint_code, DIGITS),
                FieldText("trim", factory.code_for("trims", trim, series.year), BOTH),
            ]
            if series.year <= 1957:
                return [
                    FieldText("type", PLATE_TYPE[series.model], LETTERS),
                    number,
                    engine,
                    *colours,
                    FieldText("ratio", RATIO_DIGITS[ratio], DIGITS),
                    FieldText("extras", extras, LETTERS),
                ]
            printed = "12" if claim.era == "unit" else PRINTED_TYPE[series.model]
            return [
                number,
                FieldText("type", printed, DIGITS),
                FieldText("year", str(series.year)[2:], DIGITS),
                FieldText("letter", letter, LETTERS),
                engine,
                FieldText("ratio", RATIO_LETTER[ratio], LETTERS),
                *colours,
                FieldText("extras", extras, LETTERS),
            ]
    engine = FieldText("engine", f"{of('engine', 'engine'):05}", DIGITS)
    body = FieldText("body", f"{of('body', 'body'):04}" if claim.era == "early" else "", DIGITS)
    paint_field = FieldText("paint", paint_code, DIGITS)
    written = record.despatched if column == "ledger" else record.closed
    if made:
        written = day_in(claim.built, rng)
    dated = FieldText("dated", _text("written", written), DIGITS)
    opening = [number, FieldText("figure", figure, DIGITS)]
    coachbuilder = FieldText("letter", letter, LETTERS)
    if column == "ledger":
        return [*opening, engine, coachbuilder, body, paint_field, dated]
    return [
        *opening, coachbuilder, body, engine,
        FieldText("gear", f"{of('gear', 'gearbox'):05}", DIGITS),
        FieldText("axle", f"{of('axle', 'axle'):05}", DIGITS),
        FieldText("ratio", RATIO_LETTER[ratio], LETTERS), paint_field,
        FieldText("trim", factory.code_for("trims", trim, series.year), BOTH), dated,
    ]  # fmt: skip
