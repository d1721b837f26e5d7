"""A case in the words of its book: what people call a mark, a model or a works becomes the
book's own id at the door, so that every room behind it sees the id alone.

A name of several marks that one car cannot have together (the data plates of other years
and works) is decided by the claim, and where that leaves several by what was read
(decoding/mark_meant.py). What is still not decided stays as it was typed. Behind the house the
ids have the names that the book gives them.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from witnessmark.agreement.items import each_claimed
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import (
    Casefile,
    Claim,
    LookClass,
    LookSeen,
    MarkReading,
    Paper,
    SiteSeen,
    Statement,
)
from witnessmark.catalogue import in_a_row
from witnessmark.codebook.book import ANY_CAR, CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.codebook.names import plain_name
from witnessmark.codebook.pieces import pieces_of
from witnessmark.codebook.records import (
    MODEL,
    Applies,
    CarContext,
    Citation,
    ItemKind,
    Model,
    Works,
    WorksRole,
)
from witnessmark.decoding.mark_meant import marks_meant
from witnessmark.decoding.number_meant import number_meant
from witnessmark.examination.records import Named, NamedKind
from witnessmark.reading import kept_beside

CASES_KEPT = 16
"""Cases that are kept in a book as they read in its words; the one asked for longest ago goes."""


def in_book_words(casefile: Casefile, book: CodeBook) -> Casefile:
    """The same case, its marks, claimed models, works and codes named as the book does. Every room
    asks this of one case: it is worked out once for it."""
    latest = _latest(book)
    for typed, read in tuple(latest):
        if typed is casefile:
            return read
    found = _in_book_words(casefile, book)
    latest.append((casefile, found))
    del latest[:-CASES_KEPT]
    return found


@kept_beside
def _latest(_: CodeBook) -> list[tuple[Casefile, Casefile]]:
    """Cases as they were typed and as they read; each is known again as the very thing."""
    return []


def _in_book_words(casefile: Casefile, book: CodeBook) -> Casefile:
    claim = claim_in_book_words(casefile.claim, book)
    context = claimed_context(claim, book)
    changed: dict[str, Any] = {
        "claim": _about(claim, book, context),
        "sites": tuple(_site(each, book, context) for each in casefile.sites),
        "readings": tuple(_reading(each, book, context) for each in casefile.readings),
        "looks": tuple(_look(each, book, context) for each in casefile.looks),
        "papers": tuple(_paper(each, book, context) for each in casefile.papers),
    }
    same = all(getattr(casefile, name) == value for name, value in changed.items())
    return casefile if same else replace(casefile, **changed)


def claimed_context(claim: Claim, book: CodeBook) -> CarContext:
    """What the claim gives about the car: year, model, works and coachbuilder."""
    year, model = claim.items.get("model_year", ""), book.model_named(claim.items.get("model", ""))
    found = (book.works_named(claim.items.get(role, ""), role) for role in WorksRole)
    works = frozenset(each.id for each in found if each is not None)
    return CarContext(
        int(year) if year.isascii() and year.isdecimal() else None,
        model.id if model else None,
        works,
    )


def item_named(book: CodeBook, name: str) -> str:
    """The item that people call so, by id or name, by its id; a name of none as an id is spelt."""
    wanted = plain_name(name)
    for item in book.items:
        if wanted in (plain_name(item.id), plain_name(item.name)):
            return item.id
    return name.replace("-", "_")


def value_named(book: CodeBook, item: str, text: str) -> str:
    """The canonical value that is claimed of an item, in whatever case it was written; a text
    that names none stays as it is."""
    if item == MODEL:
        model = book.model_named(text)
        return model.id if model else text
    if item in set(WorksRole):
        works = book.works_named(text, item)
        return works.id if works else text
    about = book.item(item)
    if about is None or about.kind is not ItemKind.CODE:
        return text
    values = values_of(book, item)
    if not about.many:
        return _value_of(values, text) or text
    parts = re.split(r"[,;]", text) if re.search(r"[,;]", text) else [text]
    found = [_value_of(values, part) or part for part in parts if part.strip()]
    # Without a comma, words that name no value together are one value each.
    return " ".join(_value_of(values, word) or word for part in found for word in part.split())


def _value_of(values: tuple[str, ...], text: str) -> str:
    """The canonical value that a text names in any case and with blanks; empty where none."""
    wanted = "-".join(text.casefold().replace("_", " ").split())
    return wanted if wanted in values else ""


@dataclass(frozen=True, slots=True)
class ValueRow:
    """What a row of the book says that an item can have: the value, its words, for which cars,
    on what basis."""

    value: str
    words: str
    applies: Applies
    citation: Citation
    code: str = ""
    """As it stands on the car; empty for what has no code, such as a model."""


def value_rows(book: CodeBook, item: str, context: CarContext = ANY_CAR) -> Iterator[ValueRow]:
    """The rows of what an item can have in this book, in the book's order; those that hold for a
    car of this context."""
    named: list[Model | Works] = list(book.models_for(context)) if item == MODEL else []
    named += [works for works in book.works_for(context) if works.role == item]
    for each in named:
        yield ValueRow(each.id, each.name, each.applies, each.citation)
    others = {each.id for each in book.models} | {each.id for each in book.works}
    others = others - {each.id for each in named} if item in (MODEL, *WorksRole) else set()
    for mark in book.marks_for(context):
        for field in mark.fields:
            if field.says != item:
                continue
            for row in book.table(field.table, context):
                if row.value not in others:
                    yield ValueRow(row.value, row.meaning, row.applies, row.citation, row.code)
            if field.empty is not None:
                empty = field.empty
                yield ValueRow(empty.value, empty.meaning, mark.applies, empty.citation)


def values_of(book: CodeBook, item: str, context: CarContext = ANY_CAR) -> tuple[str, ...]:
    """The canonical values of these rows, each once."""
    return tuple(dict.fromkeys(row.value for row in value_rows(book, item, context)))


def claim_in_book_words(claim: Claim, book: CodeBook) -> Claim:
    """The same claim, its values named as the book does and its numbers in full. The codes that
    stand beside a number as it was typed are claimed too, unless one of them contradicts what is
    claimed: then the number is said of another car than the rest."""
    items = {item: value_named(book, item, text) for item, text in claim.items.items()}
    context = claimed_context(replace(claim, items=items), book)
    for name, text in tuple(items.items()):
        item = book.item(name)
        if item is None or item.kind is not ItemKind.NUMBER:
            continue
        meant = number_meant(book, item, text, context)
        if meant is not None:
            items[name] = meant.number
            if all(items.get(other, value) == value for other, value in meant.beside):
                items |= dict(meant.beside)
    return claim if items == claim.items else replace(claim, items=items)


def _about(claim: Claim, book: CodeBook, context: CarContext) -> Claim:
    statements = tuple(_statement(each, book, context) for each in claim.statements)
    changed = statements != claim.statements
    return replace(claim, statements=statements) if changed else claim


def _statement(statement: Statement, book: CodeBook, context: CarContext) -> Statement:
    changed: dict[str, Any] = {}
    about = statement.about
    if not any(each.id == about for each in book.assemblies) and not book.mark(about):
        part = part_named(book, about, context)
        found = [part] if part else [mark.id for mark in book.marks_named(about, context)]
        changed |= {"about": found[0]} if len(found) == 1 else {}
    papers = [m for m in book.marks_named(statement.paper, context) if m.kind is MarkKind.PAPER]
    changed |= {"paper": papers[0].id} if len(papers) == 1 else {}
    return replace(statement, **changed) if changed else statement


def part_named(book: CodeBook, name: str, context: CarContext) -> str | None:
    """The assembly or the piece of such cars that has this name, in any case, by its id."""
    wanted = plain_name(name)
    names = {each.id: each.name for each in pieces_of(book, context).pieces}
    names |= {each.id: each.name for each in book.assemblies}
    return next((one for one in names if wanted in (plain_name(one), plain_name(names[one]))), None)


def place_named(book: CodeBook, name: str, context: CarContext) -> tuple[str, str]:
    """The site that people call so on such cars, and the mark where it is called by that of its
    marks and has others; both empty where there is none, or several."""
    wanted = plain_name(name)
    for site in book.sites:
        if site.id == name or (site.applies.covers(context) and plain_name(site.id) == wanted):
            return site.id, ""
    sites = {s.id for s in book.sites if s.applies.covers(context) and plain_name(s.name) == wanted}
    if len(sites) == 1:
        return sites.pop(), ""
    marks = [mark for mark in book.marks_named(name, context) if mark.site]
    if len({mark.site for mark in marks}) != 1:
        return "", ""
    there = [each for each in book.marks_for(context) if each.site == marks[0].site]
    is_one = len(marks) == 1 and len(there) > 1
    return marks[0].site, marks[0].id if is_one else ""


def _look(look: LookSeen, book: CodeBook, context: CarContext) -> LookSeen:
    site, _ = place_named(book, look.site, context)
    of_site = [each for each in book.features if each.site == site]
    feature = _alike(look.feature, (each.id for each in of_site))
    outcomes = (o.id for each in of_site if each.id == feature for o in each.outcomes)
    now = (site or look.site, feature, _alike(look.outcome, (*outcomes, *LookClass)))
    if now == (look.site, look.feature, look.outcome):
        return look
    return replace(look, site=now[0], feature=now[1], outcome=now[2])


def _alike(name: str, known: Iterable[str]) -> str:
    """Of the names known the one that is spelt so, whatever the case, hyphens and spaces."""
    wanted = plain_name(name)
    return next((str(each) for each in known if plain_name(each) == wanted), name)


def _site(visit: SiteSeen, book: CodeBook, context: CarContext) -> SiteSeen:
    site, mark = place_named(book, visit.site, context)
    if site and (site, mark) != (visit.site, "") and not visit.mark:
        visit = replace(visit, site=site, mark=mark)
    if not visit.mark or book.mark(visit.mark):
        return visit
    found = [m for m in book.marks_named(visit.mark, context) if m.site == visit.site]
    return replace(visit, mark=found[0].id) if len(found) == 1 else visit


def _reading(reading: MarkReading, book: CodeBook, context: CarContext) -> MarkReading:
    if book.mark(reading.mark):
        return reading
    found = marks_meant(book, reading.mark, reading.text, context)
    return replace(reading, mark=found[0].id) if len(found) == 1 else reading


def _paper(paper: Paper, book: CodeBook, context: CarContext) -> Paper:
    changed: dict[str, Any] = {}
    if paper.mark and not book.mark(paper.mark):
        found = [
            each for each in book.marks_named(paper.mark, context) if each.kind is MarkKind.PAPER
        ]
        changed |= {"mark": found[0].id} if len(found) == 1 else {}
    if paper.copied_from and not book.mark(paper.copied_from):
        source = book.marks_named(paper.copied_from, context)
        changed |= {"copied_from": source[0].id} if len(source) == 1 else {}
    says = tuple(replace(s, value=_meant(book, s.item, s.value, context)) for s in paper.says)
    changed |= {"says": says} if says != paper.says else {}
    return replace(paper, **changed) if changed else paper


def _meant(book: CodeBook, name: str, text: str, context: CarContext) -> str:
    """The value that a paper gives of an item, as a claim of it would be read."""
    item = book.item(name)
    if item is not None and item.kind is ItemKind.NUMBER:
        meant = number_meant(book, item, text, context)
        return meant.number if meant is not None else text
    return value_named(book, name, text)


def book_names(car: CarMarks) -> tuple[Named, ...]:
    """Names of the marks, items, assemblies, pieces, sites, models and works of the book.

    Last those of what is claimed, each under its item and the words of the claim.
    """
    book, context = car.book, car.context
    sites = (book.site(site_id, context) for site_id in dict.fromkeys(s.id for s in book.sites))
    rows = (
        (NamedKind.MARK, book.marks),
        (NamedKind.ITEM, book.items),
        (NamedKind.ASSEMBLY, book.assemblies),
        (NamedKind.PIECE, pieces_of(book, context).pieces),
        (NamedKind.SITE, [site for site in sites if site is not None]),
        (NamedKind.MODEL, book.models),
        (NamedKind.WORKS, book.works),
    )
    named = (Named(kind, each.id, each.name) for kind, found in rows for each in found)
    return (*named, *_names_claimed(car))


def _names_claimed(car: CarMarks) -> Iterator[Named]:
    """The book's names of the claimed codes, as the claim has them and as they are compared."""
    for item, text in car.casefile.claim.items.items():
        found = each_claimed(car, item)
        if not found or not all(showing.values for showing in found):
            continue
        names = (each.values[0].meaning.removeprefix(f"{each.item.name} ") for each in found)
        name = in_a_row(names, ", ")
        for written in dict.fromkeys((text, " ".join(each.shown for each in found))):
            yield Named(NamedKind.CLAIMED, f"{item} {written}", name)
