"""Which marks agree, as tables: each mark a row, each item it speaks of a column.

A cell shows the value as it was read, and a shape and a word for how it stands to what is
claimed. Shape and word say the same; no colour carries meaning alone.
"""

from witnessmark.catalogue import counted, said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Bullets, Heading, Paragraph, Table, TableCell
from witnessmark.report.sections.grid_cells import (
    CellWord,
    GridBand,
    GridCell,
    GridRow,
    grid_bands,
    not_read,
)
from witnessmark.wording import spelled
from witnessmark.wording.amounts import capital

ITEMS_IN_BAND = 4
NAME_SHARE = 1.36
"""Width of the names of the marks, as a share of one item's column."""


def agreement_tables(opinion: Opinion) -> tuple[Block, ...]:
    """The marks that were read in tables of a few items, and below them those that were not."""
    bands = grid_bands(opinion, ITEMS_IN_BAND)
    lead = Paragraph(_summary(bands, len(not_read(opinion))), "lead")
    unread = tuple(f"{each.name}: {each.state}" for each in not_read(opinion))
    left_out = (Paragraph(said("Not read, so not in these tables"), "lead"), Bullets(unread))
    return (
        Heading(said("Which marks agree")),
        lead,
        *(_table(band) for band in bands),
        *(left_out if unread else ()),
    )


def _table(band: GridBand) -> Table:
    head = (said("Mark"), *map(capital, band.items))
    shares = (NAME_SHARE, *(1.0 for _ in band.items))
    return Table(head, tuple(_row(row) for row in band.rows), shares)


def _row(row: GridRow) -> tuple[TableCell, ...]:
    name = TableCell(capital(row.name), strong=row.is_claim)
    return name, *(_cell(cell) for cell in row.cells)


def _cell(cell: GridCell) -> TableCell:
    """The value with its word and shape; a dash alone where the mark is silent."""
    if cell.word is CellWord.CLAIMED:
        return TableCell(cell.value, mono=True, sign=cell.word.name.lower())
    if cell.word is CellWord.SILENT and not cell.value:
        return TableCell("–")
    return TableCell(cell.value, (cell.word.said(),), mono=True, sign=cell.word.name.lower())


def _summary(bands: tuple[GridBand, ...], unread: int) -> str:
    """What the tables show, with the cells that differ named."""
    if not bands:
        return said("No mark was read, so there is nothing to set side by side.")
    cells = [
        (row.name, item, cell)
        for band in bands
        for row in band.rows
        for item, cell in zip(band.items, row.cells, strict=True)
    ]
    parts = [
        said(
            "Each mark that was read against what is claimed, or against the other marks where "
            "nothing is claimed. Of the values read: {agreeing}, {differing}, {undecided}.",
            agreeing=counted("{number} agree", "{number} agree", _count(cells, CellWord.AGREES)),
            differing=counted(
                "{number} differ", "{number} differ", _count(cells, CellWord.DIFFERS)
            ),
            undecided=counted(
                "{number} undecided", "{number} undecided", _count(cells, CellWord.UNDECIDED)
            ),
        )
    ]
    differing = [
        said("{item} on: {mark}", item=item, mark=name)
        for name, item, cell in cells
        if cell.word is CellWord.DIFFERS
    ]
    if differing:
        parts.append(said("Those that differ: {cells}.", cells="; ".join(differing)))
    if unread:
        beside = spelled(
            "{count} mark could not be set beside them.",
            "{count} marks could not be set beside them.",
            unread,
        )
        parts.append(capital(beside))
    return " ".join([*parts, said("A dash: the mark says nothing of the item.")])


def _count(cells: list[tuple[str, str, GridCell]], word: CellWord) -> int:
    return sum(cell.word is word for _, _, cell in cells)
