"""Makes the conclusions of one case from its network: the ratios, what drives them,
what they rest on, and what would change them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.catalogue import as_said
from witnessmark.weighing.bounds import bounds_of
from witnessmark.weighing.calculator import Calculator, ClampPair
from witnessmark.weighing.candidates import Candidate
from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.next_looks import BITS_NAMED, OutcomeTable, best_set, next_look
from witnessmark.weighing.nodes import CharacterSource
from witnessmark.weighing.questions import Asked, log10_ratio, log10_ratio_against
from witnessmark.weighing.records import (
    Assumption,
    Conclusion,
    Contribution,
    CurvePoint,
    EvidenceItem,
    LikelihoodRatio,
    NextLook,
    Question,
    Standing,
)
from witnessmark.weighing.rows import FACTOR, fixed

Array = NDArray[np.float64]

CAP_LOG10 = fixed("cap_log10")
"""Cap of a likelihood ratio: one unforeseen thing in ten thousand (assumed)."""
BEYOND_LOG10 = float(np.log10(3.0))
"""Where an LR begins to say something: beyond 3 either way."""
OUTCOME_FLOOR = fixed("outcome_floor")
"""Outcomes less probable than this do not keep a question open (assumed)."""
RENUMBERED = "deceit.not_own.skilled"
"""The row whose curve stands with every identity: how often a careful hand struck again."""
ASSUMPTIONS_SHOWN = 6
CURVE = (0.001, 0.003, 0.01, 0.03, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9)
DEFAULT_MINUTES = int(fixed("given_minutes"))


RowRatios = dict[int, Array]
"""By the place of a row: the log10 LR of every question with that row alone moved."""

Split = tuple[LikelihoodRatio, LikelihoodRatio] | tuple[None, None]


@dataclass(frozen=True, slots=True)
class Swept:
    """The questions' ratios under batches that share one network."""

    without: Array
    in_order: Array
    at_low: RowRatios
    at_high: RowRatios
    curves: dict[int, tuple[CurvePoint, ...]]


def clamp_pairs(asked: tuple[Asked, ...], calculator: Calculator) -> list[ClampPair]:
    """One pair for every question, then two for every assembly that can be split."""
    pairs = []
    for question in asked:
        opposite = tuple(not state for state in question.true)
        pairs.append(ClampPair({question.variable: question.true}, {question.variable: opposite}))
    for question in asked:
        if question.split_node is None:
            continue
        states = calculator.network.nodes[question.split_node].states
        made = tuple(s.source is CharacterSource.MADE for s in states)
        for mask in (tuple(not m for m in made), made):
            second = {question.variable: (False, True), f"S:{question.split_node}": mask}
            pairs.append(ClampPair({question.variable: (True, False)}, second))
    return pairs


def conclusions_of(
    car: CarMarks,
    calculator: Calculator,
    asked: tuple[Asked, ...],
    candidates: tuple[Candidate, ...],
    tables: list[OutcomeTable],
) -> tuple[Conclusion, ...]:
    """Every conclusion, in the order of the questions."""
    pairs = clamp_pairs(asked, calculator)

    def measure(evidence: Joints, prior: Joints) -> Array:
        ratios = [log10_ratio(evidence, prior, question) for question in asked]
        for question in asked:
            if question.split_node is not None:
                for made in (False, True):
                    ratios.append(
                        log10_ratio_against(evidence, prior, question, calculator.network, made)
                    )
        stacked: Array = np.stack(ratios, axis=1) * np.log(10.0)
        return stacked

    bounded = bounds_of(calculator, pairs, measure)
    each_bound = zip(bounded.base, bounded.least, bounded.most, strict=True)
    ratios = [_ratio(*each) for each in each_bound]
    swept = _sweep(calculator, asked, bounded.row_slope)
    splits = ratios[len(asked) :]
    found = []
    for k, question in enumerate(asked):
        split: Split = (None, None)
        if question.split_node is not None:
            split, splits = (splits[0], splits[1]), splits[2:]
        found.append(
            _conclusion(
                car,
                calculator,
                question,
                k,
                ratios[k],
                split,
                bounded.row_slope[k],
                swept,
                candidates,
                tables,
                float(bounded.base[k] / np.log(10)),
            )
        )
    return tuple(found)


def _ratio(ln_base: float, ln_low: float, ln_high: float) -> LikelihoodRatio:
    """A capped ratio; its bounds enclose it and are capped alike."""
    log10 = [float(value / np.log(10.0)) for value in (ln_base, ln_low, ln_high)]
    base, low, high = (min(max(value, -CAP_LOG10), CAP_LOG10) for value in log10)
    return LikelihoodRatio(base, min(low, base), max(high, base), abs(log10[0]) > CAP_LOG10)


