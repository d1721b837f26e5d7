"""What stands in each cell of the tables of which marks agree."""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.agreement.records import Finding, Outcome
from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import as_said, marked, said
from witnessmark.decoding.records import Decoding, FieldCells
from witnessmark.examination import Opinion
from witnessmark.reading.records import CellKind
from witnessmark.wording import Names, term

CLAIM = "claim"


class CellWord(StrEnum):
    """How a cell stands to the claim, or where nothing is claimed to the other marks."""

    CLAIMED = marked("claimed")
    AGREES = marked("agrees")
    DIFFERS = marked("differs")
    UNDECIDED = marked("undecided")
    SILENT = marked("silent")
    ALONE = marked("stands alone")
    NOT_READ = marked("not read")

    def said(self) -> str:
        """The word in the language of the page."""
        return as_said(self.value)


@dataclass(frozen=True, slots=True)
class GridCell:
    """The value as read, empty where there is none, and the word for it."""

    value: str
    word: CellWord


@dataclass(frozen=True, slots=True)
class GridRow:
    """One mark (or the claim) and its cells in the order of the band's items."""

    name: str
    cells: tuple[GridCell, ...]
    is_claim: bool = False


@dataclass(frozen=True, slots=True)
class GridBand:
    """A few items side by side, and the marks that speak of at least one of them."""

    items: tuple[str, ...]
    rows: tuple[GridRow, ...]


@dataclass(frozen=True, slots=True)
class NotRead:
    """A mark that was not read, and how its site ended."""

    name: str
    state: str


_STRONGEST_FIRST = (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE)
_WORDS = {
    Outcome.DIFFER: CellWord.DIFFERS,
    Outcome.UNDECIDED: CellWord.UNDECIDED,
    Outcome.AGREE: CellWord.AGREES,
}
_UNREADABLE = (CellKind.WORN, CellKind.OBLITERATED, CellKind.GAP)


def grid_bands(opinion: Opinion, items_in_band: int) -> tuple[GridBand, ...]:
    """The grid in bands of a few items: claimed items first, then the most spoken of."""
    items = _items(opinion)
    chunks = [items[at : at + items_in_band] for at in range(0, len(items), items_in_band)]
    return tuple(_band(opinion, chunk) for chunk in chunks)


def not_read(opinion: Opinion) -> tuple[NotRead, ...]:
    """Marks of expected sites for which no reading stands."""
    names = Names(opinion.names)
    read = {decoding.mark for decoding in opinion.decodings}
    return tuple(
        NotRead(names.mark(mark), _state_words(site.state))
        for site in opinion.sites
        for mark in site.marks
        if mark not in read
    )


def _state_words(state: SiteState) -> str:
    return said("nothing read") if state is SiteState.READ else term(state)


def _items(opinion: Opinion) -> tuple[str, ...]:
    """Items that are claimed or spoken of, those that can be compared before the rest."""
    spoken = [cells.says for each in opinion.decodings for cells in each.field_cells if cells.says]
    claimed = [item for item in opinion.casefile.claim.items if item in spoken]
    others = sorted(
        dict.fromkeys(item for item in spoken if item not in claimed),
        key=lambda item: -spoken.count(item),
    )
    return (*claimed, *others)


def _band(opinion: Opinion, items: tuple[str, ...]) -> GridBand:
    names = Names(opinion.names)
    rows = []
    claim = opinion.casefile.claim
    if any(item in claim.items for item in items):
        cells = tuple(_claimed(names.value(claim.items.get(item, ""), item)) for item in items)
        rows.append(GridRow(said("what is claimed"), cells, is_claim=True))
    for mark in dict.fromkeys(decoding.mark for decoding in opinion.decodings):
        readings = [each for each in opinion.decodings if each.mark == mark]
        if any(cells.says in items for each in readings for cells in each.field_cells):
            cells = tuple(_cell(opinion, readings, item) for item in items)
            rows.append(GridRow(names.mark(mark), cells))
    return GridBand(tuple(names.item(item) for item in items), tuple(rows))


def _claimed(value: str) -> GridCell:
    return GridCell(value, CellWord.CLAIMED) if value else GridCell("", CellWord.SILENT)


def _cell(opinion: Opinion, readings: list[Decoding], item: str) -> GridCell:
    """One mark and item; the readings of several examiners stand beside each other."""
    fields = [cells for each in readings for cells in each.field_cells if cells.says == item]
    if not fields:
        return GridCell("", CellWord.SILENT)
    value = " / ".join(dict.fromkeys(_as_read(cells) for cells in fields))
    if all(_is_unread(cells) for cells in fields):
        return GridCell(value, CellWord.NOT_READ)
    return GridCell(value, _word(opinion, readings[0].mark, item))


def _as_read(cells: FieldCells) -> str:
    if cells.is_empty:
        return said("left empty")
    return "".join(cell.sign() for cell in cells.cells) or "?"


def _is_unread(cells: FieldCells) -> bool:
    return not cells.is_empty and all(cell.kind in _UNREADABLE for cell in cells.cells)


def _word(opinion: Opinion, mark: str, item: str) -> CellWord:
    """The word of the findings about this mark and item; against the claim where one speaks."""
    about = [
        finding
        for finding in opinion.findings
        if finding.topic == item
        and len(finding.subjects) > 1  # a comparison, not a question to the book alone
        and any(subject.mark == mark for subject in finding.subjects)
    ]
    if not about:
        return CellWord.ALONE
    against_claim = [finding for finding in about if _names_claim(finding)]
    for group in (against_claim, about):
        outcomes = {finding.outcome for finding in group}
        for outcome in _STRONGEST_FIRST:
            if outcome in outcomes:
                return _WORDS[outcome]
    return CellWord.SILENT


def _names_claim(finding: Finding) -> bool:
    return any(subject.mark == CLAIM for subject in finding.subjects)
