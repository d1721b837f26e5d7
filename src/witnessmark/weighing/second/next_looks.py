"""What to look at next: first whatever does not fit, once more, and what the answer will be if
the reading stands."""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.second.build import Noted, network_of, noted
from witnessmark.weighing.second.questions import Question, sides
from witnessmark.weighing.second.rates import RateValues
from witnessmark.weighing.second.records import LookOutcome, Misfit, NextLook

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
    marks: dict[str, str] = {}
    for misfit in misfits:
        for mark in misfit.about[1:]:
            if any(reading.mark == mark for reading in car.casefile.readings):
                marks.setdefault(mark, misfit.about[0])
    found: list[NextLook] = []
    for mark, piece in marks.items():
        if not _is_again(car, mark):
            found += _looks(car, rates, mark, _questions(known, piece, asked))
    return tuple(found)


def _is_again(car: CarMarks, mark: str) -> bool:
    return any(
        getattr(reading, "again", False)
        for reading in car.casefile.readings
        if reading.mark == mark
    )


def _questions(known: Noted, piece: str, asked: tuple[Question, ...]) -> tuple[Question, ...]:
    """The questions about a piece, that of the assembly it is fitted to among them."""
    own = {piece, *(s.piece.assembly for s in known.seen if s.piece.id == piece)}
    return tuple(question for question in asked if question.is_examined and question.about in own)


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
        each.model_copy(update={"again": True}) if each.mark == mark else each
        for each in car.casefile.readings
    )
    return replace(car, casefile=car.casefile.model_copy(update={"readings": readings}))
