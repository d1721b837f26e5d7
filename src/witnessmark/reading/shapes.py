"""A text is cut as the last one of the same shape was.

Where nothing is unsure and every character is one of the mark's own, any figure of a serial
number may stand for any other: how the text lies in its fields hangs on its shape alone. What
was found for a shape is taken for the next text of that shape. A text of which anything has
to be said (a sign, a small letter, a word beside the fields, too few characters, too many) is
read sign by sign in notation.py.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from witnessmark.codebook.marks import Field
from witnessmark.reading.date_words import as_forms_write
from witnessmark.reading.layout import STRAINED, date_forms_of
from witnessmark.reading.layout_line import Line, Plan
from witnessmark.reading.layout_search import cheapest
from witnessmark.reading.records import Cell, CellKind, Placed

SHAPES_KEPT = 4000
"""Shapes of a line, and texts of a field, that are kept; with one more, all are forgotten."""

PARTING = frozenset(" -/,")
"""Signs that part what stands before and behind them, unless the mark has them."""

APART_A_BLANK = 1


@lru_cache(maxsize=1 << 16)
def clear_cell(sign: str, column: int, window: int, apart: int) -> Cell:
    """A place that was read as one character."""
    return Cell(CellKind.CLEAR, sign, column, window, apart)


@dataclass(frozen=True, slots=True)
class Cut:
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


@dataclass(frozen=True, slots=True)
class _Piece:
    """Characters of one field, or of a word before one: the place of each in the text, and
    what parts it from the one before."""

    field: Field | None
    at: tuple[tuple[int, int], ...]
    window: int
    missing: int = 0

    @property
    def is_number(self) -> bool:
        """Are they free characters, which are seldom the same twice?"""
        own = self.field
        return own is not None and bool(self.at) and not (own.table or own.date_form)

    def cells(self, text: str, start: int) -> tuple[Cell, ...]:
        """The characters as cells, where the text begins at column `start`."""
        window = self.window
        return tuple([clear_cell(text[k], start + k, window, apart) for k, apart in self.at])


@dataclass(frozen=True, slots=True)
class _Lying:
    """Cells of a text, those of them that lie in fields, and those of words."""

    cells: tuple[Cell, ...]
    placed: tuple[Placed, ...]
    spelt: tuple[Cell, ...] = ()


class _Run:
    """Pieces that follow each other: a number by itself, or codes, dates and words, which
    come again and are kept."""

    def __init__(self, pieces: list[_Piece]) -> None:
        self.pieces = pieces
        at = [k for piece in pieces for k, _ in piece.at]
        self.first, self.end = (min(at), max(at) + 1) if at else (0, 0)
        self.number = pieces[0] if pieces[0].is_number else None
        self.known: dict[tuple[str, int], _Lying] = {}

    def lying(self, text: str, start: int) -> _Lying:
        """How this part of a text lies."""
        number = self.number
        if number is not None and number.field is not None:
            cells = number.cells(text, start)
            return _Lying(cells, (Placed(number.field, cells),))
        question = (text[self.first : self.end], start)
        found = self.known.get(question)
        if found is None:
            if len(self.known) >= SHAPES_KEPT:
                self.known.clear()
            found = self.known[question] = self._lying(text, start)
        return found

    def _lying(self, text: str, start: int) -> _Lying:
        each = [(piece, piece.cells(text, start)) for piece in self.pieces]
        return _Lying(
            tuple(cell for _, cells in each for cell in cells),
            tuple(Placed(p.field, cells, p.missing) for p, cells in each if p.field is not None),
            tuple(cell for piece, cells in each if piece.field is None for cell in cells),
        )


def _runs(pieces: Iterable[_Piece]) -> tuple[_Run, ...]:
    """The pieces in runs: each number by itself, all between two numbers together."""
    found: list[list[_Piece]] = []
    for piece in pieces:
        if found and not piece.is_number and not found[-1][0].is_number:
            found[-1].append(piece)
        else:
            found.append([piece])
    return tuple(_Run(each) for each in found)


@dataclass(frozen=True, slots=True)
class _Shape:
    """How the texts of one shape lie: their pieces in the order of the fields, and how they
    are written, as stretches of the text with what stands before each.

    `is_exact`: each field has one length, and the text is as long as all together.
    """

    runs: tuple[_Run, ...]
    tight: tuple[tuple[int, int, str], ...] | None = None
    loose: tuple[tuple[int, int, str], ...] | None = None
    strain: float = 0.0
    hangs: bool = False
    is_exact: bool = False

    def cut(self, text: str, start: int) -> Cut:
        """A text of this shape, which begins at column `start`."""
        cells: tuple[Cell, ...] = ()
        placed: tuple[Placed, ...] = ()
        spelt: tuple[Cell, ...] = ()
        for run in self.runs:
            each = run.lying(text, start)
            cells += each.cells
            placed += each.placed
            spelt += each.spelt
        tight, loose = _written(text, self.tight), _written(text, self.loose)
        return Cut(cells, placed, spelt, tight, loose, self.strain, self.hangs)


def _written(text: str, stretches: tuple[tuple[int, int, str], ...] | None) -> str:
    """The stretches one behind the other; None for the text as it is."""
    if stretches is None:
        return text
    return "".join([before + text[start:end] for start, end, before in stretches])


class ShapedLine:
    """A line of a mark, with the shapes that were found in it.

    `alphabet` is that of the whole mark, `window` None in a mark without windows. `stands`:
    each field of it has its place on the plate, and is missing where nothing stands there.
    """

    def __init__(
        self, line: Line, alphabet: frozenset[str], window: int | None, stands: bool
    ) -> None:
        self.line, self.alphabet, self.stands = line, alphabet, stands
        self.window, self.is_window = window or 0, window is not None
        self.date_forms = date_forms_of(line.fields)
        self.has_number = any(not (each.table or each.date_form) for each in line.fields)
        self.signs = str.maketrans(self._signs())
        self.shapes: dict[tuple[str, int], _Shape | None] = {}
        self.known: dict[tuple[str, int, int], Cut | None] = {}

    def _signs(self) -> dict[str, str]:
        """For each character the first that costs the same in every field."""
        first: dict[int, str] = {}
        return {
            sign: first.setdefault(self.line.class_of(Cell(CellKind.CLEAR, sign, 1)), sign)
            for sign in sorted(self.alphabet)
        }

    def cut(self, text: str, start: int, apart: int) -> Cut | None:
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

    def _cut(self, text: str, start: int, apart: int) -> Cut | None:
        question = (text.translate(self.signs), apart)
        if question not in self.shapes:
            if len(self.shapes) >= SHAPES_KEPT:
                self.shapes.clear()
            self.shapes[question] = self._shape(text, apart)
        shape = self.shapes[question]
        if shape is None:
            return None
        may_be_rewritten = self.date_forms and (self.is_window or not shape.is_exact)
        if may_be_rewritten and as_forms_write(text, self.date_forms).changes:
            return None
        return shape.cut(text, start)

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
            _runs(pieces),
            _stretches(at, dated),
            _stretches(at, set(at)),
            max(plan.strain, 0.0) if cells else 0.0,
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
        return _Shape(_runs(pieces), is_exact=True) if start == len(text) else None

    def _fits(self, plan: Plan, cells: tuple[Cell, ...]) -> bool:
        """Does all fit as it stands, but for fields that may be absent?"""
        return (
            plan.is_plain
            and (not cells or plan.strain < STRAINED)
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
