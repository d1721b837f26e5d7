"""What a comparison says, gathered once: its outline and its JSON are both made from this."""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from witnessmark.agreement import compare
from witnessmark.agreement.build_date import planned_date, stated_date
from witnessmark.agreement.items import BUILD_DATE
from witnessmark.agreement.own_days import with_own_days
from witnessmark.agreement.records import CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.telling import named_differently, value_name
from witnessmark.answers.decoded import not_for
from witnessmark.answers.picked import picked
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.decoding import items_named, render_decoding
from witnessmark.documents.plain import plain_record
from witnessmark.wording.amounts import listed
from witnessmark.wording.first_look import (
    FIRST_LOOK_LIMITS,
    first_look_answer,
    looks_at_one_mark,
    set_against_the_book,
)

ON_TITLE = marked("title")
SAME = (FindingKind.ITEM, FindingKind.TITLE)
"""By these two marks say one thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compares:
    """One reading: from how many other marks it differs, with how many it is open or agrees.

    `told` is what is amiss with its typing, or that the book has no such mark on such a car.
    """

    mark: str
    mark_name: str
    reading: str
    agrees_with: int
    differs_from: int
    open_with: int
    is_compared: bool
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """The whole of it: the answer in a sentence, what is known of the car and by whom, each
    reading in a line, the names of what is alike, and a line or two for all the rest."""

    car: CarMarks
    findings: tuple[Finding, ...]
    answer: str
    known: tuple[str, ...]
    lines: tuple[Compares, ...]
    alike: tuple[str, ...]
    in_order: tuple[str, ...]
    together: tuple[str, ...]
    differing: tuple[str, ...]
    open: tuple[str, ...]
    silent: tuple[str, ...]
    untested: tuple[str, ...]


def compared(car: CarMarks) -> Compared:
    """Compare the marks of a car, and say what came of it."""
    findings = compare(car)
    told = [each for each in findings if each.kind is not FindingKind.PAPER]
    of_year, other = _parted(car, [f for f in told if f.outcome is Outcome.UNDECIDED])
    between = [each for each in told if is_between_marks(each) and each not in of_year]
    differing = [each for each in told if each.outcome is Outcome.DIFFER]
    return Compared(
        car=car,
        findings=findings,
        answer=_answer(car, between, [each for each in told if not is_between_marks(each)]),
        known=_known(car),
        lines=tuple(_lines(car, between)),
        alike=_of_rules(car, between, *SAME),
        in_order=_of_rules(car, between, FindingKind.LAG),
        together=_of_rules(car, between, FindingKind.COMBINATION),
        differing=tuple(_sentences(car, differing)),
        open=(*_sentences(car, other), *_of_year(car, of_year)),
        silent=tuple(_silent(told)),
        untested=tuple(dict.fromkeys(each.observation for each in told if _is_untested(each))),
    )


def _of_rules(car: CarMarks, findings: list[Finding], *kinds: FindingKind) -> tuple[str, ...]:
    """What agrees by findings of these kinds, in names."""
    agreeing = [f for f in findings if f.kind in kinds and f.outcome is Outcome.AGREE]
    return tuple(dict.fromkeys(_topic(car, each) for each in agreeing))


def _is_untested(finding: Finding) -> bool:
    """Is it a rule about codes, of which one was not typed?"""
    return finding.kind is FindingKind.COMBINATION and finding.outcome is Outcome.SILENT


def is_between_marks(finding: Finding) -> bool:
    """Does it compare two marks with each other, and not one with the book alone?"""
    return len({subject.mark for subject in finding.subjects}) > 1


def _answer(car: CarMarks, between: list[Finding], alone: list[Finding]) -> str:
    """The whole answer: of the readings with each other, then of each beside the book."""
    typed = len(car.decodings) + bool(car.casefile.title_paper.number)
    outcomes = [each.outcome for each in between]
    if typed == len(car.decodings) and len({each.mark for each in car.decodings}) == 1:
        readings = looks_at_one_mark(typed)
    else:
        readings = first_look_answer(
            typed,
            outcomes,
            _topics(car, between, Outcome.DIFFER),
            _topics(car, between, Outcome.UNDECIDED),
        )
    book = set_against_the_book(
        _topics(car, alone, Outcome.DIFFER), _topics(car, alone, Outcome.UNDECIDED)
    )
    return in_a_row(each for each in (readings, book) if each)


def _topics(car: CarMarks, findings: list[Finding], outcome: Outcome) -> tuple[str, ...]:
    """What came out so, in a word or two each."""
    words = {
        FindingKind.LAG: marked("the order of dates"),
        FindingKind.COMBINATION: marked("what goes together"),
    }
    found = (
        as_said(words[f.kind]) if f.kind in words else _topic(car, f)
        for f in findings
        if f.outcome is outcome
    )
    return tuple(dict.fromkeys(found))


def _topic(car: CarMarks, finding: Finding) -> str:
    """What a finding is about: an item, or the two that it sets against each other."""
    lag = next((each for each in car.book.lags if each.id == finding.topic), None)
    rule = next((each for each in car.book.rules if each.id == finding.topic), None)
    if finding.kind is FindingKind.LAG and lag is not None:
        first, last = _item(car, lag.earlier), _item(car, lag.later)
        return said("{first} before {last}", first=first, last=last)
    if finding.kind is FindingKind.COMBINATION and rule is not None:
        item, other = _item(car, rule.then_item), _item(car, rule.if_item)
        return said("{item} with {other}", item=item, other=other)
    if finding.kind is FindingKind.TITLE:
        return said("the number on the title")
    return _item(car, finding.topic)


def _item(car: CarMarks, item_id: str) -> str:
    item = car.book.item(item_id)
    return item.name if item is not None else item_id.replace("_", " ")


def _known(car: CarMarks) -> tuple[str, ...]:
    """What the marks name of the car, by whom; and where they contradict what was given, or
    each other."""
    known = items_named(car.book, car.known)
    by_marks: dict[tuple[str, ...], list[str]] = {}
    for item, marks in car.of_car.told:
        by_marks.setdefault(marks[:1], []).append(value_name(car, item, known[item]))
    told = [
        said(
            "The car: {values}, by the {mark}.",
            values=in_a_row(names, ", "),
            mark=_name(car, marks[0]),
        )
        for marks, names in by_marks.items()
    ]
    return (*told, *(named_differently(car, each) for each in car.of_car.contradictions))


def _name(car: CarMarks, mark_id: str) -> str:
    """The mark's name, or the word that a finding uses for what is no mark."""
    mark = car.book.mark(mark_id)
    return mark.name if mark else as_said(mark_id)


