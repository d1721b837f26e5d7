"""The cheapest way to lay the cells of a line out in its fields.

Fields of variable width, optional ones, words that say nothing, places lost,
characters left over or missing: every way counts, what fits costs nothing. A
cut that falls where the typing was parted comes before one that does not. The
cheapest beginnings are followed first, so that a line that fits is soon through.

What a cell costs depends on its class alone, so a way that was found holds for all
cells of the same shape and is kept.
"""

from heapq import heappop, heappush
from math import inf

from witnessmark.reading.layout_line import FieldRun, FieldSpan, LinePlan
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
OWN_LABEL = 0.8  # the label of one field, taken for the codes of another
LABEL_ELSEWHERE = 0.9  # the label of one field, away from it
LABEL = 0.05  # a word that stands on such marks beside the fields
AROUND, AROUND_LETTER = 1.5, 0.15  # another word before, behind or between the fields
SIGN_LEFT = 0.15  # a dash or stroke that parts and is not a character here
# On a plate copied without bars a window is left out lightly, and seldom ends within a word.
WINDOW_ABSENT, WITHIN_WORD = 0.25, 0.9

EQUAL = 1e-9
"""Of two ways whose costs differ by less, the first is taken."""

PLANS_KEPT = 4000
"""Shapes of one line of which the way is kept."""

type _State = tuple[int, int, int, bool]
"""Next cell, field, places filled in it, is a … still open."""

type _Step = tuple[float, _State | None, str, float]
"""What the cheapest way found to a state costs, the last move of it, and how much of the
cost is no strain: blanks, and fields that a mark need not have, choose between ways alone."""


def cheapest(line: FieldRun, cells: tuple[Cell, ...]) -> LinePlan:
    """The cheapest way to lay these cells out in a line."""
    found = cheapest_within(line, cells, inf)
    assert found is not None, "something can be done with any cells, at a price"
    return found


def cheapest_within(line: FieldRun, cells: tuple[Cell, ...], at_most: float) -> LinePlan | None:
    """The cheapest way for these cells; None where it strains more than this."""
    shape = tuple([(line.class_of(cell), cell.apart) for cell in cells])
    found = line.plans.get(shape)
    if found is None:
        found = Search(cells, line).plan(at_most)
        if found is None:
            return None
        if len(line.plans) >= PLANS_KEPT:
            line.plans.clear()
        line.plans[shape] = found
    return found if found.strain <= at_most + EQUAL else None


