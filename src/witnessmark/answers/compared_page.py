"""The outline of a comparison: the answer first, each reading in a line, then what differs and what
stays open, each in a line or two with its reason."""

from collections.abc import Iterator

from witnessmark.agreement.records import Finding
from witnessmark.answers.compared import Compared, Compares
from witnessmark.answers.decoded_page import one_line
from witnessmark.catalogue import as_said, counted, in_a_row, said
from witnessmark.outline.records import (
    Block,
    Bullets,
    Outline,
    Paragraph,
    Section,
    table_of,
)
from witnessmark.wording.first_look import FIRST_LOOK_LIMIT, FIRST_LOOK_LIMITS, OUTCOME_HEADINGS


def compared_page(compared: Compared, everything: bool) -> Outline:
    """The whole page."""
    parts = in_full(compared) if everything else in_short(compared)
    sections = (*parts, _limits(compared, everything))
    return Outline(compared.answer, of_each_reading(compared), sections, is_numbered=False)


def of_each_reading(compared: Compared) -> tuple[Block, ...]:
    """What is known of the car, each reading in a line, and what is amiss with its typing."""
    rows = ((each.mark_name, one_line(each.reading), _outcome(each)) for each in compared.lines)
    told = (f"{each.mark_name}: {sentence}" for each in compared.lines for sentence in each.told)
    return (
        *map(Paragraph, compared.known),
        table_of(*rows, shares=(3, 4, 2)),
        *map(Paragraph, told),
    )


def _outcome(line: Compares) -> str:
    """How one reading stands to the others, in a few words."""
    if not line.is_compared:
        return said("not compared")
    others = line.agrees_with + line.differs_from + line.open_with
    if line.differs_from:
        return said("differs from {number} of {others}", number=line.differs_from, others=others)
    if line.open_with:
        return said("open with {number} of {others}", number=line.open_with, others=others)
    if others:
        return said("agrees with {others}", others=others)
    return said("nothing to compare")


def in_short(compared: Compared) -> Iterator[Section]:
    """What is alike, differs and stays open, each in a line or two."""
    alike = (
        said("{label}: {names}.", label=label, names=", ".join(names))
        for label, names in (
            (said("Alike"), compared.alike),
            (said("In order"), compared.in_order),
            (said("Built together"), compared.together),
        )
        if names
    )
    yield Section("", tuple(map(Paragraph, alike)))
    for title, told in (
        (said("What differs"), compared.differing),
        (said("What stays open"), compared.open),
    ):
        if told:
            yield Section(title, (Bullets(told),))


def in_full(compared: Compared) -> Iterator[Section]:
    """Every comparison with its reason and what it rests on."""
    for outcome, heading in OUTCOME_HEADINGS.items():
        found = [_with_source(f) for f in compared.findings if f.outcome is outcome]
        if found:
            yield Section(as_said(heading), (Bullets(tuple(found)),))


def _with_source(finding: Finding) -> str:
    """What stands there, what that is consistent with, on what it rests."""
    basis = as_said(finding.basis.value)
    if finding.strength:
        strength = as_said(finding.strength)
        basis = said("{strength} rule; {basis}", strength=strength, basis=basis)
    return f"{finding.observation} {finding.inference} ({basis}: {finding.source})"


def _limits(compared: Compared, everything: bool) -> Section:
    """What none of it shows, the book, and how to see more."""
    book = compared.car.book
    by = [
        said("By the book {book}, version {version}.", book=each.id, version=each.version)
        for each in (book, *book.beside)
    ]
    if not everything:
        number = len(compared.findings)
        by.append(
            counted("{number} comparison: --all.", "All {number} comparisons: --all.", number)
        )
    limits = FIRST_LOOK_LIMITS if everything else (FIRST_LOOK_LIMIT,)
    told = (*map(as_said, limits), in_a_row(by))
    return Section(said("What this does not show"), tuple(map(Paragraph, told)))
