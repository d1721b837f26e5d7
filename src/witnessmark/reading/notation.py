"""The notation of a reading: signs as typed to cells with their doubt kept.

    7 K    a clear character          ?   worn away, cannot be read
    [38]   one of these               ~   ground, filled or struck over
    …      places lost, unknown how   _   visibly never struck
           many (also typed ...)      |   the next window of a plate

A space is as on the metal and says nothing. What was typed is kept; the
normalised form stands beside it, each difference with its column and reason.
docs/notation.md explains it in a page.
"""

from dataclasses import replace
from unicodedata import category, normalize

from witnessmark.casefile.words import Legibility, Orientation, Seen
from witnessmark.codebook.marks import Mark
from witnessmark.problem import Problem
from witnessmark.reading.alphabet import LOOKALIKES, plain
from witnessmark.reading.layout import fields_in_order, lay_out
from witnessmark.reading.problems import (
    LONGEST_READING,
    EmptySet,
    NotASign,
    NothingTyped,
    NotOpened,
    NoWindows,
    OpenSet,
    SetInSet,
    SignInSet,
    TooLong,
    TooManyWindows,
)
from witnessmark.reading.records import Cell, CellKind, Change, Reading
from witnessmark.source import Source

PLACE_SIGNS = {
    "?": CellKind.WORN,
    "~": CellKind.OBLITERATED,
    "_": CellKind.NEVER_STRUCK,
    "…": CellKind.GAP,
}
"""The signs that stand for a place, or for several, instead of a character."""


RESPELT_AT_MOST = 4
"""How often a reading is spelt anew at most."""


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
    scan = _Scan(text, mark, name)
    cells, respelt = _respelt(tuple(scan.cells), mark)
    for _ in range(RESPELT_AT_MOST):
        # A character spelt plainly can fit another field than before: once more, till it rests.
        again, further = _respelt(cells, mark)
        if again == cells:
            break
        cells, respelt = again, [*respelt, *further]
    changes = sorted([*scan.changes, *respelt], key=lambda change: change.column)
    return Reading(
        mark=mark.id,
        as_typed=text,
        normalised=_written(cells, scan.window if mark.windows else 0),
        cells=cells,
        legibility=legibility,
        orientation=orientation,
        seen=seen,
        by=by,
        changes=tuple(changes),
        problems=tuple(scan.problems),
    )


class _Scan:
    """One pass over the text: cells as typed, changes of spelling, problems."""

    def __init__(self, text: str, mark: Mark, name: str) -> None:
        self.text = text
        self.mark = mark
        self.name = name
        self.window = 0
        self.cells: list[Cell] = []
        self.changes: list[Change] = []
        self.problems: list[Problem] = []
        if len(text) > LONGEST_READING:
            beyond = len(text) - LONGEST_READING
            self.problems.append(TooLong(self._source(LONGEST_READING, beyond), len(text)))
            return
        at = 0
        while at < len(text):
            at = self._sign(at)
        if not self.cells and not self.problems and not self.window:
            place = self._source(0, len(text)) if text else Source(name)
            self.problems.append(NothingTyped(place))

    def _source(self, at: int, width: int = 1) -> Source:
        return Source(self.name, 1, at + 1, width, self.text)

    def _sign(self, at: int) -> int:
        """Read the sign at this place; the place after it."""
        sign = self.text[at]
        if sign == "[":
            return self._set(at)
        if self.text.startswith("...", at):
            return self._dots(at)
        if sign == "]":
            self.problems.append(NotOpened(self._source(at)))
        elif sign == "|":
            self._next_window(at)
        elif sign in PLACE_SIGNS:
            self._add(PLACE_SIGNS[sign], "", at)
        elif not _can_be_struck(sign):
            self.problems.append(NotASign(self._source(at), sign))
        elif not _is_space(sign):
            self._add(CellKind.CLEAR, sign, at)
        return at + 1

    def _add(self, kind: CellKind, characters: str, at: int) -> None:
        self.cells.append(Cell(kind, characters, at + 1, self.window))

    def _dots(self, at: int) -> int:
        end = at
        while end < len(self.text) and self.text[end] == ".":
            end += 1
        self._add(CellKind.GAP, "", at)
        typed = self.text[at:end]
        self.changes.append(Change(at + 1, typed, "…", "dots, read as places lost"))
        return end

    def _next_window(self, at: int) -> None:
        if not self.mark.windows:
            self.problems.append(NoWindows(self._source(at), self.mark.name))
            return
        self.window += 1
        if self.window == max(len(self.mark.windows_in_order()), 1):
            problem = TooManyWindows(self._source(at), self.mark.name, self.window)
            self.problems.append(problem)

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
                self.changes.append(Change(at + 1, sign, "", "named twice in one set"))
            elif not _is_space(sign):
                members.append(sign)
        if len(members) == 1:
            change = Change(start, self.text[start - 1 : end + 1], members[0], "a set of one")
            self.changes.append(change)
        return "".join(members)


