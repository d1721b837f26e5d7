"""What the answer of a paper that is awaited would change.

The paper is supposed to agree, in every number and code that it can state, with the claim or, of
what nobody claims, with the car's own mark; or to differ in all that bears on a question. Nothing
is composed for it: a character is as likely as the mark makes it, or is another one. Of days it
is supposed to name those of a part's own stamp alone.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from witnessmark.casefile.records import PaperState
from witnessmark.codebook.bearings import bearings_of
from witnessmark.codebook.marks import Field, Mark, MarkKind
from witnessmark.codebook.pieces import PieceKind
from witnessmark.codebook.records import Item, ItemKind
from witnessmark.decoding import fields_said
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence.noted import (
    READ,
    UNLISTED,
    CodeSeen,
    DateSeen,
    NumberSeen,
    SurfaceSeen,
)
from witnessmark.weighing.evidence.numbers import claimed_number, copied
from witnessmark.weighing.network.build import network_of, noted
from witnessmark.weighing.network.questions import Question, questions_of, sides
from witnessmark.weighing.pieces.noted_car import Noted
from witnessmark.weighing.rates import RateValues
from witnessmark.weighing.records import LookOutcome, NextLook

ANSWER_AWAITED = "answer awaited"
AGREES, DIFFERS, NO_RECORD = "it agrees", "it differs", "no record"
WRONG = 1 / 300
"""A clear character or code on a paper is another one (as when read once in person)."""
OTHER_DAYS = 180
"""By so many days a day differs that is not the one of the stamp (assumed)."""


def looks_awaited(
    known: Noted, rates: RateValues, now: dict[Question, float]
) -> Iterator[NextLook]:
    """For every paper of the book that is awaited: each question on which it bears, if it
    agrees, if it differs in what bears on it, and if there is no record. `now`: log10 LRs."""
    car = known.car
    awaited = {each.mark for each in car.casefile.papers if each.state is PaperState.AWAITED}
    for mark in car.book.marks_for(car.context):
        is_paper = mark.kind is MarkKind.PAPER and mark.argues and not car.is_echo(mark.id)
        if mark.id in awaited and is_paper and not car.of(mark.id):
            yield from _answers(known, rates, mark, {(q.asked, q.about): v for q, v in now.items()})


def _answers(
    known: Noted, rates: RateValues, mark: Mark, now: dict[tuple[object, str], float]
) -> Iterator[NextLook]:
    stated = {fld.says for fld in fields_said(known.car.book, mark)}
    bears: dict[str, set[str]] = {p.piece: set(stated) for p in known.pieces.standings
                                  if p.mark == mark.id}  # fmt: skip
    for each in bearings_of(known.car.book, known.pieces, mark):
        bears.setdefault(each.question, set()).add(each.item)
        bears.setdefault(each.item, set()).add(each.item)
    agreeing = _weighed(known, rates, mark, frozenset())
    differing: dict[frozenset[str], dict[Question, float]] = {}
    for question, log10_lr in agreeing.items():
        if question.about not in bears:
            continue
        items = frozenset(bears[question.about])
        if items not in differing:
            differing[items] = _weighed(known, rates, mark, items)
        before = now.get((question.asked, question.about), 0.0)
        outcomes = (
            LookOutcome(AGREES, log10_lr),
            LookOutcome(DIFFERS, differing[items].get(question, log10_lr)),
            LookOutcome(NO_RECORD, before),
        )
        yield NextLook(mark.id, ANSWER_AWAITED, question.asked, question.about, outcomes)


def _weighed(
    known: Noted, rates: RateValues, mark: Mark, differs: frozenset[str]
) -> dict[Question, float]:
    """The answers if the paper says so of its items."""
    supposed = noted(known.car, _supposed(known, mark, differs))
    network = network_of(supposed, rates)
    found = {each: sides(network, supposed, each) for each in questions_of(supposed)}
    return {each: side.log10_lr() for each, side in found.items() if side is not None}


def _supposed(known: Noted, mark: Mark, differs: frozenset[str]) -> SurfaceSeen:
    """What the paper would show."""
    surface = next(s for p in known.seen for s in p.surfaces if mark in s.marks)
    for fld in fields_said(known.car.book, mark):
        item = known.car.book.item(fld.says)
        is_other = fld.says in differs
        if item is None:
            continue
        if item.kind is ItemKind.NUMBER and item.length:
            shown = _numbered(known, mark, fld, item, is_other)
            surface = replace(surface, numbers=(*surface.numbers, *shown))
        elif fld.date_form:
            found = (_named(known, each, mark, fld, is_other) for each in _days(known, item))
            surface = replace(surface, dates=(*surface.dates, *found))
        elif code := _code(known, mark, fld, is_other):
            surface = replace(surface, codes=(*surface.codes, code))
    return surface


def _numbered(
    known: Noted, mark: Mark, fld: Field, item: Item, is_other: bool
) -> Iterator[NumberSeen]:
    rows = _number(known, item)
    if rows is None:
        return
    rows = np.roll(rows, 1, axis=1) if is_other else rows.copy()
    if fld.part.startswith("last "):
        rows[: -int(fld.part.split()[1])] = 1.0
    yield NumberSeen(
        item=item.id, mark=mark.id, status=READ, rows=copied(rows, item), always=mark.always_struck
    )


def _number(known: Noted, item: Item) -> Array | None:
    """The number as claimed; of another the likeliest as its own part shows it; None where
    neither is known."""
    claimed = known.car.casefile.claim.items.get(item.id, "") if item.identification else ""
    places = claimed_number(item, claimed)
    if places is None:
        shown = [n.rows for p in known.seen for n in p.numbers if n.item == item.id
                 and n.status is READ and p.piece.kind is not PieceKind.PAPER]  # fmt: skip
        if not shown:
            return None
        places = np.prod(shown, axis=0).argmax(axis=1)
    rows = np.full((item.length, len(item.alphabet)), WRONG / len(item.alphabet))
    rows[np.arange(item.length), places] = 1.0 - WRONG
    return rows


def _code(known: Noted, mark: Mark, fld: Field, is_other: bool) -> CodeSeen | None:
    """The code of what is claimed, or the first other one of such a car."""
    book, context = known.car.book, known.car.context
    claimed = known.car.casefile.claim.items.get(fld.says, "")
    listed = [r.value for r in book.table(fld.table) if r.citation.basis.weighs]
    if not claimed or claimed not in listed:
        return None
    alike = (r.value for r in (*book.table(fld.table, context), *book.table(fld.table)))
    other = next((v for v in alike if v != claimed and v in listed), UNLISTED)
    shown = dict.fromkeys((*listed, UNLISTED), WRONG)
    return CodeSeen(fld.says, mark.id, shown | {other if is_other else claimed: 1.0})


def _days(known: Noted, item: Item) -> Iterator[DateSeen]:
    """A part's own stamp with its day."""
    found = (d for p in known.seen if p.piece.kind is not PieceKind.PAPER
             for s in p.surfaces for d in s.dates if d.item == item.id and item.home)  # fmt: skip
    yield from list(found)[:1]


def _named(known: Noted, day: DateSeen, mark: Mark, fld: Field, is_other: bool) -> DateSeen:
    days = day.days + OTHER_DAYS if is_other else day.days
    return replace(day, mark=mark.id, field=fld.id, name=mark.name, days=days, is_cast=False)
