"""What would change a conclusion: expected information of every look not yet made.

The information is in bits, about the two propositions of one question, at the
odds stated (even odds where none are). A set of looks is weighed jointly.
"""

from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.calculator import Calculator
from witnessmark.weighing.candidates import Candidate
from witnessmark.weighing.questions import Asked, split_joint
from witnessmark.weighing.records import BestSet, LookOutcome, NextLook
from witnessmark.weighing.rows import fixed

Array = NDArray[np.float64]

BITS_NAMED = 0.001
"""Least information for which a look is worth its time."""
SET_SIZE = 4
"""Most looks in a set that is weighed jointly."""
SET_CANDIDATES = 6
"""How many of the best single looks are tried for a set."""


@dataclass(frozen=True, slots=True)
class OutcomeTable:
    """Joint probability with the evidence of (question true, false) and each outcome.

    `likelihoods[asked]` has shape (outcomes, 2): P(evidence, outcome | first), … | second).
    """

    words: tuple[str, ...]
    likelihoods: tuple[Array, ...]


def outcome_tables(
    calculator: Calculator, candidates: tuple[Candidate, ...], asked: tuple[Asked, ...]
) -> list[OutcomeTable]:
    """For every candidate, what each outcome would do to every question."""
    rows: list[dict[str, int]] = []
    for candidate in candidates:
        rows.append({candidate.slot: candidate.base_variant})
        rows.extend({candidate.slot: variant} for variant in candidate.options)
    if not rows:
        return []
    joint = _grid(calculator, rows, asked)
    tables, start = [], 0
    for candidate in candidates:
        count = len(candidate.options)
        base, options = joint[start], joint[start + 1 : start + 1 + count]
        start += 1 + count
        words = tuple(candidate.options.values())
        if candidate.rest:
            options = np.concatenate([options, (base - options.sum(axis=0))[None]])
            words = (*words, candidate.rest)
        options = np.maximum(options, 0.0)
        tables.append(OutcomeTable(words, tuple(options[:, k] for k in range(len(asked)))))
    return tables


def _grid(calculator: Calculator, rows: list[dict[str, int]], asked: tuple[Asked, ...]) -> Array:
    """P(evidence, variants | first or second), shape (rows, questions, 2)."""
    slots = {slot for row in rows for slot in row}
    seen = calculator.network.evidence.slots
    variants = {
        slot: np.array([row.get(slot, int(seen[slot].is_seen)) for row in rows]) for slot in slots
    }
    joints = calculator.run(calculator.ones(len(rows)), variants)
    prior = calculator.prior(calculator.ones(1))
    found = np.zeros((len(rows), len(asked), 2))
    for k, question in enumerate(asked):
        first, second = split_joint(joints, question)
        prior_first, prior_second = split_joint(prior, question)
        found[:, k, 0] = first / prior_first
        found[:, k, 1] = second / prior_second
    return found


def bits(likelihood: Array, odds: float) -> float:
    """Mutual information between the question and the outcome, in bits.

    `likelihood` is (outcomes, 2); `odds` the prior odds of the first proposition.
    """
    weight = likelihood * np.array([odds, 1.0])
    joint = weight / weight.sum()
    found = _entropy(joint.sum(axis=0)) + _entropy(joint.sum(axis=1)) - _entropy(joint)
    # Looks that tell the same must tie, whatever the rounding: their order is the book's.
    return max(0.0, round(found, 12))


def _entropy(probabilities: Array) -> float:
    positive = probabilities[probabilities > 0]
    return float(-(positive * np.log2(positive)).sum())


def next_look(candidate: Candidate, table: OutcomeTable, k: int, odds: float) -> NextLook:
    """One look with its outcomes for question `k`."""
    likelihood = table.likelihoods[k]
    weight = likelihood * np.array([odds, 1.0])
    share = weight.sum(axis=1) / weight.sum()
    outcomes = tuple(
        LookOutcome(word, float(share[o]), _log10(likelihood[o]))
        for o, word in enumerate(table.words)
    )
    return NextLook(
        candidate.target,
        candidate.kind,
        candidate.prompt,
        bits(likelihood, odds),
        candidate.minutes,
        candidate.access_group,
        candidate.access_minutes,
        candidate.dismantling,
        candidate.is_reachable,
        outcomes,
        candidate.site,
        candidate.caution,
    )


