"""What each thing noted does to each question: the answer with it less the answer without.

At base rates only, uncapped. A thing is the numbers, the look, a code or a date of one surface.
It is tried on the questions that it can bear on: its own piece, identity and its items.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from witnessmark.catalogue import said
from witnessmark.weighing.evidence.noted import ABSENT, READ, PieceSeen, SurfaceSeen
from witnessmark.weighing.kept_alike import alike
from witnessmark.weighing.network.build import network_of, with_piece
from witnessmark.weighing.network.leaving_out import each_without
from witnessmark.weighing.network.network import Network
from witnessmark.weighing.network.questions import Question, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import RateValues
from witnessmark.weighing.records import Asked, Contribution

LEAST = 0.005
"""A change of log10 LR below this is not listed, but for a number's, which always is."""


@dataclass(frozen=True, slots=True, eq=False)
class Thing:
    """One thing noted, the piece without it, and the items of which it speaks."""

    about: str
    kind: str
    sentence: str
    without: PieceSeen
    items: tuple[str, ...] = ()


def contributions(
    known: Noted,
    rates: RateValues,
    network: Network,
    asked: Iterable[Question],
    answers: dict[Question, float],
) -> dict[Question, tuple[Contribution, ...]]:
    """For every question what was noted with what it does to it, the strongest first."""
    questions = [each for each in asked if each in answers]
    found: dict[Question, list[Contribution]] = {each: [] for each in questions}
    for seen in known.seen:
        left_out = list(things(known, seen))
        if not left_out:
            continue
        without = [with_piece(known, thing.without) for thing in left_out]
        changed = each_without(network, known, rates, seen.piece, without)
        for thing, car, one in zip(left_out, without, changed, strict=True):
            for question in questions:
                if not _bears_on(known, seen, thing, question):
                    continue
                # An item that could not stand by itself beside the others is asked alone.
                apart = question.asked is Asked.ITEM and question.about in network.axes.agreed
                side = sides(network_of(car, rates) if apart else one, car, question)
                if side is None:
                    # Without this thing the question does not arise.
                    continue
                change = answers[question] - side.log10_lr()
                if thing.kind in ("number", "absence") or abs(change) >= LEAST:
                    each = Contribution(thing.about, thing.kind, thing.sentence, change)
                    found[question].append(each)
    return {
        question: tuple(sorted(each, key=lambda c: -abs(c.log10_lr_change)))
        for question, each in found.items()
    }


def _bears_on(known: Noted, seen: PieceSeen, thing: Thing, question: Question) -> bool:
    match question.asked:
        case Asked.IDENTITY if question.about == known.bearer:
            return True
        case Asked.ITEM:
            return question.about in thing.items
        case _:
            return question.about in (seen.piece.id, seen.piece.assembly)


def things(known: Noted, seen: PieceSeen) -> Iterator[Thing]:
    """Everything noted of a piece, thing by thing."""
    book = known.car.book
    for place, surface in enumerate(seen.surfaces):
        for k, (about, kind, sentence, rest, items) in enumerate(_of_surface(known, surface)):
            without = partial(_with_surface, seen, place, rest)
            yield Thing(
                about, kind, sentence, alike(book, "left out", (seen, place, k), without), items
            )


def _with_surface(seen: PieceSeen, place: int, surface: SurfaceSeen) -> PieceSeen:
    surfaces = (*seen.surfaces[:place], surface, *seen.surfaces[place + 1 :])
    return replace(seen, surfaces=surfaces)


type _Part = tuple[str, str, str, SurfaceSeen, tuple[str, ...]]


def _of_surface(known: Noted, surface: SurfaceSeen) -> Iterator[_Part]:
    names = {mark.id: mark.name for mark in surface.marks}
    for mark in dict.fromkeys(number.mark for number in surface.numbers):
        numbers = tuple(number for number in surface.numbers if number.mark == mark)
        rest = tuple(number for number in surface.numbers if number.mark != mark)
        is_read = any(number.status is READ for number in numbers)
        kind = "number" if is_read else "absence"
        told = said("The number of the {mark}.", mark=names[mark])
        if not is_read:
            absent = numbers[0].status is ABSENT
            told = (
                said("The {mark} is absent.", mark=names[mark])
                if absent
                else said("The {mark} was taken off.", mark=names[mark])
            )
        yield mark, kind, told, replace(surface, numbers=rest), ()
    for code in surface.codes:
        item = known.car.book.item(code.item)
        told = said(
            "The {item} on the {mark}.",
            item=item.name if item is not None else code.item,
            mark=names[code.mark],
        )
        others = tuple(each for each in surface.codes if each is not code)
        speaks_of = known.items[code.item].speaks_of
        yield code.mark, "code", told, replace(surface, codes=others), speaks_of
    for date in surface.dates:
        dates = tuple(each for each in surface.dates if each is not date)
        told = said("The {date}.", date=date.name)
        yield date.mark, "date", told, replace(surface, dates=dates), ()
    if not (surface.look is None and surface.is_seamed is None):
        site = known.car.book.site(surface.id, known.car.context)
        told = said("How the metal looks at the {place}.", place=site.name if site else surface.id)
        yield (
            surface.id,
            "look",
            told,
            replace(surface, look=None, fixings=None, is_seamed=None),
            (),
        )
