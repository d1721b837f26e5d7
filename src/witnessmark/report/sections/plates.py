"""The plates that were read: each drawn as it is laid out, and a table of what its codes say."""

from collections.abc import Iterator

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.decoding.records import Decoding
from witnessmark.figures.data_plate import data_plate
from witnessmark.figures.drawing import WIDTH
from witnessmark.figures.plate_codes import plate_codes, unread_lines
from witnessmark.outline.records import Block, Paragraph, Section, Table, TableCell
from witnessmark.reading.records import CellKind
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import Names


def plates_section(matter: Matter) -> Section | None:
    """Each plate that was read, by its first reading."""
    first = {each.mark: each for each in reversed(matter.opinion.decodings)}
    blocks = [
        block
        for mark in matter.book.marks
        if mark.kind is MarkKind.PLATE and mark.id in first
        for block in plate(mark, first[mark.id], matter.book, matter.names)
    ]
    return Section(said("The plates, field by field"), tuple(blocks)) if blocks else None


def plate(mark: Mark, decoding: Decoding, book: CodeBook, names: Names) -> Iterator[Block]:
    """The plate drawn, how it is fixed, and what each code says."""
    yield from drawings([data_plate(mark, decoding, book, names, WIDTH)])
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
