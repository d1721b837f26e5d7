"""The cheapest way to lay the cells of a line out in its fields.

Fields of variable width, optional ones, words that say nothing, places lost,
characters left over or missing: every way is tried, what fits costs nothing. A
cut that falls where the typing was parted comes before one that does not.

What a cell costs in each field depends on its class alone (any digit of a field
of digits costs the same), so a way that was found holds for every line of the
same shape and is kept.
"""

from dataclasses import dataclass, field

from witnessmark.codebook.marks import Field
from witnessmark.reading.alphabet import misfit
from witnessmark.reading.labels import labels_before, labels_of
from witnessmark.reading.records import Cell, CellKind

# What a departure costs. Only the order matters, that of alphabet.py included: one
# place missing comes before a foreign character, and that is kept in its place before one
# is left over and one missing.
LEFT_OVER, MISSING, BROKEN_FIELD = 2.0, 2.0, 0.5
WITHIN_FIELD = 0.6  # left over between two characters of a field
OPTIONAL_ABSENT, OPTIONAL_LOST, SHORTER_LOST = 0.3, 0.4, 0.01
SPELT, UNREAD_SPELT = -0.05, 0.1
LATER = 0.001  # of two equal ways, what is left over or missing comes later
APART = (0.0, 0.3, 0.9)  # going on in a field over a blank, over the end of a line
LABEL_ELSEWHERE = 0.9  # the label of one field, away from it
LABEL = 0.05  # a word that stands on such marks beside the fields
AROUND, AROUND_LETTER = 1.5, 0.15  # another word before, behind or between the fields
SIGN_LEFT = 0.15  # a dash or stroke that parts and is not a character here
# On a plate copied without bars a window is left out lightly, and seldom ends within a word.
WINDOW_ABSENT, WITHIN_WORD = 0.25, 0.9

PLANS_KEPT = 4000
"""Shapes of one line of which the way is kept."""

_State = tuple[int, int, int, bool]
"""Next cell, field, places filled in it, is a … still open."""


@dataclass(frozen=True, slots=True)
class FieldPlan:
    """The cells of one field by their places in the line; -1 for a place lost in a …"""

    field: int
    cells: tuple[int, ...]
    missing: int
    lost: int
    lost_at: int
    lost_in: int


@dataclass(frozen=True, slots=True)
class Plan:
    """Where each cell of a line goes, and what that costs."""

    fields: tuple[FieldPlan, ...]
    spelt: tuple[tuple[int, str], ...]
    around: tuple[int, ...]
    unread: tuple[int, ...]
    cost: float
    is_plain: bool


@dataclass(slots=True)
class Line:
    """Fields that follow each other, with all that depends on them alone."""

    fields: tuple[Field, ...]
    has_windows: bool = False
    plans: dict[object, Plan] = field(default_factory=dict)
    classes: dict[object, int] = field(default_factory=dict)
    prices: list[tuple[float, ...]] = field(default_factory=list)
    letters: list[str] = field(default_factory=list)
    known: dict[object, int] = field(default_factory=dict)
    widths: list[tuple[int, ...]] = field(default_factory=list)
    before: list[tuple[str, ...]] = field(default_factory=list)
    labels: frozenset[str] = frozenset()
    own_labels: frozenset[str] = frozenset()
    spelled: frozenset[str] = frozenset()
    ends_window: list[bool] = field(default_factory=list)
    after_window: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """What follows from the fields."""
        self.widths = [each.widths or (0,) for each in self.fields]
        self.before = [labels_before(each) for each in self.fields]
        self.labels = labels_of(self.fields)
        windows = [(each.row, each.column) for each in self.fields]
        after = [*windows[1:], windows[-1]] if windows else []
        self.ends_window = [
            self.has_windows and one != other for one, other in zip(windows, after, strict=True)
        ]
        # From the first field of a window on: the field after it, where the whole may be absent.
        self.after_window = [
            at + windows.count(one) if self.has_windows and windows.index(one) == at else 0
            for at, one in enumerate(windows)
        ]
        own = (text.casefold() for texts in self.before for text in texts)
        self.own_labels = frozenset(own)
        self.spelled = frozenset("".join(text for texts in self.before for text in texts))

    def class_of(self, cell: Cell) -> int:
        """The class of a cell: two of one class cost the same everywhere in this line."""
        found = self.classes.get((cell.kind, cell.characters))
        if found is None:
            prices = tuple(misfit(cell, each.alphabet) for each in self.fields)
            seen = cell.characters.casefold()
            letter = seen if any(c.isalpha() or c in self.spelled for c in seen) else ""
            sign = not cell.characters.isalnum() if cell.characters else False
            key = (cell.kind, prices, letter, sign)
            found = self.known.get(key)
            if found is None:
                found = self.known[key] = len(self.prices)
                self.prices.append(prices)
                self.letters.append(letter)
            self.classes[cell.kind, cell.characters] = found
        return found

    def plan(self, cells: tuple[Cell, ...]) -> Plan:
        """The cheapest way for these cells."""
        shape = tuple([(self.class_of(cell), cell.apart) for cell in cells])
        found = self.plans.get(shape)
        if found is None:
            if len(self.plans) >= PLANS_KEPT:
                self.plans.clear()
            found = self.plans[shape] = Search(cells, self).plan()
        return found


