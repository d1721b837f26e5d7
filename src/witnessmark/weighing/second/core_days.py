"""The days of a core and of what is fitted to it, as curves for every way it came to be."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.second import days
from witnessmark.weighing.second.days import DatedLink, Grid
from witnessmark.weighing.second.evidence import DateSeen, PieceSeen
from witnessmark.weighing.second.rates import base_value

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class CoreDays:
    """Curves over all weeks of the grid, each P(dates | its car was done in this week).

    `whole`: all dates of the core in their chain, and those of what is fitted to it; `rest`
    without those of its main surface; `main` these alone, `main_flat` P of them if they have
    nothing to do with the car. `of_first` has the fitted pieces as on a first core, `of_other`
    as on a foreign one: there they came with it, were kept from the first one, or came from
    anywhere, at base rates.
    """

    grid: Grid
    of_first: tuple[Array, Array]
    of_other: tuple[Array, Array]
    main: Array
    main_flat: float
    has_main: bool
    has_any: bool


def core_days(
    car: CarMarks, grid: Grid, core: PieceSeen, fitted: tuple[PieceSeen, ...]
) -> CoreDays:
    """The curves of a core with what is fitted to it."""
    main = core.main.dates
    others = tuple(d for surface in core.surfaces[1:] for d in surface.dates)
    on_fitted = tuple(d for piece in fitted for d in piece.dates)
    whole = days.curve(grid, chain(car, main, others))
    rest = days.curve(grid, chain(car, (), others))
    first, other = _fitted(grid, days.curve(grid, chain(car, (), on_fitted)), on_fitted)
    return CoreDays(
        grid,
        (whole * first, rest * first),
        (whole * other, rest * other),
        days.curve(grid, chain(car, main, ())),
        float(np.prod([days.flat(each) for each in main])),
        bool(main),
        bool(main or others or on_fitted),
    )


def _fitted(
    grid: Grid, curve: Array, dates: tuple[DateSeen, ...]
) -> tuple[Array | float, Array | float]:
    """The days of fitted pieces on a first core and on a foreign one."""
    if not dates:
        return 1.0, 1.0
    together, kept = base_value("fitted.with"), base_value("fitted.kept")
    flat = float(np.prod([days.flat(each) for each in dates]))
    as_first = float(curve[grid.own] @ grid.prior)
    first = together * curve + (1.0 - together) * flat
    other = together * curve + (1.0 - together) * (kept * as_first + (1.0 - kept) * flat)
    return first, other


def chain(
    car: CarMarks, main: tuple[DateSeen, ...], others: tuple[DateSeen, ...]
) -> tuple[DatedLink, ...]:
    """The dates of one core in their order: the first stamp bears the castings below it; any
    other date lies before the car by itself."""
    book, context = car.book, car.context
    stamps = [*main, *(each for each in others if not each.is_cast)]
    casts = [each for each in others if each.is_cast]
    if not stamps:
        return tuple(_alone(car, each) for each in casts)
    anchor, *further = stamps
    below = tuple(
        (each, days.link_between(book, context, each.item, anchor.item)) for each in casts
    )
    link = days.link_to_car(book, context, anchor.item, False)
    assert link is not None
    first = DatedLink(anchor, link, below, anchor not in main)
    return (first, *(_alone(car, each) for each in further))


def _alone(car: CarMarks, seen: DateSeen) -> DatedLink:
    link = days.link_to_car(car.book, car.context, seen.item, False)
    assert link is not None
    return DatedLink(seen, link, is_alone=True)


def events(car: CarMarks, dates: tuple[DateSeen, ...]) -> tuple[DatedLink, ...]:
    """The dates of a plate or paper that are events of the car, each with its signed lag."""
    found = []
    for seen in dates:
        link = days.link_to_car(car.book, car.context, seen.item, is_event=True)
        if link is not None:
            found.append(DatedLink(seen, link))
    return tuple(found)
