"""Which marks agree, as tables: each mark a row, each item it bears a column.

A cell shows the value as it was read, and a shape and a word for how it stands to what is
claimed. Shape and word say the same; no colour carries meaning alone.
"""

from collections import Counter
from collections.abc import Mapping
from enum import StrEnum

from witnessmark.agreement.records import Outcome
from witnessmark.agreement.showing import CLAIM
from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import as_said, counted, marked, said
from witnessmark.decoding.records import Decoding, FieldCells
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Heading, Paragraph, Table, TableCell
from witnessmark.reading.records import CellKind
from witnessmark.wording import Names, spelled, term
from witnessmark.wording.amounts import capital

ITEMS_IN_BAND = 4
NAME_SHARE = 1.36
"""Width of the names of the marks, as a share of one item's column."""


class CellWord(StrEnum):
    """How a cell stands to the claim, or where nothing is claimed to the other marks."""

    CLAIMED = marked("claimed")
    AGREES = marked("agrees")
    DIFFERS = marked("differs")
    UNDECIDED = marked("undecided")
    SILENT = marked("silent")
    ALONE = marked("stands alone")
    NOT_READ = marked("not read")


_WORDS = {
    Outcome.DIFFER: CellWord.DIFFERS,
    Outcome.UNDECIDED: CellWord.UNDECIDED,
    Outcome.AGREE: CellWord.AGREES,
}
"""The word of each outcome, the strongest first."""
_UNREADABLE = (CellKind.WORN, CellKind.OBLITERATED, CellKind.GAP)

type Grid = Mapping[tuple[str, str], TableCell]
"""The cells by mark (or the claim) and item, where a mark speaks of the item."""


def agreement_tables(opinion: Opinion) -> tuple[Block, ...]:
    """The marks that were read in tables of a few items, and below them those that were not."""
    names, grid, items = Names(opinion.names), _grid(opinion), _items(opinion)
    bands = [items[at : at + ITEMS_IN_BAND] for at in range(0, len(items), ITEMS_IN_BAND)]
    unread = _not_read(opinion, names)
    left_out = said("Not read, so not in these tables: {marks}.", marks="; ".join(unread))
    return (
        Heading(said("Which marks agree")),
        Paragraph(_summary(grid, bands, names, len(unread)), "lead"),
        *(_table(grid, band, names) for band in bands),
        *([Paragraph(left_out, "quiet")] if unread else []),
    )


def _items(opinion: Opinion) -> tuple[str, ...]:
    """Items that are claimed, then those of which several marks speak: what one mark alone says
    is set against nothing, and stands where it was found."""
    spoken = [
        (cells.says, each.mark)
        for each in opinion.decodings
        for cells in each.field_cells
        if cells.says
    ]
    marks = Counter(item for item, _ in dict.fromkeys(spoken))
    claimed = [item for item in opinion.casefile.claim.items if item in marks]
    others = [item for item, count in marks.most_common() if count > 1 and item not in claimed]
    return (*claimed, *others)


def _grid(opinion: Opinion) -> Grid:
    """What is claimed, then mark by mark what was read."""
    names = Names(opinion.names)
    sign = CellWord.CLAIMED.name.lower()
    found = {
        (CLAIM, item): TableCell(names.value(value, item), mono=True, sign=sign)
        for item, value in opinion.casefile.claim.items.items()
        if value
    }
    for mark in dict.fromkeys(decoding.mark for decoding in opinion.decodings):
        readings = [each for each in opinion.decodings if each.mark == mark]
        items = dict.fromkeys(cells.says for each in readings for cells in each.field_cells)
        found |= {(mark, item): _cell(opinion, readings, item) for item in items if item}
    return found


