"""A text is cut as the last one of the same shape was.

Where nothing is unsure and every character is one of the mark's own, any figure of a serial
number may stand for any other: how the text lies in its fields hangs on its shape alone. What
was found for a shape is taken for the next text of that shape. A text of which anything has
to be said (a sign, a small letter, a word beside the fields, too few characters, too many) is
read sign by sign in notation.py.
"""

from dataclasses import dataclass, replace
from dataclasses import field as declared
from functools import lru_cache

from witnessmark.codebook.marks import Field, Mark
from witnessmark.reading.date_words import as_forms_write
from witnessmark.reading.layout import MARKS_KEPT, STRAINED, lines_of
from witnessmark.reading.layout_line import Line, Plan
from witnessmark.reading.layout_search import OPTIONAL_ABSENT, cheapest
from witnessmark.reading.records import Cell, CellKind, Layout, Placed

SHAPES_KEPT = 4000
"""Shapes of a line, and texts of a field, that are kept; with one more, all are forgotten."""

LONGEST = 200
"""A longer text is read sign by sign."""

PARTING = frozenset(" -/,")
"""Signs that part what stands before and behind them, unless the mark has them."""

APART_A_BLANK, APART_A_LINE = 1, 2


@lru_cache(maxsize=1 << 16)
def clear_cell(sign: str, column: int, window: int, apart: int) -> Cell:
    """A place that was read as one character."""
    return Cell(CellKind.CLEAR, sign, column, window, apart)


@dataclass(frozen=True, slots=True)
class Fitting:
    """A text that fits its mark as it stands: its cells, how they lie, and how it is written."""

    cells: tuple[Cell, ...]
    layout: Layout
    normalised: str


@dataclass(frozen=True, slots=True)
class _Cut:
    """One line of a text: its cells and where they lie.

    `tight` is how it is written where all fits as it stands, `loose` where its blanks stay;
    `hangs`: it would lie otherwise had nothing parted it.
    """

    cells: tuple[Cell, ...]
    placed: tuple[Placed, ...]
    spelt: tuple[Cell, ...]
    tight: str
    loose: str
    strain: float
    hangs: bool
    is_exact: bool


@dataclass(frozen=True, slots=True)
class _Piece:
    """Characters of one field, or of a word before one: the place of each in the text, and
    what parts it from the one before."""

    field: Field | None
    at: tuple[tuple[int, int], ...]
    window: int
    missing: int = 0
    kept: dict[tuple[str, int], Placed] = declared(default_factory=dict)

    def cells(self, text: str, start: int) -> tuple[Cell, ...]:
        """The characters as cells, where the text begins at column `start`."""
        window = self.window
        return tuple([clear_cell(text[k], start + k, window, apart) for k, apart in self.at])

    def placed(self, text: str, start: int) -> Placed:
        """The cells in their field; codes and dates come again, and are kept."""
        own = self.field
        assert own is not None, "a word before a field lies in none"
        if self.at and not (own.table or own.date_form):
            return Placed(own, self.cells(text, start))
        question = (text[self.at[0][0] : self.at[-1][0] + 1] if self.at else "", start)
        found = self.kept.get(question)
        if found is None:
            if len(self.kept) >= SHAPES_KEPT:
                self.kept.clear()
            found = self.kept[question] = Placed(own, self.cells(text, start), self.missing)
        return found


@dataclass(frozen=True, slots=True)
class _Shape:
    """How the texts of one shape lie: their pieces in the order of the fields, and how they
    are written, as stretches of the text with what stands before each.

    `is_exact`: each field has one length, and the text is as long as all together.
    """

    pieces: tuple[_Piece, ...]
    tight: tuple[tuple[int, int, str], ...] = ()
    loose: tuple[tuple[int, int, str], ...] = ()
    strain: float = 0.0
    hangs: bool = False
    is_exact: bool = False

    def cut(self, text: str, start: int) -> _Cut:
        """A text of this shape, which begins at column `start`."""
        cells: list[Cell] = []
        placed: list[Placed] = []
        spelt: list[Cell] = []
        for piece in self.pieces:
            if piece.field is None:
                own = piece.cells(text, start)
                spelt += own
            else:
                placed.append(piece.placed(text, start))
                own = placed[-1].cells
            cells += own
        tight, loose = _written(text, self.tight), _written(text, self.loose)
        lying = (tuple(cells), tuple(placed), tuple(spelt))
        return _Cut(*lying, tight, loose, self.strain, self.hangs, self.is_exact)


