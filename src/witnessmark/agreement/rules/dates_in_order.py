"""A part was dated before the car it was made for, by the days the book expects.

Its share is the probability that the days between lie within the book's least and most, all
years that a code leaves open summed. Its outcome takes the open year that fits best, and says
so: a year that nobody wrote is no contradiction, but a worn character is never filled in. The
car's own date is the one claimed (made exact by a paper that lies within it), else a paper's,
else the day or week for which its plate was planned, through the book's days from there to the
car (which the finding says; where the book has the days from a part to that week itself, that
alone is compared), else the years of the series its number lies in, else its model year.
Unless the dates agree, a known exception for the number beside the date leaves the finding
undecided, and so does a code that may be no date at all. A casting of 14 February 1955 lies
112 days before a car built on 6 June 1955, where the book expects at least 10, usually 60 and
at most 180.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.agreement.build_date import Planned, build_date, planned_date
from witnessmark.agreement.items import BUILD_DATE, showings
from witnessmark.agreement.known_exceptions import exceptions_on
from witnessmark.agreement.phrases import (
    finding,
    item_clause,
    says,
    sentence,
    subject,
    why_nothing,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import outcome_of
from witnessmark.agreement.showing import DateValue, Showing, weakest
from witnessmark.catalogue import counted, in_a_row, marked, said
from witnessmark.codebook import KnownException, Lag
from witnessmark.dates import DateSpan
from witnessmark.decoding import span_meant

RULE = AgreementRule(
    __name__, marked("dates in order"), FindingKind.LAG, rank=80, beyond_is_unusual=True
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _DaysBetween:
    """Days from the earlier date to the later one, and how they fit the lag.

    `share` is the probability that they lie within the lag, all open years
    summed; `best_share` the same with the year taken that fits best wherever a
    code leaves it open. `earlier`, `later`, `fewest` and `most` are the two spans
    that fit best and the days between them; `is_open` says that there are others.
    """

    share: float
    best_share: float
    earlier: DateSpan
    later: DateSpan
    fewest: int
    most: int
    is_open: bool


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every lag of the book and every two dates it speaks of."""
    planned = planned_date(car)
    return tuple(
        _pair(car, lag, earlier, later, planned)
        for lag in car.book.lags
        if lag.applies.covers(car.known) and not _is_said_already(car, lag, planned)
        for earlier in _dated(car, lag.earlier)
        for later in _dated(car, lag.later)
    )


def _is_said_already(car: CarMarks, lag: Lag, planned: Planned | None) -> bool:
    """Does the date of the plate itself stand in another lag of the book with the earlier one?
    Then the car's date, which is made of it, says nothing more."""
    if planned is None or lag.later != BUILD_DATE.id:
        return False
    direct = (
        each
        for each in car.book.lags
        if (each.earlier, each.later) == (lag.earlier, planned.lag.earlier)
        and each.applies.covers(car.known)
    )
    return lag.earlier == planned.lag.earlier or any(direct)


def _dated(car: CarMarks, item_id: str) -> tuple[Showing, ...]:
    if item_id == BUILD_DATE.id:
        own = build_date(car)
        return () if own is None else (own,)
    return showings(car, item_id)


def _pair(
    car: CarMarks, lag: Lag, earlier: Showing, later: Showing, planned: Planned | None
) -> Finding:
    both = (subject(earlier), subject(later))
    grounds = weakest(lag.citation, *earlier.grounds(), *later.grounds())
    if not (earlier.dates and later.dates):
        dateless = [each for each in (earlier, later) if not each.dates]
        observation = sentence(in_a_row((why_nothing(each) for each in dateless), "; "))
        inference = said("So the order of these two dates could not be tested.")
        return finding(
            RULE,
            lag.id,
            Outcome.SILENT,
            subjects=both,
            observation=observation,
            inference=inference,
            citation=grounds,
        )
    between = _days_between(lag, earlier.dates, later.dates)
    outcome = _outcome(lag, between)
    known = exceptions_on(car, earlier.mark) if outcome is not Outcome.AGREE else ()
    is_open = earlier.placeholder or later.placeholder
    if known or (is_open and outcome is Outcome.DIFFER):
        outcome = Outcome.UNDECIDED
    parts = [*_observation(lag, earlier, later, between), *map(_exception, known)]
    if planned is not None and BUILD_DATE.id in (lag.earlier, lag.later):
        parts.append(_by_plan(planned))
    return finding(
        RULE,
        lag.id,
        outcome,
        subjects=both,
        observation=in_a_row(parts),
        inference=_inference(between, outcome),
        citation=weakest(grounds, *(row.citation for row in known)),
        agreement_share=between.share,
        brief=in_a_row((_brief(lag, earlier, later, between), *map(_exception, known))),
    )


def _by_plan(planned: Planned) -> str:
    """How the plate's planned date dates the car."""
    return said(
        "The car is dated by the {item} on the {mark}: by the book it was built {least} to "
        "{most} days later.",
        item=planned.shown.item.name,
        mark=planned.shown.name,
        least=planned.lag.least_days,
        most=planned.lag.most_days,
    )


