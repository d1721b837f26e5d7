"""A car to be tried: what its marks say, as somebody would type it, and the ways to change it.

A text holds names in braces ({number}, {tail}); `values` says what stands for them. So one
change can put another car's number on one mark, whatever else stands on that mark.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

from witnessmark.casefile.parse import parse_casefile
from witnessmark.casefile.records import FORMAT, FORMAT_VERSION, Casefile
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination.check import check_case
from witnessmark.problem import render_all

BOOKS = Path(__file__).parent / "books"

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Typed:
    """One reading: its text, values of its own for the names in it, and what goes with it."""

    text: str
    own: Texts = field(default_factory=dict)
    beside: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Core:
    """A core and the marks by which it is tried; a text is empty where the book has no such date.

    `tie` bears a number that ties it to the car. `cast` is the mark of its casting date, `late`
    what it would say months after the car, `early` eight months before it. `stamp` is the mark
    with its day of assembly, `before_cast` what it would say a fortnight before the casting.
    """

    assembly: str
    tie: str = ""
    cast: str = ""
    late: str = ""
    early: str = ""
    stamp: str = ""
    before_cast: str = ""


@dataclass(frozen=True, slots=True)
class Car:
    """A car of one book; `hidden` are the marks of the bearer, `others` the numbers of other cars.

    `near` and `exchanged` are this car's numbers with one figure wrong, and with two neighbours
    exchanged.
    """

    book: str
    claim: Texts
    built: str
    values: Texts
    readings: Mapping[str, tuple[Typed, ...]]
    bearer: str
    hidden: tuple[str, ...]
    plate: str
    cores: tuple[Core, ...]
    others: tuple[Texts, ...]
    near: Texts
    exchanged: Texts
    looks: Mapping[tuple[str, str], str] = field(default_factory=dict)
    sites: Texts = field(default_factory=dict)
    papers: Texts = field(default_factory=dict)
    statements: tuple[Mapping[str, Any], ...] = ()
    title: str = ""

    def core(self, assembly: str) -> Core:
        """The core of one assembly."""
        return next(each for each in self.cores if each.assembly == assembly)

    def but(self, *changes: "Change") -> "Car":
        """The car with these changes, each after the one before."""
        car = self
        for change in changes:
            car = change(car)
        return car


Change = Callable[[Car], Car]


# ---------------------------------------------------------------------- what is read


def says(mark: str, text: str = "", **own: str) -> Change:
    """The mark says this text, or the same with these names meaning something else."""

    def change(car: Car) -> Car:
        before = car.readings.get(mark, (Typed(""),))
        after = tuple(
            replace(each, text=text or each.text, own={**each.own, **own}) for each in before
        )
        return replace(car, readings={**car.readings, mark: after})

    return change


def _with_own(mark: str, choose: Callable[[Car], Texts]) -> Change:
    return lambda car: car.but(says(mark, **choose(car)))


def of_another(*marks: str, which: int = 0) -> Change:
    """These marks bear the number of another car, undisturbed."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.others[which]) for mark in marks))


def one_figure_wrong(*marks: str) -> Change:
    """One figure of the number on these marks is another."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.near) for mark in marks))


def two_exchanged(*marks: str) -> Change:
    """Two neighbouring figures of the number on these marks are exchanged."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.exchanged) for mark in marks))


def unseen(*marks: str) -> Change:
    """Nobody looked for these marks; a site with nothing else on it is not seen either."""
    return lambda car: replace(
        car, readings={each: read for each, read in car.readings.items() if each not in marks}
    )


def noted(**beside: Any) -> Callable[..., Change]:
    """What goes with every reading of some marks: legibility, how it was seen."""

    def of(*marks: str) -> Change:
        def change(car: Car) -> Car:
            changed = {
                mark: tuple(replace(each, beside={**each.beside, **beside}) for each in typed)
                for mark, typed in car.readings.items()
                if mark in (marks or tuple(car.readings))
            }
            return replace(car, readings={**car.readings, **changed})

        return change

    return of


again = noted(again=True)
"""Looked at once more after something did not fit."""
worn = noted(legibility="worn")
poor = noted(legibility="poor")
photographed = noted(seen="photograph")
told = noted(seen="told")


def second_reading(mark: str, text: str = "", **own: str) -> Change:
    """Another examiner reads the mark too."""

    def change(car: Car) -> Car:
        first = car.readings[mark][0]
        other = Typed(text or first.text, {**first.own, **own}, {"by": "second examiner"})
        return replace(car, readings={**car.readings, mark: (*car.readings[mark], other)})

    return change