def _is_space(sign: str) -> bool:
    return category(sign) == "Zs"


def _can_be_struck(sign: str) -> bool:
    """No control, half, unassigned or combining character, and no line end; a space may stand."""
    return category(sign)[0] not in "CM" and category(sign) not in ("Zl", "Zp")


def _respelt(cells: tuple[Cell, ...], mark: Mark) -> tuple[tuple[Cell, ...], list[Change]]:
    """The cells in the alphabets of their places, and what that changed."""
    layout = lay_out(cells, mark)
    fields = fields_in_order(mark)
    anywhere = "".join(dict.fromkeys("".join(field.alphabet for field in fields)))
    letters = {spelt.cell.column: spelt.letter for spelt in layout.spelt}
    home = {cell.column: placed.field for placed in layout.placed for cell in placed.cells}
    respelt: list[Cell] = []
    changes: list[Change] = []
    for cell in cells:
        field = home.get(cell.column)
        if not cell.characters:
            respelt.append(cell)
        elif cell.column in letters:
            respelt.append(_in_text_before(cell, letters[cell.column], changes))
        else:
            alphabet = field.alphabet if field else anywhere
            where = field.name if field else mark.name
            respelt.append(_in_alphabet(cell, alphabet, where, changes))
    return tuple(respelt), changes


def _in_text_before(cell: Cell, letter: str, changes: list[Change]) -> Cell:
    """A cell of the text before a field, written as the book writes it."""
    if cell.kind is not CellKind.CLEAR or cell.characters == letter:
        return cell
    reason = "part of the text that stands before the field"
    changes.append(Change(cell.column, cell.characters, letter, reason))
    return replace(cell, characters=letter)


def _in_alphabet(cell: Cell, alphabet: str, where: str, changes: list[Change]) -> Cell:
    """One cell as this alphabet writes it; each character that differs is a change."""
    written: list[str] = []
    for typed in cell.characters:
        character = _plain_shape(typed, alphabet)
        written += [each for each in character if each not in written]
        reasons = [_respelling(typed, character, where)] if typed != character else []
        if alphabet and not set(character) <= set(alphabet):
            reasons.append(f"not among the characters of {where}: kept as seen")
        if reasons:
            changes.append(Change(cell.column, typed, character, "; ".join(reasons)))
    kind = CellKind.ONE_OF if len(written) > 1 else CellKind.CLEAR
    if kind is cell.kind and "".join(written) == cell.characters:
        return cell
    return replace(cell, kind=kind, characters="".join(written))


def _plain_shape(typed: str, alphabet: str) -> str:
    """The character in this alphabet; wide, raised and small forms as their plain ones."""
    character = plain(typed, alphabet)
    if set(character) <= set(alphabet):
        return character
    folded = "-" if category(typed) == "Pd" else normalize("NFKC", typed)
    if len(folded) != 1 or folded == typed:
        return character
    folded = plain(folded, alphabet)
    return folded if set(folded) <= set(alphabet) else character


def _respelling(typed: str, written: str, where: str) -> str:
    """Why a character is written otherwise than typed."""
    capital = typed.upper()
    if len(written) > 1:
        return f"{where} has no {capital}: read as {' or '.join(written)}"
    if written in LOOKALIKES.get(capital, ""):
        kind, other = ("letter", "digit") if capital.isalpha() else ("digit", "letter")
        return f"{where} has no {kind} {capital}: read as the {other} {written}"
    if capital == written:
        return "a small letter, read as a capital"
    return "another form of the same character"


def _written(cells: tuple[Cell, ...], last_window: int) -> str:
    """The cells in the notation's plain form, windows parted by |."""
    windows = [""] * (last_window + 1)
    for cell in cells:
        # Dots that stand on the metal must not run together to the sign for places lost.
        apart = " " if cell.sign() == "." and windows[cell.window].endswith(".") else ""
        windows[cell.window] += apart + cell.sign()
    return " | ".join(windows) if last_window else windows[0]
