"""Checks a case against its code book and the model: every name must be known there."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from witnessmark.casefile.records import Casefile, SiteSeen, SiteState
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.codebook.named_rows import named_rows
from witnessmark.codebook.pieces import PieceKind, pieces_of
from witnessmark.codebook.records import MODEL_YEAR, Basis, CarContext, ItemKind
from witnessmark.dates import PartialDate
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.examination import problems as p
from witnessmark.examination.book_words import in_book_words, values_of
from witnessmark.examination.examine import car_context
from witnessmark.problem import Problem
from witnessmark.reading import parse_reading
from witnessmark.weighing import MOST_MARKS, Asked, Assumed, assumed_rows, names_of_question

READINGS_PER_MARK = 6
"""Most readings of one mark: examiners, not attempts."""
STANDARD_LOOKS = ("factory", "doubtful", "disturbed")
NEVER_STRUCK = frozenset("_ |")
"""The signs of a reading that says of every place that it was never struck."""
UNSEEN = (SiteState.NOT_ACCESSIBLE, SiteState.NOT_LOOKED_FOR)

type Read = tuple[str, Mark]
"""A reading as typed, and its mark."""

WHOLE_CAR = "car"
"""What a statement is about that is of no one part."""


def check_case(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> tuple[Problem, ...]:
    """All faults of the case that show only beside its book, each at its place.

    Where a mark has more readings than are pooled, none is read: thousands would take minutes.
    """
    crowded = tuple(_counted(casefile, places))
    if crowded:
        casefile = replace(casefile, readings=())
    casefile = in_book_words(casefile, book)
    context = car_context(casefile, book)
    return (
        *_claim(casefile, places, book),
        *_whole(casefile, places, book, context),
        *_statements(casefile, places, book, context),
        *_sites(casefile, places, book),
        *_looks(casefile, places, book),
        *(crowded or _counted(casefile, places) or _readings(casefile, places, book, context)),
        *_papers(casefile, places, book),
        *_asked(casefile, places, book),
        *_circumstances(casefile, places, book, context),
        *_vouched(casefile, places, book),
    )


def _whole(
    casefile: Casefile, places: JsonPlaces, book: CodeBook, context: CarContext
) -> Iterator[Problem]:
    if not any(a.identity_bearer for a in book.assemblies_for(context)):
        yield p.NoBearer(places.source(("claim", "items")), book.id)
    for item, count in _marks_bearing(casefile, book, context).items():
        if count > MOST_MARKS:
            yield p.TooManyMarks(places.source(("book",)), item, count, MOST_MARKS)


def _statements(
    casefile: Casefile, places: JsonPlaces, book: CodeBook, context: CarContext
) -> Iterator[Problem]:
    """A statement about nothing that the book has would be set against nothing."""
    pieces = (each.id for each in pieces_of(book, context).pieces)
    parts = dict.fromkeys((WHOLE_CAR, *(each.id for each in book.assemblies), *pieces))
    known = {*parts, *(mark.id for mark in book.marks), *(item.id for item in book.items)}
    for k, statement in enumerate(casefile.claim.statements):
        if statement.about not in known:
            source = places.source(("claim", "statements", k, "about"))
            where = f"of the book {book.id}"
            yield p.UnknownToBook(source, "part", statement.about, where, tuple(parts))


BUILT_BESIDE = 5
"""Years before and after those of a book in which a car of it may be said to be built."""


def _built(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    built = casefile.claim.built
    first, last = book.first_year - BUILT_BESIDE, book.last_year + BUILT_BESIDE
    if built and not first <= PartialDate.parse(built).span().first.year <= last:
        yield p.YearOutsideBook(places.source(("claim", "built")), built, book.id, first, last)


def _marks_bearing(casefile: Casefile, book: CodeBook, context: CarContext) -> Counter[str]:
    """How many marks that were read bear each number of the car, by the number's name."""
    read = {reading.mark for reading in casefile.readings}
    marks = [mark for mark in book.marks_for(context) if mark.id in read and not mark.book]
    items = (book.item(says) for mark in marks for says in {fld.says for fld in mark.fields})
    return Counter(i.name for i in items if i is not None and i.kind is ItemKind.NUMBER)


