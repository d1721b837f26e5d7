"""Days: when a piece was made, as a curve over the weeks in which its car may have been done.

t is the day after which nothing first was added to a car. A piece's curve is P(all dates that
were read on it | its car was done in this week). Every curve of a case is worked out here once,
outside the draws: the rates are coefficients of fixed curves.

- Nothing is made after the thing it is part of: a casting not after the stamp on it, a piece
  not after its car. Only a misread or wrongly set date escapes.
- How long before it lie its parts, and on which side its events: lags.py.
"""

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

import numpy as np

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext
from witnessmark.dates import DateSpan, PartialDate
from witnessmark.weighing.arrays import Array, Days
from witnessmark.weighing.evidence.lags import Link, at, daily, weekly
from witnessmark.weighing.evidence.noted import DateSeen
from witnessmark.weighing.kept_alike import alike

BEFORE, AFTER = 1150, 2250
"""Days before and after the claimed car's own over which weeks reach."""
NEAR, APART = 365, 730
"""Days by which a car from which a part comes is older or younger: on the average, and at most.
Most are near, and an axle two years older is not rare."""
FAR = 0.1
"""Parts of other cars that come off one of any year: what the breaker had."""
SET_WRONG = 1e-4
"""Dates wrongly set: one in 10,000."""
LONGEST_DAYS = 730
"""Days before its car within which a piece is looked for."""
IRRELEVANT_DATE = {True: 0.0002, False: 0.002}
"""Dates on a surface of their own noted of the wrong thing: read again, or once."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Grid:
    """The weeks: `weeks` are their first days; `own` those of the claimed car, `like` of like
    cars (those of its year), `other` of any, all as places in `weeks`; `prior` is p(t),
    `any_prior` that of any car from which a part may come, over `other`."""

    weeks: Days
    own: slice
    like: slice
    other: slice
    prior: Array
    any_prior: Array
    run: tuple[int, int]
    read_off: Array | None = None
    """p of the other car's week where the claim states its day, over `other`."""

    @property
    def other_priors(self) -> Array:
        """p of the other car's week: of none, a like one, any, and of one whose day the claim
        states where it may; shape (3 or 4, weeks of `other`)."""
        like = np.zeros(self.any_prior.size)
        first = self.like.start - self.other.start
        like[first : self.like.stop - self.other.start] = 1.0
        rows = [self.any_prior, like / like.sum(), self.any_prior]
        return np.stack(rows if self.read_off is None else [*rows, self.read_off])

    def mean(self, curve: Array, where: slice) -> Array:
        """The mean of each curve over some weeks."""
        found: Array = curve[..., where].mean(axis=-1)
        return found

    def mean_of_any(self, curve: Array) -> Array:
        """The mean of each curve over the weeks of any car from which a part may come: mostly
        one of nearly the same age, now and then one of any year."""
        found: Array = curve[..., self.other] @ self.any_prior
        return (1.0 - FAR) * found + FAR * curve.mean(axis=-1)


def grid_of(book: CodeBook, context: CarContext, built: str | None) -> Grid:
    """The weeks of a car of this context, whose day of building is claimed as `built`."""
    run = run_of(book, context)
    claim = PartialDate.parse(built).span() if built else None
    first, last = run.first.toordinal(), run.last.toordinal()
    if claim is not None:
        first, last = min(first, claim.first.toordinal()), max(last, claim.last.toordinal())
    weeks = np.arange(first - BEFORE, last + AFTER + 7, 7)
    own = _places(weeks, first - 14, last + 35)
    like = _places(weeks, run.first.toordinal(), run.last.toordinal())
    other = _places(weeks, first - APART, last + APART)
    prior = _prior(weeks[own] + 3, run, claim)
    apart = np.abs(weeks[other] + 3 - (weeks[own] + 3) @ prior)
    near = np.exp(-apart / NEAR)
    ends = (run.first.toordinal(), run.last.toordinal())
    return Grid(
        weeks=weeks,
        own=own,
        like=like,
        other=other,
        prior=prior,
        any_prior=near / near.sum(),
        run=ends,
    )


def weeks_of(
    book: CodeBook, context: CarContext, built: str | None, *, read_off: bool = False
) -> Grid:
    """The same for the same car; `read_off`: where the claimed day may be that of the car which
    stands here."""
    if read_off and built:
        plain = weeks_of(book, context, built)
        return alike(
            book, "weeks read off", (context, built), lambda: with_claim_read_off(plain, built)
        )
    return alike(book, "weeks", (context, built), lambda: grid_of(book, context, built))


def with_claim_read_off(grid: Grid, built: str) -> Grid:
    """The same grid where the claimed day may be that of the car which stands here."""
    claim = PartialDate.parse(built).span()
    near = _near(grid.weeks[grid.other] + 3, claim)
    return replace(grid, read_off=near / near.sum())


def run_of(book: CodeBook, context: CarContext) -> DateSpan:
    """The days on which such cars were built: of its model year, else of all years of the book."""
    year = context.model_year
    if year is not None:
        return book.days_built(context, year, year)
    last = min(book.last_year, book.first_year + 30)
    return DateSpan(date(book.first_year, 1, 1), date(last, 12, 31))


def _places(weeks: Days, first: int, last: int) -> slice:
    inside = np.flatnonzero((weeks >= first - 6) & (weeks <= last))
    return slice(int(inside[0]), int(inside[-1]) + 1)


