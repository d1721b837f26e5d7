"""What to look at next: first whatever does not fit, once more, and what the answer will be if
the reading stands."""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.pieces import PieceKind
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import Question, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import RateValues
from witnessmark.weighing.records import LookOutcome, Misfit, MisfitKind, NextLook

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
    # How a place looks is not read again.
    speaking = [
        each
        for each in misfits
        if each.kind not in QUIET and (len(each.about) == 1 or read & set(each.about[1:]))
    ]
    marks = {mark: None for each in speaking for mark in each.about if mark in read}
    found: list[NextLook] = []
    for mark in marks:
        if not _is_again(car, mark):
            about = {part for each in speaking if mark in each.about for part in each.about}
            found += _looks(car, rates, mark, _questions(known, mark, about, asked))
    return tuple(found)


def _is_again(car: CarMarks, mark: str) -> bool:
    return any(
        getattr(reading, "again", False)
        for reading in car.casefile.readings
        if reading.mark == mark
    )


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