def _log10(pair: Array) -> float:
    ratio = np.log10(np.maximum(pair[0], 1e-300)) - np.log10(np.maximum(pair[1], 1e-300))
    cap = fixed("cap_log10")
    return float(np.clip(ratio, -cap, cap))


def minutes_of(chosen: tuple[Candidate, ...]) -> int:
    """Minutes for a set of looks: a site once, a shared access once."""
    sites: dict[str, int] = {}
    access: dict[str, int] = {}
    for candidate in chosen:
        site = candidate.site or candidate.target
        sites[site] = max(sites.get(site, 0), candidate.minutes)
        group = candidate.access_group or f"access to {site}"
        access[group] = max(access.get(group, 0), candidate.access_minutes)
    return sum(sites.values()) + sum(access.values())


def best_set(
    calculator: Calculator,
    candidates: tuple[Candidate, ...],
    singles: list[NextLook],
    asked: Asked,
    odds: float,
    minutes: int,
) -> BestSet | None:
    """The set of reachable looks that tells most within the minutes, weighed jointly.

    All sets of up to four among the six best single looks are tried, largest
    first; a set within another that fits cannot tell more than it.
    """
    ranked = sorted(
        (c for c in candidates if c.is_reachable and minutes_of((c,)) <= minutes),
        key=lambda c: -next((s.bits for s in singles if _same(s, c)), 0.0),
    )[:SET_CANDIDATES]
    sets = _fitting_sets(tuple(ranked), minutes)
    told = _joint_bits(calculator, sets, asked, odds)
    found = [pair for pair in zip(told, sets, strict=True) if pair[0] > 0.0]
    if not found:
        return None
    most, chosen = max(found, key=lambda pair: (round(pair[0], 9), -minutes_of(pair[1])))
    for candidate in reversed(ranked):
        # A look that adds nothing only costs time.
        fewer = tuple(c for c in chosen if c is not candidate)
        if fewer and len(fewer) < len(chosen):
            (without,) = _joint_bits(calculator, [fewer], asked, odds)
            if most - without < BITS_NAMED:
                most, chosen = without, fewer
    if most < BITS_NAMED:
        return None
    return BestSet(minutes, minutes_of(chosen), most, tuple(c.target for c in chosen))


def _same(look: NextLook, candidate: Candidate) -> bool:
    return look.target == candidate.target and look.kind == candidate.kind


def _fitting_sets(ranked: tuple[Candidate, ...], minutes: int) -> list[tuple[Candidate, ...]]:
    """The sets that fit and are in no larger set that fits."""
    fitting: list[frozenset[int]] = []
    for mask in range(1, 1 << len(ranked)):
        members = frozenset(k for k in range(len(ranked)) if mask >> k & 1)
        if len(members) <= SET_SIZE and len({ranked[k].slot for k in members}) == len(members):
            chosen = tuple(ranked[k] for k in sorted(members))
            if minutes_of(chosen) <= minutes:
                fitting.append(members)
    largest = [s for s in fitting if not any(s < other for other in fitting)]
    return [tuple(ranked[k] for k in sorted(s)) for s in largest]


def _joint_bits(
    calculator: Calculator, sets: list[tuple[Candidate, ...]], asked: Asked, odds: float
) -> list[float]:
    """Joint information of every set: all combinations of outcomes of all sets in one batch."""
    rows: list[dict[str, int]] = []
    shapes = []
    for chosen in sets:
        options = [[*c.options, *([c.base_variant] if c.rest else [])] for c in chosen]
        shapes.append((*(len(each) for each in options), 2))
        rows.extend(
            {c.slot: variant for c, variant in zip(chosen, combination, strict=True)}
            for combination in product(*options)
        )
    if not rows:
        return []
    joint = _grid(calculator, rows, (asked,))[:, 0]
    found, start = [], 0
    for chosen, shape in zip(sets, shapes, strict=True):
        count = prod(shape[:-1])
        likelihood = joint[start : start + count].reshape(shape)
        start += count
        for axis, candidate in enumerate(chosen):
            if candidate.rest:
                # The last option held all outcomes together: take the others away.
                moved = np.moveaxis(likelihood, axis, 0)
                moved[-1] -= moved[:-1].sum(axis=0)
        found.append(bits(np.maximum(likelihood, 0.0).reshape(-1, 2), odds))
    return found
