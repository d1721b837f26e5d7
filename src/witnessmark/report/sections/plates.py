"""The plates that were read: each drawn as it is laid out, and a table of what its codes say."""

from collections.abc import Iterator

from witnessmark.agreement.records import Outcome
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.decoding.records import Decoding
from witnessmark.figures.data_plate import data_plate
from witnessmark.figures.drawing import WIDTH
from witnessmark.figures.plate_codes import plate_codes, unread_lines
from witnessmark.outline.records import (
    Block,
    Columns,
    Paragraph,
    Photograph,
    Pictures,
    Section,
    Table,
    TableCell,
)
from witnessmark.reading.records import CellKind
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import Names

BESIDE = 310.0
"""Points across that a plate is drawn in beside its photograph."""


def plates_section(matter: Matter) -> Section | None:
    """Each plate that was read, by its first reading."""
    first = {each.mark: each for each in reversed(matter.opinion.decodings)}
    blocks = [
        block
        for mark in matter.book.marks
        if mark.kind is MarkKind.PLATE and mark.id in first
        for block in plate(
            mark, first[mark.id], matter.book, matter.names, *_about(mark.id, matter)
        )
    ]
    return Section(said("The plates, field by field"), tuple(blocks)) if blocks else None


def _plate(mark: Mark, decoding: Decoding, matter: Matter) -> Iterator[Block]:
    return plate(mark, decoding, matter.book, matter.names, *_about(mark.id, matter))


def _about(mark: str, matter: Matter) -> tuple[frozenset[str], Photograph | None]:
    """The fields of a mark that differ from something they were set against, and its photograph."""
    differing = (each for each in matter.opinion.findings if each.outcome is Outcome.DIFFER)
    subjects = (subject for finding in differing for subject in finding.subjects)
    shown = map(matter.photograph, matter.at(mark))
    return frozenset(each.field for each in subjects if each.mark == mark), next(shown, None)


def plate(
    mark: Mark,
    decoding: Decoding,
    book: CodeBook,
    names: Names,
    at_issue: frozenset[str] = frozenset(),
    photograph: Photograph | None = None,
) -> Iterator[Block]:
    """The plate drawn with the windows at issue framed, beside its photograph if there is one;
    how it is fixed, and what each code says."""
    room = BESIDE if photograph else WIDTH
    drawn = drawings([data_plate(mark, decoding, book, names, room, at_issue)])
    if photograph is None:
        yield from drawn
    else:
        yield Columns((Pictures((photograph,)),), drawn, (WIDTH - BESIDE - 16, BESIDE))
    if mark.fixings:
        fixed = said("How it is fixed, by the code book: {fixings}.", fixings=mark.fixings)
        yield Paragraph(fixed, "lead")
    if any(cell.kind is CellKind.GAP for cell in decoding.reading.cells):
        yield Paragraph(said("… stands for an unknown number of lost places."), "lead")
    rows = [
        (
            TableCell(str(code.number), strong=True),
            TableCell(code.name, strong=True),
            TableCell(code.read, mono=True),
            TableCell("\n".join(code.says)),
        )
        for code in plate_codes(mark, decoding, book)
    ]
    field_names = {each.id: each.name for each in mark.fields}
    rows += [
        (
            TableCell(""),
            TableCell(said("not explained")),
            TableCell(text, mono=True),
            TableCell(why),
        )
        for text, why in unread_lines(decoding, field_names)
    ]
    head = (said("No."), said("Field"), said("As read"), said("What it says"))
    yield Table(head, tuple(rows), (0.6, 3, 2.6, 6), is_dense=True)
