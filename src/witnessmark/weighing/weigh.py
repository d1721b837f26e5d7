"""Weighs what was found: from the marks and findings of one car to its conclusions."""

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.reading import (
    MOVABLE_ROWS,
    rates_with,
    shipped_rates,
)
from witnessmark.weighing.calculator import Calculator
from witnessmark.weighing.candidates import Candidate, CandidateFinder
from witnessmark.weighing.conclude import conclusions_of, stated_odds
from witnessmark.weighing.gather import Gatherer
from witnessmark.weighing.groups import groups_of_marks, mark_states
from witnessmark.weighing.network import build_network
from witnessmark.weighing.next_looks import OutcomeTable, best_set, next_look, outcome_tables
from witnessmark.weighing.nodes import bearer_of, nodes_of
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.questions import Asked, questions_of
from witnessmark.weighing.records import BestSet, EvidenceItem, Weighing
from witnessmark.weighing.rows import row_values


class NoBearerError(ValueError):
    """The code book names no identity bearer for this car: a fault of the caller, who checks."""


def prepare(
    car: CarMarks, findings: tuple[Finding, ...]
) -> tuple[Calculator, tuple[Candidate, ...]]:
    """The network of one car, ready to be run, and what could still be looked at."""
    bearer = bearer_of(car.book, car.context)
    if bearer is None:
        raise NoBearerError(car.book.id)
    overrides = car.casefile.circumstances.overrides
    values = row_values(overrides)
    rates = shipped_rates()
    for row in values.rows:
        if row.id in MOVABLE_ROWS and row.id in values.overridden:
            rates = rates_with(rates, row.id, row.value)
    maker = TableMaker(values)
    nodes = nodes_of(car.book, car.context)
    evidence = Gatherer(car, findings, nodes, bearer.id, maker, rates).gather()
    candidates = CandidateFinder(car, nodes, evidence, rates).find()
    others = tuple(a for a in car.book.assemblies_for(car.context) if a.id != bearer.id)
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
        groups_of_marks(network, states),
        bearer_odds,
        "bearer.not_own" in network.values.overridden,
        network.evidence.left_out,
    )


def _bearer_share(calculator: Calculator) -> float:
    index = calculator.network.values.index()
    return calculator.network.values.rows[index["bearer.not_own"]].value


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