def _cell(opinion: Opinion, readings: list[Decoding], item: str) -> TableCell:
    """One mark and item; the readings of several examiners stand beside each other."""
    fields = [cells for each in readings for cells in each.field_cells if cells.says == item]
    value = " / ".join(dict.fromkeys(_as_read(cells) for cells in fields))
    word = _word(opinion, readings[0].mark, item)
    if all(_is_unread(cells) for cells in fields):
        word = CellWord.NOT_READ
    return TableCell(value, (as_said(word.value),), mono=True, sign=word.name.lower())


def _as_read(cells: FieldCells) -> str:
    if cells.is_empty:
        return said("left empty")
    return "".join(cell.sign() for cell in cells.cells) or "?"


def _is_unread(cells: FieldCells) -> bool:
    return not cells.is_empty and all(cell.kind in _UNREADABLE for cell in cells.cells)


def _word(opinion: Opinion, mark: str, item: str) -> CellWord:
    """The word of the findings about this mark and item; against the claim where one speaks."""
    about = []
    for finding in opinion.findings:
        marks = {subject.mark for subject in finding.subjects}
        # a comparison, not a question to the book alone
        if finding.topic == item and len(finding.subjects) > 1 and mark in marks:
            about.append((CLAIM in marks, finding.outcome))
    if not about:
        return CellWord.ALONE
    for group in ([each for each in about if each[0]], about):
        outcomes = {outcome for _, outcome in group}
        for outcome, word in _WORDS.items():
            if outcome in outcomes:
                return word
    return CellWord.SILENT


def _table(grid: Grid, items: tuple[str, ...], names: Names) -> Table:
    """A row for each mark that speaks of one of these items; a dash where it is silent."""
    marks = dict.fromkeys(mark for mark, item in grid if item in items)
    rows = tuple(
        (
            TableCell(capital(_name(mark, names)), strong=mark == CLAIM),
            *(grid.get((mark, item), TableCell("–")) for item in items),
        )
        for mark in marks
    )
    head = (said("Mark"), *(capital(names.item(item)) for item in items))
    return Table(head, rows, (NAME_SHARE, *(1.0 for _ in items)), is_dense=True)


def _name(mark: str, names: Names) -> str:
    return said("what is claimed") if mark == CLAIM else names.mark(mark)


def _not_read(opinion: Opinion, names: Names) -> tuple[str, ...]:
    """Marks of expected sites for which no reading stands, each with how its site ended."""
    read = {decoding.mark for decoding in opinion.decodings}
    return tuple(
        f"{names.mark(mark)}: "
        f"{said('nothing read') if site.state is SiteState.READ else term(site.state)}"
        for site in opinion.sites
        for mark in site.marks
        if mark not in read
    )


def _summary(grid: Grid, bands: list[tuple[str, ...]], names: Names, unread: int) -> str:
    """What the tables show, with the cells that differ named."""
    if not bands:
        return said("No mark was read, so there is nothing to compare.")
    signs = [cell.sign for cell in grid.values()]
    parts = [
        said(
            "Each mark that was read, set against the claim, or against the other marks "
            "where nothing is claimed. Of the values read: {agreeing}, {differing}, "
            "{undecided}.",
            agreeing=counted("{number} agree", "{number} agree", signs.count("agrees")),
            differing=counted("{number} differ", "{number} differ", signs.count("differs")),
            undecided=counted("{number} undecided", "{number} undecided", signs.count("undecided")),
        )
    ]
    differing = [
        said("{item} on: {mark}", item=names.item(item), mark=names.mark(mark))
        for band in bands
        for mark in dict.fromkeys(mark for mark, _ in grid)
        for item in band
        if (mark, item) in grid and grid[mark, item].sign == "differs"
    ]
    if differing:
        parts.append(said("Those that differ: {cells}.", cells="; ".join(differing)))
    if unread:
        beside = spelled(
            "{count} mark could not be compared with them.",
            "{count} marks could not be compared with them.",
            unread,
        )
        parts.append(capital(beside))
    return " ".join([*parts, said("A dash: the mark says nothing about the item.")])
