"""Lags: how many days a date lies before another, by the book, and the density of these days.

- Before a car the book's lag on log(1 + days), nearly level from its usual to its most days and
  steep beyond, with a long early tail that dies out. Where the book has none, or one from
  memory, the days lie evenly before: only the order speaks.
- A plate's planned week, a paper's day are events with a signed lag to t; no order binds them.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from witnessmark.agreement.items import BUILD_DATE
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.date_records import Lag
from witnessmark.codebook.records import CarContext
from witnessmark.weighing.arrays import Array, Days

EARLY = 833
"""Days before its car over which a piece without a known lag lies evenly."""
TO_MOST, STEEP = 1.8, 3.0
"""Widths from the usual lag to the most of a book, and the power with which the density falls
there: at the most it is a twentieth of what it is at the usual, and soon nearly nothing."""
TAIL_SHARE, TAIL_DAYS = 0.05, 200
"""Pieces that were lost sight of in stock, and the scale of how long: of these, those that lay
for d days or more are 1 / (1 + d / TAIL_DAYS)^2."""
EVENT_TAIL_DAYS = 365
LEAST_WIDTH = 0.25
SAME_DAY = (-4, 0, 4)
"""A stated day of building, about the day itself."""


@dataclass(frozen=True, slots=True)
class Link:
    """How a date lies before another, or before t: least, usual and most days. `is_event`: it
    may lie on either side. `is_even`: nothing but the order is known."""

    least: int = 0
    usual: int = 0
    most: int = 0
    is_event: bool = False
    is_even: bool = False


EVEN = Link(is_even=True)


def link_to_car(book: CodeBook, context: CarContext, item: str, is_event: bool) -> Link | None:
    """The link from a date to t; None where an event has none with weight."""
    if item == BUILD_DATE.id:
        return Link(*SAME_DAY, is_event=True)
    lag = lag_between(book, context, item, BUILD_DATE.id)
    if lag is not None:
        return link_of(lag, is_event)
    chained = _by_way_of(book, context, item)
    if chained is not None:
        return replace(chained, is_event=is_event or chained.least < 0)
    back = lag_between(book, context, BUILD_DATE.id, item) if is_event else None
    if back is not None:
        return Link(-back.most_days, -back.usual_days, -back.least_days, is_event=True)
    return None if is_event else EVEN


def link_of(lag: Lag, is_event: bool = False) -> Link:
    """The link that a lag of the book makes."""
    return Link(lag.least_days, lag.usual_days, lag.most_days, is_event or lag.least_days < 0)


def _by_way_of(book: CodeBook, context: CarContext, item: str) -> Link | None:
    """The link to t by way of another dated event of the car: the two lags one after another."""
    for lag in book.lags:
        step = lag_between(book, context, item, lag.later) if lag.earlier == item else None
        onward = lag_between(book, context, step.later, BUILD_DATE.id) if step else None
        if step is not None and onward is not None:
            return Link(
                step.least_days + onward.least_days,
                step.usual_days + onward.usual_days,
                step.most_days + onward.most_days,
            )
    return None


def link_between(book: CodeBook, context: CarContext, earlier: str, later: str) -> Link:
    """The link from a casting to the stamp on it: the book's, else the order alone."""
    lag = lag_between(book, context, earlier, later)
    if lag is None:
        return EVEN
    return Link(max(lag.least_days, 0), lag.usual_days, lag.most_days)


def lag_between(book: CodeBook, context: CarContext, earlier: str, later: str) -> Lag | None:
    """The lag of the book that carries weight and fits the car, or None."""
    return next(
        (
            lag
            for lag in book.lags
            if (lag.earlier, lag.later) == (earlier, later)
            and lag.applies.covers(context)
            and lag.citation.basis.weighs
        ),
        None,
    )


def density(link: Link, days: Array) -> Array:
    """Density a day of so many days before."""
    if link.is_even:
        return ((days >= 0) & (days <= EARLY)) / (EARLY + 1.0)
    if link.is_event:
        left = max((link.usual - link.least) / 1.5, 3.0)
        right = max((link.most - link.usual) / 1.5, 3.0)
        width = np.where(days < link.usual, left, right)
        core = np.exp(-0.5 * ((days - link.usual) / width) ** 2) / ((left + right) * 1.2533)
        near = np.abs(days - link.usual) <= EVENT_TAIL_DAYS
        return (1 - TAIL_SHARE) * core + TAIL_SHARE * near / (2 * EVENT_TAIL_DAYS + 1)
    least, usual, most = (np.log1p(max(v, 0)) for v in (link.least, link.usual, link.most))
    u = np.log1p(np.maximum(days, 0))
    left = max((usual - least) / 1.5, LEAST_WIDTH)
    right = max((most - usual) / TO_MOST, LEAST_WIDTH)
    core = _core(u, usual, left, right)
    lain = 1.0 + np.maximum(days, 0) / TAIL_DAYS
    tail = np.where(days >= 0, 2.0 / TAIL_DAYS / lain**3, 0.0)
    found: Array = np.where(days >= 0, core / (1.0 + np.maximum(days, 0)), 0.0)
    return (1 - TAIL_SHARE) * found / _mass(left, right, usual) + TAIL_SHARE * tail


def _core(u: Array, usual: float, left: float, right: float) -> Array:
    """The body of a lag over log(1 + days): a normal's side before the usual, nearly level up to
    the book's most and steep after it."""
    before = ((usual - u) / left) ** 2
    after = (np.maximum(u - usual, 0.0) / right) ** STEEP
    return np.exp(-0.5 * np.where(u < usual, before, after))


def _mass(left: float, right: float, usual: float) -> float:
    """What the core of a lag sums to over all days, so that it can be made a density."""
    days = np.arange(0, 4000)
    u = np.log1p(days)
    core = _core(u, usual, left, right)
    return float((core / (1.0 + days)).sum())


FARTHEST = 40_000
"""Days either side of which a density is looked up."""


@lru_cache(maxsize=256)
def daily(link: Link) -> Array:
    """The density of every number of days from -FARTHEST to FARTHEST."""
    return density(link, np.arange(-FARTHEST, FARTHEST + 1, dtype=float))


@lru_cache(maxsize=256)
def weekly(link: Link) -> Array:
    """The same averaged over the seven days of a week that begins so many days after."""
    sums = np.concatenate([[0.0], np.cumsum(np.concatenate([daily(link), np.zeros(7)]))])
    found: Array = np.maximum((sums[7:] - sums[:-7])[: 2 * FARTHEST + 1], 0.0) / 7.0
    return found


def at(table: Array, days: Days) -> Array:
    """What a table of daily or weekly densities has at so many days, of any shape."""
    return table[np.clip(days + FARTHEST, 0, 2 * FARTHEST)]
