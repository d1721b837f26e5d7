"""The tool at work on a case of the proving ground, and what a plain reader counts in it."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from benchmarks.proving.factory import demo_book
from witnessmark.agreement import compare
from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.casefile import Casefile
from witnessmark.codebook import CodeBook
from witnessmark.examination.examine import car_marks
from witnessmark.weighing import SAYING_LOG10, Asked, answer, capped
from witnessmark.weighing.second.rates import rate_rows, rate_values, with_values

Array = NDArray[np.float64]

FACTOR = 3.0
"""How wrong every assumed rate may be in a trial, in odds, either way."""

PAPERS = {"despatch_ledger": "ledger", "build_card": "card"}
NUMBERS = {
    "identity": ("chassis_number", "body_number"),
    "engine": ("engine_number",),
    "gearbox": ("gearbox_number",),
    "axle": ("axle_number",),
    "body": ("body_number", "chassis_number"),
}
"""The numbers that a plain reader compares for a question."""
RULES = (
    "same_item_on_two_marks", "paper_against_plate", "title_against_car", "code_of_its_years",
    "number_in_its_series", "order_numbers", "combination_of_codes", "dates_in_order",
    "empty_field_speaks",
)  # fmt: skip
COMPARED = (
    "chassis_number", "body_number", "engine_number", "gearbox_number", "axle_number", "model",
    "body_works", "paint", "trim", "axle_ratio",
)  # fmt: skip
SITES = (
    "scuttle", "frame_rail", "inner_wing", "seat_pan", "bulkhead", "engine_deck", "engine_side",
    "gearbox_case", "axle_case",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the tool says of a case, and what others would count in it.

    `ratios` are log10 LRs capped as in a report; `cannot` whether identity is said not to
    be establishable; `all_agree` and `flags` are the plain readers'; `features` the
    findings as numbers, shape (features,).
    """

    ratios: dict[str, float]
    cannot: bool
    all_agree: dict[str, bool]
    flags: int
    features: Array


def weigh_case(
    document: dict[str, object], book: CodeBook, rows: str, rng: np.random.Generator
) -> Weighed:
    """The tool's answers to one case document."""
    car = car_marks(Casefile.model_validate(document), book)
    findings = compare(car)
    moved = {}
    if rows == "off by three":
        factors = row_factors(len(rate_rows()), rng)
        moved = {
            row.id: _times_odds(row.value, factor)
            for row, factor in zip(rate_rows(), factors.tolist(), strict=True)
        }
    ratios = _ratios(car, moved)
    # What a look would do is not reckoned yet: an open identity is taken as not to be moved.
    cannot = abs(ratios["identity"]) <= SAYING_LOG10
    return Weighed(
        ratios,
        cannot,
        _all_agree(findings),
        _flags(car, findings),
        _features(car, findings),
    )


def row_factors(rows: int, rng: np.random.Generator) -> Array:
    """A factor of 3 in odds, up or down, for every row, shape (rows,)."""
    factors: Array = np.where(rng.random(rows) < 0.5, 1.0 / FACTOR, FACTOR)
    return factors


def _times_odds(value: float, factor: float) -> float:
    if value >= 1.0:
        return value * factor
    odds = value / (1.0 - value) * factor
    return odds / (1.0 + odds)


def _ratios(car: CarMarks, moved: dict[str, float]) -> dict[str, float]:
    values = with_values(rate_values(), moved)
    found = {}
    weighed = answer(car, (), values, with_contributions=False, with_next_looks=False)
    for each in weighed.conclusions:
        if each.question is Asked.STAMP or (each.question is Asked.ITEM and each.about != "model"):
            continue
        name = {
            Asked.IDENTITY: "identity",
            Asked.ITEM: "configuration",
            Asked.PLATE: "plate",
        }.get(each.question, PAPERS.get(each.about, each.about))
        found[name] = capped(each.log10_lr)
    return found


def _all_agree(findings: tuple[Finding, ...]) -> dict[str, bool]:
    """The rule "all numbers agree", question by question."""
    differ = [f for f in findings if f.outcome is Outcome.DIFFER]
    found = {
        question: not any(f.topic in items for f in differ) for question, items in NUMBERS.items()
    }
    found["configuration"] = not any(
        f.topic in ("paint", "trim", "axle_ratio", "model") for f in differ
    )
    for name, marks in (
        ("plate", ("plate_brass", "plate_aluminium")),
        *((p, (m,)) for m, p in PAPERS.items()),
    ):
        found[name] = not any(s.mark in marks for f in differ for s in f.subjects)
    return found


def _flags(car: CarMarks, findings: tuple[Finding, ...]) -> int:
    """How many things speak against the car: findings that differ, places not as by the works."""
    differ = sum(f.outcome is Outcome.DIFFER for f in findings)
    return differ + sum(look.outcome != "factory" for look in car.casefile.looks)


def _features(car: CarMarks, findings: tuple[Finding, ...]) -> Array:
    found: list[float] = []
    for outcome in (Outcome.AGREE, Outcome.DIFFER, Outcome.UNDECIDED):
        found += [sum(f.rule == rule and f.outcome is outcome for f in findings) for rule in RULES]
        found += [
            sum(f.topic == topic and f.outcome is outcome for f in findings) for topic in COMPARED
        ]
    looks = {look.site: look.outcome for look in car.casefile.looks}
    states = {site.site: site.state.value for site in car.casefile.sites}
    for site in SITES:
        found += [float(looks.get(site) == kind) for kind in ("factory", "doubtful", "disturbed")]
        found.append(float(states.get(site) == "absent"))
    read = {reading.mark for reading in car.casefile.readings}
    found += [float(paper in read) for paper in PAPERS]
    disturbed = sum(outcome == "disturbed" for outcome in looks.values())
    doubtful = sum(outcome == "doubtful" for outcome in looks.values())
    return np.array([*found, disturbed, doubtful, float(len(read))])


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
