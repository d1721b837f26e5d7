"""The cheapest way to lay the cells of a line out in its fields.

Fields of variable width, optional ones, words that say nothing, places lost,
characters left over or missing: every way counts, what fits costs nothing. A
cut that falls where the typing was parted comes before one that does not. The
cheapest beginnings are followed first, so that a line that fits is soon through.

What a cell costs depends on its class alone, so a way that was found holds for all
cells of the same shape and is kept.
"""

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import groupby
from math import inf

from witnessmark.reading.layout_line import LATER, OPTIONAL_ABSENT, FieldRun, FieldSpan, LinePlan
from witnessmark.reading.records import Cell, CellKind

# What a departure costs. Only the order matters, that of alphabet.py included: one
# place missing comes before a foreign character, and that is kept in its place before one
# is left over and one missing.
LEFT_OVER = 2.0  # as MISSING is
WITHIN_FIELD = 0.6  # left over between two characters of a field
OPTIONAL_LOST = 0.4
SPELT, UNREAD_SPELT = -0.05, 0.1
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

type _Move = tuple[_State, str, int]
"""A move from a state to the cell after it."""

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
        price = self.line.close_prices[place][filled][is_open]
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

    def _traced(self) -> LinePlan:
        """The way to the end, walked back and written down: to the cheaper of the two ends, a …
        open or not."""
        ends = [(len(self.cells), len(self.fields), 0, is_open) for is_open in (False, True)]
        end = min((e for e in ends if e in self.steps), key=lambda each: self.steps[each][0])
        moves: list[_Move] = []
        step = self.steps[end]
        after = end
        while (before := step[1]) is not None:
            moves.append((before, step[2], after[0]))
            step, after = self.steps[before], before
        moves.reverse()
        unread = (*_cells_of(moves, "leave"), *self.beyond)
        around = tuple(_cells_of(moves, "around", "sign"))
        placed = tuple(self._fields(moves))
        is_plain = not (unread or around) and not any(
            self.prices[at][each.field] for each in placed for at in each.cells if at >= 0
        )
        return LinePlan(
            fields=placed,
            spelt=tuple(_spelt(moves)),
            around=around,
            unread=unread,
            strain=self.steps[end][0] - self.steps[end][3] + LEFT_OVER * len(self.beyond),
            is_plain=is_plain,
        )

    def _fields(self, moves: list[_Move]) -> Iterator[FieldSpan]:
        """The cells of each field by the moves in it; of a window that is absent none."""
        for place, of_field in groupby(moves, key=lambda each: each[0][1]):
            own = [*of_field]
            (_, _, filled, _), last, _ = own[-1]
            lost = [before for before, move, _ in own if move == "lost"]
            cells = tuple(
                -1 if move == "lost" else before[0]
                for before, move, _ in own
                if move in ("take", "lost")
            )
            if place < len(self.fields):
                yield FieldSpan(
                    field=place,
                    cells=cells,
                    missing=0 if last == "absent" else self.line.missing(place, filled),
                    lost=len(lost),
                    lost_at=lost[0][2] if lost else 0,
                    lost_in=lost[-1][0] - 1 if lost else -1,
                )
            after = self.line.after_window[place] if last == "absent" else place
            for absent in range(place + 1, after):
                yield FieldSpan(field=absent, cells=(), missing=0, lost=0, lost_at=0, lost_in=-1)


def _cells_of(moves: list[_Move], *kinds: str) -> Iterator[int]:
    """The cells that were passed by moves of these kinds."""
    for before, move, after in moves:
        if move in kinds:
            yield from range(before[0], after)


def _spelt(moves: list[_Move]) -> Iterator[tuple[int, str]]:
    """The cells of words that stand before fields, each with its letter; of other words with
    none."""
    for (at, *_), move, after in moves:
        if move == "label":
            yield from ((each, "") for each in range(at, after))
        elif move.startswith("spell "):
            yield from enumerate(move.removeprefix("spell "), at)
