"""An Opinion without serials, people and places.

Conclusions, ratios and bounds stay as they were reckoned from the whole
numbers; only what is said of them is masked.
"""

from dataclasses import dataclass, replace

from witnessmark.agreement.showing import CLAIM, TITLE
from witnessmark.catalogue import voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.named_rows import named_rows
from witnessmark.decoding.records import Alternative, Decoding, FieldCells, FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.reading.as_read import AsRead
from witnessmark.reading.records import Cell, Reading
from witnessmark.report.mask.case import book_words, left_out, masked_case, names_of
from witnessmark.report.mask.names import name_mask
from witnessmark.report.mask.signs import Signs, signs_of, spilt_before
from witnessmark.report.mask.texts import TextMask, text_mask
from witnessmark.weighing import assumed_rows

SHORT_CODE = 2
"""A code of so many characters that the book does not list is no piece of a number."""


@dataclass(frozen=True, slots=True)
class Masked:
    """A masked Opinion, with the mask by which it was made."""

    opinion: Opinion
    mask: TextMask


def mask_of(opinion: Opinion, book: CodeBook, one_sign: str = "") -> TextMask:
    """The mask of a case's texts; with `one_sign`, that one hides every character."""
    words = book_words(opinion)
    known = (
        *(each.id for each in opinion.names),
        *(each.name for each in named_rows(book)),
        *(each.id for each in assumed_rows()),
    )
    names = name_mask(names_of(opinion), words)
    return text_mask(signs_of(opinion, book, one_sign), names, words, known, left_out())


def masked(opinion: Opinion, book: CodeBook, one_sign: str = "") -> Masked:
    """The Opinion with its serials, people and places masked, the same way everywhere, and what
    was said in it in the language of the page; one that was `voiced` before has no values left
    to mask."""
    mask = mask_of(opinion, book, one_sign)
    shows = _Shows(mask, _explained(opinion, mask))
    decodings = tuple(shows.decoding(each) for each in opinion.decodings)
    read = {
        (old.mark, old.reading.as_typed): new.reading.as_typed
        for old, new in zip(opinion.decodings, decodings, strict=True)
    }
    case = masked_case(opinion, mask, read)
    who = {
        old.by: new.by for old, new in zip(opinion.casefile.readings, case.readings, strict=True)
    }
    decodings = tuple(_read_by(each, who) for each in decodings)
    rest = {
        name: voiced(getattr(opinion, name), shows.text)
        for name in ("context", "sites", "findings", "answer", "disclosure", "limitations")
    }
    made = replace(opinion, casefile=case, decodings=decodings, problems=(), title=None, **rest)
    return Masked(made, mask)


def _explained(opinion: Opinion, mask: TextMask) -> frozenset[tuple[str, str]]:
    """Mark and field of every code and date that can be shown in all readings of it."""
    title = () if opinion.title is None else (replace(opinion.title, mark=TITLE),)
    found: dict[tuple[str, str], bool] = {}
    for each in (*opinion.decodings, *title):
        shown = _shown_fields(each, mask)
        for cells in each.field_cells:
            key = (each.mark, cells.field)
            found[key] = found.get(key, True) and cells.field in shown
    return frozenset(key for key, is_shown in found.items() if is_shown)


def _shown_fields(decoding: Decoding, mask: TextMask) -> frozenset[str]:
    """The fields whose codes or dates the book explains, but for a number of the car that can be
    read so; with them one short code that it does not list, where all else is explained."""
    codes = [each for each in decoding.field_cells if each.says not in mask.signs.items]
    is_number = len(codes) == len(decoding.field_cells) and mask.holds_serial(
        decoding.reading.normalised
    )
    if not decoding.alternatives or decoding.is_unlike or is_number:
        return frozenset()
    listed = {meant.field for meant in decoding.alternatives[0].fields if meant.listed}
    others = [each for each in codes if each.field not in listed]
    if len(others) == 1 and len(others[0].cells) <= SHORT_CODE and not decoding.unread:
        listed.add(others[0].field)
    texts = {each.field: "".join(cell.sign() for cell in each.cells) for each in codes}
    return frozenset(
        field for field, text in texts.items() if field in listed and not mask.holds_serial(text)
    )


def _read_by(decoding: Decoding, who: dict[str, str]) -> Decoding:
    """The decoding with its reader as the masked case names him."""
    by = decoding.reading.by
    if not by:
        return decoding
    return replace(decoding, reading=replace(decoding.reading, by=who.get(by, left_out())))