@dataclass(frozen=True, slots=True)
class _Step:
    """The cheapest way found to a state, and the last move of it."""

    cost: float
    came_from: _State | None
    move: str


class Search:
    """All ways to lay cells out in a line of fields, cheapest first kept.

    Moves only ever go to a later cell, field or place, so one sweep in that
    order visits every state after all that lead to it.
    """

    def __init__(self, cells: tuple[Cell, ...], line: Line) -> None:
        self.line = line
        self.fields = line.fields
        self.widths = line.widths
        # Far more cells than places cannot belong to the line: they are left over.
        longest = 2 * sum(
            max(w) + len(f.before) for w, f in zip(self.widths, self.fields, strict=True)
        )
        self.cells = cells[: longest + 60]
        self.beyond = tuple(range(len(self.cells), len(cells)))
        self.prices = [line.prices[line.class_of(cell)] for cell in self.cells]
        self.words = self._words()
        self.steps: dict[_State, _Step] = {(0, 0, 0, False): _Step(0.0, None, "")}

    def _words(self) -> dict[int, tuple[int, str]]:
        """Where each word begins: the cell after it, and the word in small letters where it
        holds letters alone (of cells that were read), else nothing."""
        starts = [at for at, cell in enumerate(self.cells) if at == 0 or cell.apart]
        ends = [*starts[1:], len(self.cells)] if starts else []
        found = {}
        for start, end in zip(starts, ends, strict=True):
            cells = self.cells[start:end]
            word = "".join(cell.characters for cell in cells).casefold()
            is_word = word.isalpha() and all(len(cell.characters) == 1 for cell in cells)
            found[start] = (end, word if is_word else "")
        return found

    def plan(self) -> Plan:
        """The cheapest way, written down."""
        for cell in range(len(self.cells) + 1):
            for place in range(len(self.fields)):
                for filled in range(max(self.widths[place]) + 1):
                    for is_open in (False, True):
                        if (cell, place, filled, is_open) in self.steps:
                            self._move_on((cell, place, filled, is_open))
            self._behind_all(cell)
        return self._traced()

    def _reach(self, state: _State, cost: float, came_from: _State, move: str) -> None:
        known = self.steps.get(state)
        if known is None or cost < known.cost - 1e-9:
            self.steps[state] = _Step(cost, came_from, move)

    def _move_on(self, state: _State) -> None:
        """All moves from one state."""
        at, place, filled, is_open = state
        cost = self.steps[state].cost
        if at < len(self.cells):
            self._take_cell(state, cost)
            if filled == 0:
                self._pass_word(state, cost)
        if filled == 0:
            self._spell(state, cost)
            after = self.line.after_window[place]
            if after:
                self._reach((at, after, 0, is_open), cost + WINDOW_ABSENT, state, "absent")
        if is_open and filled < max(self.widths[place]):
            lost = OPTIONAL_LOST if self.fields[place].optional else 0.0
            self._reach((at, place, filled + 1, True), cost + lost, state, "lost")
        price = self._close_price(place, filled, is_open)
        if filled and self.line.ends_window[place] and at < len(self.cells):
            price += 0.0 if self.cells[at].apart or is_open else WITHIN_WORD
        self._reach((at, place + 1, 0, is_open), cost + price, state, "close")

    def _behind_all(self, at: int) -> None:
        """Words behind the last field are passed over; a … there says nothing."""
        for is_open in (False, True):
            state = (at, len(self.fields), 0, is_open)
            if at < len(self.cells) and state in self.steps:
                cost = self.steps[state].cost
                self._pass_word(state, cost)
                if self.cells[at].kind is CellKind.GAP:
                    after = (at + 1, len(self.fields), 0, is_open)
                    self._reach(after, cost + UNREAD_SPELT, state, "open")
                else:
                    # What goes before a tail is left over before it.
                    is_tail = self.fields[-1].part.startswith("last")
                    late = LATER * (len(self.cells) * (1 + is_tail) - at)
                    after = (at + 1, len(self.fields), 0, is_open)
                    self._reach(after, cost + LEFT_OVER + late, state, "leave")

    def _take_cell(self, state: _State, cost: float) -> None:
        at, place, filled, is_open = state
        cell = self.cells[at]
        if cell.kind is CellKind.GAP:
            self._reach((at + 1, place, filled, True), cost, state, "open")
            return
        if filled < max(self.widths[place]):
            price = self.prices[at][place] + (APART[cell.apart] if filled and not is_open else 0.0)
            self._reach((at + 1, place, filled + 1, False), cost + price, state, "take")
        if cell.kind is CellKind.CLEAR and not cell.characters.isalnum():
            self._reach((at + 1, place, filled, is_open), cost + SIGN_LEFT, state, "sign")
        # What goes before a tail is left over before it, otherwise behind the field.
        is_tail = self.fields[place].part.startswith("last")
        late = LATER * (at if is_tail else len(self.cells) - at)
        within = WITHIN_FIELD if 0 < filled < min(self.widths[place]) else 0.0
        price = LEFT_OVER + within + late
        self._reach((at + 1, place, filled, False), cost + price, state, "leave")

    def _pass_word(self, state: _State, cost: float) -> None:
        """Pass a whole word that stands beside the fields and says nothing here."""
        at, place, filled, is_open = state
        if at not in self.words:
            return
        end, word = self.words[at]
        if word in self.line.labels:
            self._reach((end, place, filled, is_open), cost + LABEL, state, "label")
        elif word in self.line.own_labels:
            # It stands before its own field as a rule (see _spell), and seldom behind it.
            self._reach((end, place, filled, is_open), cost + LABEL_ELSEWHERE, state, "label")
        elif not any(cell.kind is CellKind.GAP for cell in self.cells[at:end]):
            price = AROUND + AROUND_LETTER * (end - at)
            self._reach((end, place, filled, is_open), cost + price, state, "around")

    def _spell(self, state: _State, cost: float) -> None:
        """Match a word that stands before this field, where the cells spell it."""
        at, place, _, is_open = state
        for text in self.line.before[place]:
            cells = self.cells[at : at + len(text)]
            if len(cells) < len(text):
                continue
            price = SPELT
            for cell, letter in zip(cells, text, strict=True):
                if cell.kind is CellKind.GAP or cell.kind is CellKind.NEVER_STRUCK:
                    break
                if not cell.characters:
                    price += UNREAD_SPELT
                elif letter.casefold() not in cell.characters.casefold():
                    break
            else:
                after = (at + len(text), place, 0, is_open)
                self._reach(after, cost + price, state, f"spell {text}")

    def _close_price(self, place: int, filled: int, is_open: bool) -> float:
        """What it costs to end a field with so many places filled."""
        widths = self.widths[place]
        if filled in widths:
            return SHORTER_LOST * (max(widths) - filled) if is_open else 0.0
        if filled == 0 and self.fields[place].optional:
            return OPTIONAL_ABSENT
        missing = self._missing(place, filled)
        late = LATER * (len(self.fields) - place)
        return BROKEN_FIELD + missing * (MISSING + late)

    def _missing(self, place: int, filled: int) -> int:
        """Places up to the next width that the field can have."""
        if filled == 0 and self.fields[place].optional:
            return 0
        return min((w for w in self.widths[place] if w >= filled), default=filled) - filled

    def _end(self) -> _State:
        """The cheaper of the two ends: all cells and fields done, a … open or not."""
        ends = [(len(self.cells), len(self.fields), 0, is_open) for is_open in (False, True)]
        return min((end for end in ends if end in self.steps), key=lambda e: self.steps[e].cost)

    def _traced(self) -> Plan:
        """The way to the end, walked back and written down."""
        end = self._end()
        moves: list[tuple[_State, str, int]] = []
        state: _State | None = end
        after = len(self.cells)
        while state is not None:
            step = self.steps[state]
            if step.came_from is not None:
                moves.append((step.came_from, step.move, state[0]))
            state = step.came_from
        traced = _Traced(self)
        for before, move, after in reversed(moves):
            traced.follow(before, move, after)
        unread = (*traced.unread, *self.beyond)
        cost = self.steps[end].cost + LEFT_OVER * len(self.beyond)
        placed = tuple(traced.fields)
        is_plain = not (unread or traced.around) and not any(
            self.prices[at][each.field] for each in placed for at in each.cells if at >= 0
        )
        # Blanks, and fields that a mark need not have, choose between ways and are no strain.
        cost -= sum(APART[self.cells[at].apart] for p in placed for at in p.cells[1:] if at >= 0)
        optional = [p for p in placed if not p.cells and self.fields[p.field].optional]
        cost -= OPTIONAL_ABSENT * len(optional) if not self.line.has_windows else 0.0
        return Plan(placed, tuple(traced.spelt), tuple(traced.around), unread, cost, is_plain)


