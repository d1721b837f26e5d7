"""A time axis of days that leaves out long stretches without any date.

All stretches that are drawn have one scale, so that a longer time is always a
longer line; where the axis is cut, a gap of fixed width stands for the years left out.
"""

from dataclasses import dataclass
from datetime import date

from witnessmark.catalogue import said
from witnessmark.dates import DateSpan
from witnessmark.figures.drawing import INK, LINE, SOFT, line, num, path, width_of, words

CUT_DAYS = 400
"""A longer stretch without any date is left out."""

MOST_STRETCHES = 9
CUT_WIDTH = 24.0
LEAST_PAD = 12
TICK_SIZE = 9.5
MONTH_DAYS = 30.4
MONTH_STEPS = (1, 3, 6)
YEAR_STEPS = (1, 2, 5, 10, 20, 50)

FIRST_ORDINAL, LAST_ORDINAL = date.min.toordinal() + 1, date.max.toordinal() - 1


@dataclass(frozen=True, slots=True)
class Stretch:
    """Days that are drawn: from `first` to `last` (ordinals), beginning at `left` points."""

    first: int
    last: int
    left: float

    @property
    def days(self) -> int:
        """How many days it holds."""
        return self.last - self.first + 1


class TimeAxis:
    """A horizontal axis of days from `left` to `right`, in points, that holds these spans."""

    def __init__(self, left: float, right: float, spans: tuple[DateSpan, ...]) -> None:
        self.left, self.right = left, right
        held = _stretches(spans)
        cuts = CUT_WIDTH * (len(held) - 1)
        self.per_day = (right - left - cuts) / sum(last - first + 1 for first, last in held)
        x, placed = left, []
        for first, last in held:
            placed.append(Stretch(first, last, x))
            x += (last - first + 1) * self.per_day + CUT_WIDTH
        self.stretches = tuple(placed)

    def x(self, day: date) -> float:
        """Where a day begins."""
        return self._at(day.toordinal())

    def ends(self, span: DateSpan) -> tuple[float, float]:
        """Where the first day of a span begins and where its last day ends."""
        return self._at(span.first.toordinal()), self._at(span.last.toordinal() + 1)

    def _at(self, ordinal: int) -> float:
        for stretch in self.stretches:
            if ordinal <= stretch.last + 1:
                return stretch.left + max(0, ordinal - stretch.first) * self.per_day
        return self.right

    def base(self, y: float) -> list[str]:
        """The base line of a row, interrupted where the axis is cut."""
        return [
            line(s.left, y, s.left + s.days * self.per_day, y, stroke=LINE, width=0.6)
            for s in self.stretches
        ]

    def drawn(self, top: float) -> list[str]:
        """The axis with months above and years below it, 30 points high."""
        y = top + 15
        parts = []
        for at, s in enumerate(self.stretches):
            end = s.left + s.days * self.per_day
            parts.append(line(s.left, y, end, y, stroke=INK, width=1.0))
            if at:
                parts.append(_cut(s.left - CUT_WIDTH / 2, y))
        for day in self.month_starts():
            parts.append(line(self.x(day), y - 3, self.x(day), y, stroke=SOFT, width=0.8))
        for day in self.year_starts():
            parts.append(line(self.x(day), y - 4, self.x(day), y + 4, stroke=INK, width=1.0))
        for x, text in self.month_words():
            parts.append(words(x, top + 9, text, size=TICK_SIZE, fill=SOFT))
        for x, text in self.year_words():
            parts.append(words(x, top + 28, text, size=TICK_SIZE))
        return parts

    def month_starts(self) -> list[date]:
        """The first days of the months that are ticked; empty where months would not fit."""
        fits = (step for step in MONTH_STEPS if step * MONTH_DAYS * self.per_day >= 21)
        step = next(fits, 0)
        if not step:
            return []
        return [
            day
            for day in self._firsts()
            if (day.month - 1) % step == 0 and self._is_held(day.toordinal())
        ]

    def year_starts(self) -> list[date]:
        """The first days of the years that are ticked."""
        step = next(s for s in YEAR_STEPS if s * 365 * self.per_day >= 24 or s == YEAR_STEPS[-1])
        return [
            day
            for day in self._firsts()
            if day.month == 1 and day.year % step == 0 and self._is_held(day.toordinal())
        ]

    def month_words(self) -> list[tuple[float, str]]:
        """The left ends of the names of the months that are ticked, none touching another."""
        named = [(self.x(day), month_short(day.month)) for day in self.month_starts()]
        return self._without_touch([self._centred(x, text) for x, text in named], [])

    def year_words(self) -> list[tuple[float, str]]:
        """The years at their first days, and where a stretch begins if there is room."""
        ticked = [self._centred(self.x(day), str(day.year)) for day in self.year_starts()]
        placed = self._without_touch(ticked, [])
        years = [(s.left, str(date.fromordinal(s.first).year)) for s in self.stretches]
        begun = [(min(x, self.right - width_of(text, TICK_SIZE)), text) for x, text in years]
        begun = [each for each in begun if not any(text == each[1] for _, text in placed)]
        return self._without_touch(begun, placed)

    def _centred(self, x: float, text: str) -> tuple[float, str]:
        width = width_of(text, TICK_SIZE)
        return max(self.left, min(self.right - width, x - width / 2)), text

    def _without_touch(
        self, wanted: list[tuple[float, str]], placed: list[tuple[float, str]]
    ) -> list[tuple[float, str]]:
        kept = list(placed)
        for x, text in wanted:
            right = x + width_of(text, TICK_SIZE)
            clear = all(right + 3 <= o or o + width_of(t, TICK_SIZE) + 3 <= x for o, t in kept)
            if clear and right <= self.right + 0.01:
                kept.append((x, text))
        return kept

    def _firsts(self) -> list[date]:
        """The first day of every month of the stretches."""
        found: dict[date, None] = {}
        for s in self.stretches:
            day = date.fromordinal(s.first).replace(day=1)
            while day.toordinal() <= s.last:
                found[day] = None
                day = date(day.year + day.month // 12, day.month % 12 + 1, 1)
        return list(found)

    def _is_held(self, ordinal: int) -> bool:
        return any(s.first <= ordinal <= s.last for s in self.stretches)


def _stretches(spans: tuple[DateSpan, ...]) -> list[tuple[int, int]]:
    """The spans joined where less than `CUT_DAYS` lie between, as first and last ordinals."""
    ordered = sorted((s.first.toordinal(), s.last.toordinal()) for s in spans)
    joined: list[tuple[int, int]] = []
    for first, last in ordered:
        if joined and first - joined[-1][1] <= CUT_DAYS:
            joined[-1] = (joined[-1][0], max(last, joined[-1][1]))
        else:
            joined.append((first, last))
    while len(joined) > MOST_STRETCHES:
        gaps = [joined[k + 1][0] - joined[k][1] for k in range(len(joined) - 1)]
        at = gaps.index(min(gaps))
        joined[at : at + 2] = [(joined[at][0], joined[at + 1][1])]
    pad = max(LEAST_PAD, sum(last - first + 1 for first, last in joined) // 40)
    return [
        (max(FIRST_ORDINAL, first - pad), min(LAST_ORDINAL, last + pad)) for first, last in joined
    ]


def _cut(x: float, y: float) -> str:
    """Two short strokes where the axis is cut."""
    strokes = "".join(
        f"M{num(x + dx - 2)} {num(y + 5)}L{num(x + dx + 2)} {num(y - 5)}" for dx in (-3, 3)
    )
    return path(strokes, stroke=INK, width=1.2)


def month_short(month: int) -> str:
    """A month in few letters, for a tick.

    >>> month_short(9)
    'Sep'
    """
    return (
        said("Jan"),
        said("Feb"),
        said("Mar"),
        said("Apr"),
        said("May"),
        said("Jun"),
        said("Jul"),
        said("Aug"),
        said("Sep"),
        said("Oct"),
        said("Nov"),
        said("Dec"),
    )[month - 1]
