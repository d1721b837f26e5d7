"""The answer of a car: what does not fit, what makes it a matter for the authority, and how
strongly everything speaks, question by question, at base rates."""

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.weighing.second.build import Noted, network_of, noted
from witnessmark.weighing.second.network import Network
from witnessmark.weighing.second.questions import Question, Sides, questions_of, sides
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
    return Answer((), (), conclusions)


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
    )