def _written(text: str, stretches: tuple[tuple[int, int, str], ...]) -> str:
    """The stretches one behind the other; the text itself where there are none."""
    if not stretches:
        return text
    return "".join([before + text[start:end] for start, end, before in stretches])


class ShapedLine:
    """A line of a mark, with the shapes that were found in it.

    `alphabet` is that of the whole mark. `stands`: each field of it has its place on the
    plate, and is missing where nothing stands there.
    """

    def __init__(self, line: Line, alphabet: frozenset[str], window: int, stands: bool) -> None:
        self.line, self.alphabet, self.window, self.stands = line, alphabet, window, stands
        self.has_number = any(not (each.table or each.date_form) for each in line.fields)
        self.signs = str.maketrans(self._signs())
        self.shapes: dict[tuple[str, int], _Shape | None] = {}
        self.known: dict[tuple[str, int, int], _Cut | None] = {}

    def _signs(self) -> dict[str, str]:
        """For each character the first that costs the same in every field."""
        first: dict[int, str] = {}
        return {
            sign: first.setdefault(self.line.class_of(Cell(CellKind.CLEAR, sign, 1)), sign)
            for sign in sorted(self.alphabet)
        }

    def cut(self, text: str, start: int, apart: int) -> _Cut | None:
        """A text that begins at column `start`, parted so from what stands before it; None
        where it has to be read sign by sign."""
        if self.has_number:
            return self._cut(text, start, apart)
        question = (text, start, apart)
        if question not in self.known:
            if len(self.known) >= SHAPES_KEPT:
                self.known.clear()
            self.known[question] = self._cut(text, start, apart)
        return self.known[question]

    def _cut(self, text: str, start: int, apart: int) -> _Cut | None:
        question = (text.translate(self.signs), apart)
        if question not in self.shapes:
            if len(self.shapes) >= SHAPES_KEPT:
                self.shapes.clear()
            self.shapes[question] = self._shape(text, apart)
        shape = self.shapes[question]
        return None if shape is None else shape.cut(text, start)

    def _shape(self, text: str, apart: int) -> _Shape | None:
        """How a text of a new shape is to be cut."""
        at = self._places(text, apart)
        if at is None:
            return None
        if len(at) == len(text) and (exact := self._exactly(text, at)) is not None:
            return exact
        cells = tuple([clear_cell(text[k], k + 1, self.window, parted) for k, parted in at])
        plan = cheapest(self.line, cells)
        if not self._fits(plan, cells):
            return None
        pieces = self._pieces(plan, at)
        if not self.stands and any(piece.missing for piece in pieces):
            return None
        dated = {at for piece in pieces if piece.field and piece.field.date_form for at in piece.at}
        joined = cheapest(self.line, tuple([replace(cell, apart=0) for cell in cells]))
        return _Shape(
            pieces,
            _stretches(at, dated),
            _stretches(at, set(at)),
            max(plan.cost, 0.0) if cells else 0.0,
            [len(each.cells) for each in joined.fields] != [len(p.cells) for p in plan.fields],
        )

    def _places(self, text: str, apart: int) -> tuple[tuple[int, int], ...] | None:
        """Every character with what parts it from the one before; None where some sign is none
        of the mark's characters and no mere parting, or dots run together."""
        found: list[tuple[int, int]] = []
        parted = apart
        for k, sign in enumerate(text):
            if sign in self.alphabet:
                found.append((k, parted))
                parted = 0
            elif sign not in PARTING:
                return None
            elif found:
                parted = APART_A_BLANK
        return None if ".." in text else tuple(found)

    def _exactly(self, text: str, at: tuple[tuple[int, int], ...]) -> _Shape | None:
        """The one way to cut a text that is as long as fields of one length each."""
        pieces, start = [], 0
        for own in self.line.fields:
            end = start + own.widths[0] if own.widths else start
            if (
                len(own.widths) != 1
                or own.optional
                or not set(text[start:end]) <= set(own.alphabet)
            ):
                return None
            pieces.append(_Piece(own, at[start:end], self.window))
            start = end
        return _Shape(tuple(pieces), is_exact=True) if start == len(text) else None

    def _fits(self, plan: Plan, cells: tuple[Cell, ...]) -> bool:
        """Does all fit as it stands, but for fields that may be absent?"""
        absent = sum(not each.cells for each in plan.fields)
        return (
            plan.is_plain
            and (not cells or plan.cost - OPTIONAL_ABSENT * absent < STRAINED)
            and not any(each.missing and each.cells for each in plan.fields)
            and all(letter in ("", cells[k].characters) for k, letter in plan.spelt)
        )

    def _pieces(self, plan: Plan, at: tuple[tuple[int, int], ...]) -> tuple[_Piece, ...]:
        """The fields of a plan and the words between them, in the order of the text."""
        pieces: list[_Piece] = []
        words = [k for k, _ in plan.spelt]
        is_alone = len(self.line.fields) == 1
        for each in plan.fields:
            own = self.line.fields[each.field]
            before = [k for k in words if each.cells and k < each.cells[0]]
            pieces += [_Piece(None, (at[k],), self.window) for k in before]
            words = words[len(before) :]
            lacks = not each.cells and (is_alone or not own.optional)
            missing = min(own.widths, default=0) if lacks else each.missing
            pieces.append(_Piece(own, tuple([at[k] for k in each.cells]), self.window, missing))
        pieces += [_Piece(None, (at[k],), self.window) for k in words]
        return tuple(pieces)


