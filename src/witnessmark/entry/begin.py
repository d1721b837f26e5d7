"""A case begun: what is claimed, and every site that the book expects on such a car."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from witnessmark.casefile import (
    Assignment,
    Casefile,
    Claim,
    Examiner,
    SiteSeen,
    SiteState,
    check_case_id,
    parse_casefile,
    render_casefile,
)
from witnessmark.codebook import CodeBook
from witnessmark.documents.open_row import OpenRow
from witnessmark.entry.draft import Entered
from witnessmark.entry.problems import NotAllowed
from witnessmark.examination import car_context, check_case, in_book_words
from witnessmark.problem import Problem
from witnessmark.source import NOWHERE, Source

LONGEST_SHOWN = 60
"""Characters of a faulty text that are shown."""

_NOTHING = Entered("", NOWHERE)


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseAsked:
    """What is entered of a new case, and where."""

    id: Entered
    book: Entered
    """The book by its name or folder, as the case is to name it."""
    beside: tuple[Entered, ...] = ()
    opened: date
    """The day on which the case is opened."""
    title: Entered = _NOTHING
    made_by: Entered = _NOTHING
    """Who makes the claim."""
    items: Mapping[str, Entered]
    """What is claimed, by the item's id."""
    client: Entered = _NOTHING
    purpose: Entered = _NOTHING
    examiners: tuple[Examiner, ...] = ()


def begun(book: CodeBook, asked: CaseAsked) -> Casefile | tuple[Problem, ...]:
    """The new case, with every site that the book expects as not looked for; or what is wrong
    with what was entered, each where it was."""
    bad_id = check_case_id(asked.id.value, asked.id.source)
    casefile = Casefile(
        id="unnamed" if bad_id else asked.id.value,
        title=asked.title.value,
        book=asked.book.value,
        beside=tuple(each.value for each in asked.beside),
        opened=asked.opened,
        claim=Claim(
            made_by=asked.made_by.value,
            items={item: each.value for item, each in asked.items.items()},
        ),
        assignment=Assignment(
            client=asked.client.value,
            purpose=asked.purpose.value,
            examiners=asked.examiners,
        ),
    )
    problems = (*_unfit(book, asked.items), *bad_id, *_not_allowed(asked))
    return problems or replace(casefile, sites=expected_sites(book, casefile))


def _unfit(book: CodeBook, items: Mapping[str, Entered]) -> Iterator[Problem]:
    """What the book says against such claims, as it would against the claim of any case."""
    for item, each in items.items():
        casefile = Casefile(id="new", book=book.id, claim=Claim(items={item: each.value}))
        parsed = parse_casefile(render_casefile(casefile), "case.json")
        if parsed.casefile is not None:  # else it is no text that a case can hold
            for problem in check_case(casefile, parsed.places, book):
                yield replace(problem, source=each.source)


def _not_allowed(asked: CaseAsked) -> Iterator[Problem]:
    """Texts that the case document cannot hold: longer than allowed, or no text at all."""
    parts: tuple[tuple[type[OpenRow], dict[str, tuple[Entered, ...]]], ...] = (
        (Casefile, {"title": (asked.title,), "book": (asked.book,), "beside": asked.beside}),
        (Claim, {"made_by": (asked.made_by,), "items": tuple(asked.items.values())}),
        (Assignment, {"client": (asked.client,), "purpose": (asked.purpose,)}),
    )
    for row, fields in parts:
        for name, entered in fields.items():
            most = row.fields_declared()[name].key.most or 0
            for each in entered:
                text = str(each.value)
                is_broken = any("\ud800" <= sign <= "\udfff" for sign in text)
                if len(text) > most or is_broken:
                    start = text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "..."
                    reason = "is too long" if len(text) > most else "cannot stand in a case"
                    source = Source(each.source.name, None, 1, len(start), start)
                    yield NotAllowed(source, start, reason)


def expected_sites(book: CodeBook, casefile: Casefile) -> tuple[SiteSeen, ...]:
    """Every site of the claimed car at which the book expects a mark or asks something, each
    not looked for."""
    context = car_context(in_book_words(casefile, book), book)
    sites = dict.fromkeys(mark.site for mark in book.marks_for(context) if mark.site)
    sites |= dict.fromkeys(f.site for f in book.features if f.applies.covers(context))
    return tuple(SiteSeen(site=site, state=SiteState.NOT_LOOKED_FOR) for site in sites)
