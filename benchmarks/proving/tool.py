"""The tool at work on a case of the proving ground, and what a plain reader counts in it."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.factory import demo_book
from witnessmark.agreement import RULES, compare
from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.casefile import case_from
from witnessmark.codebook import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination.examine import car_marks
from witnessmark.weighing import Asked, Standing, answer, capped, steadiness
from witnessmark.weighing import Weighed as Weighing
from witnessmark.weighing.rates import each_with, rate_rows, rate_values

Array = NDArray[np.float64]

FACTOR = 3.0
"""How wrong every assumed row may be in a trial, in odds, either way."""

SHEETS = {
    "plate_brass": "plate", "plate_aluminium": "plate", "number_plate": "plate",
    "body_plate": "tag", "despatch_ledger": "ledger", "build_card": "card",
    "owner_booklet": "booklet", "certificate": "booklet", "build_sheet": "sheet",
}  # fmt: skip
"""Plates and papers by the names of this ground."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the tool says of a case, and what others would count in it.

    `ratios` are log10 LRs capped as in a report; `nearer` the weaker of LR and the band's end
    nearer 1, where bands were drawn; `silent` the items that cannot be established.
    `all_agree` and `flags` are the plain readers'; `features` the findings as numbers, shape
    (features,).
    """

    ratios: dict[str, float]
    nearer: dict[str, float]
    silent: frozenset[str]
    misfits: int
    stops: int
    all_agree: dict[str, bool]
    flags: int
    features: Array


def weigh_case(
    document: dict[str, object],
    book: CodeBook,
    rows: str,
    rng: np.random.Generator,
    draws: int = 0,
) -> Weighed:
    """The tool's answers to one case document."""
    car = car_marks(case_from(document), book)
    findings = compare(car)
    moved = moved_rows(rng) if rows == "off by three" else {}
    values = each_with(rate_values(), [moved])
    found = answer(car, findings, values, with_contributions=False, with_next_looks=False)
    ratios = {question_of(c.question, c.about): capped(c.log10_lr) for c in found.conclusions}
    steady = steadiness(car, draws).answers if draws and not moved else ()
    items = {c.about: Weighing(c).standing for c in found.conclusions if c.question is Asked.ITEM}
    return Weighed(
        ratios,
        {question_of(s.question, s.about): capped(s.log10_lr_nearer) for s in steady},
        frozenset(i for i, s in items.items() if s is Standing.CANNOT_BE_ESTABLISHED),
        len(found.misfits),
        len(found.stops),
        {name: _agree(car, findings, name) for name in ratios},
        _flags(car, findings),
        _features(car, findings),
    )


def question_of(asked: Asked, about: str) -> str:
    """The name of a question here: identity, a core, an item, a plate or paper, a stamp."""
    if asked is Asked.IDENTITY:
        return "identity"
    return f"stamp of {about}" if asked is Asked.STAMP else SHEETS.get(about, about)


def moved_rows(rng: np.random.Generator) -> dict[str, float]:
    """Every assumed row wrong by a factor of 3 in odds, up or down; the outcomes of a look in
    odds against its first one, since they are shares of one whole."""
    values = {row.id: row.value for row in rate_rows()}
    up = rng.random(len(values)) < 0.5
    factors = dict(zip(values, np.where(up, 1.0 / FACTOR, FACTOR).tolist(), strict=True))
    moved = {row: _times_odds(value, factors[row]) for row, value in values.items()}
    for doubtful in [row for row in values if row.endswith(".doubtful")]:
        rows = (doubtful, doubtful.replace(".doubtful", ".disturbed"))
        weights = [values[row] * factors[row] for row in rows]
        total = 1.0 - sum(values[row] for row in rows) + sum(weights)
        moved |= {row: weight / total for row, weight in zip(rows, weights, strict=True)}
    return moved


def _times_odds(value: float, factor: float) -> float:
    if value >= 1.0:
        return value * factor
    odds = value / (1.0 - value) * factor
    return odds / (1.0 + odds)


