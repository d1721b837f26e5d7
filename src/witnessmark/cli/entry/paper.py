"""`witnessmark case add paper`: papers of the book, and of any other kind."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated

from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.change import change_case
from witnessmark.cli.entry.typed import Note, Photos, options, pairs_of
from witnessmark.entry import CaseDraft, PaperUnlisted, enter_papers

HELP = """STATE is one of: in hand, copy, asked for and awaited, refused, lost, not asked
for. A paper of the book is named as there, and what it says is entered as a reading
of it. Any other has a name of your own and its --kind: archive letter, repair order,
shipping record, dated photograph, affidavit, earlier report or other paper; what it
says of the car goes with --says. It is told, and never weighed.

\b
Example:
  witnessmark case add paper my-sprint 'build card=asked for and awaited'
"""

FORM = "PAPER=STATE"
EXAMPLE = "build card=asked for and awaited"
SAYS = "ITEM=VALUE"
KIND = "--kind, such as --kind 'archive letter'"


def add_paper(
    case: CasePath,
    papers: Annotated[list[str], argument(f"{FORM}...", "Papers, and where each is.")],
    kind: Annotated[str, option("WORDS", "What a paper is that no book lists.")] = "",
    says: Annotated[
        list[str] | None, option(SAYS, "What such a paper says; may be repeated.")
    ] = None,
    copied_from: Annotated[str, option("PAPER", "What its numbers were copied from.")] = "",
    asked: Annotated[
        list[str] | None, option("SOURCE", "Asked, and does not have it; may be repeated.")
    ] = None,
    photo: Photos = None,
    note: Note = "",
) -> None:
    """Enter papers, and where they are."""
    fields = options(
        kind=kind, copied_from=copied_from, asked_in_vain=asked, exhibits=photo, note=note
    )

    def enter(draft: CaseDraft) -> Sequence[str]:
        said_there = tuple(pairs_of(says or (), SAYS, "paint=oxblood", draft.problems))
        pairs = pairs_of(papers, FORM, EXAMPLE, draft.problems)
        told = enter_papers(draft, pairs, fields, said_there)
        draft.problems[:] = [
            replace(each, kind=KIND) if isinstance(each, PaperUnlisted) else each
            for each in draft.problems
        ]
        return told

    change_case(case, "add paper", enter)