def _claim(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    yield from _built(casefile, places, book)
    known = tuple(item.id for item in book.items)
    for name, value in casefile.claim.items.items():
        path = ("claim", "items", name)
        item = book.item(name)
        if item is None:
            yield p.UnknownToBook(
                places.key_source(path), "item", name, f"of the book {book.id}", known
            )
        elif name == MODEL_YEAR:
            if not (
                value.isascii()
                and value.isdecimal()
                and book.first_year <= int(value) <= book.last_year
            ):
                source = places.source(path)
                yield p.YearOutsideBook(source, value, book.id, book.first_year, book.last_year)
        elif item.kind is ItemKind.NUMBER and item.length:
            bare = [c for c in value.upper() if not c.isspace() and c not in "-./"]
            if len(bare) != item.length or any(c not in item.alphabet for c in bare):
                yield p.ClaimedNumberUnfit(
                    places.source(path), item.name, value, item.length, item.alphabet
                )
        elif item.kind is ItemKind.CODE:
            values = values_of(book, name)
            if values and value not in values:
                yield p.UnknownToBook(
                    places.source(path), item.name, value, f"of the book {book.id}", values
                )


def _sites(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    known = tuple(dict.fromkeys(site.id for site in book.sites))
    entries = SiteEntries(casefile.sites)
    looked = {look.site for look in casefile.looks}
    read: list[tuple[SiteSeen, Read]] = []
    for reading in casefile.readings:
        mark = book.mark(reading.mark)
        entry = entries.of(mark.site, mark.id) if mark is not None else None
        if mark is not None and entry is not None:
            read.append((entry, (reading.text, mark)))
    for k, visit in enumerate(casefile.sites):
        there = tuple(mark.id for mark in book.marks if visit.mark and mark.site == visit.site)
        if visit.site not in known:
            source = places.source(("sites", k, "site"))
            yield p.UnknownToBook(source, "site", visit.site, f"of the book {book.id}", known)
        elif visit.mark and visit.mark not in there:
            source = places.source(("sites", k, "mark"))
            yield p.UnknownToBook(source, "mark", visit.mark, f"of the site {visit.site}", there)
        is_shut = not visit.mark and entries.state(visit.site) in UNSEEN
        own = [each for entry, each in read if entry is visit]
        if (is_shut and visit.site in looked) or _is_gainsaid(visit, own):
            source = places.source(("sites", k, "state"))
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


def _looks(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    sites = tuple(dict.fromkeys(site.id for site in book.sites))
    for k, look in enumerate(casefile.looks):
        if look.site not in sites:
            yield p.UnknownToBook(
                places.source(("looks", k, "site")),
                "site",
                look.site,
                f"of the book {book.id}",
                sites,
            )
            continue
        features = [f for f in book.features if f.site == look.site]
        names = tuple(dict.fromkeys(["surface", *(f.id for f in features)]))
        if look.feature not in names:
            where = f"of the site {look.site}"
            yield p.UnknownToBook(
                places.source(("looks", k, "feature")), "feature", look.feature, where, names
            )
            continue
        outcomes = [o.id for f in features if f.id == look.feature for o in f.outcomes]
        allowed = tuple(dict.fromkeys([*outcomes, *STANDARD_LOOKS]))
        if look.outcome not in allowed:
            where = f"of the feature {look.feature}"
            yield p.UnknownToBook(
                places.source(("looks", k, "outcome")), "outcome", look.outcome, where, allowed
            )


def _readings(
    casefile: Casefile, places: JsonPlaces, book: CodeBook, context: CarContext
) -> Iterator[Problem]:
    marks = tuple(mark.id for mark in book.marks)
    for k, typed in enumerate(casefile.readings):
        mark = book.mark(typed.mark)
        if mark is None:
            source = places.source(("readings", k, "mark"))
            several = tuple(m.id for m in marks_meant(book, typed.mark, typed.text, context))
            if several:
                yield p.SeveralMarksOfCar(source, typed.mark, several)
            else:
                yield p.UnknownToBook(source, "mark", typed.mark, f"of the book {book.id}", marks)
            continue
        for problem in parse_reading(typed.text, mark).problems:
            column = problem.source.column or 1
            within = places.source_within(("readings", k, "text"), column - 1, problem.source.width)
            yield replace(problem, source=within)


def _counted(casefile: Casefile, places: JsonPlaces) -> tuple[Problem, ...]:
    """No mark may have more readings than are pooled; told at the first one too many."""
    found: list[Problem] = []
    counts = Counter(reading.mark for reading in casefile.readings)
    for mark, count in counts.items():
        if count > READINGS_PER_MARK:
            every = [k for k, reading in enumerate(casefile.readings) if reading.mark == mark]
            source = places.source(("readings", every[READINGS_PER_MARK], "mark"))
            found.append(p.TooManyReadings(source, mark, count, READINGS_PER_MARK))
    return tuple(found)


def _papers(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    marks = tuple(mark.id for mark in book.marks)
    papers = tuple(mark.id for mark in book.marks if mark.kind is MarkKind.PAPER)
    where = f"of the book {book.id}"
    for k, paper in enumerate(casefile.papers):
        if paper.mark not in papers:
            source = places.source(("papers", k, "mark"))
            yield p.UnknownToBook(source, "paper", paper.mark, where, papers)
        if paper.copied_from and paper.copied_from not in marks:
            source = places.source(("papers", k, "copied_from"))
            yield p.UnknownToBook(source, "mark", paper.copied_from, where, marks)


def _asked(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    """Sources asked in vain must be sources that the book names."""
    known = tuple(settlement.id for settlement in book.settlements)
    for k, paper in enumerate(casefile.papers):
        for j, name in enumerate(paper.asked_in_vain):
            if name not in known:
                source = places.source(("papers", k, "asked_in_vain", j))
                yield p.UnknownToBook(source, "source", name, f"of the book {book.id}", known)


def _circumstances(
    casefile: Casefile, places: JsonPlaces, book: CodeBook, context: CarContext
) -> Iterator[Problem]:
    rows = {row.id: row for row in assumed_rows()}
    for k, override in enumerate(casefile.circumstances.overrides):
        if override.row not in rows:
            source = places.source(("circumstances", "overrides", k, "row"))
            names = tuple(rows)
            yield p.UnknownToBook(source, "row", override.row, "of the model's tables", names)
        elif rows[override.row].is_share and override.value >= 1.0:
            source = places.source(("circumstances", "overrides", k, "value"))
            yield p.NoShare(source, override.row, override.value)
        else:
            yield from _look(casefile, places, k, rows)
    questions = questions_asked(casefile, book, context)
    for k, stated in enumerate(casefile.circumstances.prior_odds):
        if stated.question not in questions:
            source = places.source(("circumstances", "prior_odds", k, "question"))
            yield p.UnknownToBook(source, "question", stated.question, "of this case", questions)


def _look(
    casefile: Casefile, places: JsonPlaces, k: int, rows: dict[str, Assumed]
) -> Iterator[Problem]:
    """Two outcomes of a look that the case or the table gives leave something for the third."""
    override = casefile.circumstances.overrides[k]
    beside = rows[override.row].beside
    if not beside:
        return
    stated = {each.row: each.value for each in casefile.circumstances.overrides}
    other = stated.get(beside, rows[beside].value)
    if override.value + other >= 1.0:
        source = places.source(("circumstances", "overrides", k, "value"))
        yield p.NoLook(source, override.row, override.value, beside, other)


def _vouched(casefile: Casefile, places: JsonPlaces, book: CodeBook) -> Iterator[Problem]:
    """Only a row of the book that is there and from memory has need of somebody's word."""
    vouched = casefile.circumstances.vouched
    rows = tuple(named_rows(book)) if vouched else ()
    known = tuple(dict.fromkeys(row.name for row in rows if row.citation.basis is Basis.MEMORY))
    for k, each in enumerate(vouched):
        source = places.source(("circumstances", "vouched", k, "row"))
        bases = [row.citation.basis for row in rows if row.name == each.row]
        if not bases:
            yield p.UnknownToBook(source, "row", each.row, f"of the book {book.id}", known)
        elif each.row not in known:
            yield p.NotFromMemory(source, each.row, bases[0].value)


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
    asked += [(Asked.ITEM, item) for item in casefile.claim.items]
    named = [names_of_question(kind, about) for kind, about in asked]
    kinds = dict.fromkeys(each[-1] for each in named)
    abouts = dict.fromkeys(about for names in named for about in names[1:-1])
    return (*kinds, *abouts, *(each[0] for each in named))
