"""Checks a case against its code book and the model: every name must be known there."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from witnessmark.casefile.records import Casefile, LookClass, SiteSeen, SiteState
from witnessmark.casefile.site_entries import UNSEEN, SiteEntries
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.named_rows import named_rows
from witnessmark.codebook.pieces import PieceKind, pieces_of
from witnessmark.codebook.records import MODEL_YEAR, Basis, CarContext, ItemKind
from witnessmark.dates import PartialDate
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.decoding.number_meant import forms_of, number_meant
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.lines import KeyPath
from witnessmark.examination import problems as p
from witnessmark.examination.book_words import in_book_words, values_of
from witnessmark.examination.examine import car_context
from witnessmark.problem import Problem
from witnessmark.reading import parse_reading
from witnessmark.weighing import MOST_MARKS, Asked, assumed_rows, names_of_question
from witnessmark.weighing.evidence.sets import names_of_set

READINGS_PER_MARK = 6
"""Most readings of one mark: examiners, not attempts."""
NEVER_STRUCK = frozenset("_ |")
"""The signs of a reading that says of every place that it was never struck."""

type Read = tuple[str, Mark]
"""A reading as typed, and its mark."""

WHOLE_CAR = "car"
"""What a statement is about that is of no one part."""


@dataclass(frozen=True, slots=True)
class _Beside:
    """A case beside its book, with where everything in it stands."""

    casefile: Casefile
    places: JsonPlaces
    book: CodeBook
    context: CarContext
    claimed: tuple[str, ...]
    """The items whose claimed value was typed, and not said by a number that was."""

    def unknown(
        self, path: KeyPath, noun: str, name: str, known: Iterable[str], *, of: str = ""
    ) -> Iterator[Problem]:
        """The name at this path, where it is none of those known to the book, or to `of`."""
        names = tuple(known)
        if name not in names:
            where = of or f"of the book {self.book.id}"
            yield p.UnknownToBook(self.places.source(path), noun, name, where, names)


def check_case(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> tuple[Problem, ...]:
    """All faults of the case that show only beside its book, each at its place.

    Where a mark has more readings than are pooled, none is read: thousands would take minutes.
    """
    crowded = tuple(_counted(casefile, places))
    if crowded:
        casefile = replace(casefile, readings=())
    typed = tuple(casefile.claim.items)
    casefile = in_book_words(casefile, book)
    of = _Beside(casefile, places, book, car_context(casefile, book), typed)
    return (
        *_claim(of),
        *_whole(of),
        *_statements(of),
        *_sites(of),
        *_looks(of),
        *(crowded or tuple(_counted(casefile, places)) or _readings(of)),
        *_papers(of),
        *_asked(of),
        *_circumstances(of),
        *_vouched(of),
    )


def _whole(of: _Beside) -> Iterator[Problem]:
    # No car is of a year outside the book: that is told of the year.
    is_of_years = _is_of_years(of.book, of.casefile.claim.items.get(MODEL_YEAR))
    if is_of_years and not any(a.identity_bearer for a in of.book.assemblies_for(of.context)):
        yield p.NoBearer(of.places.source(("claim", "items")), of.book.id)
    for item, count in _marks_bearing(of).items():
        if count > MOST_MARKS:
            yield p.TooManyMarks(of.places.source(("book",)), item, count, MOST_MARKS)


def _statements(of: _Beside) -> Iterator[Problem]:
    """A statement about nothing that the book has would be set against nothing."""
    pieces = (each.id for each in pieces_of(of.book, of.context).pieces)
    parts = dict.fromkeys((WHOLE_CAR, *(each.id for each in of.book.assemblies), *pieces))
    named = {mark.id for mark in of.book.marks} | {item.id for item in of.book.items}
    for k, statement in enumerate(of.casefile.claim.statements):
        if statement.about not in named:
            path = ("claim", "statements", k, "about")
            yield from of.unknown(path, "part", statement.about, parts)


BUILT_BESIDE = 5
"""Years before and after those of a book in which a car of it may be said to be built."""


def _built(of: _Beside) -> Iterator[Problem]:
    built = of.casefile.claim.built
    first, last = of.book.first_year - BUILT_BESIDE, of.book.last_year + BUILT_BESIDE
    if built and not first <= PartialDate.parse(built).span().first.year <= last:
        source = of.places.source(("claim", "built"))
        yield p.YearOutsideBook(source, built, of.book.id, first, last)


def _marks_bearing(of: _Beside) -> Counter[str]:
    """How many marks that were read bear each number of the car, by the number's name."""
    read = {reading.mark for reading in of.casefile.readings}
    marks = [m for m in of.book.marks_for(of.context) if m.id in read and not m.book]
    items = (of.book.item(says) for mark in marks for says in {fld.says for fld in mark.fields})
    return Counter(i.name for i in items if i is not None and i.kind is ItemKind.NUMBER)


def _is_of_years(book: CodeBook, claimed: str | None) -> bool:
    """Is it one of the book's model years, or not claimed at all?"""
    is_year = claimed is not None and claimed.isascii() and claimed.isdecimal()
    return claimed is None or (is_year and book.first_year <= int(claimed) <= book.last_year)


