"""A line of fields that follow each other, with all that depends on them alone, and a way
in which cells were laid out in it.

What a cell costs in each field depends on its class alone: any digit of a field of digits
costs the same.
"""

from dataclasses import dataclass, field

from witnessmark.codebook.marks import Field
from witnessmark.reading.alphabet import misfit
from witnessmark.reading.labels import labels_before, labels_of
from witnessmark.reading.records import Cell


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


@dataclass(slots=True, kw_only=True)
class FieldRun:
    """Fields that follow each other, with all that depends on them alone."""

    fields: tuple[Field, ...]
    has_windows: bool = False
    plans: dict[object, LinePlan] = field(default_factory=dict)
    classes: dict[object, int] = field(default_factory=dict)
    prices: list[tuple[float, ...]] = field(default_factory=list)
    known: dict[object, int] = field(default_factory=dict)
    widths: list[tuple[int, ...]] = field(default_factory=list)
    most: list[int] = field(default_factory=list)
    before: list[tuple[str, ...]] = field(default_factory=list)
    labels: frozenset[str] = frozenset()
    own_labels: frozenset[str] = frozenset()
    texts_before: tuple[str, ...] = ()
    spelled: frozenset[str] = frozenset()
    ends_window: list[bool] = field(default_factory=list)
    after_window: list[int] = field(default_factory=list)
    close_prices: list[list[tuple[float, float]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        """What follows from the fields."""
        self.widths = [each.widths or (0,) for each in self.fields]
        self.most = [max(each) for each in self.widths]
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
        self.texts_before = tuple(dict.fromkeys(text for texts in self.before for text in texts))
        self.own_labels = frozenset(text.casefold() for text in self.texts_before)
        self.spelled = frozenset("".join(self.texts_before))

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
