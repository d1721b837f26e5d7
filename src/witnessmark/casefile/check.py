"""What a case alone can contradict: ids, references, file names, doubled entries.

Whether a mark or a site is one of the code book's is not asked here: this room
knows no book.

Fields that a case holds and this version does not know are kept, but not read. They are no fault:
another version or another program may know them. They are worth a line all the same, because a
misspelt field looks just like one.
"""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from witnessmark.casefile.file_names import name_fault
from witnessmark.casefile.problems import (
    BadCaseId,
    BuiltAfterOpening,
    CopyCircle,
    DayBefore,
    ExhibitNameRefused,
    ExhibitUnknown,
    NamedTwice,
    SumLeftOut,
)
from witnessmark.casefile.records import (
    Casefile,
    LookSeen,
    MarkReading,
    Paper,
    SiteSeen,
    Sum,
    SumKind,
)
from witnessmark.dates import PartialDate
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import OpenRow
from witnessmark.problem import Problem
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class _Named:
    """A name that stands at a path."""

    name: str
    path: KeyPath


def check_case(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """All contradictions inside one case."""
    for check in (_twice, _references, _file_names, _built, _days, _copies):
        yield from check(casefile, places)


def check_case_id(case_id: str, source: Source) -> tuple[Problem, ...]:
    """Can this name a case? `source` is where somebody typed it."""
    is_name = Casefile.fields_declared()["id"].key.form.fullmatch(case_id)
    return () if is_name else (BadCaseId(source, case_id),)


def _twice(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """Entries of which there can be only one."""
    conditions = casefile.circumstances
    examiners, exhibits = casefile.assignment.examiners, casefile.exhibits
    seen = _named(("sites",), "site", (each.site for each in casefile.sites))
    listed: dict[str, list[_Named]] = {
        "examiner": _named(("assignment", "examiners"), "id", (each.id for each in examiners)),
        "code book": [
            _Named(casefile.book, ("book",)),
            *(_Named(name, ("beside", n)) for n, name in enumerate(casefile.beside)),
        ],
        "site": [e for e, visit in zip(seen, casefile.sites, strict=True) if not visit.mark],
        "mark of a site": [
            _Named(f"{visit.mark} at {visit.site}", ("sites", n, "mark"))
            for n, visit in enumerate(casefile.sites)
            if visit.mark
        ],
        "exhibit": _named(("exhibits",), "id", (each.id for each in exhibits)),
        "file": _named(("exhibits",), "file", (each.file for each in exhibits)),
        "question": _named(
            ("circumstances", "prior_odds"), "question", (p.question for p in conditions.prior_odds)
        ),
        "row": _named(("circumstances", "overrides"), "row", (o.row for o in conditions.overrides)),
        "vouched row": _named(
            ("circumstances", "vouched"), "row", (each.row for each in conditions.vouched)
        ),
    }
    for noun, names in listed.items():
        first_lines: dict[str, int] = {}
        for each in names:
            # Two names that one file system takes for the same are the same.
            key = unicodedata.normalize("NFC", each.name)
            key = key.casefold() if noun == "file" else key
            source = places.source(each.path)
            if key in first_lines:
                yield NamedTwice(source, noun, each.name, first_lines[key])
            first_lines.setdefault(key, source.line or 0)


def _named(list_path: KeyPath, field: str, names: Iterable[str]) -> list[_Named]:
    return [_Named(name, (*list_path, n, field)) for n, name in enumerate(names)]


def _references(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """Every exhibit that is referred to stands in the list."""
    known = tuple(entry.id for entry in casefile.exhibits)
    for each in _referred(casefile):
        if each.name not in known:
            yield ExhibitUnknown(places.source(each.path), each.name, known)


def _referred(casefile: Casefile) -> Iterator[_Named]:
    """All references to exhibits."""
    groups: tuple[tuple[str, tuple[SiteSeen | MarkReading | LookSeen | Paper, ...]], ...] = (
        ("sites", casefile.sites),
        ("readings", casefile.readings),
        ("looks", casefile.looks),
        ("papers", casefile.papers),
    )
    for section, records in groups:
        for n, record in enumerate(records):
            for m, exhibit in enumerate(record.exhibits):
                yield _Named(exhibit, (section, n, "exhibits", m))
    for m, exhibit in enumerate(casefile.title_paper.exhibits):
        yield _Named(exhibit, ("title_paper", "exhibits", m))


def _file_names(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """No file name leads anywhere but into `exhibits/`."""
    for n, entry in enumerate(casefile.exhibits):
        fault = name_fault(entry.file)
        if fault is not None:
            yield ExhibitNameRefused(places.source(("exhibits", n, "file")), entry.file, fault)


def _built(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """The car is not said to be younger than the case."""
    built, opened = casefile.claim.built, casefile.opened
    if built is not None and opened is not None and PartialDate.parse(built).span().first > opened:
        source = places.source(("claim", "built"))
        yield BuiltAfterOpening(source, built, opened.isoformat())


def _days(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """No report is issued before the visit, and nothing given back before it came."""
    issued, returned = "the day of issue", "the day of return"
    visit = ("that of the visit", casefile.visit.date)
    days: list[tuple[KeyPath, str, date | None, str, date | None]] = [
        (("report", "date"), issued, casefile.report.date, *visit)
    ]
    for n, each in enumerate(casefile.custody):
        received = ("that of receipt", each.received)
        days.append((("custody", n, "returned"), returned, each.returned, *received))
    for path, what, day, other, before in days:
        if day is not None and before is not None and day < before:
            source = places.source(path)
            yield DayBefore(source, what, day.isoformat(), other, before.isoformat())


def sums_left_out(casefile: Casefile, places: JsonPlaces) -> tuple[Problem, ...]:
    """Each sum that no document prints, since it does not say what it is: no fault of the case.

    A price asked in `stakes` is one: it has neither day nor source.
    """
    sums: list[tuple[KeyPath, Sum]] = [(("sums", n), each) for n, each in enumerate(casefile.sums)]
    stakes = casefile.stakes
    if stakes.price_asked is not None:
        price = Sum(kind=SumKind.ASKED, amount=stakes.price_asked, currency=stakes.currency)
        sums.append((("stakes", "price_asked"), price))
    return tuple(
        SumLeftOut(places.source(path), each.missing) for path, each in sums if each.missing
    )


def _copies(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """Papers copied from one another do not run in a circle."""
    copied_from = {p.mark or p.name: p.copied_from for p in casefile.papers if p.copied_from}
    done: set[str] = set()
    for n, paper in enumerate(casefile.papers):
        way: list[str] = []
        mark = paper.mark or paper.name
        while mark in copied_from and mark not in done:
            done.add(mark)
            way.append(mark)
            mark = copied_from[mark]
        if mark in way:
            source = places.source(("papers", n, "copied_from"))
            yield CopyCircle(source, tuple(way[way.index(mark) :]))


@dataclass(frozen=True, slots=True)
class UnreadField:
    """One such field: its name and where it stands."""

    source: Source
    field: str


def unread_fields(casefile: Casefile, places: JsonPlaces) -> tuple[UnreadField, ...]:
    """All fields that are kept and not read, in the order of the records."""
    return tuple(_unread(casefile, (), places))


def _unread(value: object, path: KeyPath, places: JsonPlaces) -> Iterator[UnreadField]:
    if isinstance(value, tuple):
        for n, entry in enumerate(value):
            yield from _unread(entry, (*path, n), places)
    elif isinstance(value, OpenRow):
        for name in value.unknown:
            yield UnreadField(places.key_source((*path, name)), name)
        for name in value.columns:
            yield from _unread(getattr(value, name), (*path, name), places)
