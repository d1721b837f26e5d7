"""The days of a core and of what is fitted to it, as curves for every way it came to be."""

from dataclasses import dataclass, replace

import numpy as np

from witnessmark.agreement.records import CarMarks
from witnessmark.weighing.arrays import Array
from witnessmark.weighing.evidence import days
from witnessmark.weighing.evidence.days import DatedLink, DayLink, Grid
from witnessmark.weighing.evidence.noted import DateSeen, PieceSeen
from witnessmark.weighing.pieces.origins import Origin
from witnessmark.weighing.rates import base_value


@dataclass(frozen=True, slots=True, eq=False)
class CoreCurves:
    """Curves over all weeks of the grid, each P(dates | the piece's car was done in this week).

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
    a service piece. `struck` are the dates that are struck, alone; `main_flat` is P of those
    of the main surface if they are some other car's."""

    grid: Grid
    of_first: CoreCurves
    of_donor: tuple[CoreCurves, ...]
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
    first, donor, service = (
        _parts(
            grid,
            _alike(grid, chains, on),
            days.curve(grid, head, on is Origin.FIRST),
            on_fitted,
            on,
        )
        for on in (Origin.FIRST, Origin.DONOR, Origin.SERVICE)
    )
    return CoreDays(
        grid=grid,
        of_first=first[0],
        of_donor=donor,
        of_service=service,
        struck=days.curve(grid, chain(car, struck, ())),
        main_flat=grid.mean_of_any(days.curve(grid, chain(car, main, ()))),
        has_struck=bool(struck),
        has_any=bool(main or others or on_fitted),
    )


def _alike(grid: Grid, chains: list[tuple[DatedLink, ...]], on: Origin) -> CoreCurves:
    """The curves of a core by itself; a first one was made for the day that its structure bears."""
    whole, rest, cast = (days.curve(grid, each, on is Origin.FIRST) for each in chains)
    return CoreCurves(whole, rest, cast, np.ones(grid.prior.size))


def _parts(
    grid: Grid, core: CoreCurves, curve: Array, dates: tuple[DateSeen, ...], on: Origin
) -> tuple[CoreCurves, ...]:
    """The days of a core and of what is fitted to it: this came with the core, off some other car
    or new at any time, or was kept from the first one."""
    if not dates:
        return (core,)
    flat = float(np.prod([days.flat(each) for each in dates]))
    together, kept = fitted_shares(on)
    here = together * curve + (1.0 - together - kept) * (grid.mean_of_any(curve) + flat) / 2.0
    found = [CoreCurves(core.whole * here, core.rest * here, core.cast * here, core.kept)]
    if kept:
        found.append(CoreCurves(core.whole, core.rest, core.cast, kept * curve[grid.own]))
    return tuple(found)


def fitted_shares(core: Origin) -> tuple[float, float]:
    """Fitted pieces that came with their core, and that were kept from the first one: on a
    first core, a donor's or a service piece."""
    together = 0.0 if core is Origin.SERVICE else base_value(f"fitted.with.{core}")
    return together, 0.0 if core is Origin.FIRST else base_value(f"fitted.kept.{core}")


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
        (each, days.link_between(book, context, each.item, anchor.item)) for each in casts
    )
    first = replace(_alone(car, anchor, stages), below=below, is_alone=anchor not in main)
    return (first, *(_alone(car, each, stages) for each in further))


def _alone(car: CarMarks, seen: DateSeen, stages: tuple[DateSeen, ...]) -> DatedLink:
    link = days.link_to_car(car.book, car.context, seen.item, False)
    assert link is not None
    return DatedLink(seen, link, is_alone=True, stage=_stage(car, seen, stages))


def _stage(car: CarMarks, seen: DateSeen, stages: tuple[DateSeen, ...]) -> DayLink | None:
    """The day on the structure to which the book has a lag from this date."""
    for day in stages:
        before = days.lag_between(car.book, car.context, seen.item, day.item)
        link = days.link_to_car(car.book, car.context, day.item, is_event=True)
        if before is not None and link is not None:
            return DayLink(day, days.link_of(before), link)
    return None


def events(car: CarMarks, dates: tuple[DateSeen, ...]) -> tuple[DatedLink, ...]:
    """The dates of a plate or paper that are events of the car, each with its signed lag."""
    found = []
    for seen in dates:
        link = days.link_to_car(car.book, car.context, seen.item, is_event=True)
        if link is not None:
            found.append(DatedLink(seen, link))
    return tuple(found)
