"""The cheapest way to lay the cells of a line out in its fields.

Fields of variable width, optional ones, text that says nothing, places lost,
characters left over or missing: every way is tried, what fits costs nothing.
"""

from dataclasses import dataclass

from witnessmark.codebook.marks import Field
from witnessmark.reading.alphabet import misfit
from witnessmark.reading.records import Cell, CellKind

# What a departure costs. Only the order matters, that of alphabet.py included: a
# foreign character is kept in its place before one is left over and one missing.
LEFT_OVER, MISSING, BROKEN_FIELD = 2.0, 2.0, 0.5
OPTIONAL_ABSENT, OPTIONAL_LOST, SHORTER_LOST = 0.3, 0.4, 0.01
SPELT, UNREAD_SPELT = -0.05, 0.1
LATER = 0.001  # of two equal ways, what is left over or missing comes later


@dataclass(frozen=True, slots=True)
class Placed:
    """The cells of one field, in order.

    `missing` counts places that the field should have and that were not typed.
    `lost` counts the worn cells among `cells` that stand for a typed …, from
    `lost_at` on.
    """

    field: Field
    cells: tuple[Cell, ...]
    missing: int = 0
    lost: int = 0
    lost_at: int = 0


@dataclass(frozen=True, slots=True)
class Spelt:
    """A cell that spells a letter of the text before a field, and that letter."""

    cell: Cell
    letter: str


@dataclass(frozen=True, slots=True)
class Layout:
    """Every cell of a reading, laid out: in a field, in text that says nothing, or unread."""

    placed: tuple[Placed, ...]
    spelt: tuple[Spelt, ...] = ()
    unread: tuple[Cell, ...] = ()


def spelling(field: Field) -> str:
    """The text before a field, without its spaces."""
    return "".join(field.before.split())


@dataclass(frozen=True, slots=True)
class _Step:
    """The cheapest way found to a state, and the last move of it.

    A state is (next cell, field, places filled in it, is a … still open).
    """

    cost: float
    came_from: tuple[int, int, int, bool] | None
    move: str


_State = tuple[int, int, int, bool]