def _stretches(
    at: tuple[tuple[int, int], ...], keep: set[tuple[int, int]]
) -> tuple[tuple[int, int, str], ...]:
    """The characters that are written, as stretches of the text; a blank before those to keep
    that are parted from the one before."""
    found: list[tuple[int, int, str]] = []
    for k, parted in at:
        is_apart = bool(found) and parted > 0 and (k, parted) in keep
        if found and not is_apart and found[-1][1] == k:
            found[-1] = (found[-1][0], k + 1, found[-1][2])
        else:
            found.append((k, k + 1, " " if is_apart else ""))
    return tuple(found)


class ShapedMark:
    """The lines of a mark, one for each window that bars part, with their shapes."""

    def __init__(self, mark: Mark) -> None:
        lines = lines_of(mark)
        self.has_windows = mark.windows
        self.date_forms = lines.date_forms
        own = lines.by_window if mark.windows else (lines.whole,)
        stands = len(own) > 1
        self.lines = tuple(
            ShapedLine(line, lines.alphabet, window, stands) for window, line in enumerate(own)
        )

    def fitting(self, text: str) -> Fitting | None:
        """A text that fits the mark as it stands; None for any that is read sign by sign."""
        if len(text) > LONGEST:
            return None
        cuts = self._cuts(text.split("|") if self.has_windows else [text])
        if cuts is None:
            return None
        is_exact = len(cuts) == 1 and cuts[0].is_exact
        if self.date_forms and not is_exact and as_forms_write(text, self.date_forms).changes:
            return None
        return _together(cuts)

    def _cuts(self, texts: list[str]) -> list[_Cut] | None:
        """Each window cut by itself; None where one does not fit, or nothing was typed."""
        if len(texts) != len(self.lines):
            return None
        found: list[_Cut] = []
        start, apart, is_empty = 1, 0, True
        for line, text in zip(self.lines, texts, strict=True):
            cut = line.cut(text, start, apart)
            if cut is None:
                return None
            found.append(cut)
            is_empty = is_empty and not cut.cells
            apart = 0 if is_empty else APART_A_LINE
            start += len(text) + 1
        return None if is_empty else found


def _together(cuts: list[_Cut]) -> Fitting:
    """The windows of a text as one."""
    if len(cuts) == 1:
        [cut] = cuts
        layout = Layout(cut.placed, cut.spelt, strain=cut.strain, is_cut=True)
        return Fitting(cut.cells, layout, cut.loose if cut.spelt or cut.hangs else cut.tight)
    cells: list[Cell] = []
    placed: list[Placed] = []
    spelt: list[Cell] = []
    strain, hangs = 0.0, False
    for cut in cuts:
        cells += cut.cells
        placed += cut.placed
        spelt += cut.spelt
        strain += cut.strain
        hangs = hangs or cut.hangs
    layout = Layout(tuple(placed), tuple(spelt), strain=strain, is_cut=True)
    is_loose = bool(spelt) or hangs
    normalised = " | ".join([cut.loose if is_loose else cut.tight for cut in cuts])
    return Fitting(tuple(cells), layout, normalised)


_SHAPED: dict[int, tuple[Mark, ShapedMark]] = {}


def fitting(text: str, mark: Mark) -> Fitting | None:
    """A text that fits this mark as it stands; None for any that is read sign by sign."""
    known = _SHAPED.get(id(mark))
    if known is None or known[0] is not mark:
        if len(_SHAPED) >= MARKS_KEPT:
            _SHAPED.clear()
        known = _SHAPED[id(mark)] = (mark, ShapedMark(mark))
    return known[1].fitting(text)
