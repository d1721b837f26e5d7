"""`witnessmark case new`: a new case document, with every site that the book expects."""

from datetime import date
from pathlib import Path
from typing import Annotated

from witnessmark.casefile import EXHIBITS_NAME, Casefile, render_casefile, write_case
from witnessmark.casefile.profile import examiner_of
from witnessmark.catalogue import counted
from witnessmark.cli import completing
from witnessmark.cli.arguments import BesideBooks, argument, option
from witnessmark.cli.case.profile import kept_profile
from witnessmark.cli.entry.typed import claims_of
from witnessmark.cli.opening import books_beside
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_outline, refuse
from witnessmark.codebook import CodeBook
from witnessmark.entry import CaseAsked, Entered, begun, claim_read
from witnessmark.outline.records import Fact, Facts, Outline, Paragraph
from witnessmark.problem import Problem

HELP = """Every place that the book expects on the claimed car is listed as not looked for,
so that none is forgotten. The examiner is taken from `witnessmark profile`, if one is
kept. Existing files are never touched.

\b
Example:
  witnessmark case new my-sprint --book tarvane-1952-1961 --id my-sprint \\
    --claim model=solent-sprint --claim model_year=1955
"""


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
    profile = kept_profile()
    asked = CaseAsked(
        id=_typed("--id", id),
        book=_typed("--book", book),
        beside=tuple(_typed("--beside", each) for each in further),
        opened=date.today(),
        title=_typed("--title", title),
        made_by=_typed("--made-by", made_by),
        items=claimed,
        client=_typed("--client", client),
        purpose=_typed("--purpose", purpose),
        examiners=(examiner_of(profile),) if profile else (),
    )
    casefile = begun(code_book, asked)
    if isinstance(casefile, tuple):
        refuse((*casefile, *problems))
    if problems:
        refuse(problems)
    faults = write_case(folder, render_casefile(casefile), may_replace=False)
    if faults:
        refuse(faults)
    (folder / EXHIBITS_NAME).mkdir(exist_ok=True)
    _show(folder, casefile, code_book)


def _typed(option_name: str, text: str) -> Entered:
    return Entered(text, typed(option_name, text))


def _show(folder: Path, casefile: Casefile, book: CodeBook) -> None:
    sites = counted("{number} place", "{number} places", len(casefile.sites))
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