class _Traced:
    """The moves of one way, gathered field by field."""

    def __init__(self, search: Search) -> None:
        self.search = search
        self.fields: list[FieldPlan] = []
        self.spelt: list[tuple[int, str]] = []
        self.around: list[int] = []
        self.unread: list[int] = []
        self.taken: list[int] = []
        self.lost = self.lost_at = 0
        self.lost_in = -1

    def follow(self, before: _State, move: str, after: int) -> None:
        """One move, from a state to the cell after it."""
        at, place, filled, _ = before
        if move == "take":
            self.taken.append(at)
        elif move == "lost":
            self.lost_at = self.lost_at if self.lost else filled
            self.lost_in = at - 1
            self.lost += 1
            self.taken.append(-1)
        elif move in ("leave", "sign"):
            (self.unread if move == "leave" else self.around).append(at)
        elif move == "label":
            self.spelt += [(each, "") for each in range(at, after)]
        elif move == "around":
            self.around += range(at, after)
        elif move.startswith("spell "):
            text = move.removeprefix("spell ")
            self.spelt += [(at + k, letter) for k, letter in enumerate(text)]
        elif move == "absent":
            after_window = self.search.line.after_window[place]
            self.fields += [FieldPlan(p, (), 0, 0, 0, -1) for p in range(place, after_window)]
        elif move == "close":
            missing = self.search._missing(place, filled)
            taken = tuple(self.taken)
            plan = FieldPlan(place, taken, missing, self.lost, self.lost_at, self.lost_in)
            self.fields.append(plan)
            self.taken, self.lost, self.lost_at, self.lost_in = [], 0, 0, -1