def _claim(of: _Beside) -> Iterator[Problem]:
    yield from _built(of)
    known = tuple(item.id for item in of.book.items)
    for name in of.claimed:
        path, value = ("claim", "items", name), of.casefile.claim.items[name]
        item = of.book.item(name)
        if item is None:
            source = of.places.key_source(path)
            yield p.UnknownToBook(source, "item", name, f"of the book {of.book.id}", known)
        elif name == MODEL_YEAR:
            if not _is_of_years(of.book, value):
                first, last = of.book.first_year, of.book.last_year
                yield p.YearOutsideBook(of.places.source(path), value, of.book.id, first, last)
        elif item.kind is ItemKind.NUMBER:
            if item.length and number_meant(of.book, item, value, of.context) is None:
                yield p.ClaimedNumberUnfit(
                    of.places.source(path),
                    item.name,
                    value,
                    item.length,
                    item.alphabet,
                    forms_of(of.book, item, of.context),
                )
        elif item.kind is ItemKind.CODE and (values := values_of(of.book, name)):
            for each in value.split() if item.many else (value,):
                yield from of.unknown(path, item.name, each, values)


def _sites(of: _Beside) -> Iterator[Problem]:
    known = tuple(dict.fromkeys(site.id for site in of.book.sites))
    entries = SiteEntries(of.casefile.sites)
    looked = {look.site for look in of.casefile.looks}
    read: list[tuple[SiteSeen, Read]] = []
    for reading in of.casefile.readings:
        mark = of.book.mark(reading.mark)
        entry = entries.of(mark.site, mark.id) if mark is not None else None
        if mark is not None and entry is not None:
            read.append((entry, (reading.text, mark)))
    for k, visit in enumerate(of.casefile.sites):
        if visit.site not in known:
            yield from of.unknown(("sites", k, "site"), "site", visit.site, known)
        elif visit.mark:
            there = (mark.id for mark in of.book.marks if mark.site == visit.site)
            where = f"of the site {visit.site}"
            yield from of.unknown(("sites", k, "mark"), "mark", visit.mark, there, of=where)
        is_shut = not visit.mark and entries.state(visit.site) in UNSEEN
        own = [each for entry, each in read if entry is visit]
        if (is_shut and visit.site in looked) or _is_gainsaid(visit, own):
            source = of.places.source(("sites", k, "state"))
            yield p.SaidTwoWays(source, visit.site, visit.state.value, visit.mark)


def _is_gainsaid(visit: SiteSeen, read: list[Read]) -> bool:
    """Do the readings of the marks that an entry speaks of say otherwise how they ended?"""
    if visit.state is SiteState.ABSENT:
        return any(
            (visit.mark or mark.always_struck) and set(text) - NEVER_STRUCK for text, mark in read
        )
    if visit.state is SiteState.FOUND_ILLEGIBLE:
        return any(not parse_reading(text, mark).is_illegible for text, mark in read)
    return visit.state in UNSEEN and bool(read)


def _looks(of: _Beside) -> Iterator[Problem]:
    sites = tuple(dict.fromkeys(site.id for site in of.book.sites))
    for k, look in enumerate(of.casefile.looks):
        features = [f for f in of.book.features if f.site == look.site]
        names = dict.fromkeys(["surface", *(f.id for f in features)])
        outcomes = [o.id for f in features if f.id == look.feature for o in f.outcomes]
        allowed = dict.fromkeys([*outcomes, *(each.value for each in LookClass)])
        at_site, of_it = f"of the site {look.site}", f"of the feature {look.feature}"
        found = (
            *of.unknown(("looks", k, "site"), "site", look.site, sites),
            *of.unknown(("looks", k, "feature"), "feature", look.feature, names, of=at_site),
            *of.unknown(("looks", k, "outcome"), "outcome", look.outcome, allowed, of=of_it),
        )
        # Of a place that nobody knows, the features are not known either.
        yield from found[:1]


def _readings(of: _Beside) -> Iterator[Problem]:
    marks = tuple(mark.id for mark in of.book.marks_for(of.context))
    for k, typed in enumerate(of.casefile.readings):
        path = ("readings", k, "mark")
        mark = of.book.mark(typed.mark)
        if mark is not None:
            for problem in parse_reading(typed.text, mark).problems:
                start, width = (problem.source.column or 1) - 1, problem.source.width
                within = of.places.source_within(("readings", k, "text"), start, width)
                yield replace(problem, source=within)
        elif several := marks_meant(of.book, typed.mark, typed.text, of.context):
            named = tuple(each.id for each in several)
            yield p.SeveralMarksOfCar(of.places.source(path), typed.mark, named)
        else:
            yield from of.unknown(path, "mark", typed.mark, marks)


def _counted(casefile: Casefile, places: JsonPlaces) -> Iterator[Problem]:
    """No mark may have more readings than are pooled; told at the first one too many."""
    for mark, count in Counter(reading.mark for reading in casefile.readings).items():
        if count > READINGS_PER_MARK:
            every = [k for k, reading in enumerate(casefile.readings) if reading.mark == mark]
            source = places.source(("readings", every[READINGS_PER_MARK], "mark"))
            yield p.TooManyReadings(source, mark, count, READINGS_PER_MARK)