class Search:
    """All ways to lay cells out in a line of fields, cheapest first kept.

    Moves only ever go to a later cell, field or place, so one sweep in that
    order visits every state after all that lead to it.
    """

    def __init__(self, cells: tuple[Cell, ...], fields: tuple[Field, ...]) -> None:
        self.fields = fields
        self.widths = [field.widths or (0,) for field in fields]
        # Far more cells than places cannot belong to the line: they are left over.
        longest = 2 * sum(max(w) + len(f.before) for w, f in zip(self.widths, fields, strict=True))
        self.cells = cells[: longest + 16]
        self.beyond = cells[longest + 16 :]
        self.steps: dict[_State, _Step] = {(0, 0, 0, False): _Step(0.0, None, "")}

    def layout(self) -> Layout:
        """The cheapest layout."""
        for cell in range(len(self.cells) + 1):
            for field in range(len(self.fields)):
                for filled in range(max(self.widths[field]) + 1):
                    for is_open in (False, True):
                        if (cell, field, filled, is_open) in self.steps:
                            self._move_on((cell, field, filled, is_open))
        return self._traced()

    def _reach(self, state: _State, cost: float, came_from: _State, move: str) -> None:
        known = self.steps.get(state)
        if known is None or cost < known.cost - 1e-9:
            self.steps[state] = _Step(cost, came_from, move)

    def _move_on(self, state: _State) -> None:
        """All moves from one state."""
        at, field, filled, is_open = state
        cost = self.steps[state].cost
        if at < len(self.cells):
            self._take_cell(state, cost)
        if filled == 0:
            self._spell(state, cost)
        if is_open and filled < max(self.widths[field]):
            lost = OPTIONAL_LOST if self.fields[field].optional else 0.0
            self._reach((at, field, filled + 1, True), cost + lost, state, "lost")
        price = self._close_price(field, filled, is_open)
        self._reach((at, field + 1, 0, is_open), cost + price, state, "close")

    def _take_cell(self, state: _State, cost: float) -> None:
        at, field, filled, _ = state
        cell = self.cells[at]
        if cell.kind is CellKind.GAP:
            self._reach((at + 1, field, filled, True), cost, state, "open")
            return
        if filled < max(self.widths[field]):
            price = misfit(cell, self.fields[field].alphabet)
            self._reach((at + 1, field, filled + 1, False), cost + price, state, "take")
        # What goes before a tail is left over before it, otherwise behind the field.
        is_tail = self.fields[field].part.startswith("last")
        late = LATER * (at if is_tail else len(self.cells) - at)
        self._reach((at + 1, field, filled, False), cost + LEFT_OVER + late, state, "leave")

    def _spell(self, state: _State, cost: float) -> None:
        """Match the text that stands before a field, where the cells spell it."""
        at, field, _, _ = state
        text = spelling(self.fields[field])
        cells = self.cells[at : at + len(text)]
        if not text or len(cells) < len(text):
            return
        price = SPELT
        for cell, letter in zip(cells, text, strict=True):
            if cell.kind is CellKind.GAP or cell.kind is CellKind.NEVER_STRUCK:
                return
            if not cell.characters:
                price += UNREAD_SPELT
            elif letter.casefold() not in cell.characters.casefold():
                return
        self._reach((at + len(text), field, 0, False), cost + price, state, "spell")

    def _close_price(self, field: int, filled: int, is_open: bool) -> float:
        """What it costs to end a field with so many places filled."""
        widths = self.widths[field]
        if filled in widths:
            return SHORTER_LOST * (max(widths) - filled) if is_open else 0.0
        if filled == 0 and self.fields[field].optional:
            return OPTIONAL_ABSENT
        missing = self._missing(field, filled)
        late = LATER * (len(self.fields) - field)
        return BROKEN_FIELD + missing * (MISSING + late)

    def _missing(self, field: int, filled: int) -> int:
        """Places up to the next width that the field can have."""
        if filled == 0 and self.fields[field].optional:
            return 0
        return min((w for w in self.widths[field] if w >= filled), default=filled) - filled

    def _end(self) -> _State:
        """The cheaper of the two ends: all cells and fields done, a … open or not."""
        ends = [(len(self.cells), len(self.fields), 0, is_open) for is_open in (False, True)]
        return min((end for end in ends if end in self.steps), key=lambda e: self.steps[e].cost)

    def _traced(self) -> Layout:
        """The way to the end, walked back and written down."""
        moves: list[tuple[_State, str]] = []
        state: _State | None = self._end()
        while state is not None:
            step = self.steps[state]
            if step.came_from is not None:
                moves.append((step.came_from, step.move))
            state = step.came_from
        placed: list[Placed] = []
        spelt: list[Spelt] = []
        unread: list[Cell] = []
        taken: list[Cell] = []
        lost = lost_at = 0
        for (at, field, filled, _), move in reversed(moves):
            if move == "take":
                taken.append(self.cells[at])
            elif move == "lost":
                lost_at = lost_at if lost else filled
                lost += 1
                taken.append(self._worn(at))
            elif move == "leave":
                unread.append(self.cells[at])
            elif move == "spell":
                text = spelling(self.fields[field])
                cells = self.cells[at : at + len(text)]
                spelt += [Spelt(c, letter) for c, letter in zip(cells, text, strict=True)]
            elif move == "close":
                missing = self._missing(field, filled)
                placed.append(Placed(self.fields[field], tuple(taken), missing, lost, lost_at))
                taken, lost, lost_at = [], 0, 0
        return Layout(tuple(placed), tuple(spelt), (*unread, *self.beyond))

    def _worn(self, at: int) -> Cell:
        """A worn cell in the place of the … just passed."""
        gap = self.cells[at - 1]
        return Cell(CellKind.WORN, "", gap.column, gap.window)
