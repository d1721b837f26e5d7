"""Weighs what was found: from the marks and findings of one car to its conclusions."""

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.casefile.records import Override
from witnessmark.decoding.records import illegible_marks
from witnessmark.reading import (
    shipped_rates,
)
from witnessmark.weighing.calculator import Calculator
from witnessmark.weighing.candidates import Candidate, CandidateFinder
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.conclude import conclusions_of, stated_odds
from witnessmark.weighing.evidence_codes import claimed_code_items
from witnessmark.weighing.gather import gather
from witnessmark.weighing.groups import groups_of_marks, mark_states
from witnessmark.weighing.network import build_network
from witnessmark.weighing.next_looks import OutcomeTable, best_set, next_look, outcome_tables
from witnessmark.weighing.nodes import assemblies_of, bearer_of, nodes_of
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.questions import Asked, questions_of
from witnessmark.weighing.records import BestSet, EvidenceItem, Question, Weighing
from witnessmark.weighing.rows import row_values


class NoBearerError(ValueError):
    """The code book names no identity bearer for this car: a fault of the caller, who checks."""


BEARER_ROW = "bearer.not_own"
"""The row of the odds of the bearer, which identity itself does not rest on."""


def prepare(
    car: CarMarks, findings: tuple[Finding, ...]
) -> tuple[Calculator, tuple[Candidate, ...]]:
    """The network of one car, ready to be run, and what could still be looked at."""
    bearer = bearer_of(car.book, car.context)
    if bearer is None:
        raise NoBearerError(car.book.id)
    values = row_values(_overrides(car, bearer.id))
    rates = car.rates or shipped_rates()
    nodes = nodes_of(car.book, car.context)
    maker = TableMaker(values, claimed_code_items(car, nodes))
    evidence = gather(Collected(car, findings, nodes, bearer.id, maker, rates))
    candidates = CandidateFinder(car, nodes, evidence, rates).find()
    others = assemblies_of(car.book, car.context)[1:]
    network = build_network(values, maker, bearer, others, nodes, evidence)
    return Calculator(network, rates), candidates


def weigh(car: CarMarks, findings: tuple[Finding, ...]) -> Weighing:
    """All conclusions with a likelihood ratio, and how the marks group by car.

    Raises NoBearerError where the book names no identity bearer for the car.
    """
    calculator, candidates = prepare(car, findings)
    network = calculator.network
    asked = questions_of(car, network)
    tables = outcome_tables(calculator, candidates, asked)
    conclusions = conclusions_of(car, calculator, asked, candidates, tables)
    joints = calculator.run(calculator.ones(1))
    evidence = tuple(
        EvidenceItem(slot.id, slot.kind, slot.about, slot.sentence, slot.look)
        for slot in network.evidence.slots.values()
        if slot.is_seen
    )
    bearer_odds = (1.0 - _bearer_share(calculator)) / _bearer_share(calculator)
    states = mark_states(network, joints)
    return Weighing(
        conclusions,
        evidence,
        states,
        groups_of_marks(network, states, illegible_marks(car.decodings)),
        bearer_odds,
        BEARER_ROW in network.values.overridden,
        network.evidence.left_out,
    )


def _overrides(car: CarMarks, bearer: str) -> tuple[Override, ...]:
    """The case's overrides; prior odds stated for identity are the odds of the bearer too."""
    overrides = car.casefile.circumstances.overrides
    if any(override.row == BEARER_ROW for override in overrides):
        return overrides
    for stated in car.casefile.circumstances.prior_odds:
        if stated.question in (Question.IDENTITY, bearer, f"{Question.IDENTITY} {bearer}"):
            share = 1.0 / (1.0 + stated.odds)
            return (*overrides, Override(row=BEARER_ROW, value=share, reason=stated.reason))
    return overrides


def _bearer_share(calculator: Calculator) -> float:
    index = calculator.network.values.index()
    return calculator.network.values.rows[index[BEARER_ROW]].value


def best_looks(
    car: CarMarks, findings: tuple[Finding, ...], minutes: int
) -> tuple[tuple[Asked, BestSet | None], ...]:
    """For every question the set of looks that tells most within the minutes."""
    calculator, candidates = prepare(car, findings)
    asked = questions_of(car, calculator.network)
    tables: list[OutcomeTable] = outcome_tables(calculator, candidates, asked)
    found = []
    for k, question in enumerate(asked):
        odds = stated_odds(car, question) or 1.0
        singles = [next_look(c, t, k, odds) for c, t in zip(candidates, tables, strict=True)]
        chosen = best_set(calculator, candidates, singles, question, odds, minutes)
        found.append((question, chosen))
    return tuple(found)