def _papers(of: _Beside) -> Iterator[Problem]:
    marks = tuple(mark.id for mark in of.book.marks)
    papers = tuple(mark.id for mark in of.book.marks if mark.kind is MarkKind.PAPER)
    others = tuple(paper.name for paper in of.casefile.papers if paper.kind)
    items = tuple(item.id for item in of.book.items)
    for k, paper in enumerate(of.casefile.papers):
        path = ("papers", k)
        if not paper.kind:
            yield from of.unknown((*path, "mark"), "paper", paper.mark, papers)
        elif paper.mark or not paper.name:
            yield p.PaperOfTwoKinds(of.places.source((*path, "kind")))
        if paper.copied_from:
            known = (*marks, *others)
            yield from of.unknown((*path, "copied_from"), "mark", paper.copied_from, known)
        for j, each in enumerate(paper.says):
            yield from of.unknown((*path, "says", j, "item"), "item", each.item, items)


def _asked(of: _Beside) -> Iterator[Problem]:
    """Sources asked in vain must be sources that the book names."""
    known = tuple(settlement.id for settlement in of.book.settlements)
    for k, paper in enumerate(of.casefile.papers):
        for j, name in enumerate(paper.asked_in_vain):
            yield from of.unknown(("papers", k, "asked_in_vain", j), "source", name, known)


def _circumstances(of: _Beside) -> Iterator[Problem]:
    rows = {row.id: row for row in assumed_rows()}
    stated = {each.row: each.value for each in of.casefile.circumstances.overrides}
    for k, override in enumerate(of.casefile.circumstances.overrides):
        yield from of.unknown(
            ("circumstances", "overrides", k, "row"),
            "row",
            override.row,
            rows,
            of="of the model's tables",
        )
        row = rows.get(override.row)
        if row is None:
            continue
        source = of.places.source(("circumstances", "overrides", k, "value"))
        other = stated.get(row.beside, rows[row.beside].value) if row.beside else 0.0
        if row.is_share and override.value >= 1.0:
            yield p.NoShare(source, override.row, override.value)
        elif row.beside and override.value + other >= 1.0:
            # Two outcomes of a look leave something for the third.
            yield p.NoLook(source, override.row, override.value, row.beside, other)
    questions = questions_asked(of.casefile, of.book, of.context)
    for k, asked in enumerate(of.casefile.circumstances.prior_odds):
        path = ("circumstances", "prior_odds", k, "question")
        yield from of.unknown(path, "question", asked.question, questions, of="of this case")


def _vouched(of: _Beside) -> Iterator[Problem]:
    """Only a row of the book that is there and from memory has need of somebody's word."""
    vouched = of.casefile.circumstances.vouched
    rows = tuple(named_rows(of.book)) if vouched else ()
    bases = {row.name: row.citation.basis for row in reversed(rows)}
    known = dict.fromkeys(row.name for row in rows if row.citation.basis is Basis.MEMORY)
    for k, each in enumerate(vouched):
        path = ("circumstances", "vouched", k, "row")
        if each.row in bases and each.row not in known:
            basis = bases[each.row]
            yield p.NotFromMemory(of.places.source(path), each.row, basis.value)
        else:
            yield from of.unknown(path, "row", each.row, known)


def questions_asked(casefile: Casefile, book: CodeBook, context: CarContext) -> tuple[str, ...]:
    """The names by which prior odds can be stated: a question, what it is about, or both.

    Odds stated under any other name would be read and never used.
    """
    pieces = pieces_of(book, context)
    cores = {each.assembly: each.id for each in pieces.of_kind(PieceKind.CORE)}
    asked = [(Asked.IDENTITY, each) for each in pieces.bearers]
    for assembly in book.assemblies_for(context):
        core = cores.get(assembly.id, assembly.id)
        if assembly.id not in pieces.bearers:
            asked.append((Asked.CORE, core))
        if assembly.id not in pieces.bearers[:1]:
            asked.append((Asked.STAMP, core))
    panels = pieces.of_kind(PieceKind.PANEL)
    asked += [(Asked.CORE, each.id) for each in panels if each.assembly in pieces.bearers[:1]]
    asked += [(Asked.PLATE, each.id) for each in pieces.of_kind(PieceKind.PLATE)]
    asked += [(Asked.PAPER, each.id) for each in pieces.of_kind(PieceKind.PAPER)]
    asked += [
        (Asked.ITEM, name)
        for item_id, text in casefile.claim.items.items()
        for item in (book.item(item_id),)
        for name in (names_of_set(item, text) if item is not None else (item_id,))
    ]
    named = [names_of_question(kind, about) for kind, about in asked]
    kinds = dict.fromkeys(each[-1] for each in named)
    abouts = dict.fromkeys(about for names in named for about in names[1:-1])
    return (*kinds, *abouts, *(each[0] for each in named))
