"""Dates as evidence: how well a part's date precedes the car's.

The lag of an own part has a triangular density on log(1 + days) between the
book's least and most with its mode at the usual; a share of outliers is spread
evenly over ten years either side. A part that is not own came most often from a like
car: half of them from the years about the claimed one, half from all its years of
production.
"""

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.records import Lag
from witnessmark.dates import DateSpan, PartialDate, year_span
from witnessmark.decoding.records import Decoding
from witnessmark.weighing.nodes import CharacterSource, Node, NodeKind
from witnessmark.weighing.priors import DECEIT, TableMaker
from witnessmark.weighing.rows import Table, fixed

Array = NDArray[np.float64]

OUTLIER_DAYS = 3652
"""Ten years: how far an outlier may lie either side."""
LIKE_SHARE = fixed("like_date_share")
"""Share of parts of other cars that were made in the years about the claimed car's."""
LIKE_DAYS = 548
"""A year and a half: how far a like car's parts may lie either side of the car."""


def lag_density(days: Array, lag: Lag) -> Array:
    """Density per day of a lag, 0 outside the book's least and most."""
    shift = 1.0 - min(lag.least_days, 0)
    low, mode, high = (
        np.log(d + shift) for d in (lag.least_days - 0.5, lag.usual_days, lag.most_days + 0.5)
    )
    inside = (days >= lag.least_days) & (days <= lag.most_days)
    x = np.log(np.where(inside, days, lag.usual_days) + shift)
    rising = (x - low) / max(mode - low, 1e-9)
    falling = (high - x) / max(high - mode, 1e-9)
    peak = 2.0 / (high - low)
    density = peak * np.where(x <= mode, rising, falling) / np.exp(x)
    found: Array = np.where(inside, np.maximum(density, 0.0), 0.0)
    return found


def built_span(car: CarMarks) -> DateSpan | None:
    """The days on which the claimed car was built, as far as the claim or its year says."""
    if car.casefile.claim.built:
        return PartialDate.parse(car.casefile.claim.built).span()
    year = car.context.model_year
    return year_span(year, year) if year else None


def date_fit(
    spans: tuple[tuple[DateSpan, float], ...], built: DateSpan, lag: Lag, production: DateSpan
) -> Array:
    """Probability of the date under (fits the lag, outlier, another car's), over the last:
    shape (3,).

    `spans` are the readings of the date code with their shares; a code with
    several is summed over them.
    """
    step = max(1, built.days() // 60)
    built_days = np.arange(built.first.toordinal(), built.last.toordinal() + 1, step)
    fits, outlies, evens = 0.0, 0.0, 0.0
    for span, share in spans:
        days = np.arange(span.first.toordinal(), span.last.toordinal() + 1)
        between = (built_days[:, None] - days[None, :]).astype(np.float64)
        fits += share * float(lag_density(between, lag).mean()) * days.size
        near = (np.abs(between) <= OUTLIER_DAYS).mean()
        outlies += share * float(near) * days.size / (2 * OUTLIER_DAYS)
        like = (np.abs(between) <= LIKE_DAYS).mean() * days.size / (2 * LIKE_DAYS)
        even = days.size / production.days()
        evens += share * ((1.0 - LIKE_SHARE) * even + LIKE_SHARE * float(like))
    return np.array([fits / evens, outlies / evens, 1.0])


def date_table(maker: TableMaker, node: Node) -> Table:
    """P(fits, outlier, even | D, S), shape (3, states, 3).

    A careful hand dates a part rightly; on a paper made later anybody writes the
    date that the claim states.
    """
    table = Table((len(DECEIT), len(node.states), 3))
    for d, deceit in enumerate(DECEIT):
        for state, node_state in enumerate(node.states):
            if node_state.source is CharacterSource.OWN:
                maker.put(table, (d, state), {1: "date.outlier"}, 0)
            elif node_state.source is CharacterSource.MADE and (
                deceit == "skilled" or node.kind is NodeKind.PAPER
            ):
                maker.put(table, (d, state), {0: "date.made_right"}, 2)
            else:
                table.put_certain((d, state), 2)
    return table


def stated_day(
    spans: tuple[tuple[DateSpan, float], ...], built: DateSpan, production: DateSpan
) -> tuple[Array, float]:
    """A paper's own day of building against the claimed one: (agrees, differs) over chance.

    Also the chance that another car's day would agree.
    """
    share = min(0.99, (built.days() + 1) / production.days())
    agrees = sum(s for span, s in spans if span.first <= built.last and built.first <= span.last)
    likelihood = np.array([max(agrees, 1e-6), max(1.0 - agrees, 1e-6)])
    chance = share * likelihood[0] + (1.0 - share) * likelihood[1]
    return likelihood / chance, share


def stated_day_table(maker: TableMaker, node: Node, share: float) -> Table:
    """P(agrees, differs | S), shape (states, 2): a factory paper but for slips, one made
    later as the claim states it, another car's by chance."""
    table = Table((len(node.states), 2))
    for state, node_state in enumerate(node.states):
        if node_state.source is CharacterSource.OWN:
            maker.put(table, (state,), {1: "codes.slip"}, 0)
        elif node_state.source is CharacterSource.MADE:
            maker.put(table, (state,), {0: "codes.made"}, 1)
        else:
            table.base[state] = (share, 1.0 - share)
    return table


def spans_of(car: CarMarks, mark_id: str, field_id: str) -> tuple[tuple[DateSpan, float], ...]:
    """The dates that a code may mean, with their shares; empty for none or a placeholder.

    The readings of several examiners are taken as independent. Where they have no
    day in common one of them is wrong, and each may be right.
    """
    readings = [found for each in car.of(mark_id) if (found := _dates_in(each, field_id))]
    if not readings:
        return ()
    pooled = readings[0]
    for reading in readings[1:]:
        pooled = [both for one in pooled for other in reading if (both := _common(one, other))]
    found = pooled or [each for reading in readings for each in reading]
    total = sum(share for _, share in found)
    return tuple((span, share / total) for span, share in found)


def _dates_in(decoding: Decoding, field_id: str) -> list[tuple[DateSpan, float]]:
    """The dates of one reading of a date code, their shares adding up to 1."""
    found = [
        (span, alternative.share / len(meaning.spans))
        for alternative in decoding.alternatives
        for meaning in alternative.fields
        if meaning.field == field_id and not meaning.placeholder
        for span in meaning.spans
    ]
    total = sum(share for _, share in found)
    return [(span, share / total) for span, share in found]


def _common(
    one: tuple[DateSpan, float], other: tuple[DateSpan, float]
) -> tuple[DateSpan, float] | None:
    """The days that two spans share, with the product of the shares that fall on them."""
    first, last = max(one[0].first, other[0].first), min(one[0].last, other[0].last)
    if first > last:
        return None
    both = DateSpan(first, last)
    return both, one[1] * other[1] * both.days() / (one[0].days() * other[0].days())
