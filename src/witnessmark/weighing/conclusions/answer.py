"""The answer of a car: what does not fit, what makes it a matter for the authority, and how
strongly everything speaks, question by question, at base rates; and what to look at next: first
whatever does not fit, once more, and what the answer will be if the reading stands."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.casefile.records import WorkSaid
from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.conclusions.awaited import looks_awaited
from witnessmark.weighing.conclusions.contributions import contributions
from witnessmark.weighing.conclusions.misfits import misfits, stops
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import TINY, Question, Sides, questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.pieces.origins import Hand
from witnessmark.weighing.rates import RateValues, base_rates
from witnessmark.weighing.records import (
    Answer,
    Asked,
    Conclusion,
    LookOutcome,
    Misfit,
    MisfitKind,
    NextLook,
    Way,
)


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
    rates = values or base_rates(car.casefile.circumstances.overrides)
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
            is_examined=question.is_examined,
            can_be_told=_can_be_told(question, answers.get(question, 0.0)),
            ways=() if side is None else _ways(side, _by_declared(known, rates, question, side)),
            contributions=told.get(question, ()),
        )
        for question, side in found.items()
    )
    against = misfits(known, findings)
    looks: tuple[NextLook, ...] = ()
    if with_next_looks:
        again = next_looks(car, known, rates, against, asked)
        looks = (*again, *looks_awaited(known, rates, answers))
    return Answer(against, stops(known, findings), conclusions, looks)


def _can_be_told(question: Question, log10_lr: float) -> bool:
    """Could it have come out otherwise? What moves neither side at all tells nothing; of what
    nobody examined, whether anything on such a car could."""
    return question.can_be_told and (log10_lr != 0.0 or not question.is_examined)


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


QUIET = (MisfitKind.DECLARED, MisfitKind.TOLD)
STANDS = "the reading stands"
READ_AGAIN = "read again"


def next_looks(
    car: CarMarks,
    known: Noted,
    rates: RateValues,
    misfits: tuple[Misfit, ...],
    asked: tuple[Question, ...],
) -> tuple[NextLook, ...]:
    """For every mark that does not fit and was read once: the same read again."""
    read = {reading.mark for reading in car.casefile.readings}
    again = {reading.mark for reading in car.casefile.readings if reading.again}
    # How a place looks is not read again.
    speaking = [
        each
        for each in misfits
        if each.kind not in QUIET and (len(each.about) == 1 or read & set(each.about[1:]))
    ]
    marks = {mark: None for each in speaking for mark in each.about if mark in read}
    found: list[NextLook] = []
    for mark in marks:
        if mark not in again:
            about = {part for each in speaking if mark in each.about for part in each.about}
            found += _looks(car, rates, mark, _questions(known, mark, about, asked))
    return tuple(found)


def _questions(
    known: Noted, mark: str, about: set[str], asked: tuple[Question, ...]
) -> tuple[Question, ...]:
    """The questions that a mark moves: those of the piece on which it stands and of its assembly
    first, then those of every piece and item that it contradicts."""
    on = {each.mark: each.piece for each in known.pieces.standings}
    pieces = {each.piece.id: each.piece for each in known.seen}

    def parts(names: set[str]) -> set[str]:
        found = {on.get(name, name) for name in names}
        return found | {pieces[each].assembly for each in found if each in pieces}

    own, others = parts({mark}), parts(about)
    if any(each in pieces and pieces[each].kind is PieceKind.PLATE for each in own):
        own |= {known.bearer}
    examined = [each for each in asked if each.is_examined]
    first = [each for each in examined if each.about in own]
    return (*first, *(each for each in examined if each.about in others - own))


def _looks(
    car: CarMarks, rates: RateValues, mark: str, asked: tuple[Question, ...]
) -> Iterator[NextLook]:
    known = noted(_read_again(car, mark))
    network = network_of(known, rates)
    for question in asked:
        side = sides(network, known, question)
        if side is not None:
            stands = LookOutcome(STANDS, side.log10_lr())
            yield NextLook(mark, READ_AGAIN, question.asked, question.about, (stands,))


def _read_again(car: CarMarks, mark: str) -> CarMarks:
    """The same car with this mark read again, and found as before."""
    readings = tuple(
        replace(each, again=True) if each.mark == mark else each for each in car.casefile.readings
    )
    return replace(car, casefile=replace(car.casefile, readings=readings))