def _sweep(calculator: Calculator, asked: tuple[Asked, ...], slopes: Array) -> Swept:
    """Leave-one-out, entry in order, leading rows moved, and their curves."""
    evidence = calculator.network.evidence
    seen = [slot for slot in evidence.slots.values() if slot.is_seen]
    count = len(seen)
    variants = {}
    for j, slot in enumerate(seen):
        row = np.ones(2 * count, dtype=np.intp)
        row[j] = 0
        # Before slot i is entered, i and all after it are still left out.
        row[count : count + j + 1] = 0
        variants[slot.id] = row
    ones = calculator.ones(1)
    prior = calculator.prior(ones)
    without = in_order = np.zeros((0, len(asked)))
    if count:
        joints = calculator.run(calculator.ones(2 * count), variants)
        all_ratios = np.stack([log10_ratio(joints, prior, q) for q in asked], axis=1)
        without, in_order = all_ratios[:count], all_ratios[count:]
    leading = {int(r) for row in slopes[: len(asked)] for r in _leading(row)}
    at_low, at_high = _moved(calculator, asked, sorted(leading))
    curves = _curves(calculator, asked, slopes, at_low, at_high)
    return Swept(without, in_order, at_low, at_high, curves)


def _leading(slope: Array) -> list[int]:
    """The rows that move a question most, the strongest first."""
    order = np.argsort(-np.abs(slope), kind="stable")[:ASSUMPTIONS_SHOWN]
    return [int(row) for row in order if abs(slope[row]) > 1e-6]


def _moved(
    calculator: Calculator, asked: tuple[Asked, ...], rows: list[int]
) -> tuple[RowRatios, RowRatios]:
    """log10 LR of every question with one row alone at its least and its most."""
    if not rows:
        return {}, {}
    scale = calculator.ones(2 * len(rows))
    for k, row in enumerate(rows):
        scale[2 * k, row] = 1.0 / FACTOR
        scale[2 * k + 1, row] = FACTOR
    joints, prior = calculator.run(scale), calculator.prior(scale)
    ratios = np.stack([log10_ratio(joints, prior, q) for q in asked], axis=1)
    low = {row: ratios[2 * k] for k, row in enumerate(rows)}
    high = {row: ratios[2 * k + 1] for k, row in enumerate(rows)}
    return low, high


def _by_effect(slope: Array, k: int, low: RowRatios, high: RowRatios) -> list[int]:
    """The leading rows of question k, the one first that alone moves its LR most."""

    def moved(row: int) -> float:
        ends = np.clip((low[row][k], high[row][k]), -CAP_LOG10, CAP_LOG10)
        return -abs(float(ends[1] - ends[0]))

    return sorted(_leading(slope), key=moved)


def _curve_row(
    calculator: Calculator, question: Asked, slope: Array, k: int, low: RowRatios, high: RowRatios
) -> int | None:
    """The row whose curve is shown: the leading one that is no rate of misreading.

    For identity it is always the share that was renumbered by a careful hand.
    """
    if question.question is Question.IDENTITY:
        return calculator.network.values.index()[RENUMBERED]
    reading = set(calculator.reading_rows())
    return next((row for row in _by_effect(slope, k, low, high) if row not in reading), None)


def _curves(
    calculator: Calculator,
    asked: tuple[Asked, ...],
    slopes: Array,
    low: RowRatios,
    high: RowRatios,
) -> dict[int, tuple[CurvePoint, ...]]:
    """For each question the LR along its leading assumption."""
    wanted = [_curve_row(calculator, q, slopes[k], k, low, high) for k, q in enumerate(asked)]
    rows = sorted({row for row in wanted if row is not None})
    if not rows:
        return {}
    scale = calculator.ones(len(rows) * len(CURVE))
    for k, row in enumerate(rows):
        value = calculator.network.values.rows[row].value
        for j, at in enumerate(CURVE):
            scale[k * len(CURVE) + j, row] = at / (1.0 - at) * (1.0 - value) / value
    joints, prior = calculator.run(scale), calculator.prior(scale)
    found = {}
    for k, question in enumerate(asked):
        chosen = wanted[k]
        if chosen is None:
            continue
        start = rows.index(chosen) * len(CURVE)
        ratios = log10_ratio(joints, prior, question)[start : start + len(CURVE)]
        found[k] = tuple(
            CurvePoint(at, float(np.clip(ratio, -CAP_LOG10, CAP_LOG10)))
            for at, ratio in zip(CURVE, ratios, strict=True)
        )
    return found


