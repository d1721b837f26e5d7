"""What changed in a case as a table: which entry, how, what it said and what it says."""

from collections.abc import Callable

from witnessmark.catalogue import as_said, said
from witnessmark.outline.records import Table, TableCell
from witnessmark.report.issue.supplement_changes import CaseChange, CasePart
from witnessmark.wording import Names
from witnessmark.wording.case_words import field_word

MOST_LETTERS = 20_000
"""Longest text that a field of a case may hold; only a field unknown here can be longer."""
LETTERS_SHOWN = 500


def _nothing(_change: CaseChange) -> tuple[str, ...]:
    return ()


def changes_table(
    changes: tuple[CaseChange, ...],
    names: Names,
    before: str,
    now: str,
    beside: Callable[[CaseChange], tuple[str, ...]] = _nothing,
) -> Table:
    """A row each, under these two words; `beside` gives what is said below what stands now."""
    head = (said("What"), said("How"), before, now)
    return Table(head, tuple(_row(each, names, beside(each)) for each in changes), (2.8, 1.6, 4, 4))


def about_text(change: CaseChange, names: Names) -> str:
    """What a change is about, by its name."""
    match change.part:
        case CasePart.READING | CasePart.PAPER:
            return names.mark(change.about)
        case CasePart.SITE | CasePart.LOOK | CasePart.STATEMENT:
            return names.any(change.about)
        case CasePart.EXHIBIT:
            return change.about
        case _:
            return field_word(change.about)


def _row(change: CaseChange, names: Names, beside: tuple[str, ...]) -> tuple[TableCell, ...]:
    nothing = said("nothing")
    return (
        TableCell(as_said(change.part.value), (about_text(change, names),)),
        TableCell(as_said(change.kind.value), strong=True),
        TableCell(_in_part(change.before) or nothing),
        TableCell(_in_part(change.now) or nothing, beside),
    )


def _in_part(text: str) -> str:
    """The text as it is, or the beginning of one that is longer than any field of a case may be."""
    if len(text) <= MOST_LETTERS:
        return text
    return said(
        "{beginning}… ({number} characters; the full text is in the case)",
        beginning=text[:LETTERS_SHOWN],
        number=f"{len(text):,}",
    )
