"""The number on the title is the identification number of the car, character by character.

A title that says 550128 for a plate that reads 550123 differs at place 6 of 6. A
title office copies by hand: a letter O for a nought or a letter I for a one is
named and left undecided, and so is a number that stands whole within a longer
one. Nothing is said about who is right in law.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.items import bare, claimed, showings
from witnessmark.agreement.phrases import (
    finding,
    nothing_to_compare,
    on_mark,
    place_text,
    says,
    sentence,
    subject,
    the_named,
    why_nothing,
)
from witnessmark.agreement.placing import certain_places
from witnessmark.agreement.records import CarMarks, Finding, Outcome, Subject
from witnessmark.agreement.shares import number_share, outcome_of
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.catalogue import counted, said
from witnessmark.codebook.records import Basis, Citation, Item, ItemKind
from witnessmark.reading.alphabet import plain

RULE = "title_against_car"
TITLE = "title"


@dataclass(frozen=True, slots=True)
class _Against:
    """The title's number set against one showing."""

    outcome: Outcome
    observed: str
    share: float | None = None


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every mark that shows an identification number, and one for the claim."""
    written = car.casefile.title_paper.number
    if not bare(written):
        return ()
    findings: list[Finding] = []
    for item in car.book.items:
        if item.identification and item.kind is ItemKind.NUMBER:
            claim = claimed(car, item.id)
            shown = (*showings(car, item.id), *(() if claim is None else (claim,)))
            findings.extend(_against(written, showing) for showing in shown)
    return tuple(findings)


def _against(written: str, showing: Showing) -> Finding:
    against = _set_against(bare(written), showing)
    clause = says(showing) if showing.is_read else why_nothing(showing)
    observation = sentence(said("the title says {number}; {clause}", number=written, clause=clause))
    return finding(
        RULE,
        showing.item.id,
        against.outcome,
        (Subject(TITLE, "number", written), subject(showing)),
        f"{observation} {against.observed}".strip(),
        _inference(showing, against.outcome),
        weakest(Citation(Basis.COMMON_PRACTICE, said("compared as written")), *showing.grounds()),
        agreement_share=against.share,
    )


def _set_against(title: str, showing: Showing) -> _Against:
    if not showing.is_read:
        return _Against(Outcome.SILENT, "")
    length = _length(showing, title)
    if len(title) != length:
        return _other_length(title, showing, length)
    number, slips = _without_slips(title, showing.item)
    foreign = [i for i, c in enumerate(number) if c not in showing.item.alphabet]
    if foreign:
        observed = said(
            "At {place} the title has {character}, which this number never has.",
            place=place_text(length - foreign[0] - 1, length),
            character=number[foreign[0]],
        )
        return _Against(Outcome.DIFFER, observed, 0.0)
    whole = replace(
        showing, is_whole=True, is_empty=False, places=certain_places(number, showing.item)
    )
    shared = number_share(whole, showing)
    if shared is None:
        return _Against(Outcome.SILENT, "")
    if shared.differing:
        return _Against(
            outcome_of(shared.share), _first(number, showing, shared.differing[0]), shared.share
        )
    if slips:
        observed = f"{slips} {said('Nothing else differs.')}"
        return _Against(Outcome.UNDECIDED, observed, shared.share)
    observed = counted(
        "Nothing differs at the {number} places that can be read.",
        "Nothing differs at the {number} places that can be read.",
        len(shared.both),
    )
    return _Against(outcome_of(shared.share), observed, shared.share)


def _length(showing: Showing, title: str) -> int:
    """The length of the whole number, or that of the title where the book leaves it open."""
    if showing.item.length:
        return showing.item.length
    return len(showing.places) if showing.is_whole else len(title)


def _other_length(title: str, showing: Showing, length: int) -> _Against:
    """A title with more or fewer characters: does the number stand within it?"""
    told = said(
        "The title has {found} characters where the number has {length}.",
        found=len(title),
        length=length,
    )
    for start in range(len(title) - length + 1):
        if _parting(title[start : start + length], showing, length) is None:
            around = f"{title[:start]}…{title[start + length :]}"
            within = said("The number can stand within it ({around}).", around=around)
            return _Against(Outcome.UNDECIDED, f"{told} {within}")
    parting = _parting(title, showing, length)
    at = min(len(title), length) + 1 if parting is None else parting
    return _Against(Outcome.DIFFER, f"{told} {said('They part at place {place}.', place=at)}")


def _parting(title: str, showing: Showing, length: int) -> int | None:
    """The first place from the left, from 1, where a read place has another character."""
    for place in showing.places:
        at = length - 1 - place.from_end
        if place.is_read and at < len(title) and title[at] not in place.signs:
            return at + 1
    return None


def _without_slips(title: str, item: Item) -> tuple[str, str]:
    """The title with a copyist's letters as the number's own, and a sentence that says so."""
    number, slips = "", []
    for place, character in enumerate(title, start=1):
        forms = plain(character, item.alphabet)
        other = forms if len(forms) == 1 else character
        number += other
        if other == character:
            continue
        slips.append(
            said(
                "At place {place} the title has {character} where the number can only have "
                "{other}.",
                place=place,
                character=character,
                other=other,
            )
        )
    return number, " ".join(slips)


def _first(number: str, showing: Showing, from_end: int) -> str:
    place = showing.place(from_end)
    return said(
        "The first difference is at {place}: {title} on the title, {found} on {other}.",
        place=place_text(from_end, len(number)),
        title=number[len(number) - from_end - 1],
        found=place.signs if place is not None else said("nothing"),
        other=the_named(showing),
    )


def _inference(showing: Showing, outcome: Outcome) -> str:
    item, mark = showing.item.name, showing.name
    number = (
        said("the {item} that is claimed", item=item)
        if showing.is_claim
        else said("the {mark}", mark=on_mark(item, mark))
    )
    match outcome:
        case Outcome.AGREE:
            return said("The title is consistent with {number}.", number=number)
        case Outcome.DIFFER:
            return said("The title is not consistent with {number}.", number=number)
        case Outcome.UNDECIDED:
            return said("I could not determine whether the title means {number}.", number=number)
        case Outcome.SILENT:
            return nothing_to_compare()
