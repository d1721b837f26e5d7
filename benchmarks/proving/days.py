"""The days of the invented world and how its factory wrote them.

A day is a number of days after 1 January 1950. Every form of date is an array of
characters over all days, so that the probability of a reading can be had for all of
them at once.
"""

from datetime import date, timedelta
from functools import cache

import numpy as np
from numpy.typing import NDArray

FIRST = date(1950, 1, 1)
N_DAYS = (date(1967, 1, 1) - FIRST).days
CASTING_MONTHS = "ABCDEFGHJKLM"
BODY_MONTHS = "ABCDEFGHIJKL"
WEEKS = "ABCDE"


def day_of(year: int, month: int = 1, day: int = 1) -> int:
    """The number of a day."""
    return (date(year, month, day) - FIRST).days


def as_date(day: int) -> date:
    """The calendar day of a number."""
    return FIRST + timedelta(days=int(day))


def casting_code(day: date) -> str:
    """Day, month letter, last figure of the year."""
    return f"{day.day:02}{CASTING_MONTHS[day.month - 1]}{day.year % 10}"


def gearbox_code(day: date) -> str:
    """Week counted in sevens from 1 January, last figure of the year."""
    return f"{(day - date(day.year, 1, 1)).days // 7 + 1:02}{day.year % 10}"


def axle_code(day: date) -> str:
    """Days after 1 January 1952; 0000 before."""
    return f"{max(0, (day - date(1952, 1, 1)).days):04}"


def early_axle_code(day: date) -> str:
    """Days after 1 January 1949."""
    return f"{(day - date(1949, 1, 1)).days:04}"


def pad_code(day: date) -> str:
    """Day, month, last figure of the year."""
    return f"{day.day:02}{day.month:02}{day.year % 10}"


def body_code(day: date) -> str:
    """Month letter, week letter, last figure of the year."""
    return f"{BODY_MONTHS[day.month - 1]}{WEEKS[(day.day - 1) // 7]}{day.year % 10}"


def written_code(day: date) -> str:
    """Day, month and two figures of the year, as an office writes them."""
    return f"{day.day:02}{day.month:02}{day.year % 100:02}"


FORMS = {
    "casting": casting_code,
    "gearbox": gearbox_code,
    "axle": axle_code,
    "axle since 1949": early_axle_code,
    "pad": pad_code,
    "plan": gearbox_code,
    "body": body_code,
    "written": written_code,
}


@cache
def codes(form: str) -> NDArray[np.str_]:
    """The code of every day in one form, one character a column, shape (days, places)."""
    texts = [FORMS[form](as_date(day)) for day in range(N_DAYS)]
    return np.array([list(text) for text in texts])


@cache
def month_starts() -> NDArray[np.intp]:
    """The first day of every month, and the day after the last."""
    starts = [day_of(year, month) for year in range(1950, 1967) for month in range(1, 13)]
    return np.array([*starts, N_DAYS], dtype=np.intp)