def _conclusion(
    car: CarMarks,
    calculator: Calculator,
    question: Asked,
    k: int,
    ratio: LikelihoodRatio,
    split: Split,
    slope: Array,
    swept: Swept,
    candidates: tuple[Candidate, ...],
    tables: list[OutcomeTable],
    log10_uncapped: float,
) -> Conclusion:
    stated = stated_odds(car, question)
    odds = stated if stated is not None else 1.0
    looks = [
        next_look(c, t, k, odds)
        for c, t in zip(candidates, tables, strict=True)
        if not _is_itself(c, question)
    ]
    looks.sort(key=lambda look: -look.bits / max(1, look.minutes + look.access_minutes))
    reachable = [look for look in looks if look.is_reachable and _is_worth_naming(look)]
    place = _curve_row(calculator, question, slope, k, swept.at_low, swept.at_high)
    curved = calculator.network.values.rows[place] if place is not None else None
    minutes = car.casefile.assignment.minutes_available or DEFAULT_MINUTES
    chosen = None
    if question.question is Question.IDENTITY:
        chosen = best_set(calculator, candidates, looks, question, odds, minutes)
    return Conclusion(
        question.question,
        question.about,
        question.pair,
        ratio,
        _contributions(calculator, k, swept, log10_uncapped),
        _assumptions(calculator, k, slope, swept),
        swept.curves.get(k, ()),
        tuple(reachable),
        tuple(sorted((x for x in looks if not x.is_reachable and _could_settle(x)), key=_by_bits)),
        chosen,
        odds,
        stated is not None,
        _standing(ratio, reachable),
        prior_odds=stated,
        posterior_odds=None if stated is None else float(stated * 10.0**ratio.log10_lr),
        replaced=split[0],
        struck_later=split[1],
        rests_on_bearer_odds=question.question is not Question.IDENTITY,
        curve_row=curved.id if curved is not None else "",
        curve_value=curved.value if curved is not None else 0.0,
    )


def _is_worth_naming(look: NextLook) -> bool:
    """Every mark unread and place not looked at; a second reading only if it can tell."""
    return look.kind != "second reading" or look.bits >= BITS_NAMED


def _by_bits(look: NextLook) -> float:
    return -look.bits


def _could_settle(look: NextLook) -> bool:
    """Would any outcome that is not idle bring the LR beyond 3 either way, and tell something?"""
    return look.bits >= BITS_NAMED and any(
        outcome.probability >= OUTCOME_FLOOR and abs(outcome.log10_lr) > BEYOND_LOG10
        for outcome in look.outcomes
    )


def _is_itself(candidate: Candidate, question: Asked) -> bool:
    """Reading a paper does not answer whether that paper is the car's before it is in hand."""
    return candidate.kind == "paper" and candidate.target == question.about


def stated_odds(car: CarMarks, question: Asked) -> float | None:
    """The prior odds that the examiner stated for this question, or None."""
    names = {question.question.value, f"{question.question.value} {question.about}", question.about}
    for stated in car.casefile.circumstances.prior_odds:
        if stated.question in names:
            return stated.odds
    return None


def _contributions(
    calculator: Calculator, k: int, swept: Swept, log10_lr: float
) -> tuple[Contribution, ...]:
    """Every evidence item seen, the one that moves the question most first."""
    seen = [slot for slot in calculator.network.evidence.slots.values() if slot.is_seen]
    found = []
    for j, slot in enumerate(seen):
        without = float(swept.without[j, k])
        after = float(swept.in_order[j + 1, k]) if j + 1 < len(seen) else log10_lr
        before = float(swept.in_order[j, k])
        item = EvidenceItem(slot.id, slot.kind, slot.about, slot.sentence, slot.look)
        found.append(Contribution(item, without, log10_lr - without, after - before))
    return tuple(sorted(found, key=lambda c: -abs(c.log10_lr_change)))


def _assumptions(
    calculator: Calculator, k: int, slope: Array, swept: Swept
) -> tuple[Assumption, ...]:
    values = calculator.network.values
    found = []
    for place in _by_effect(slope, k, swept.at_low, swept.at_high):
        row = values.rows[place]
        low, high = (
            float(np.clip(side[place][k], -CAP_LOG10, CAP_LOG10))
            for side in (swept.at_low, swept.at_high)
        )
        is_own = row.id in values.overridden
        reason = row.reason if is_own else as_said(row.reason)
        found.append(Assumption(row.id, row.value, reason, is_own, low, high))
    return tuple(found)


def _standing(ratio: LikelihoodRatio, reachable: list[NextLook]) -> Standing:
    """Answered beyond 3 either way; open where a reachable look could bring it there."""
    if abs(ratio.log10_lr) > BEYOND_LOG10:
        return Standing.ANSWERED
    for look in reachable:
        for outcome in look.outcomes:
            if outcome.probability >= OUTCOME_FLOOR and abs(outcome.log10_lr) > BEYOND_LOG10:
                return Standing.OPEN
    return Standing.CANNOT_BE_ESTABLISHED