@dataclass(frozen=True, slots=True)
class _Shows:
    """How the copy shows what was read: numbers by their signs, codes and dates that the book
    explains (`explained`: mark and field) as they stand, and nothing of anything else."""

    mask: TextMask
    explained: frozenset[tuple[str, str]]

    @property
    def signs(self) -> Signs:
        """The signs of the case."""
        return self.mask.signs

    def text(self, text: str) -> str:
        """A text of a record or of a sentence: what was read or claimed, or typed by somebody."""
        if not isinstance(text, AsRead):
            return self.mask.typed.get(text, text)
        if text.item in self.signs.items:
            if text.from_end is None:
                return self.signs.masked(text, text.item, text.part)
            return self._signed(text, text.item, text.from_end)
        if text.mark == CLAIM:
            return self.mask.claimed(text, text.item)
        return text if (text.mark, text.field) in self.explained else self.signs.blank(text)

    def decoding(self, decoding: Decoding) -> Decoding:
        """A decoding with its numbers masked, as read and as meant."""
        shown = self._cells(decoding)
        return replace(
            decoding,
            reading=_reading(decoding.reading, shown),
            alternatives=tuple(self._alternative(each, decoding) for each in decoding.alternatives),
            field_cells=tuple(self._field(each, decoding.mark) for each in decoding.field_cells),
            unread=self.signs.blank(decoding.unread),
            unexplained=(),
            notes=(),
            problems=(),
            slip=voiced(decoding.slip, self.text),
            beside=None,
        )

    def _cells(self, decoding: Decoding) -> dict[int, Cell]:
        """By column, every cell as the copy shows it: of no field, hidden."""
        shown = {cell.column: self._hidden(cell) for cell in decoding.reading.cells}
        for each in decoding.field_cells:
            signed = self._field(each, decoding.mark).cells
            shown |= {old.column: new for old, new in zip(each.cells, signed, strict=True)}
        for each in decoding.field_cells:
            spilt = spilt_before(decoding, each) if each.says in self.signs.items else ()
            whole = replace(each, part="all", cells=(*spilt, *each.cells))
            signed = self._field(whole, decoding.mark).cells[: len(spilt)]
            shown |= {old.column: new for old, new in zip(spilt, signed, strict=True)}
        return shown

    def _field(self, cells: FieldCells, mark: str) -> FieldCells:
        if cells.says not in self.signs.items:
            if (mark, cells.field) in self.explained:
                return cells
            return replace(cells, cells=tuple(map(self._hidden, cells.cells)))
        units = [cell.sign() for cell in cells.cells]
        places = self.signs.places(
            [*units, "…"] if cells.missing else units, cells.says, cells.part
        )
        signed = tuple(
            replace(cell, characters=self._signed(cell.characters, cells.says, place))
            for cell, place in zip(cells.cells, places, strict=False)
        )
        return replace(cells, cells=signed)

    def _signed(self, text: str, item: str, from_end: int | None) -> str:
        """What stands at one place of a number."""
        return "".join(
            self.signs.sign(item, from_end, each) if each.isalnum() else each for each in text
        )

    def _hidden(self, cell: Cell) -> Cell:
        return replace(cell, characters=self.signs.hidden * len(cell.characters))

    def _alternative(self, alternative: Alternative, decoding: Decoding) -> Alternative:
        parts = {each.field: each.part for each in decoding.field_cells}
        meant = (self._meant(each, decoding.mark, parts) for each in alternative.fields)
        return replace(alternative, fields=tuple(meant))

    def _meant(self, meant: FieldMeaning, mark: str, parts: dict[str, str]) -> FieldMeaning:
        if meant.says not in self.signs.items:
            if (mark, meant.field) in self.explained:
                return meant
            code, value = map(self.signs.blank, (meant.code, meant.value))
            return replace(meant, code=code, value=value)
        part = parts.get(meant.field, "all")
        code, value = (
            self.signs.masked(each, meant.says, part) for each in (meant.code, meant.value)
        )
        return replace(voiced(meant, self.text), code=code, value=value)


def _reading(reading: Reading, shown: dict[int, Cell]) -> Reading:
    """A reading typed in the signs of its cells; what was no sign of the notation goes."""
    cells = tuple(shown[cell.column] for cell in reading.cells)
    hidden = {old.column for old, new in zip(reading.cells, cells, strict=True) if old != new}
    windows = [""] * (max((cell.window for cell in cells), default=0) + 1)
    for cell in cells:
        windows[cell.window] += cell.sign()
    return replace(
        reading,
        as_typed=_as_typed(reading, shown),
        normalised=" | ".join(windows),
        cells=cells,
        changes=tuple(each for each in reading.changes if each.column not in hidden),
        problems=(),
    )


def _as_typed(reading: Reading, shown: dict[int, Cell]) -> str:
    """The text with its cells as the copy shows them, blanks and bars where they were typed."""
    signs = {cell.column: shown[cell.column].sign() for cell in reading.cells}
    typed = enumerate(reading.as_typed, start=1)
    return "".join(signs.get(column, each if each in " |" else "") for column, each in typed)
