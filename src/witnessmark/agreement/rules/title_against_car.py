"""The number on the title is the identification number of the car, character by character.

A whole number, with its codes, is read as the identification mark of the car's years and set
against everything that each mark, or the claim, shows of it; a bare number is compared
character by character, and the first difference is named with its place. A letter O where the
number can only have a zero, and a bare number that is contained whole in a longer text, are
named and left undecided. A title that says 550128 for a plate that reads 550123 differs at
place 6 of 6. Nothing is said about who is right in law.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.items import claimed, said_of, shown_on, shown_on_title
from witnessmark.agreement.phrases import (
    NOTHING_TO_COMPARE,
    all_of,
    finding,
    item_clause,
    on_mark,
    place_text,
    says,
    sentence,
    subject,
    the_named,
    why_nothing,
)
from witnessmark.agreement.records import (
    AgreementRule,
    CarMarks,
    Finding,
    FindingKind,
    Outcome,
    Subject,
)
from witnessmark.agreement.shares import Comparison, compare_two, number_share
from witnessmark.agreement.showing import TITLE, Showing, certain_places, weakest
from witnessmark.catalogue import as_said, counted, in_a_row, marked, said
from witnessmark.codebook import Basis, Citation, Item, ItemKind
from witnessmark.decoding import bare, number_meant
from witnessmark.reading import AsRead, plain

RULE = AgreementRule(__name__, marked("title against car"), FindingKind.TITLE, rank=30)

INFERENCES = {
    Outcome.AGREE: marked("The title is consistent with {number}."),
    Outcome.DIFFER: marked("The title is not consistent with {number}."),
    Outcome.UNDECIDED: marked("I could not determine whether the title means {number}."),
    Outcome.SILENT: NOTHING_TO_COMPARE,
}


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
    on_title = shown_on_title(car)
    findings: list[Finding] = []
    for item in car.book.items:
        if item.identification and item.kind is ItemKind.NUMBER:
            findings.extend(
                _whole(car, written, on_title, showing)
                if on_title
                else _against(car, written, showing)
                for showing in said_of(car, item.id)
            )
    return tuple(findings)


def _whole(car: CarMarks, written: str, on_title: tuple[Showing, ...], showing: Showing) -> Finding:
    """A whole number against all that one mark, or the claim, shows of it."""
    beside = _beside(car, on_title, showing)
    pairs = [(title, other, compare_two(title, other)) for title, other in beside]
    slips = _slips_of(car)
    parts = [_both(written, showing, [other for _, other, _ in pairs])]
    parts.extend(_differing(*pair) for pair in pairs if pair[2].outcome is Outcome.DIFFER)
    alike = [title.item.name for title, _, found in pairs if found.outcome is Outcome.AGREE]
    if alike:
        parts.append(said("Alike: {items}.", items=all_of(alike)))
    shares = [found.share for _, _, found in pairs if found.share is not None]
    outcome = _of_all([found.outcome for _, _, found in pairs], bool(slips))
    return finding(
        RULE,
        showing.item.id,
        outcome,
        subjects=(Subject(TITLE, "number", _written(written, showing)), subject(showing)),
        observation=in_a_row(filter(None, (*parts, slips))),
        inference=as_said(INFERENCES[outcome], number=_number_on(showing)),
        citation=weakest(
            Citation(Basis.COMMON_PRACTICE, said("compared as written")), *showing.grounds()
        ),
        agreement_share=min(shares, default=None),
    )


def _beside(
    car: CarMarks, on_title: tuple[Showing, ...], showing: Showing
) -> list[tuple[Showing, Showing]]:
    """Each item of the title that this mark, or the claim, shows too."""
    if showing.is_claim:
        stated = ((title, claimed(car, title.item.id)) for title in on_title)
        return [(title, claim) for title, claim in stated if claim is not None]
    shown = shown_on(car, showing.mark)
    return [(title, each) for title in on_title for each in shown if each.item == title.item]


def _both(written: str, showing: Showing, shown: list[Showing]) -> str:
    """What the title says and what the mark reads, as far as both show it."""
    if showing.is_claim or not showing.is_read:
        clause = says(showing) if showing.is_read else why_nothing(showing)
    else:
        text = in_a_row((each.shown for each in shown), "")
        clause = said("the {mark} reads {text}", mark=showing.name, text=text)
    number = _written(written, showing)
    return sentence(said("the title says {number}; {clause}", number=number, clause=clause))


def _written(text: str, showing: Showing) -> AsRead:
    """What the title says of the item of a showing, or what stands at no certain place of it."""
    return AsRead(text, mark=TITLE, field="number", item=showing.item.id)


def _differing(title: Showing, other: Showing, found: Comparison) -> str:
    if found.differing:
        at = found.differing[0]
        one, two = title.place(at), other.place(at)
        return said(
            "The {item} differs at {place}: {title} on the title, {found} on {other}.",
            item=title.item.name,
            place=place_text(at, max(title.places_told, other.places_told)),
            title=title.as_read(one.signs, at) if one is not None else said("nothing"),
            found=other.as_read(two.signs, at) if two is not None else said("nothing"),
            other=the_named(other),
        )
    return sentence(item_clause(title, in_a_row((says(title), says(other)), "; ")))


def _of_all(outcomes: list[Outcome], has_slips: bool) -> Outcome:
    """One difference makes the title differ; one left open leaves it open."""
    if Outcome.DIFFER in outcomes:
        return Outcome.DIFFER
    if Outcome.AGREE not in outcomes and Outcome.UNDECIDED not in outcomes:
        return Outcome.SILENT
    return Outcome.UNDECIDED if has_slips or Outcome.UNDECIDED in outcomes else Outcome.AGREE


def _slips_of(car: CarMarks) -> str:
    """Letters of a copyist where the number can only have figures, in sentences."""
    changes = car.title.reading.changes if car.title is not None else ()
    return in_a_row(
        _slip(each.column, each.typed, each.normalised)
        for each in changes
        if each.typed.isalnum() and each.normalised and each.typed.upper() != each.normalised
    )


def _against(car: CarMarks, written: str, showing: Showing) -> Finding:
    meant = number_meant(car.book, showing.item, written, car.known)
    against = _set_against(bare(written) if meant is None else meant.number, showing)
    clause = says(showing) if showing.is_read else why_nothing(showing)
    number = _written(written, showing)
    observation = sentence(said("the title says {number}; {clause}", number=number, clause=clause))
    return finding(
        RULE,
        showing.item.id,
        against.outcome,
        subjects=(Subject(TITLE, "number", number), subject(showing)),
        observation=in_a_row(filter(None, (observation, against.observed))),
        inference=as_said(INFERENCES[against.outcome], number=_bare_number_on(showing)),
        citation=weakest(
            Citation(Basis.COMMON_PRACTICE, said("compared as written")), *showing.grounds()
        ),
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
            character=AsRead(number[foreign[0]], mark=TITLE),
        )
        return _Against(Outcome.DIFFER, observed, 0.0)
    whole = replace(
        showing, is_whole=True, is_empty=False, places=certain_places(number, showing.item)
    )
    shared = number_share(whole, showing)
    if shared.share is None:
        return _Against(Outcome.SILENT, "")
    if shared.differing:
        first = _first(number, showing, shared.differing[0])
        return _Against(shared.outcome, first, shared.share)
    if slips:
        observed = in_a_row((slips, said("Nothing else differs.")))
        return _Against(Outcome.UNDECIDED, observed, shared.share)
    observed = counted(
        "Nothing differs at the {number} places that can be read.",
        "Nothing differs at the {number} places that can be read.",
        len(shared.both),
    )
    return _Against(shared.outcome, observed, shared.share)


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
            around = AsRead(f"{title[:start]}…{title[start + length :]}", mark=TITLE)
            within = said("The number may be contained in it ({around}).", around=around)
            return _Against(Outcome.UNDECIDED, in_a_row((told, within)))
    parting = _parting(title, showing, length)
    at = min(len(title), length) + 1 if parting is None else parting
    return _Against(
        Outcome.DIFFER, in_a_row((told, said("They differ from place {place} on.", place=at)))
    )


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
        slips.append(_slip(place, character, other))
    return number, in_a_row(slips)


def _slip(place: int, character: str, other: str) -> str:
    return said(
        "At place {place} the title has {character} where the number can only have {other}.",
        place=place,
        character=AsRead(character, mark=TITLE),
        other=AsRead(other, mark=TITLE),
    )


def _first(number: str, showing: Showing, from_end: int) -> str:
    place = showing.place(from_end)
    return said(
        "The first difference is at {place}: {title} on the title, {found} on {other}.",
        place=place_text(from_end, len(number)),
        title=showing.as_read(number[len(number) - from_end - 1], from_end),
        found=showing.as_read(place.signs, from_end) if place is not None else said("nothing"),
        other=the_named(showing),
    )


def _number_on(showing: Showing) -> str:
    """All that a mark, or the claim, shows of the whole number."""
    if showing.is_claim:
        return said("what is claimed about the number")
    return said("what the {mark} shows of the number", mark=showing.name)


def _bare_number_on(showing: Showing) -> str:
    item, mark = showing.item.name, showing.name
    if showing.is_claim:
        return said("the claimed {item}", item=item)
    return said("the {mark}", mark=on_mark(item, mark))
