"""`witnessmark case new`: a new case document, with every site that the book expects."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from witnessmark.catalogue import counted
from witnessmark.cli.arguments import BesideBooks
from witnessmark.cli.opening import books_beside
from witnessmark.cli.problems import (
    ClaimedTwice,
    NotAllowed,
    NotAPair,
    typed,
)
from witnessmark.cli.terminal import print_outline, refuse
from witnessmark.outline.records import Fact, Facts, Outline, Paragraph
from witnessmark.problem import Problem

if TYPE_CHECKING:
    from witnessmark.casefile.records import Casefile, SiteSeen
    from witnessmark.codebook.book import CodeBook
    from witnessmark.documents.open_row import OpenRow

HELP = """Open a new case: a folder with case.json and an empty exhibits folder.

Every site that the book expects on the claimed car is listed as not looked for,
so that none is forgotten. Existing files are never touched.

\b
Example:
  witnessmark case new my-sprint --book tarvane-1952-1961 --id my-sprint \\
    --claim model=solent-sprint --claim model_year=1955
"""


LONGEST_SHOWN = 60
"""Characters of a faulty text that are shown."""


def case_new(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to create.")],
    book: Annotated[
        str, typer.Option("--book", metavar="BOOK", help="The code book, by name or folder.")
    ],
    id: Annotated[str, typer.Option("--id", metavar="ID", help="A short name for the case.")],
    title: Annotated[
        str, typer.Option("--title", metavar="TEXT", help="A descriptive title.")
    ] = "",
    claim: Annotated[
        list[str] | None,
        typer.Option("--claim", metavar="ITEM=VALUE", help="What is claimed; may be repeated."),
    ] = None,
    made_by: Annotated[
        str, typer.Option("--made-by", metavar="WHO", help="Who makes the claim.")
    ] = "",
    client: Annotated[
        str, typer.Option("--client", metavar="WHO", help="Who the answer is for.")
    ] = "",
    purpose: Annotated[
        str, typer.Option("--purpose", metavar="TEXT", help="What the answer is for.")
    ] = "",
    beside: BesideBooks = None,
) -> None:
    """Make the folder of a new case, whole or not at all."""
    from witnessmark.casefile import EXHIBITS_NAME, render_casefile, write_case

    further = tuple(beside or ())
    code_book = books_beside(book, further, "--book")
    problems: list[Problem] = []
    items = dict(_claimed(code_book, tuple(claim or ()), problems))
    draft = Draft(id, title, book, further, items, made_by, client, purpose)
    casefile = _drafted(draft, code_book, problems)
    if problems or casefile is None:
        refuse(problems)
    faults = write_case(folder, render_casefile(casefile), may_replace=False)
    if faults:
        refuse(faults)
    (folder / EXHIBITS_NAME).mkdir(exist_ok=True)
    _show(folder, casefile)


@dataclass(frozen=True, slots=True)
class Draft:
    """What was given for a new case, before it is allowed."""

    id: str
    title: str
    book: str
    beside: tuple[str, ...]
    items: dict[str, str]
    made_by: str
    client: str
    purpose: str


def _claimed(
    book: "CodeBook", claims: tuple[str, ...], problems: list[Problem]
) -> list[tuple[str, str]]:
    """The claimed items and their values; what the book does not know adds to the problems."""
    from witnessmark.examination import value_named

    claimed: list[tuple[str, str]] = []
    for claim in claims:
        name, equals, value = (part.strip() for part in claim.partition("="))
        if equals and name and value:
            item = name.replace("-", "_")
            value = value_named(book, item, value)
            source = typed("--claim", claim)
            problems.extend(replace(each, source=source) for each in _unfit(book, {item: value}))
            if item in dict(claimed):
                problems.append(ClaimedTwice(typed("--claim", claim), item))
            claimed.append((item, value))
        else:
            problems.append(NotAPair(typed("--claim", claim), claim, "ITEM=VALUE"))
    return claimed


def _unfit(book: "CodeBook", items: dict[str, str]) -> tuple[Problem, ...]:
    """What the book says against such a claim, as it would against the claim of any case."""
    from witnessmark.casefile import Casefile, Claim, parse_casefile, render_casefile
    from witnessmark.examination import check_case

    casefile = Casefile(id="new", book=book.id, claim=Claim(items=items))
    parsed = parse_casefile(render_casefile(casefile), "case.json")
    if parsed.casefile is None:
        return ()  # said when the case itself is drafted
    return check_case(casefile, parsed.places, book)


def _texts(found: "str | tuple[str, ...] | dict[str, str]") -> tuple[str, ...]:
    """The texts that were given for one field."""
    if isinstance(found, str):
        return (found,)
    return tuple(found.values()) if isinstance(found, dict) else found


def _is_broken(text: str) -> bool:
    """Does it hold a byte that is no character?"""
    return any("\ud800" <= each <= "\udfff" for each in text)


def _not_allowed(option: str, text: str, most: float) -> Problem:
    """A text that the case document cannot hold: longer than allowed, or no text at all."""
    start = text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "..."
    reason = "is too long" if len(text) > most else "cannot stand in a case"
    return NotAllowed(typed(option, start), start, reason)


def _drafted(draft: Draft, book: "CodeBook", problems: list[Problem]) -> "Casefile | None":
    """The new case document, or None when a part of it is not allowed."""
    from witnessmark.casefile import check_case_id
    from witnessmark.casefile.records import Assignment, Casefile, Claim

    bad_id = check_case_id(draft.id, typed("--id", draft.id))
    problems.extend(bad_id)
    rows: tuple[tuple[type[OpenRow], tuple[str, ...]], ...] = (
        (Casefile, ("title", "book", "beside")),
        (Claim, ("made_by", "items")),
        (Assignment, ("client", "purpose")),
    )
    refused = [
        _not_allowed("--claim" if name == "items" else f"--{name.replace('_', '-')}", text, most)
        for row, names in rows
        for name in names
        for text in _texts(getattr(draft, name))
        if len(text) > (most := row.fields_declared()[name].key.most or 0) or _is_broken(text)
    ]
    problems.extend(refused)
    if refused:
        return None
    casefile = Casefile(
        id="unnamed" if bad_id else draft.id,
        title=draft.title,
        book=draft.book,
        beside=draft.beside,
        opened=date.today(),
        claim=Claim(made_by=draft.made_by, items=draft.items),
        assignment=Assignment(client=draft.client, purpose=draft.purpose),
    )
    return replace(casefile, sites=_expected_sites(book, casefile))


def _expected_sites(book: "CodeBook", casefile: "Casefile") -> "tuple[SiteSeen, ...]":
    """Every site of the claimed car at which the book expects a mark or asks something, each
    not looked for."""
    from witnessmark.casefile.records import SiteSeen, SiteState
    from witnessmark.examination import car_context

    context = car_context(casefile, book)
    sites = dict.fromkeys(mark.site for mark in book.marks_for(context) if mark.site)
    sites |= dict.fromkeys(f.site for f in book.features if f.applies.covers(context))
    return tuple(SiteSeen(site=site, state=SiteState.NOT_LOOKED_FOR) for site in sites)


def _show(folder: Path, casefile: "Casefile") -> None:
    sites = counted("{number} site", "{number} sites", len(casefile.sites))
    places = Facts(
        (
            Fact("document", str(folder / "case.json")),
            Fact("exhibits", str(folder / "exhibits")),
        )
    )
    told = Paragraph(f"It lists {sites} that the book expects, each as not looked for.")
    print_outline(Outline(f"Case {casefile.id} is open", (places, told)))
