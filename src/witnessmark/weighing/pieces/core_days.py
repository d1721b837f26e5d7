"""The days of a core and of what is fitted to it, as curves for every way it came to be."""

from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence import days, lags
from witnessmark.weighing.evidence.days import DatedLink, DayLink, Grid
from witnessmark.weighing.evidence.noted import DateSeen, PieceSeen
from witnessmark.weighing.pieces.origins import Origin
from witnessmark.weighing.rates import base_value


@dataclass(frozen=True, slots=True, eq=False)
class CoreCurves:
    """Curves, each P(dates | the piece's car was done in this week): of a first core over the
    claimed car's weeks, of the other car's over all, of any other over both (days.late_curve).

    `whole` of all dates of a core in their chain, `rest` without those of its main surface,
    `cast` without any that is struck and can be struck again. `kept` is that of fitted pieces
    which came from the claimed car's first core, by its weeks.
    """

    whole: Array
    rest: Array
    cast: Array
    kept: Array


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class CoreDays:
    """The days of a core with what is fitted to it, at base rates: on a first core, a donor's,
    the other car's, a service piece. `struck` are the dates that are struck, alone; `main_flat` is
    P of those of the main surface if they are some other car's."""

    grid: Grid
    of_first: CoreCurves
    of_donor: tuple[CoreCurves, ...]
    of_other: tuple[CoreCurves, ...]
    of_service: tuple[CoreCurves, ...]
    struck: Array
    main_flat: float
    has_struck: bool
    has_any: bool


def core_days(
    car: CarMarks,
    grid: Grid,
    core: PieceSeen,
    fitted: tuple[PieceSeen, ...],
    stages: tuple[DateSeen, ...] = (),
) -> CoreDays:
    """The curves of a core with what is fitted to it; `stages` are the days that the structure
    bears."""
    main = core.main.dates
    others = tuple(d for surface in core.surfaces[1:] for d in surface.dates)
    on_fitted = tuple(d for piece in fitted for d in piece.dates)
    casts = tuple(d for d in others if d.is_cast)
    struck = (*main, *(d for d in others if not d.is_cast))
    chains = [chain(car, *of, stages) for of in ((main, others), ((), others), ((), casts))]
    head = chain(car, (), on_fitted, stages)
    alone = [days.curve(grid, each) for each in chains]
    as_any = [days.late_curve(grid, each) for each in chains]
    as_first = [days.curve(grid, each, is_staged=True)[grid.own] for each in chains]
    as_other = [_of_other(grid, *each) for each in zip(alone, as_any, strict=True)]
    # How late a fitted piece is says whether it came with a core, so that its days stay as read.
    with_any = days.curve(grid, head)
    with_first = days.curve(grid, head, is_staged=True)[grid.own]
    flat = float(np.prod([days.flat(each) for each in on_fitted]))
    parts = partial(
        _parts,
        strays=(float(grid.mean_of_any(with_any)) + flat) / 2.0,
        kept_days=with_any[grid.own],
        has_fitted=bool(on_fitted),
    )
    return CoreDays(
        grid=grid,
        of_first=parts(as_first, with_first, on=Origin.FIRST)[0],
        of_donor=parts(as_any, with_any, on=Origin.DONOR),
        of_other=parts(as_other, with_any, on=Origin.OTHER_CAR),
        of_service=parts(as_any, with_any, on=Origin.SERVICE),
        struck=days.curve(grid, chain(car, struck, ())),
        main_flat=float(grid.mean_of_any(days.curve(grid, chain(car, main, ())))),
        has_struck=bool(struck),
        has_any=bool(main or others or on_fitted),
    )


def _of_other(grid: Grid, alone: Array, as_any: Array) -> Array:
    """The curve of what is the other car's, which is bound to that car's week: in the mean over
    these weeks as that of a car's of which no week is known, so that a late day is no less
    likely there for being later."""
    weeks = grid.other_priors[1:3].mean(axis=0)
    found: Array = alone * (grid.prior @ (as_any[:, grid.other] @ weeks))
    return found / (alone[grid.other] @ weeks)


def _parts(
    of_core: list[Array],
    with_core: Array,
    strays: float,
    kept_days: Array,
    has_fitted: bool,
    on: Origin,
) -> tuple[CoreCurves, ...]:
    """The days of a core (whole, rest and cast) and of what is fitted to it: this came with the
    core, off some other car or new at any time (`strays`), or was kept from the first one."""
    whole, rest, cast = of_core
    even = np.ones(kept_days.size)
    if not has_fitted:
        return (CoreCurves(whole, rest, cast, even),)
    together, kept = fitted_shares(on)
    here = together * with_core + (1.0 - together - kept) * strays
    found = [CoreCurves(whole * here, rest * here, cast * here, even)]
    if kept:
        found.append(CoreCurves(whole, rest, cast, kept * kept_days))
    return tuple(found)


def fitted_shares(core: Origin) -> tuple[float, float]:
    """Fitted pieces that came with their core, and that were kept from the first one: on a
    first core, another car's or a service piece."""
    on = core if core in (Origin.FIRST, Origin.SERVICE) else Origin.DONOR
    together = 0.0 if on is Origin.SERVICE else base_value(f"fitted.with.{on}")
    return together, 0.0 if on is Origin.FIRST else base_value(f"fitted.kept.{on}")


def chain(
    car: CarMarks,
    main: tuple[DateSeen, ...],
    others: tuple[DateSeen, ...],
    stages: tuple[DateSeen, ...] = (),
) -> tuple[DatedLink, ...]:
    """The dates of one core in their order: the first stamp bears the castings below it; any
    other date lies before the car by itself."""
    book, context = car.book, car.context
    stamps = [*main, *(each for each in others if not each.is_cast)]
    casts = [each for each in others if each.is_cast]
    if not stamps:
        return tuple(_alone(car, each, stages) for each in casts)
    anchor, *further = stamps
    below = tuple(
        (each, lags.link_between(book, context, each.item, anchor.item)) for each in casts
    )
    first = replace(_alone(car, anchor, stages), below=below, is_alone=anchor not in main)
    return (first, *(_alone(car, each, stages) for each in further))


def _alone(car: CarMarks, seen: DateSeen, stages: tuple[DateSeen, ...]) -> DatedLink:
    link = lags.link_to_car(car.book, car.context, seen.item, False)
    assert link is not None
    return DatedLink(seen, link, is_alone=True, stage=_stage(car, seen, stages))


def _stage(car: CarMarks, seen: DateSeen, stages: tuple[DateSeen, ...]) -> DayLink | None:
    """The day on the structure to which the book has a lag from this date."""
    for day in stages:
        before = lags.lag_between(car.book, car.context, seen.item, day.item)
        link = lags.link_to_car(car.book, car.context, day.item, is_event=True)
        if before is not None and link is not None:
            return DayLink(day, lags.link_of(before), link)
    return None


def events(car: CarMarks, dates: tuple[DateSeen, ...]) -> tuple[DatedLink, ...]:
    """The dates of a plate or paper that are events of the car, each with its signed lag."""
    found = []
    for seen in dates:
        link = lags.link_to_car(car.book, car.context, seen.item, is_event=True)
        if link is not None:
            found.append(DatedLink(seen, link))
    return tuple(found)
