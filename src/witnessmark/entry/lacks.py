"""What a case lacks for a report that somebody else can use: no fault, and in order of weight."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from witnessmark.casefile import Casefile, sums_left_out
from witnessmark.catalogue import counted, said
from witnessmark.codebook import CodeBook
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.entry.places import named_in_a_row
from witnessmark.plan.places import is_open, places_of, planned
from witnessmark.source import NOWHERE, Source
from witnessmark.wording.amounts import capital


class LackKind(StrEnum):
    """What is missing, told apart by where it is entered."""

    EXAMINER = "examiner"
    ASSIGNMENT = "assignment"
    PLACES = "places"
    VISIT = "visit"
    WHOLE_CAR = "whole car"
    CAPTIONS = "captions"
    SUMS = "sums"


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that is missing, in a sentence, and where it would stand if it has begun to."""

    kind: LackKind
    sentence: str
    source: Source = NOWHERE


def lacking(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> tuple[Lack, ...]:
    """All that is missing, what weighs most first. The report is printed all the same, and says
    of each that it is not stated or was not seen."""
    sums = sums_left_out(casefile, places)
    return (
        *(*_assigned(casefile), *_seen(casefile, book), *_pictures(casefile)),
        *(Lack(LackKind.SUMS, f"{capital(e.sentence())}.", e.source) for e in sums),
    )


def _assigned(casefile: Casefile) -> Iterator[Lack]:
    """Who signs, what was agreed, and with whose consent."""
    assignment = casefile.assignment
    if not assignment.examiners:
        yield Lack(LackKind.EXAMINER, said("Nobody is named who reads and signs."))
    for each in assignment.examiners:
        if len(each.name.split()) < 2:
            told = said("The examiner {name} has no full name.", name=each.name)
            yield Lack(LackKind.EXAMINER, told)
    if not assignment.scope.strip():
        told = said("It is not said what was agreed to be examined.")
        yield Lack(LackKind.ASSIGNMENT, told)
    if not assignment.owner_consent.strip():
        yield Lack(LackKind.ASSIGNMENT, said("It is not said what the owner agreed to."))


def _seen(casefile: Casefile, book: CodeBook) -> Iterator[Lack]:
    """Places at which nobody was, and in what conditions the others were seen."""
    every = places_of(casefile, book, planned(casefile, book))
    names = [each.row.name for each in every if is_open(each)]
    if names:
        told = counted(
            "{number} place was not looked at: {names}.",
            "{number} places were not looked at: {names}.",
            len(names),
            names=named_in_a_row(names),
        )
        yield Lack(LackKind.PLACES, told)
    if not casefile.visit.light.strip():
        yield Lack(LackKind.VISIT, said("It is not said what light there was."))
    if not casefile.visit.access.strip():
        yield Lack(LackKind.VISIT, said("It is not said how the car stood."))


def _pictures(casefile: Casefile) -> Iterator[Lack]:
    """A photograph of the whole car, and what each exhibit shows."""
    if not any(each.shows_whole_car for each in casefile.exhibits):
        yield Lack(LackKind.WHOLE_CAR, said("No photograph shows the whole car."))
    bare = [each.id for each in casefile.exhibits if not each.caption.strip()]
    if bare:
        told = counted(
            "{number} photograph has no caption: {names}.",
            "{number} photographs have no caption: {names}.",
            len(bare),
            names=named_in_a_row(bare),
        )
        yield Lack(LackKind.CAPTIONS, told)
