"""The answer of a car: what does not fit, what makes it a matter for the authority, and how
strongly everything speaks, question by question, at base rates."""

import numpy as np

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.weighing.second.build import Noted, network_of, noted
from witnessmark.weighing.second.misfits import misfits, stops
from witnessmark.weighing.second.network import Network
from witnessmark.weighing.second.questions import TINY, Question, Sides, questions_of, sides
from witnessmark.weighing.second.rates import RateValues, rate_values
from witnessmark.weighing.second.records import Answer, Conclusion, Way


def answer(
    car: CarMarks, findings: tuple[Finding, ...] = (), values: RateValues | None = None
) -> Answer:
    """What was found on a car and how strongly it speaks, at base rates."""
    known = noted(car)
    rates = values or rate_values(car.casefile.circumstances.overrides)
    network = network_of(known, rates)
    conclusions = tuple(_conclusion(network, known, each) for each in questions_of(known))
    return Answer(misfits(known, findings), stops(known), conclusions)


def _conclusion(network: Network, known: Noted, question: Question) -> Conclusion:
    found = sides(network, known, question)
    if found is None:
        return Conclusion(question.asked, question.about, question.pair, 0.0, False)
    return Conclusion(
        question.asked,
        question.about,
        question.pair,
        found.log10_lr(),
        question.is_examined,
        _ways(found),
    )


def _ways(found: Sides) -> tuple[Way, ...]:
    """The ways in which the second proposition may be true, the likeliest first."""
    joint, prior = found.joint.mean(axis=0), found.prior.mean(axis=0)
    first = max(joint[found.first].sum(), TINY) / prior[found.first].sum()
    second = max(joint[found.second].sum(), TINY)
    ways = [
        Way(
            name,
            float(np.log10(first) - np.log10(max(each, TINY) / before)),
            float(each / second),
        )
        for name, each, before, is_second in zip(
            found.names, joint, prior, found.second, strict=True
        )
        if is_second and before > 0.0
    ]
    return tuple(sorted(ways, key=lambda way: -way.share))
