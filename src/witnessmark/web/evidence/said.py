"""What a place says: its readings decoded, what agrees with it and what does not, what is left."""

from dataclasses import dataclass, replace
from functools import lru_cache

from witnessmark.agreement import compare
from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.answers.decoded import answer_to
from witnessmark.casefile import MarkReading
from witnessmark.examination import car_context, car_marks, in_book_words
from witnessmark.examination.sites import places_noted
from witnessmark.web.evidence.live import LiveReading, of_answer
from witnessmark.web.shared import books
from witnessmark.web.shared.desk import CASES_KEPT, Bench, on_bench
from witnessmark.web.shared.kept import kept_by_text
from witnessmark.wording import Names, again_sentence, look_text, misfit_sentence
from witnessmark.wording.amounts import capital
from witnessmark.wording.settling import LookText
from witnessmark.wording.sites import ended_sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSaid:
    """A reading with who read it, and what it says."""

    mark: str
    by: str
    said: LiveReading


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSaid:
    """What the marks of a place say together: contradictions, what differs, what agrees."""

    misfits: tuple[str, ...] = ()
    readings: tuple[ReadingSaid, ...] = ()
    differs: tuple[str, ...] = ()
    agrees: tuple[str, ...] = ()
    undecided: tuple[str, ...] = ()
    ended: tuple[str, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Was nothing read here, and nothing else said of it?"""
        return not (self.misfits or self.readings or self.differs or self.agrees or self.ended)


def place_said(bench: Bench, marks: tuple[str, ...]) -> PlaceSaid:
    """What these marks say, and the place where it is named among them. A case with faults is not
    compared: its readings alone are told."""
    return _place_said(bench, *marks)


@kept_by_text
def _place_said(bench: Bench, *marks: str) -> PlaceSaid:
    if not bench.has_book:
        return PlaceSaid()
    readings = tuple(
        one for each in bench.casefile.readings
        if each.mark in marks and (one := _said(bench, each)) is not None
    )  # fmt: skip
    if bench.faults:
        return PlaceSaid(readings=readings)
    found = [each for each in _findings(bench) if any(s.mark in marks for s in each.subjects)]
    misfits = [each for each in (bench.answer.misfits if bench.answer else ()) if each.argues]
    here = [each for each in misfits if set(each.about) & set(marks)]
    told = {each.sentence for each in here}
    return PlaceSaid(
        misfits=tuple(map(misfit_sentence, here)),
        readings=readings,
        differs=_told(found, Outcome.DIFFER, told),
        agrees=_told(found, Outcome.AGREE, told),
        undecided=_told(found, Outcome.UNDECIDED, told),
    )


def said_here(bench: Bench, site: str, marks: tuple[str, ...]) -> PlaceSaid:
    """What a stop and its marks say, with how each ended where that is an answer without
    characters: absent, illegible, not accessible."""
    said = place_said(bench, (site, *marks))
    if not bench.has_book:
        return said
    case = in_book_words(bench.casefile, bench.book)
    noted = places_noted(case, bench.book, car_context(bench.casefile, bench.book))
    outcomes = (o for each in noted if each.site == site for o in each.outcomes)
    return replace(said, ended=tuple(filter(None, map(ended_sentence, outcomes))))


def _said(bench: Bench, reading: MarkReading) -> ReadingSaid | None:
    mark = bench.book.mark(reading.mark)
    if mark is None:
        return None
    answer = answer_to(bench.book, mark, reading.text, _marks(bench).known)
    return ReadingSaid(mark=capital(mark.name), by=reading.by, said=of_answer(answer))


def _told(findings: list[Finding], outcome: Outcome, told: set[str]) -> tuple[str, ...]:
    """The observations of one outcome, but for those that were told already."""
    found = (each.brief or each.observation for each in findings if each.outcome is outcome)
    return tuple(each for each in dict.fromkeys(found) if each not in told)


def _marks(bench: Bench) -> CarMarks:
    return _compared(bench.kept.text, books.state())[0]


def _findings(bench: Bench) -> tuple[Finding, ...]:
    return _compared(bench.kept.text, books.state())[1]


@lru_cache(CASES_KEPT)
def _compared(text: str, books_state: str) -> tuple[CarMarks, tuple[Finding, ...]]:
    """The marks of a case decoded together, and what they say of each other."""
    on = on_bench(text)
    car = car_marks(in_book_words(on.casefile, on.book), on.book)
    return car, () if on.faults else compare(car)


@dataclass(frozen=True, slots=True)
class LookWorth:
    """A look that is left here: what to do, what it costs, what it would move."""

    text: LookText
    moves: str


def looks_worth(bench: Bench, site: str, marks: tuple[str, ...]) -> tuple[LookWorth, ...]:
    """What a further look at this place would be worth; worked out with the whole Opinion."""
    opinion = bench.opinion
    if opinion is None:
        return ()
    names = Names(opinion.names)
    here = (each for each in opinion.looks if each.site == site or each.target in marks)
    return tuple(LookWorth(look_text(e), again_sentence(e, opinion, names)) for e in here)
