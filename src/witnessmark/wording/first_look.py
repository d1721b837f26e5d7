"""What a first look at a few numbers can say, and what it does not show.

A first look has no case, no papers and nobody's eyes on the metal: it says
whether readings agree, and gives that no weight.
"""

from collections.abc import Iterable

from witnessmark.agreement.records import Outcome
from witnessmark.catalogue import in_a_row, marked, said
from witnessmark.wording.amounts import listed, number_text
from witnessmark.wording.word_tables import word_table

AGREE, DIFFER, UNDECIDED = Outcome.AGREE, Outcome.DIFFER, Outcome.UNDECIDED

OUTCOME_HEADINGS = {
    Outcome.AGREE: marked("What agrees"),
    Outcome.DIFFER: marked("What differs"),
    Outcome.UNDECIDED: marked("What these readings cannot decide"),
    Outcome.SILENT: marked("Where the book is silent"),
}

FIRST_LOOK_LIMIT = marked(
    "Agreement does not say when or by whom a mark was struck; a difference may be a service "
    "part, a repair or a misreading. How the metal looks is left out."
)
"""The limits in two lines."""

FIRST_LOOK_LIMITS = tuple(word_table("first_look").values())


def first_look_answer(
    readings: int, outcomes: Iterable[Outcome], differing: tuple[str, ...], open_at: tuple[str, ...]
) -> str:
    """The whole answer in a sentence: how the comparisons of so many readings came out, and in
    what they differ or leave it open.

    >>> first_look_answer(6, (Outcome.AGREE,), (), ())
    'Consistent with one car: no two of these six readings differ in what both say.'
    """
    found = set(outcomes)
    count = number_text(readings)
    if DIFFER in found:
        return said(
            "Not consistent with one car left as it was built: these {count} readings differ in "
            "{items}.",
            count=count,
            items=listed(differing),
        )
    if UNDECIDED in found and AGREE in found:
        return said(
            "In what these {count} readings have in common, nothing differs; left open: {items}.",
            count=count,
            items=listed(open_at),
        )
    if UNDECIDED in found:
        return said(
            "These {count} readings leave open: {items}.", count=count, items=listed(open_at)
        )
    if AGREE in found and readings == 2:
        return said("Consistent with one car: the readings differ in nothing that both say.")
    if AGREE in found:
        return said(
            "Consistent with one car: no two of these {count} readings differ in what both say.",
            count=count,
        )
    return said("These readings have nothing in common that could be compared.")


def looks_at_one_mark(readings: int) -> str:
    """What is said where one mark was typed several times and nothing else."""
    return said(
        "These {count} readings are of one mark: they are compared with other marks, not "
        "with each other.",
        count=number_text(readings),
    )


def set_against_the_book(differing: tuple[str, ...], open_at: tuple[str, ...]) -> str:
    """What a mark says that does not fit the book by itself; empty where all does."""
    parts = []
    if differing:
        parts.append(said("By the book alone this does not fit: {items}.", items=listed(differing)))
    if open_at:
        parts.append(said("By the book alone this stays open: {items}.", items=listed(open_at)))
    return in_a_row(parts)