def _agree(car: CarMarks, findings: tuple[Finding, ...], question: str) -> bool:
    """The rule "all numbers agree" for one question."""
    name = question.removeprefix("stamp of ")
    marks = {mark.id: mark for mark in car.book.marks}
    numbers = {item.id: item for item in car.book.items if item.length}
    for finding in findings:
        if finding.outcome is not Outcome.DIFFER:
            continue
        shown = [marks[s.mark] for s in finding.subjects if s.mark in marks]
        number = numbers.get(finding.topic)
        if name == "identity":
            differs = number is not None and (number.identification or number.home == "body")
        elif name in SHEETS.values():
            differs = any(SHEETS.get(mark.id) == name for mark in shown)
        elif number is not None:
            differs = number.home == name or any(mark.assembly == name for mark in shown)
        else:
            differs = finding.topic == name
        if differs:
            return False
    return True


def _flags(car: CarMarks, findings: tuple[Finding, ...]) -> int:
    """How many things speak against the car: findings that differ, places not as by the works."""
    differ = sum(f.outcome is Outcome.DIFFER for f in findings)
    return differ + sum(look.outcome != "factory" for look in car.casefile.looks)


def _features(car: CarMarks, findings: tuple[Finding, ...]) -> Array:
    """What was found as numbers, the same places for every car of a book."""
    book = car.book
    topics = sorted(item.id for item in book.items)
    sites = sorted({site.id for site in book.sites})
    papers = sorted(mark.id for mark in book.marks if mark.kind is MarkKind.PAPER)
    found: list[float] = []
    for outcome in (Outcome.AGREE, Outcome.DIFFER, Outcome.UNDECIDED):
        found += [sum(f.by is rule and f.outcome is outcome for f in findings) for rule in RULES]
        found += [
            sum(f.topic == each and f.outcome is outcome for f in findings) for each in topics
        ]
    looks = {look.site: look.outcome for look in car.casefile.looks if look.feature == "surface"}
    seams = {look.site: look.outcome for look in car.casefile.looks if look.feature == "seam"}
    states = {site.site: site.state.value for site in car.casefile.sites}
    for site in sites:
        found += [float(looks.get(site) == kind) for kind in ("factory", "doubtful", "disturbed")]
        found += [float("weld" in seams.get(site, "") and "spot" not in seams.get(site, ""))]
        found.append(float(states.get(site) == "absent"))
    read = {reading.mark for reading in car.casefile.readings}
    gone = sum(set(reading.text) <= set("~ ") for reading in car.casefile.readings)
    found += [float(paper in read) for paper in papers]
    disturbed = sum(outcome == "disturbed" for outcome in looks.values())
    doubtful = sum(outcome == "doubtful" for outcome in looks.values())
    return np.array([*found, disturbed, doubtful, float(len(read)), float(gone)])


# -------------------------------------------------------------------- a book with faults


@cache
def wrong_book(seed: int, share: float = 0.10) -> CodeBook:
    """The demonstration book with a share of its rows wrong or missing.

    Of the codes touched half are missing and half have another's meaning; series and
    lags touched are shifted.
    """
    book, rng = demo_book(), np.random.default_rng([seed, 7])
    codes = []
    touched = rng.permutation(len(book.codes))[: round(share * len(book.codes))]
    missing, moved = set(touched[::2].tolist()), set(touched[1::2].tolist())
    for place, row in enumerate(book.codes):
        if place in missing:
            continue
        if place in moved:
            same = [r for r in book.codes if r.table == row.table and r.value != row.value]
            row = replace(row, value=same[int(rng.integers(len(same)))].value) if same else row
        codes.append(row)
    series = list(book.series)
    parts = [k for k, run in enumerate(series) if run.item != "chassis_number"]
    for place in rng.choice(parts, max(1, round(share * len(parts))), replace=False):
        run = series[int(place)]
        length, width = int(run.last) - int(run.first), len(run.first)
        shift = int(rng.integers(length // 2, length + 1)) * int(rng.choice([-1, 1]))
        first = max(0, int(run.first) + shift)
        series[int(place)] = replace(
            run, first=f"{first:0{width}}", last=f"{first + length:0{width}}"
        )
    lags = tuple(
        replace(lag, usual_days=min(lag.most_days, 2 * lag.usual_days), least_days=lag.usual_days)
        if rng.random() < 4 * share
        else lag
        for lag in book.lags
    )
    rules = tuple(rule for rule in book.rules if rng.random() > share)
    return replace(book, codes=tuple(codes), series=tuple(series), lags=lags, rules=rules)
