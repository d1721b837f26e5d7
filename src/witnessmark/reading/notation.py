"""The notation of a reading: signs as typed to cells with their doubt kept.

    7 K    a clear character          ?   worn away, cannot be read
    [38]   one of these               ~   ground, filled or struck over
    …      places lost, unknown how   _   visibly never struck
           many (also typed ...)      |   the next window of a plate

Blanks, dashes, strokes, stops and line ends part what stands between them and say
nothing else, unless the mark has such a character; stars and boxes round a number
are not part of it. What was typed is kept; the normalised form stands beside it,
each difference with its column and reason. docs/notation.md explains it in a page.
"""

from dataclasses import replace
from functools import lru_cache, partial
from typing import TYPE_CHECKING
from unicodedata import category

from witnessmark.casefile.words import Legibility, Orientation, Seen
from witnessmark.catalogue import said
from witnessmark.codebook import Mark
from witnessmark.problem import Problem
from witnessmark.reading.date_words import as_forms_write, as_windows_write
from witnessmark.reading.layout import STRAINED, lay_out, lines_of
from witnessmark.reading.problems import (
    LONGEST_READING,
    EmptySet,
    NotASign,
    NothingTyped,
    NotOpened,
    OpenSet,
    SetInSet,
    SignInSet,
    TooLong,
    TooManyWindows,
    TooMuchUnread,
)
from witnessmark.reading.records import Cell, CellKind, Change, Layout, Reading
from witnessmark.reading.spelling import in_alphabet
from witnessmark.source import Source

if TYPE_CHECKING:
    from witnessmark.casefile.records import MarkReading

PLACE_SIGNS = {
    "?": CellKind.WORN,
    "~": CellKind.OBLITERATED,
    "_": CellKind.NEVER_STRUCK,
    "…": CellKind.GAP,
}
"""The signs that stand for a place, or for several, instead of a character."""

ORNAMENTS = frozenset("*★☆✱✶•●○◦□■▪▫◇◆⬜⬛☐#\"'“”‘’()<>=")
"""Signs put round a number on the metal, or by whoever copies it."""

LINE_ENDS = "|\n\r\v\f\u2028\u2029"
"""Signs behind which the next row, or window, begins."""

RESPELT_AT_MOST = 4
"""How often a reading is spelt again at most."""

APART_A_BLANK, APART_A_LINE = 1, 2


def parse_reading(
    text: str,
    mark: Mark,
    *,
    legibility: Legibility = Legibility.CLEAR,
    orientation: Orientation = Orientation.UPRIGHT,
    seen: Seen = Seen.IN_PERSON,
    by: str = "",
    name: str = "reading",
) -> Reading:
    """Read what an examiner typed for this mark; any text gives a Reading, never an exception.

    `name` stands for the text in the places of its problems. Characters outside
    every alphabet of the mark are kept as seen; only what cannot be read as
    notation is a problem.
    """
    made = partial(
        Reading, mark=mark.id, legibility=legibility, orientation=orientation, seen=seen, by=by
    )
    fixed = lines_of(mark).fixed
    cut = fixed.cut(text) if fixed is not None else None
    if cut is not None:
        own = tuple([cell for placed in cut.placed for cell in placed.cells])
        return made(as_typed=text, normalised=text, cells=own, layout=cut)
    scan = _Scan(text, mark, name)
    cells = tuple(scan.cells)
    layout = lay_out(cells, mark, scan.window)
    further: list[Change] = []
    if not layout.is_plain or any(cell.kind is CellKind.ONE_OF for cell in cells):
        cells, layout, further = _spelt_plainly(cells, layout, mark, scan.window)
    if mark.windows:
        cells = tuple(sorted(_in_their_windows(cells, layout), key=lambda cell: cell.window))
    written = _written(cells, layout, scan.window if mark.windows else 0, mark)
    if scan.columns:
        # Until here each cell has a place of its own; a date written otherwise shares some.
        cells = scan.as_typed(cells)
        layout = _at_typed_places(layout, scan)
        further = [replace(each, column=scan.columns[each.column - 1]) for each in further]
    problems = scan.problems
    if scan.window and scan.first_beyond is not None and layout.strain >= STRAINED:
        problems = [*problems, scan.first_beyond]
    return made(
        as_typed=text,
        normalised=written,
        cells=cells,
        changes=tuple(sorted((*scan.changes, *further), key=lambda change: change.column)),
        problems=tuple(problems),
        layout=layout,
    )


