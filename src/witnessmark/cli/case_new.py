"""`witnessmark case new`: a new case document, with every site that the book expects."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from witnessmark.cli.opening import named_book
from witnessmark.cli.problems import (
    NotAllowed,
    NotAPair,
    UnknownName,
    typed,
)
from witnessmark.cli.terminal import Sheet, refuse
from witnessmark.problem import Problem

if TYPE_CHECKING:
    from witnessmark.casefile.records import Casefile, Claim, SiteSeen
    from witnessmark.codebook.book import CodeBook

SHORT = "Open a new case."

HELP = """Open a new case: a folder with case.json and an empty exhibits folder.

Every site that the book expects on the claimed car is listed as not looked for,
so that none is forgotten. Nothing that is there already is touched.

\b
Example:
  witnessmark case new my-sprint --book tarvane-1952-1961 --id my-sprint \\
    --claim model=solent-sprint --claim model_year=1955
"""


def case_new(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make.")],
    book: Annotated[
        str, typer.Option("--book", metavar="BOOK", help="The code book, by name or folder.")
    ],
    id: Annotated[str, typer.Option("--id", metavar="ID", help="A short name for the case.")],
    title: Annotated[str, typer.Option("--title", metavar="TEXT", help="A title for people.")] = "",
    claim: Annotated[
        list[str] | None,
        typer.Option("--claim", metavar="ITEM=VALUE", help="What is claimed; may be repeated."),
    ] = None,
    made_by: Annotated[
        str, typer.Option("--made-by", metavar="WHO", help="Who makes the claim.")
    ] = "",
    client: Annotated[
        str, typer.Option("--client", metavar="WHO", help="For whom the answer is.")
    ] = "",
    purpose: Annotated[
        str, typer.Option("--purpose", metavar="TEXT", help="What the answer is for.")
    ] = "",
) -> None:
    """Make the folder of a new case, whole or not at all."""
    from witnessmark.casefile import EXHIBITS_NAME, render_casefile, write_case

    code_book = named_book(book, "--book")
    problems: list[Problem] = []
    items = dict(_claimed(code_book, tuple(claim or ()), problems))
    draft = Draft(id, title, book, items, made_by, client, purpose)
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
    items: dict[str, str]
    made_by: str
    client: str
    purpose: str


def _claimed(
    book: "CodeBook", claims: tuple[str, ...], problems: list[Problem]
) -> list[tuple[str, str]]:
    """The claimed items and their values; what the book does not know adds to the problems."""
    claimed = []
    for claim in claims:
        name, equals, value = (part.strip() for part in claim.partition("="))
        if not equals or not name or not value:
            problems.append(NotAPair(typed("--claim", claim), claim, "ITEM=VALUE"))
            continue
        item = next((each for each in book.items if each.id == name.replace("-", "_")), None)
        where = f"of the book {book.id}"
        if item is None:
            source = typed("--claim", claim, 1, len(name))
            known = tuple(each.id for each in book.items)
            problems.append(UnknownName(source, "item", name, where, known))
            continue
        values = claimable_values(book, item.id)
        if values and value not in values:
            source = typed("--claim", claim, claim.index("=") + 2, len(value))
            problems.append(UnknownName(source, item.name, value, where, values))
        claimed.append((item.id, value))
    return claimed


def claimable_values(book: "CodeBook", item_id: str) -> tuple[str, ...]:
    """The values that the book gives an item; none where any text may stand, as for a number."""
    if item_id == "model":
        return tuple(model.id for model in book.models)
    if item_id == "model_year":
        return tuple(str(year) for year in range(book.first_year, book.last_year + 1))
    works = tuple(each.id for each in book.works if each.role == item_id)
    tables = {f.table for mark in book.marks for f in mark.fields if f.says == item_id}
    listed = (row.value for table in sorted(tables - {""}) for row in book.table(table))
    empty = (
        field.empty.value
        for mark in book.marks
        for field in mark.fields
        if field.says == item_id and field.empty is not None
    )
    return tuple(dict.fromkeys((*works, *listed, *empty)))


def _drafted(draft: Draft, book: "CodeBook", problems: list[Problem]) -> "Casefile | None":
    """The new case document, or None when a part of it is not allowed."""
    from pydantic import ValidationError

    from witnessmark.casefile import check_case_id
    from witnessmark.casefile.records import Assignment, Casefile, Claim

    bad_id = check_case_id(draft.id, typed("--id", draft.id))
    problems.extend(bad_id)
    try:
        claim = Claim(made_by=draft.made_by, items=draft.items)
        return Casefile(
            id="unnamed" if bad_id else draft.id,
            title=draft.title,
            book=draft.book,
            opened=date.today(),
            claim=claim,
            assignment=Assignment(client=draft.client, purpose=draft.purpose),
            sites=_expected_sites(book, claim),
        )
    except ValidationError as fault:
        for each in fault.errors():  # the one thing that can be wrong with a text is its length
            name = str(each["loc"][0])
            option = {"made_by": "--made-by", "items": "--claim"}.get(name, f"--{name}")
            start = str(each["input"])[:60] + "..."
            problems.append(NotAllowed(typed(option, start), start, "is too long"))
        return None


def _expected_sites(book: "CodeBook", claim: "Claim") -> "tuple[SiteSeen, ...]":
    """Every site at which the book expects a mark of the claimed car, each not looked for."""
    from witnessmark.casefile.records import SiteSeen, SiteState
    from witnessmark.codebook.records import CarContext

    year = claim.items.get("model_year", "")
    works = (claim.items.get(role) for role in ("works", "body_works"))
    context = CarContext(
        model_year=int(year) if year.isdecimal() else None,
        model=claim.items.get("model"),
        works=frozenset(each for each in works if each),
    )
    sites = dict.fromkeys(mark.site for mark in book.marks_for(context) if mark.site)
    return tuple(SiteSeen(site=site, state=SiteState.NOT_LOOKED_FOR) for site in sites)


def _show(folder: Path, casefile: "Casefile") -> None:
    from witnessmark.wording import count_text

    sheet = Sheet()
    sheet.title(f"Case {casefile.id} is open")
    sites = count_text(len(casefile.sites), "site")
    sheet.pairs((("document", str(folder / "case.json")), ("exhibits", str(folder / "exhibits"))))
    sheet.say(f"It lists {sites} that the book expects, each as not looked for.", 2)
    sheet.show()
