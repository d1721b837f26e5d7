"""Dates as exact as they are known: a year, a month, a day, or a span.

A date code on a car seldom gives one day. `PartialDate` is what a person
wrote down; `DateSpan` is what it covers.

>>> PartialDate.parse("1955-03").span()
DateSpan(first=datetime.date(1955, 3, 1), last=datetime.date(1955, 3, 31))
"""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date

_PARTIAL = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?\Z", re.ASCII)


@dataclass(frozen=True, slots=True, order=True)
class DateSpan:
    """All days from `first` to `last`, both included."""

    first: date
    last: date

    def days(self) -> int:
        """Number of days covered, at least 1."""
        return (self.last - self.first).days + 1

    def covers(self, day: date) -> bool:
        """Does the span hold this day?"""
        return self.first <= day <= self.last

    def __str__(self) -> str:
        if self.first == self.last:
            return self.first.isoformat()
        return f"{self.first.isoformat()} to {self.last.isoformat()}"


@dataclass(frozen=True, slots=True)
class PartialDate:
    """A date of which the month or the day may be unknown."""

    year: int
    month: int | None = None
    day: int | None = None

    @classmethod
    def parse(cls, text: str) -> "PartialDate":
        """Read `1955`, `1955-03` or `1955-03-14`; ValueError for anything else."""
        match = _PARTIAL.match(text)
        if match is None:
            raise ValueError(f"{text!r} is not a date such as 1955, 1955-03 or 1955-03-14")
        year, month, day = (int(part) if part else None for part in match.groups())
        assert year is not None
        if year == 0:
            raise ValueError(f"{text!r} has no year 0000")
        if month is not None and not 1 <= month <= 12:
            raise ValueError(f"{text!r} has no month {month:02}")
        if month is not None and day is not None and not 1 <= day <= monthrange(year, month)[1]:
            raise ValueError(f"{text!r} has no day {day:02}")
        return cls(year, month, day)

    def span(self) -> DateSpan:
        """The days this date covers."""
        if self.month is None:
            return year_span(self.year, self.year)
        if self.day is None:
            last = monthrange(self.year, self.month)[1]
            return DateSpan(date(self.year, self.month, 1), date(self.year, self.month, last))
        day = date(self.year, self.month, self.day)
        return DateSpan(day, day)

    def __str__(self) -> str:
        parts = [f"{self.year:04}"]
        if self.month is not None:
            parts.append(f"{self.month:02}")
        if self.day is not None:
            parts.append(f"{self.day:02}")
        return "-".join(parts)


def year_span(first_year: int, last_year: int) -> DateSpan:
    """The span of whole calendar years, both included."""
    return DateSpan(date(first_year, 1, 1), date(last_year, 12, 31))