def parse_as(text: str, mark: Mark, how: "Reading | MarkReading") -> Reading:
    """A text that was read as this one was, or is a part of it, as a reading of this mark."""
    return parse_reading(
        text,
        mark,
        legibility=how.legibility,
        orientation=how.orientation,
        seen=how.seen,
        by=how.by,
        name=mark.id,
    )


def _at_typed_places(layout: Layout, scan: "_Scan") -> Layout:
    """The same with every cell at the place where it was typed."""
    return replace(
        layout,
        placed=tuple(replace(each, cells=scan.as_typed(each.cells)) for each in layout.placed),
        spelt=scan.as_typed(layout.spelt),
        around=scan.as_typed(layout.around),
        unread=scan.as_typed(layout.unread),
    )


@lru_cache(maxsize=1 << 16)
def _clear(sign: str, column: int, window: int, apart: int) -> Cell:
    return Cell(CellKind.CLEAR, sign, column, window, apart)


class _Scan:
    """One pass over the text: cells as typed, changes of spelling, problems."""

    def __init__(self, text: str, mark: Mark, name: str) -> None:
        self.typed = self.text = text
        self.columns: tuple[int, ...] = ()
        self.mark = mark
        self.name = name
        self.window = 0
        self.apart = 0
        self.cells: list[Cell] = []
        self.changes: list[Change] = []
        self.problems: list[Problem] = []
        self.first_beyond: Problem | None = None
        if len(text) > LONGEST_READING:
            beyond = len(text) - LONGEST_READING
            self.problems.append(TooLong(self._source(LONGEST_READING, beyond), len(text)))
            return
        lines = lines_of(mark)
        self.alphabet = lines.alphabet
        if lines.date_forms and "[" not in text:
            typed = (
                as_windows_write(text, lines.date_forms_of_windows)
                if mark.windows and "|" in text
                else as_forms_write(text, lines.date_forms)
            )
            self.text, self.columns, self.changes = typed.text, typed.columns, [*typed.changes]
        at = self._plain_signs(0)
        while at < len(self.text):
            at = self._plain_signs(self._sign(at))
        if unread := lines.unread_beyond(self.cells):
            problem = TooMuchUnread(self._source(0, len(text)), unread, lines.most_unread)
            self.problems, self.cells = [*self.problems, problem], []
        if not self.cells and not self.problems and not self.window:
            self.problems.append(NothingTyped(self._source(0, len(text)) if text else Source(name)))

    def _plain_signs(self, at: int) -> int:
        """Read characters of the mark's own alphabet and blanks; the place after them."""
        text, alphabet = self.text, self.alphabet
        cells, window, apart = self.cells, self.window, self.apart
        while at < len(text):
            sign = text[at]
            if sign in alphabet:
                cells.append(_clear(sign, at + 1, window, apart if cells else 0))
                apart = 0
            elif sign == " ":
                apart = apart or APART_A_BLANK
            else:
                break
            at += 1
        self.apart = apart
        return at

    def as_typed(self, cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
        """The cells at the places where they were typed; one that nobody typed stays so."""
        columns = self.columns
        return tuple(
            replace(cell, column=columns[cell.column - 1]) if cell.column > 0 else cell
            for cell in cells
        )

    def _column(self, at: int) -> int:
        return self.columns[at] if self.columns else at + 1

    def _source(self, at: int, width: int = 1) -> Source:
        return Source(self.name, 1, self._column(at), width, self.typed)

    def _sign(self, at: int) -> int:
        """Read the sign at this place; the place after it."""
        sign = self.text[at]
        if sign in self.alphabet:
            self._add(CellKind.CLEAR, sign, at)
        elif sign == "[":
            return self._set(at)
        elif self.text.startswith("...", at):
            return self._dots(at)
        elif sign == "]":
            self.problems.append(NotOpened(self._source(at)))
        elif sign in LINE_ENDS:
            self._next_line(sign, at)
        elif sign in PLACE_SIGNS:
            self._add(PLACE_SIGNS[sign], "", at)
        elif _parts(sign):
            self.apart = max(self.apart, APART_A_BLANK)
        elif not _can_be_struck(sign):
            self.problems.append(NotASign(self._source(at), sign))
        elif sign in ORNAMENTS and self._stands_outside(at):
            self.apart = max(self.apart, APART_A_BLANK)
        else:
            self._add(CellKind.CLEAR, sign, at)
        return at + 1

    def _next_line(self, sign: str, at: int) -> None:
        """A bar or the end of a line; in a mark without windows both part like a blank."""
        self.apart = APART_A_LINE if self.mark.windows else APART_A_BLANK
        if sign == "|" and self.mark.windows:
            self.window += 1
            if self.window == max(len(lines_of(self.mark).windows), 1):
                place = self._source(at)
                self.first_beyond = TooManyWindows(place, self.mark.name, self.window)

    def _stands_outside(self, at: int) -> bool:
        """Does an ornament stand before or behind characters, and not between two?"""
        around = (self.text[at - 1 : at], self.text[at + 1 : at + 2])
        return any(not c or c in ORNAMENTS or c in LINE_ENDS or _parts(c) for c in around)

    def _add(self, kind: CellKind, characters: str, at: int) -> None:
        apart = self.apart if self.cells else 0
        self.apart = 0
        if kind is CellKind.CLEAR:
            self.cells.append(_clear(characters, at + 1, self.window, apart))
        else:
            self.cells.append(Cell(kind, characters, at + 1, self.window, apart))

    def _dots(self, at: int) -> int:
        end = at
        while end < len(self.text) and self.text[end] == ".":
            end += 1
        self._add(CellKind.GAP, "", at)
        typed = self.text[at:end]
        self.changes.append(Change(self._column(at), typed, "…", said("dots, read as places lost")))
        return end

    def _set(self, at: int) -> int:
        """Read a set from its opening bracket on."""
        end = at + 1
        while end < len(self.text) and self.text[end] not in "]|":
            end += 1
        if end == len(self.text) or self.text[end] == "|":
            self.problems.append(OpenSet(self._source(at)))
            return at + 1
        characters = self._set_members(at + 1, end)
        typed = self.text[at : end + 1]
        if not characters:
            # One place all the same: it is kept, and says nothing.
            self.problems.append(EmptySet(self._source(at, len(typed))))
            self._add(CellKind.WORN, "", at)
        else:
            kind = CellKind.ONE_OF if len(characters) > 1 else CellKind.CLEAR
            self._add(kind, characters, at)
        return end + 1

    def _set_members(self, start: int, end: int) -> str:
        """The characters between the brackets, each once, in the order typed."""
        members: list[str] = []
        for at in range(start, end):
            sign = self.text[at]
            if sign == "[":
                self.problems.append(SetInSet(self._source(at)))
            elif sign in PLACE_SIGNS:
                self.problems.append(SignInSet(self._source(at), sign))
            elif not _can_be_struck(sign):
                self.problems.append(NotASign(self._source(at), sign))
            elif sign in members:
                self.changes.append(Change(at + 1, sign, "", said("named twice in one set")))
            elif category(sign) != "Zs":
                members.append(sign)
        if len(members) == 1:
            change = Change(start, self.text[start - 1 : end + 1], members[0], said("a set of one"))
            self.changes.append(change)
        return "".join(members)


def _parts(sign: str) -> bool:
    """Does this sign part what stands before and after it, and say nothing else?"""
    return sign in " -/.,;:\\\t–—−·" or category(sign) in ("Zs", "Pd")


def _can_be_struck(sign: str) -> bool:
    """No control, half, unassigned or combining character, and no line end; a space may stand."""
    return category(sign)[0] not in "CM" and category(sign) not in ("Zl", "Zp")


def _spelt_plainly(
    cells: tuple[Cell, ...], layout: Layout, mark: Mark, bars: int
) -> tuple[tuple[Cell, ...], Layout, list[Change]]:
    """The cells in the alphabets of their places, how they then lie, and what that changed."""
    cells, changes = _respelt(cells, layout, mark)
    for _ in range(RESPELT_AT_MOST):
        # A character spelt plainly can fit another field than before: once more, till it rests.
        layout = lay_out(cells, mark, bars)
        again, further = _respelt(cells, layout, mark)
        if again == cells:
            break
        cells, changes = again, [*changes, *further]
    return cells, layout, changes


def _respelt(
    cells: tuple[Cell, ...], layout: Layout, mark: Mark
) -> tuple[tuple[Cell, ...], list[Change]]:
    """The cells in the alphabets of their places, and what that changed."""
    anywhere = "".join(dict.fromkeys("".join(field.alphabet for field in mark.fields)))
    beside = {cell.column: cell.characters for cell in (*layout.spelt, *layout.around)}
    home = {cell.column: placed.field for placed in layout.placed for cell in placed.cells}
    respelt: list[Cell] = []
    changes: list[Change] = []
    for cell in cells:
        field = home.get(cell.column)
        if not cell.characters or (field is None and cell.column in beside):
            text = beside.get(cell.column) or cell.characters
            respelt.append(replace(cell, characters=text) if text != cell.characters else cell)
        else:
            alphabet = field.alphabet if field else anywhere
            where = field.name if field else mark.name
            respelt.append(in_alphabet(cell, alphabet, where, changes))
    return tuple(respelt), changes


def _in_their_windows(cells: tuple[Cell, ...], layout: Layout) -> tuple[Cell, ...]:
    """Every cell with the window in which it was laid out."""
    laid_out = (
        *(cell for placed in layout.placed for cell in placed.cells),
        *layout.spelt,
        *layout.around,
        *layout.unread,
    )
    windows = {cell.column: cell.window for cell in laid_out}
    return tuple(
        cell
        if cell.window == windows.get(cell.column, cell.window)
        else replace(cell, window=windows[cell.column])
        for cell in cells
    )


def _hangs_on_blanks(cells: tuple[Cell, ...], layout: Layout, mark: Mark) -> bool:
    """Would the cells lie otherwise had nothing parted them?"""
    windows = {cell.window for cell in cells}
    if sum(bool(cell.apart) for cell in cells) < len(windows):
        return False
    bars = max(len(lines_of(mark).windows) - 1, 0)
    joined = lay_out(tuple(replace(cell, apart=0) for cell in cells), mark, bars)
    return [len(p.cells) for p in joined.placed] != [len(p.cells) for p in layout.placed]


def _written(cells: tuple[Cell, ...], layout: Layout, last_window: int, mark: Mark) -> str:
    """The cells in the notation's plain form, windows parted by |.

    Blanks say nothing where all fits as it stands; elsewhere, and within a date, they stay.
    """
    in_dates = {
        cell.column for placed in layout.placed if placed.field.date_form for cell in placed.cells
    }
    is_strained = bool(
        layout.spelt or layout.around or layout.unread or _hangs_on_blanks(cells, layout, mark)
    )
    last_window = max(last_window, max((cell.window for cell in cells), default=0))
    windows = [""] * (last_window + 1)
    for cell in cells:
        text = windows[cell.window]
        is_apart = cell.apart and (is_strained or cell.column in in_dates)
        # Dots that stand on the metal must not run together to the sign for places lost.
        is_dotted = cell.sign() == "." and text.endswith(".")
        windows[cell.window] += (" " if text and (is_apart or is_dotted) else "") + cell.sign()
    return " | ".join(windows) if last_window else windows[0]