def _lines(car: CarMarks, between: list[Finding]) -> Iterable[Compares]:
    """Each reading in the order of entry, the title last."""
    for decoding in car.decodings:
        mark = car.book.mark(decoding.mark)
        told = [] if decoding.slip is None else [decoding.slip.sentence]
        told += [] if mark is None or decoding.is_unlike else not_for(mark, car.known)
        name, typed = _name(car, decoding.mark), decoding.reading.as_typed
        is_like = not decoding.is_unlike
        yield _line(decoding.mark, name, typed, between, told=tuple(told), is_like=is_like)
    if car.casefile.title_paper.number:
        yield _line(ON_TITLE, as_said(ON_TITLE), car.casefile.title_paper.number, between)


def _line(
    mark: str,
    name: str,
    reading: str,
    between: list[Finding],
    told: tuple[str, ...] = (),
    is_like: bool = True,
) -> Compares:
    worst: dict[str, Outcome] = {}
    order = (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE)
    for finding in between:
        marks = {subject.mark for subject in finding.subjects}
        if mark in marks and finding.outcome in order:
            for other in marks - {mark}:
                found = (worst.get(other, Outcome.AGREE), finding.outcome)
                worst[other] = min(found, key=order.index)
    outcomes = list(worst.values())
    return Compares(
        mark=mark,
        mark_name=name,
        reading=reading,
        agrees_with=outcomes.count(Outcome.AGREE),
        differs_from=outcomes.count(Outcome.DIFFER),
        open_with=outcomes.count(Outcome.UNDECIDED),
        is_compared=is_like,
        told=told,
    )


