"""The answer of a car: what does not fit, what makes it a matter for the authority, and how
strongly everything speaks, question by question, at base rates."""

import numpy as np

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.casefile.records import WorkSaid
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.conclusions.contributions import contributions
from witnessmark.weighing.conclusions.misfits import misfits, stops
from witnessmark.weighing.conclusions.next_looks import next_looks
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import TINY, Question, Sides, questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.origins import Hand
from witnessmark.weighing.rates import RateValues, rate_values
from witnessmark.weighing.records import Answer, Asked, Conclusion, Way


def answer(
    car: CarMarks,
    findings: tuple[Finding, ...] = (),
    values: RateValues | None = None,
    *,
    with_contributions: bool = True,
    with_next_looks: bool = True,
) -> Answer:
    """What was found on a car and how strongly it speaks, at base rates. Contributions and
    next looks take longer than all the rest, and can be left out.

    NoBearerError where the book has no assembly that bears the identity of such a car;
    TooManyMarksError where more marks bear one number than can be summed.
    """
    known = noted(car)
    rates = values or rate_values(car.casefile.circumstances.overrides)
    network = network_of(known, rates)
    asked = questions_of(known)
    found = {question: sides(network, known, question) for question in asked}
    answers = {question: side.log10_lr() for question, side in found.items() if side is not None}
    told = contributions(known, rates, network, asked, answers) if with_contributions else {}
    conclusions = tuple(
        Conclusion(
            question=question.asked,
            about=question.about,
            pair=question.pair,
            log10_lr=answers.get(question, 0.0),
            is_examined=side is not None and question.is_examined,
            ways=() if side is None else _ways(side, _by_declared(known, rates, question, side)),
            contributions=told.get(question, ()),
        )
        for question, side in found.items()
    )
    against = misfits(known, findings)
    looks = next_looks(car, known, rates, against, asked) if with_next_looks else ()
    return Answer(against, stops(known, findings), conclusions, looks)


def _by_declared(known: Noted, rates: RateValues, question: Question, found: Sides) -> Array:
    """What a declaration makes of each way: whoever strikes a core to pass seldom says so
    beforehand. It shares out the second proposition, and moves no likelihood ratio."""
    declared = {
        each.about
        for each in known.car.casefile.claim.statements
        if each.work is WorkSaid.STRUCK_OPENLY
    }
    is_said = question.about in declared and question.asked in (Asked.CORE, Asked.STAMP)
    share = float(rates["declared.pass"].mean()) if is_said else 1.0
    to_pass = [name.endswith((Hand.TO_PASS, Hand.NUMBER_ALONE)) for name in found.names]
    return np.where(to_pass, share, 1.0)


def _ways(found: Sides, declared: Array) -> tuple[Way, ...]:
    """The ways in which the second proposition may be true, the likeliest first."""
    joint, prior = found.joint.mean(axis=0), found.prior.mean(axis=0)
    first = max(joint[found.first].sum(), TINY) / prior[found.first].sum()
    second = max((joint * declared)[found.second].sum(), TINY)
    ways = [
        Way(
            name,
            float(np.log10(first) - np.log10(max(each, TINY) / before)),
            float(each * said / second),
        )
        for name, each, before, is_second, said in zip(
            found.names, joint, prior, found.second, declared, strict=True
        )
        if is_second and before > 0.0
    ]
    return tuple(sorted(ways, key=lambda way: -way.share))
