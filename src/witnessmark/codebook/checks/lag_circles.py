"""Lags that contradict each other: days that must pass on the way round to the same date."""

from collections import deque
from collections.abc import Iterator

from witnessmark.codebook.checks.problems_rows import LagCircle
from witnessmark.codebook.date_records import Lag
from witnessmark.codebook.draft import Draft
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem

MOST_STEPS = 5000
"""Ways that are tried in a book, the shortest first; the shipped ones have fewer than 50."""


def lag_circles(draft: Draft) -> Iterator[Problem]:
    """Each circle is told once, at the last of its lags in the book.

    By each lag its later date is at least `least_days` after its earlier one; round a circle that
    adds up to more than 0 days no date can be after itself. All its lags hold for one car.
    """
    lags = [
        lag
        for lag in draft.lags
        if lag.entry.is_written("least_days") and lag.record.earlier != lag.record.later
    ]
    leading: dict[str, list[Placed[Lag]]] = {}
    steps = iter(range(MOST_STEPS))
    for lag in lags:
        # Only ways over lags that stand before it, so that no circle is met twice.
        way = _way_back(draft, lag, leading, steps)
        if way:
            days = sum(each.record.least_days for each in (lag, *way))
            others = tuple(each.record.id for each in way)
            yield LagCircle(lag.entry.source("least_days"), days, others)
        leading.setdefault(lag.record.earlier, []).append(lag)


def _way_back(
    draft: Draft, lag: Placed[Lag], leading: dict[str, list[Placed[Lag]]], steps: Iterator[int]
) -> tuple[Placed[Lag], ...]:
    """Lags from its later date back to its earlier one that take too many days; else none."""
    ways: deque[tuple[Placed[Lag], ...]] = deque([(lag,)])
    while ways and next(steps, None) is not None:
        way = ways.popleft()
        passed = {each.record.earlier for each in way}
        for following in leading.get(way[-1].record.later, ()):
            longer = (*way, following)
            if not draft.cars.builds(*(each.record.applies for each in longer)):
                continue
            if following.record.later == lag.record.earlier:
                if sum(each.record.least_days for each in longer) > 0:
                    return longer[1:]
            elif following.record.later not in passed:
                ways.append(longer)
    return ()