def _sentences(car: CarMarks, findings: Iterable[Finding]) -> Iterable[str]:
    """Each finding in a line or two; of several of one kind the first, and the others named."""
    by_kind: dict[tuple[str, str], list[Finding]] = {}
    for each in findings:
        by_kind.setdefault((each.rule, each.topic), []).append(each)
    for same in by_kind.values():
        first, *others = same
        told = first.brief or first.observation
        named = (dict.fromkeys(_name(car, s.mark) for s in each.subjects) for each in others)
        marks = dict.fromkeys(listed(tuple(names)) for names in named)
        parts = [told, said("[{basis}]", basis=as_said(first.basis.value))]
        if marks:
            parts.insert(1, said("Likewise: {marks}.", marks=in_a_row(marks, "; ")))
        yield in_a_row(parts)


def _parted(car: CarMarks, findings: list[Finding]) -> tuple[list[Finding], list[Finding]]:
    """Those that are open because only the car's year is known, and the others."""
    lags = _lags_to_the_car(car)
    is_dated = stated_date(car) is not None or planned_date(car) is not None
    of_year = [] if is_dated else [each for each in findings if each.topic in lags]
    return of_year, [each for each in findings if each not in of_year]


def _lags_to_the_car(car: CarMarks) -> dict[str, str]:
    """What each lag to or from the day on which the car was built has at its other end."""
    ends = {each.id: (each.earlier, each.later) for each in car.book.lags}
    own = BUILD_DATE.id
    return {lag: a if b == own else b for lag, (a, b) in ends.items() if own in (a, b)}


def _of_year(car: CarMarks, findings: list[Finding]) -> Iterable[str]:
    if findings:
        lags = _lags_to_the_car(car)
        items = dict.fromkeys(_item(car, lags[each.topic]) for each in findings)
        yield said(
            "Only the year in which the car was built is known, so these dates are "
            "compared only with each other: {items}.",
            items=", ".join(items),
        )


def _silent(findings: list[Finding]) -> Iterable[str]:
    """What could not be compared, each reason once: that a book has no series of a number is one,
    on however many marks the number stands."""
    told: dict[str, str] = {}
    for each in findings:
        if each.outcome is Outcome.SILENT and not _is_untested(each):
            text = each.brief or each.observation
            told.setdefault(each.topic if each.kind is FindingKind.SERIES else text, text)
    return told.values()


def render_compared(answer: Compared) -> dict[str, Any]:
    """All of it for a machine; the shape is promised by docs/commands.md."""
    car = answer.car
    return {
        "book": car.book.id,
        "beside": [each.id for each in car.book.beside],
        "version": car.book.version,
        "answer": answer.answer,
        "year": car.known.model_year,
        **_of_car(answer),
        "readings": [asdict(line) for line in answer.lines],
        **picked(answer, "alike", "in_order", "together", "differing"),
        **picked(answer, "open", "silent", "untested"),
        "decodings": [render_decoding(decoding) for decoding in with_own_days(car)],
        "title": render_decoding(car.title) if car.title is not None else None,
        "findings": [plain_record(finding) for finding in answer.findings],
        "does_not_show": list(FIRST_LOOK_LIMITS),
    }


def _of_car(answer: Compared) -> dict[str, Any]:
    """What is known of the car and by whom, and where that contradicts itself."""
    car = answer.car
    known = items_named(car.book, car.known)
    return {
        "of_car": [
            {"item": item, "value": value, "marks": list(car.of_car.marks_that_tell(item))}
            for item, value in known.items()
        ],
        "known": list(answer.known),
        "contradictions": [
            {
                "item": each.item,
                "given": each.given,
                "said": [{"value": value, "marks": list(marks)} for value, marks in each.said],
                "sentence": named_differently(car, each),
            }
            for each in car.of_car.contradictions
        ],
    }
