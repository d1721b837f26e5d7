"""`witnessmark case new`: a new case document, with every site that the book expects."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated

from witnessmark.casefile import (
    EXHIBITS_NAME,
    Assignment,
    Casefile,
    Claim,
    SiteSeen,
    SiteState,
    check_case_id,
    parse_casefile,
    render_casefile,
    write_case,
)
from witnessmark.casefile.profile import examiner_of
from witnessmark.catalogue import counted
from witnessmark.cli import completing
from witnessmark.cli.arguments import BesideBooks, argument, option
from witnessmark.cli.case.profile import kept_profile
from witnessmark.cli.cases import claim_read
from witnessmark.cli.entry.typed import claims_of
from witnessmark.cli.opening import books_beside
from witnessmark.cli.problems import NotAllowed, typed
from witnessmark.cli.terminal import print_outline, refuse
from witnessmark.codebook import CodeBook
from witnessmark.documents.open_row import OpenRow
from witnessmark.examination import car_context, check_case, in_book_words
from witnessmark.outline.records import Fact, Facts, Outline, Paragraph
from witnessmark.problem import Problem

HELP = """Every site that the book expects on the claimed car is listed as not looked for,
so that none is forgotten. The examiner is taken from `witnessmark profile`, if one is
kept. Existing files are never touched.

\b
Example:
  witnessmark case new my-sprint --book tarvane-1952-1961 --id my-sprint \\
    --claim model=solent-sprint --claim model_year=1955
"""


LONGEST_SHOWN = 60
"""Characters of a faulty text that are shown."""


def case_new(
    folder: Annotated[Path, argument("FOLDER", "The folder to create.")],
    book: Annotated[str, option("BOOK", "The code book, by name or folder.", completing.books)],
    id: Annotated[str, option("ID", "A short name for the case.")],
    title: Annotated[str, option("TEXT", "A descriptive title.")] = "",
    claim: Annotated[
        list[str] | None,
        option("ITEM=VALUE", "What is claimed; may be repeated.", completing.claims),
    ] = None,
    made_by: Annotated[str, option("WHO", "Who makes the claim.")] = "",
    client: Annotated[str, option("WHO", "Who the answer is for.")] = "",
    purpose: Annotated[str, option("TEXT", "What the answer is for.")] = "",
    beside: BesideBooks = None,
) -> None:
    """Make the folder of a new case, whole or not at all."""
    further = tuple(beside or ())
    code_book = books_beside(book, further, "--book")
    problems: list[Problem] = []
    claimed = claims_of(code_book, claim or (), problems)
    unfit = ((each, _unfit(code_book, {item: each.value})) for item, each in claimed.items())
    problems[:0] = [replace(p, source=each.source) for each, found in unfit for p in found]
    items = {item: each.value for item, each in claimed.items()}
    bad_id = check_case_id(id, typed("--id", id))
    profile = kept_profile()
    examiners = (examiner_of(profile),) if profile else ()
    casefile = Casefile(
        id="unnamed" if bad_id else id,
        title=title,
        book=book,
        beside=further,
        opened=date.today(),
        claim=Claim(made_by=made_by, items=items),
        assignment=Assignment(client=client, purpose=purpose, examiners=examiners),
    )
    problems += [*bad_id, *_not_allowed(casefile)]
    if problems:
        refuse(problems)
    casefile = replace(casefile, sites=_expected_sites(code_book, casefile))
    faults = write_case(folder, render_casefile(casefile), may_replace=False)
    if faults:
        refuse(faults)
    (folder / EXHIBITS_NAME).mkdir(exist_ok=True)
    _show(folder, casefile, code_book)


def _unfit(book: CodeBook, items: dict[str, str]) -> tuple[Problem, ...]:
    """What the book says against such a claim, as it would against the claim of any case."""
    casefile = Casefile(id="new", book=book.id, claim=Claim(items=items))
    parsed = parse_casefile(render_casefile(casefile), "case.json")
    if parsed.casefile is None:
        return ()  # said when the case itself is drafted
    return check_case(casefile, parsed.places, book)


def _texts(found: str | tuple[str, ...] | dict[str, str]) -> tuple[str, ...]:
    """The texts that were given for one field."""
    if isinstance(found, str):
        return (found,)
    return tuple(found.values()) if isinstance(found, dict) else found


def _not_allowed(casefile: Casefile) -> Iterator[Problem]:
    """Texts that the case document cannot hold: longer than allowed, or no text at all."""
    parts: tuple[tuple[OpenRow, tuple[str, ...]], ...] = (
        (casefile, ("title", "book", "beside")),
        (casefile.claim, ("made_by", "items")),
        (casefile.assignment, ("client", "purpose")),
    )
    for part, names in parts:
        for name in names:
            named = "--claim" if name == "items" else f"--{name.replace('_', '-')}"
            most = part.fields_declared()[name].key.most or 0
            for text in _texts(getattr(part, name)):
                is_broken = any("\ud800" <= each <= "\udfff" for each in text)
                if len(text) > most or is_broken:
                    start = text if len(text) <= LONGEST_SHOWN else text[:LONGEST_SHOWN] + "..."
                    reason = "is too long" if len(text) > most else "cannot stand in a case"
                    yield NotAllowed(typed(named, start), start, reason)


def _expected_sites(book: CodeBook, casefile: Casefile) -> tuple[SiteSeen, ...]:
    """Every site of the claimed car at which the book expects a mark or asks something, each
    not looked for."""
    context = car_context(in_book_words(casefile, book), book)
    sites = dict.fromkeys(mark.site for mark in book.marks_for(context) if mark.site)
    sites |= dict.fromkeys(f.site for f in book.features if f.applies.covers(context))
    return tuple(SiteSeen(site=site, state=SiteState.NOT_LOOKED_FOR) for site in sites)


def _show(folder: Path, casefile: Casefile, book: CodeBook) -> None:
    sites = counted("{number} site", "{number} sites", len(casefile.sites))
    places = Facts(
        (
            Fact("document", str(folder / "case.json")),
            Fact("exhibits", str(folder / "exhibits")),
        )
    )
    told = Paragraph(f"It lists {sites} that the book expects, each as not looked for.")
    claim = [Paragraph(each) for each in claim_read(casefile, book)]
    signs = [
        Paragraph(f"The examiner is {each.name}, from the profile.")
        for each in casefile.assignment.examiners
    ]
    print_outline(Outline(f"Case {casefile.id} is open", (places, told, *signs, *claim)))
