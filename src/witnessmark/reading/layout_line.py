"""A line of fields that follow each other, with all that depends on them alone, and a way
in which cells were laid out in it.

What a cell costs in each field depends on its class alone: any digit of a field of digits
costs the same.
"""

from dataclasses import dataclass

from witnessmark.codebook import Field
from witnessmark.reading.alphabet import misfit
from witnessmark.reading.labels import labels_before, labels_of
from witnessmark.reading.records import Cell

# What it costs to end a field; with what it costs to put cells into it, see layout_search.py.
MISSING, BROKEN_FIELD = 2.0, 0.5
OPTIONAL_ABSENT, SHORTER_LOST = 0.3, 0.01
LATER = 0.001  # of two equal ways, what is left over or missing comes later


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSpan:
    """The cells of one field by their places in the line; -1 for a place lost in a …"""

    field: int
    cells: tuple[int, ...]
    missing: int
    lost: int
    lost_at: int
    lost_in: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePlan:
    """Where each cell of a line goes, and what strain that is."""

    fields: tuple[FieldSpan, ...]
    spelt: tuple[tuple[int, str], ...]
    around: tuple[int, ...]
    unread: tuple[int, ...]
    strain: float
    is_plain: bool


class FieldRun:
    """Fields that follow each other, with all that depends on them alone.

    `plans` are the ways that were found, by the shape of the cells; `prices` what a cell of each
    class costs in each field.
    """

    def __init__(self, fields: tuple[Field, ...], *, has_windows: bool = False) -> None:
        self.fields, self.has_windows = fields, has_windows
        self.plans: dict[object, LinePlan] = {}
        self.classes: dict[object, int] = {}
        self.prices: list[tuple[float, ...]] = []
        self.known: dict[object, int] = {}
        self.widths = [each.widths or (0,) for each in fields]
        self.most = [max(each) for each in self.widths]
        self.before = [labels_before(each) for each in fields]
        self.labels = labels_of(fields)
        windows = [(each.row, each.column) for each in fields]
        after = [*windows[1:], windows[-1]] if windows else []
        self.ends_window = [
            has_windows and one != other for one, other in zip(windows, after, strict=True)
        ]
        # From the first field of a window on: the field after it, where the whole may be absent.
        self.after_window = [
            at + windows.count(one) if has_windows and windows.index(one) == at else 0
            for at, one in enumerate(windows)
        ]
        self.texts_before = tuple(dict.fromkeys(text for texts in self.before for text in texts))
        self.own_labels = frozenset(text.casefold() for text in self.texts_before)
        self.spelled = frozenset("".join(self.texts_before))
        # For so many places filled: where no … is open, and where one is.
        self.close_prices = [
            [
                (self._close_price(place, filled, False), self._close_price(place, filled, True))
                for filled in range(most + 1)
            ]
            for place, most in enumerate(self.most)
        ]

    def _close_price(self, place: int, filled: int, is_open: bool) -> float:
        """What it costs to end a field with so many places filled."""
        if filled in self.widths[place]:
            return SHORTER_LOST * (self.most[place] - filled) if is_open else 0.0
        if filled == 0 and self.fields[place].optional:
            return OPTIONAL_ABSENT
        late = LATER * (len(self.fields) - place)
        return BROKEN_FIELD + self.missing(place, filled) * (MISSING + late)

    def missing(self, place: int, filled: int) -> int:
        """Places up to the next width that the field can have."""
        if filled == 0 and self.fields[place].optional:
            return 0
        return min((w for w in self.widths[place] if w >= filled), default=filled) - filled

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
            self.classes[cell.kind, cell.characters] = found
        return found