def _prior(middle: Days, run: DateSpan, claim: DateSpan | None) -> Array:
    """p(t): even over the run with soft ends; most of it about a claimed day."""
    inside = _soft(middle, run.first.toordinal(), run.last.toordinal(), 7.0)
    found = inside / inside.sum()
    if claim is None:
        return found
    near = _near(middle, claim) * np.maximum(inside, 1e-3)
    return 0.03 * found + 0.97 * near / near.sum()


def _near(days: Days, claim: DateSpan) -> Array:
    return _soft(days, claim.first.toordinal() - 12, claim.last.toordinal() + 12, 6.0)


def _soft(days: Days, first: int, last: int, width: float) -> Array:
    beyond = np.maximum(np.maximum(first - days, days - last), 0)
    return np.exp(-0.5 * (beyond / width) ** 2)


@dataclass(frozen=True, slots=True)
class DayLink:
    """A day on the structure, the link to it from a piece that was made for it, and its own link
    to t."""

    seen: DateSeen
    before: Link
    link: Link


@dataclass(frozen=True, slots=True)
class DatedLink:
    """One date of a piece, its link to t, and the castings that hang on it. `stage`: a day that
    the structure bears, for which the piece was made."""

    seen: DateSeen
    link: Link
    below: tuple[tuple[DateSeen, Link], ...] = ()
    is_alone: bool = False
    stage: DayLink | None = None


@lru_cache(maxsize=1024)
def curve(grid: Grid, dated: tuple[DatedLink, ...], is_staged: bool = False) -> Array:
    """P(all these dates | the car was done in this week), for every week of the grid; `is_staged`:
    of a piece for which the structure bears a day, given that day."""
    found = np.ones(grid.weeks.size)
    for each in dated:
        if is_staged and each.stage is not None:
            found = found * _by_stage(grid, each, each.stage)
        else:
            found = found * _one(weekly(each.link), grid.weeks, each)
    return found


def _by_stage(grid: Grid, dated: DatedLink, stage: DayLink) -> Array:
    """P(a date | the week in which the car was done, and the day that its structure bears)."""
    day = stage.seen
    lag = at(weekly(stage.link), grid.weeks[:, None] - day.days[None, :])
    weight = (lag + LEAST_LAG) * day.likelihood
    return weight @ _one(daily(stage.before), day.days, dated) / weight.sum(axis=1)


LEAST_LAG = 1e-9
"""Density a day of a lag that the book holds for impossible: the day itself is then as it was
read."""


def _one(density: Array, later: Days, dated: DatedLink) -> Array:
    """P(a date | the day after it, each of `later`), by the density of the days between."""
    days, weight, floor = _with_castings(dated)
    return at(density, later[:, None] - days[None, :]) @ weight + floor


def late_curve(grid: Grid, dated: tuple[DatedLink, ...]) -> Array:
    """P(all these dates | the piece's car was done in this week) for each week in which the
    claimed car may have been done, shape (own weeks, weeks): of how much later than that a day
    lies, nothing is made.

    A day later than the claimed car is no first piece's, be it a month or sixty years. So it is
    weighed as the first such day, but for what a day in time is as likely to have been read as.
    """
    ends = grid.weeks[grid.own] + 6
    found = np.ones((ends.size, grid.weeks.size))
    for each in dated:
        table = weekly(each.link)
        days, weight, floor = _with_castings(each)
        is_late = days[None, :] > ends[:, None]
        in_time = np.where(is_late, 0.0, weight).max(axis=1, keepdims=True)
        late = is_late * np.maximum(weight - in_time, 0.0)
        there = (weight - late) @ at(table, grid.weeks[None, :] - days[:, None])
        just_late = at(table, grid.weeks[None, :] - ends[:, None])
        found = found * (there + late.sum(axis=1, keepdims=True) * just_late + floor)
    return found


def _with_castings(dated: DatedLink) -> tuple[Days, Array, float]:
    """The days of a date with what they, and the castings below it, have over the floor; and
    the floor."""
    days, weight, floor = _days(dated.seen, dated.is_alone)
    inner = np.ones(days.size)
    rest = 1.0
    for cast, link in dated.below:
        cast_days, cast_weight, cast_floor = _days(cast, True)
        gaps = days[:, None] - cast_days[None, :]
        inner = inner * (at(daily(link), gaps) @ cast_weight + cast_floor)
        rest *= flat(cast)
    return days, weight * inner, floor * rest


def _days(seen: DateSeen, is_alone: bool) -> tuple[Days, Array, float]:
    """The days that matter with what they have over the floor, and the floor: any other day,
    a date wrongly set, or (on a surface of its own) noted of another thing."""
    even = flat(seen)
    wrong = SET_WRONG + (IRRELEVANT_DATE[seen.is_again] if is_alone else 0.0)
    floor = (1.0 - wrong) * seen.floor + wrong * even
    weight = (1.0 - wrong) * (seen.likelihood - seen.floor)
    return seen.days, weight, floor


def flat(seen: DateSeen) -> float:
    """P(what was read | the date has nothing to do with the car)."""
    return float(seen.likelihood.sum()) / seen.window + seen.floor


def within(grid: Grid, seen: DateSeen) -> DateSeen:
    """The date with the days that parts of such a car, or of another, can bear, and with those
    that are likelier than all of these."""
    first = int(grid.weeks[grid.other.start]) - LONGEST_DAYS
    inside = (seen.days >= first) & (seen.days <= int(grid.weeks[-1]))
    inside |= seen.likelihood > seen.likelihood[inside].max(initial=0.0)
    return replace(
        seen,
        days=seen.days[inside],
        likelihood=seen.likelihood[inside],
        window=float(int(grid.weeks[grid.other.stop - 1]) - first),
    )
