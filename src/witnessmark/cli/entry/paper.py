"""`witnessmark case add paper`: papers of the book, and of any other kind."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Annotated

from witnessmark.casefile import Paper, PaperState
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.draft import CaseDraft, Entered, change_case, named_in_a_row
from witnessmark.cli.entry.typed import EnteredPair, Note, Photos, in_words, options, pairs_of
from witnessmark.cli.problems import PaperUnlisted
from witnessmark.codebook import MarkKind
from witnessmark.examination.book_words import item_named
from witnessmark.wording.amounts import capital
from witnessmark.wording.terms import term

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
        told = []
        said_there = [
            {"item": replace(each.left, value=item_named(draft.book, str(each.left.value))),
             "value": each.right}
            for each in pairs_of(tuple(says or ()), SAYS, "paint=oxblood", draft.problems)
        ]  # fmt: skip
        for pair in pairs_of(papers, FORM, EXAMPLE, draft.problems):
            at = _put(draft, pair, fields, said_there)
            if at is not None:
                paper, names = draft.casefile.papers[at], draft.names
                name = names.mark(paper.mark) if paper.mark else paper.name
                told.append(said("{paper}: {state}", paper=capital(name), state=term(paper.state)))
        return (named_in_a_row(told),)

    change_case(case, "add paper", enter)


def _put(
    draft: CaseDraft,
    pair: EnteredPair,
    fields: Mapping[str, Entered],
    says: list[dict[str, Entered]],
) -> int | None:
    """Put the state at the entry of this paper, or add one; gives which it is, None where
    something is at fault."""
    name = str(pair.left.value)
    state = {"state": in_words(pair.right, PaperState), **fields}
    marks = () if "kind" in fields else draft.book.marks_named(name, draft.context)
    mark = marks[0].id if len(marks) == 1 else ""
    entries = draft.casefile.papers
    if not mark and "kind" not in fields and name not in (each.name for each in entries):
        known = tuple(m.id for m in draft.book.marks if m.kind is MarkKind.PAPER)
        draft.problems.append(PaperUnlisted(pair.left.source, name, known))
        return None
    same = (n for n, e in enumerate(entries) if (e.mark == mark if mark else e.name == name))
    at = next(same, len(entries))
    if says:
        draft.given |= {
            ("papers", at, "says", n, field): each.source
            for n, row in enumerate(says)
            for field, each in row.items()
        }
        rows = [{field: each.value for field, each in row.items()} for row in says]
        state["says"] = Entered(rows, says[0]["item"].source)
    own = {"mark": replace(pair.left, value=mark)} | ({} if mark else {"name": pair.left})
    return draft.enter("papers", at, Paper, own, state)