# ------------------------------------------------------------ how it looks, where it ended


def looks(site: str, outcome: str, feature: str = "surface") -> Change:
    """How the metal at one site appears."""
    return lambda car: replace(car, looks={**car.looks, (site, feature): outcome})


def all_look(outcome: str) -> Change:
    """Every site that was seen appears so."""
    return lambda car: replace(
        car, looks={**car.looks, **{(site, "surface"): outcome for site in sites_seen(car)}}
    )


def ends(site: str, state: str) -> Change:
    """How the visit to one site ended."""
    return lambda car: replace(car, sites={**car.sites, site: state})


# ------------------------------------------------------------------------ what is said


def claims(**items: str) -> Change:
    """What else, or otherwise, is claimed; an empty value takes a claimed item away."""
    return lambda car: replace(car, claim={k: v for k, v in {**car.claim, **items}.items() if v})


def completed(day: str) -> Change:
    """The claim's own day; an empty one where it states none."""
    return lambda car: replace(car, built=day)


def declared(about: str, sentence: str, **said: str) -> Change:
    """The seller says so beforehand; `said` are the statement's origin, work, who did it, paper."""
    is_first = {"first": True, "": None}.get(said.get("origin", ""), False)
    statement = {"about": about, "says": sentence, "original": is_first, **said}
    return lambda car: replace(car, statements=(*car.statements, statement))


def renumbered(**values: str) -> Change:
    """The whole car says so wherever the name stands."""
    return lambda car: replace(car, values={**car.values, **values})


def paper(mark: str, state: str) -> Change:
    """Where a paper is."""
    return lambda car: replace(car, papers={**car.papers, mark: state})


def titled(number: str) -> Change:
    """The number on the title paper."""
    return lambda car: replace(car, title=number)


# -------------------------------------------------------------------- the case document


@cache
def book_of(book_id: str) -> CodeBook:
    """A shipped book, or one of the small ones kept here."""
    here = BOOKS / book_id
    folder = here if here.is_dir() else find_book(book_id)
    assert folder is not None, book_id
    opened = open_book(folder)
    assert opened.book is not None, render_all(opened.problems)
    assert not opened.problems, render_all(opened.problems)
    return opened.book


def sites_seen(car: Car) -> tuple[str, ...]:
    """The sites at which something was read, in the order of the readings."""
    marks = (book_of(car.book).mark(mark) for mark in car.readings)
    return tuple(dict.fromkeys(mark.site for mark in marks if mark is not None and mark.site))


def document(car: Car) -> str:
    """The case as its document would be written."""
    seen = sites_seen(car)
    states = dict.fromkeys(seen, "read") | dict(car.sites)
    at = {site: "factory" for site in seen if states[site] == "read"}
    surfaces = {(site, "surface"): look for site, look in at.items()} | dict(car.looks)
    marks = {mark.id: mark for mark in book_of(car.book).marks}
    in_hand = {
        mark: "in hand" for mark in car.readings if marks[mark].kind is MarkKind.PAPER
    } | dict(car.papers)
    return json.dumps(
        {
            "format": FORMAT,
            "format_version": FORMAT_VERSION,
            "id": "tried",
            "book": car.book,
            "claim": {
                "made_by": "the seller",
                "items": dict(car.claim),
                "built": car.built or None,
                "statements": [dict(each) for each in car.statements],
            },
            "sites": [{"site": site, "state": state} for site, state in states.items()],
            "readings": [
                {
                    "mark": mark,
                    "text": each.text.format_map({**car.values, **each.own}),
                    "by": "examiner",
                    **each.beside,
                }
                for mark, typed in car.readings.items()
                for each in typed
            ],
            "looks": [
                {"site": site, "feature": feature, "outcome": outcome, "by": "examiner"}
                for (site, feature), outcome in surfaces.items()
                if site in at
            ],
            "papers": [{"mark": mark, "state": state} for mark, state in in_hand.items()],
            "title_paper": {"number": car.title},
        }
    )


def casefile(car: Car) -> Casefile:
    """The case, opened as a user's would be; it has no problem, or this fails with its text."""
    parsed = parse_casefile(document(car), "case.json")
    assert parsed.casefile is not None, render_all(parsed.problems)
    beside = check_case(parsed.casefile, parsed.places, book_of(car.book))
    problems = (*parsed.problems, *beside)
    assert not problems, render_all(problems)
    return parsed.casefile