class Search:
    """The ways to lay cells out in a line of fields, the cheapest beginnings first.

    A state is as dear as the way to it, less what words before fields can still give back.
    Moves only ever go to a later cell, field or place; of two equal ways to a state that
    from the earlier one is taken.
    """

    def __init__(self, cells: tuple[Cell, ...], line: FieldRun) -> None:
        self.line = line
        self.fields = line.fields
        self.widths = line.widths
        # Far more cells than places cannot belong to the line: they are left over.
        longest = 2 * sum(
            most + len(f.before) for most, f in zip(line.most, self.fields, strict=True)
        )
        self.cells = cells[: longest + 60]
        self.beyond = tuple(range(len(self.cells), len(cells)))
        self.prices = [line.prices[line.class_of(cell)] for cell in self.cells]
        self.words = self._words()
        self.spelt = [self._spelt_at(at) for at in range(len(self.cells))]
        self.given_back = self._given_back()
        if not line.close_prices:
            line.close_prices = self._close_prices()
        self.close_prices = line.close_prices
        start = (0, 0, 0, False)
        self.steps: dict[_State, _Step] = {start: (0.0, None, "", 0.0)}
        self.waiting: list[tuple[float, _State]] = [(self.given_back[0], start)]

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

    def _spelt_at(self, at: int) -> dict[str, float]:
        """The words before fields that the cells spell from here on, each with its price."""
        found: dict[str, float] = {}
        for text in self.line.texts_before:
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
                found[text] = price
        return found

    def _given_back(self) -> list[float]:
        """What words before fields can give back at most from each cell on: nothing or less."""
        found = [0.0]
        for spelt in reversed(self.spelt):
            found.append(found[-1] + (SPELT if spelt else 0.0))
        return found[::-1]

    def plan(self, at_most: float = inf) -> LinePlan | None:
        """The cheapest way, written down; None where it strains more than this."""
        ends = (len(self.cells), len(self.fields))
        done: set[_State] = set()
        given_up = cheapest = inf
        while self.waiting:
            cost, state = heappop(self.waiting)
            if cost > cheapest + EQUAL:
                break
            if state in done:
                continue
            done.add(state)
            if cost - self.steps[state][3] > at_most + EQUAL:
                given_up = min(given_up, cost)
            elif state[:2] == ends:
                cheapest = min(cheapest, cost)
            elif state[1] < len(self.fields):
                self._move_on(state)
            else:
                self._behind_all(state)
        if cheapest < inf and given_up <= cheapest + EQUAL:
            # What was given up may be cheaper, though it strains more: all are followed.
            return Search(self.cells, self.line).plan()
        return self._traced() if cheapest < inf else None

    def _reach(
        self, state: _State, cost: float, came_from: _State, move: str, no_strain: float = 0.0
    ) -> None:
        known = self.steps.get(state)
        if known is not None and cost >= known[0] - EQUAL:
            is_equal = cost <= known[0] + EQUAL
            if not is_equal or known[1] is None or came_from >= known[1]:
                return
        self.steps[state] = (cost, came_from, move, self.steps[came_from][3] + no_strain)
        heappush(self.waiting, (cost + self.given_back[state[0]], state))

    def _move_on(self, state: _State) -> None:
        """All moves from one state."""
        at, place, filled, is_open = state
        cost = self.steps[state][0]
        if at < len(self.cells):
            self._take_cell(state, cost)
            if filled == 0:
                self._pass_word(state, cost)
        if filled == 0:
            self._spell(state, cost)
            after = self.line.after_window[place]
            if after:
                self._reach((at, after, 0, is_open), cost + WINDOW_ABSENT, state, "absent")
        if is_open and filled < self.line.most[place]:
            lost = OPTIONAL_LOST if self.fields[place].optional else 0.0
            self._reach((at, place, filled + 1, True), cost + lost, state, "lost")
        price = self.close_prices[place][filled][is_open]
        if filled and self.line.ends_window[place] and at < len(self.cells):
            price += 0.0 if self.cells[at].apart or is_open else WITHIN_WORD
        is_absent = filled == 0 and self.fields[place].optional and not self.line.has_windows
        no_strain = OPTIONAL_ABSENT if is_absent else 0.0
        self._reach((at, place + 1, 0, is_open), cost + price, state, "close", no_strain)

    def _behind_all(self, state: _State) -> None:
        """Words behind the last field are passed over; a … there says nothing."""
        at, place, _, is_open = state
        if at == len(self.cells):
            return
        cost = self.steps[state][0]
        self._pass_word(state, cost)
        after = (at + 1, place, 0, is_open)
        if self.cells[at].kind is CellKind.GAP:
            self._reach(after, cost + UNREAD_SPELT, state, "open")
        else:
            # What goes before a tail is left over before it.
            is_tail = self.fields[-1].part.startswith("last")
            late = LATER * (len(self.cells) * (1 + is_tail) - at)
            self._reach(after, cost + LEFT_OVER + late, state, "leave")

    def _take_cell(self, state: _State, cost: float) -> None:
        at, place, filled, is_open = state
        cell = self.cells[at]
        if cell.kind is CellKind.GAP:
            self._reach((at + 1, place, filled, True), cost, state, "open")
            return
        if filled < self.line.most[place]:
            apart = APART[cell.apart] if filled and not is_open else 0.0
            price = self.prices[at][place] + apart
            price += OWN_LABEL if filled == 0 and self._is_own_label(at) else 0.0
            self._reach((at + 1, place, filled + 1, False), cost + price, state, "take", apart)
        if cell.kind is CellKind.CLEAR and not cell.characters.isalnum():
            self._reach((at + 1, place, filled, is_open), cost + SIGN_LEFT, state, "sign")
        # What goes before a tail is left over before it, otherwise behind the field.
        is_tail = self.fields[place].part.startswith("last")
        late = LATER * (at if is_tail else len(self.cells) - at)
        within = WITHIN_FIELD if 0 < filled < min(self.widths[place]) else 0.0
        price = LEFT_OVER + within + late
        self._reach((at + 1, place, filled, False), cost + price, state, "leave")

    def _is_own_label(self, at: int) -> bool:
        """Does a word begin here that stands on such marks before a field?"""
        word = self.words.get(at, (0, ""))[1]
        return len(word) > 1 and word in self.line.own_labels

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
        if at == len(self.cells) or not self.spelt[at]:
            return
        for text in self.line.before[place]:
            price = self.spelt[at].get(text)
            if price is not None:
                after = (at + len(text), place, 0, is_open)
                self._reach(after, cost + price, state, f"spell {text}")

    def _close_prices(self) -> list[list[tuple[float, float]]]:
        """What it costs to end each field with so many places filled: no … open, or one."""
        places = range(len(self.fields))
        return [
            [
                (self._close_price(place, filled, False), self._close_price(place, filled, True))
                for filled in range(self.line.most[place] + 1)
            ]
            for place in places
        ]

    def _close_price(self, place: int, filled: int, is_open: bool) -> float:
        if filled in self.widths[place]:
            return SHORTER_LOST * (self.line.most[place] - filled) if is_open else 0.0
        if filled == 0 and self.fields[place].optional:
            return OPTIONAL_ABSENT
        missing = self.missing(place, filled)
        late = LATER * (len(self.fields) - place)
        return BROKEN_FIELD + missing * (MISSING + late)

    def missing(self, place: int, filled: int) -> int:
        """Places up to the next width that the field can have."""
        if filled == 0 and self.fields[place].optional:
            return 0
        return min((w for w in self.widths[place] if w >= filled), default=filled) - filled

    def _traced(self) -> LinePlan:
        """The way to the end, walked back and written down: to the cheaper of the two ends, a …
        open or not."""
        ends = [(len(self.cells), len(self.fields), 0, is_open) for is_open in (False, True)]
        end = min((e for e in ends if e in self.steps), key=lambda each: self.steps[each][0])
        moves: list[tuple[_State, str, int]] = []
        state: _State | None = end
        while state is not None:
            _, came_from, move, _ = self.steps[state]
            if came_from is not None:
                moves.append((came_from, move, state[0]))
            state = came_from
        traced = _Traced(self)
        for before, move, after in reversed(moves):
            traced.follow(before, move, after)
        unread = (*traced.unread, *self.beyond)
        strain = self.steps[end][0] - self.steps[end][3] + LEFT_OVER * len(self.beyond)
        placed = tuple(traced.fields)
        is_plain = not (unread or traced.around) and not any(
            self.prices[at][each.field] for each in placed for at in each.cells if at >= 0
        )
        return LinePlan(
            fields=placed,
            spelt=tuple(traced.spelt),
            around=tuple(traced.around),
            unread=unread,
            strain=strain,
            is_plain=is_plain,
        )


class _Traced:
    """The moves of one way, gathered field by field."""

    def __init__(self, search: Search) -> None:
        self.search = search
        self.fields: list[FieldSpan] = []
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
            self.fields += [
                FieldSpan(field=p, cells=(), missing=0, lost=0, lost_at=0, lost_in=-1)
                for p in range(place, after_window)
            ]
        elif move == "close":
            missing = self.search.missing(place, filled)
            taken = tuple(self.taken)
            plan = FieldSpan(
                field=place,
                cells=taken,
                missing=missing,
                lost=self.lost,
                lost_at=self.lost_at,
                lost_in=self.lost_in,
            )
            self.fields.append(plan)
            self.taken, self.lost, self.lost_at, self.lost_in = [], 0, 0, -1