def _days_between(
    lag: Lag, earlier: tuple[DateValue, ...], later: tuple[DateValue, ...]
) -> _DaysBetween:
    """Sum over what both codes may mean, and keep the pair of spans that fits best."""
    share, total = 0.0, 0.0
    weight: dict[tuple[str, str], float] = defaultdict(float)
    best: dict[tuple[str, str], float] = defaultdict(float)
    pairs = []
    for x in earlier:
        for y in later:
            both = x.share * y.share
            within = within_share(x.span, y.span, lag.least_days, lag.most_days)
            share += both * within
            total += both
            meant = (_meant(x), _meant(y))
            weight[meant] += both
            best[meant] = max(best[meant], within)
            pairs.append((within, both, -_distance(lag, x.span, y.span), x.span, y.span))
    *_, first, second = max(pairs)
    return _DaysBetween(
        share=min(1.0, share / total),
        best_share=sum(weight[codes] * best[codes] for codes in weight) / total,
        earlier=first,
        later=second,
        fewest=(second.first - first.last).days,
        most=(second.last - first.first).days,
        is_open=len(pairs) > 1,
    )


def _meant(value: DateValue) -> str:
    """What was read, as far as its open years are one thing: a worn place is not filled in."""
    is_worn = any(sign in value.code for sign in "?~[…")
    return f"{value.code} {value.span}" if is_worn else value.code


def _distance(lag: Lag, earlier: DateSpan, later: DateSpan) -> int:
    """Days by which two spans miss the usual lag, counted from their middles."""
    middles = (later.first.toordinal() + later.last.toordinal()) - (
        earlier.first.toordinal() + earlier.last.toordinal()
    )
    return abs(middles // 2 - lag.usual_days)


def within_share(earlier: DateSpan, later: DateSpan, least_days: int, most_days: int) -> float:
    """P(least <= days between <= most), every day of both spans equally likely.

    >>> from datetime import date
    >>> january = DateSpan(date(1955, 1, 1), date(1955, 1, 31))
    >>> within_share(january, DateSpan(date(1955, 2, 10), date(1955, 2, 10)), 10, 30)
    0.6774193548387096
    """
    first, last = later.first.toordinal(), later.last.toordinal()
    start, end = earlier.first.toordinal(), earlier.last.toordinal()
    fitting = sum(
        max(0, min(last, day + most_days) - max(first, day + least_days) + 1)
        for day in range(start, end + 1)
    )
    return fitting / (earlier.days() * later.days())


def _exception(row: KnownException) -> str:
    return said("Known exception: {exception}", exception=sentence(row.meaning))


def _outcome(lag: Lag, between: _DaysBetween) -> Outcome:
    """By the share, with the year taken that fits best: an open year is no contradiction, nor
    is a span so long that the expected days are somewhere in it."""
    outcome = outcome_of(between.best_share)
    is_possible = between.fewest <= lag.most_days and lag.least_days <= between.most
    return Outcome.UNDECIDED if outcome is Outcome.DIFFER and is_possible else outcome


def _observation(
    lag: Lag, earlier: Showing, later: Showing, between: _DaysBetween
) -> Iterator[str]:
    yield sentence(in_a_row((item_clause(each, says(each)) for each in (earlier, later)), "; "))
    if between.is_open:
        yield said(
            "Of these, {earlier} and {later} come nearest to what the book expects.",
            earlier=span_meant(between.earlier),
            later=span_meant(between.later),
        )
    yield _between(between.fewest, between.most)
    yield said(
        "The book expects {least} to {most}, usually {usual} days.",
        least=lag.least_days,
        most=lag.most_days,
        usual=lag.usual_days,
    )


def _brief(lag: Lag, earlier: Showing, later: Showing, between: _DaysBetween) -> str:
    """Both dates as days, and what lies between them."""
    first, second = (
        said("{mark}: {days}", mark=label, days=span_meant(span))
        for label, span in (
            (_as_label(earlier, is_first=True), between.earlier),
            (_as_label(later), between.later),
        )
    )
    return said(
        "{first}; {second}. {between} The book expects {least} to {most}.",
        first=first,
        second=second,
        between=_between(between.fewest, between.most),
        least=lag.least_days,
        most=lag.most_days,
    )


def _as_label(showing: Showing, *, is_first: bool = False) -> str:
    """The mark's name, as a sentence begins or inside of one."""
    if showing.is_claim:
        return said("Claim") if is_first else said("claim")
    return showing.name[:1].upper() + showing.name[1:] if is_first else showing.name


def _between(fewest: int, most: int) -> str:
    """The days between, in words that keep the order visible."""
    if fewest == most < 0:
        return counted(
            "The second date lies {number} days before the first.",
            "The second date lies {number} days before the first.",
            -most,
        )
    if most < 0:
        return said(
            "The second date lies {fewest} to {most} days before the first.",
            fewest=-most,
            most=-fewest,
        )
    if fewest < 0:
        return said(
            "The second date lies between {before} days before and {after} days after the first.",
            before=-fewest,
            after=most,
        )
    if fewest == most:
        return counted(
            "The second date lies {number} days after the first.",
            "The second date lies {number} days after the first.",
            fewest,
        )
    return said(
        "The second date lies {fewest} to {most} days after the first.", fewest=fewest, most=most
    )


def _inference(between: _DaysBetween, outcome: Outcome) -> str:
    match outcome:
        case Outcome.AGREE if between.is_open:
            return said(
                "Taken as {earlier} and {later}, the interval is consistent with both dates "
                "belonging to one car; the codes leave other dates open.",
                earlier=span_meant(between.earlier),
                later=span_meant(between.later),
            )
        case Outcome.AGREE:
            return said("The interval is consistent with both dates belonging to one car.")
        case Outcome.DIFFER if between.most < 0:
            return said(
                "A date later than the one it should precede is not consistent with both "
                "belonging to one car as it was built."
            )
        case Outcome.DIFFER:
            return said(
                "The interval is not consistent with both dates belonging to one car as it was "
                "built."
            )
        case _:
            return said(
                "I could not determine from these dates whether the interval between them fits."
            )
