"""An unbroken time axis of days: a longer time is always a longer line."""

from collections.abc import Iterator
from datetime import date

from witnessmark.catalogue import said
from witnessmark.dates import DateSpan
from witnessmark.day_words import date_text
from witnessmark.figures.drawing import INK, LINE, SOFT, line, width_of, words

LEAST_PAD = 12
TICK_SIZE = 9.5
MONTH_DAYS = 30.4
MONTH_STEPS = (1, 3, 6)
YEAR_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)

FIRST_ORDINAL, LAST_ORDINAL = date.min.toordinal() + 1, date.max.toordinal() - 1


class TimeAxis:
    """A horizontal axis of days from `left` to `right`, in points, that holds these spans."""

    def __init__(self, left: float, right: float, spans: tuple[DateSpan, ...]) -> None:
        self.left, self.right = left, right
        first = min(span.first.toordinal() for span in spans)
        last = max(span.last.toordinal() for span in spans)
        pad = max(LEAST_PAD, (last - first + 1) // 40)
        self.first, self.last = max(FIRST_ORDINAL, first - pad), min(LAST_ORDINAL, last + pad)
        self.per_day = (right - left) / (self.last - self.first + 1)

    def x(self, day: date) -> float:
        """Where a day begins."""
        return self._at(day.toordinal())

    def ends(self, span: DateSpan) -> tuple[float, float]:
        """Where the first day of a span begins and where its last day ends."""
        return self._at(span.first.toordinal()), self._at(span.last.toordinal() + 1)

    def _at(self, ordinal: int) -> float:
        return min(self.right, self.left + max(0, ordinal - self.first) * self.per_day)

    def base(self, y: float) -> str:
        """The base line of a row."""
        return line(self.left, y, self.right, y, stroke=LINE, width=0.6)

    def drawn(self, top: float) -> list[str]:
        """The axis with months above and years below it, 30 points high."""
        y = top + 15
        parts = [line(self.left, y, self.right, y, stroke=INK, width=1.0)]
        for day in self.month_starts():
            parts.append(line(self.x(day), y - 3, self.x(day), y, stroke=SOFT, width=0.8))
        for day in self.year_starts():
            parts.append(line(self.x(day), y - 4, self.x(day), y + 4, stroke=INK, width=1.0))
        for x, text in self.month_words():
            parts.append(words(x, top + 9, text, size=TICK_SIZE, fill=SOFT))
        for x, text in self.year_words():
            parts.append(words(x, top + 28, text, size=TICK_SIZE))
        return parts

    def told(self) -> str:
        """What the axis shows, in a sentence."""
        return said(
            "Time in years and months from {first} on the left to {last} on the right; a longer "
            "line is a longer time.",
            first=date_text(date.fromordinal(self.first)),
            last=date_text(date.fromordinal(self.last)),
        )

    def month_starts(self) -> list[date]:
        """The first days of the months that are ticked; empty where months would not fit."""
        fits = (step for step in MONTH_STEPS if step * MONTH_DAYS * self.per_day >= 21)
        step = next(fits, 0)
        return [day for day in self._firsts() if (day.month - 1) % step == 0] if step else []

    def year_starts(self) -> list[date]:
        """The first days of the years that are ticked."""
        step = next(s for s in YEAR_STEPS if s * 365 * self.per_day >= 24 or s == YEAR_STEPS[-1])
        years = range(date.fromordinal(self.first).year, date.fromordinal(self.last).year + 1)
        starts = (date(year, 1, 1) for year in years if year % step == 0)
        return [day for day in starts if self.first <= day.toordinal()]

    def month_words(self) -> list[tuple[float, str]]:
        """The left ends of the names of the months that are ticked, none touching another."""
        named = [(self.x(day), month_short(day.month)) for day in self.month_starts()]
        return self._without_touch([self._centred(x, text) for x, text in named], [])

    def year_words(self) -> list[tuple[float, str]]:
        """The years at their first days, and that in which the axis begins if there is room."""
        ticked = [self._centred(self.x(day), str(day.year)) for day in self.year_starts()]
        begun = (self.left, str(date.fromordinal(self.first).year))
        return self._without_touch([begun], self._without_touch(ticked, []))

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

    def _firsts(self) -> Iterator[date]:
        """The first day of every month that the axis holds."""
        first, last = date.fromordinal(self.first), date.fromordinal(self.last)
        for month in range(first.year * 12 + first.month - 1, last.year * 12 + last.month):
            day = date(month // 12, month % 12 + 1, 1)
            if day >= first:
                yield day


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
