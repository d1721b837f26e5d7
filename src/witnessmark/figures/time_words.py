"""What stands beside a date on the time line, in words."""

from witnessmark.agreement.records import Outcome
from witnessmark.agreement.showing import Showing
from witnessmark.casefile.records import PaperState, SiteState
from witnessmark.catalogue import counted, said
from witnessmark.dates import DateSpan
from witnessmark.day_words import date_text, span_words
from witnessmark.wording import listed

READINGS_NAMED = 3
"""Readings that lie in the window are named up to so many."""

READINGS_NUMBERED = 4
"""More readings than this are told as the first and the last of them."""


def reading_words(spans: tuple[DateSpan, ...], why: tuple[str, ...]) -> str:
    """The days that a code may mean, each reading numbered, and why there are several."""
    if len(spans) == 1:
        return span_words(spans[0])
    reasons = "; ".join(why)
    if len(spans) <= READINGS_NUMBERED:
        told = "; ".join(
            said("reading {number}, {dates}", number=at, dates=span_words(span))
            for at, span in enumerate(spans, 1)
        )
    else:
        told = said(
            "{number} readings from {first} to {last}",
            number=len(spans),
            first=date_text(spans[0].first),
            last=date_text(max(span.last for span in spans)),
        )
    return f"{told} ({reasons})" if reasons else told


def days_off(span: DateSpan, window: DateSpan) -> int:
    """Days by which a date misses a window: below 0 before it, above 0 after it, 0 if they meet."""
    if span.last < window.first:
        return (span.last - window.first).days
    return max(0, (span.first - window.last).days)


def nearest(spans: tuple[DateSpan, ...], window: DateSpan) -> DateSpan:
    """The reading that misses a window least."""
    return min(spans, key=lambda span: abs(days_off(span, window)))


def off_words(spans: tuple[DateSpan, ...], window: DateSpan) -> str:
    """By how much a date misses its window, in the words at its mark; nothing where it does not.

    >>> from datetime import date
    >>> day, due = (date(1959, 5, 7), date(1957, 10, 26))
    >>> off_words((DateSpan(day, day),), DateSpan(due, due))
    '558 days late'
    """
    off = days_off(nearest(spans, window), window)
    if off < 0:
        return counted("{number} day early", "{number} days early", -off)
    return counted("{number} day late", "{number} days late", off) if off else ""


def is_inside(span: DateSpan, window: DateSpan) -> bool:
    """Does the window hold every day of the date?"""
    return window.covers(span.first) and window.covers(span.last)


def placed_words(
    spans: tuple[DateSpan, ...], window: DateSpan, counted_from: str, outcome: Outcome | None
) -> str:
    """How a date stands to its window; `outcome` is what the comparison of the two found.

    `counted_from` names the date that the window is counted from, where it is not the car's.
    """
    of = _named(window, counted_from)
    meeting = [at for at, span in enumerate(spans, 1) if days_off(span, window) == 0]
    if not meeting:
        missed = _missed(spans, window, of)
        known = outcome is Outcome.UNDECIDED
        return (
            said("{missed}; a known exception may explain it", missed=missed) if known else missed
        )
    if len(spans) > 1:
        return _some(spans, meeting, of)
    if outcome in (Outcome.UNDECIDED, Outcome.DIFFER):
        return said(
            "open: in {window} for some of the days that may be meant, not for all", window=of
        )
    if is_inside(spans[0], window):
        return said("consistent with {window}", window=of)
    return said("partly in {window}", window=of)


def _named(window: DateSpan, counted_from: str) -> str:
    dates = span_words(window)
    if counted_from:
        return said("the window {dates}, counted from {end}", dates=dates, end=counted_from)
    return said("the window {dates}", dates=dates)


def _some(spans: tuple[DateSpan, ...], meeting: list[int], of: str) -> str:
    """Several readings of which some lie in the window."""
    if len(spans) <= READINGS_NUMBERED and len(meeting) == 1:
        return said("reading {number} is consistent with {window}", number=meeting[0], window=of)
    values = {"all": len(spans), "window": of}
    if len(meeting) > READINGS_NAMED:
        return counted(
            "{number} of {all} readings lies in {window}",
            "{number} of {all} readings lie in {window}",
            len(meeting),
            **values,
        )
    return counted(
        "{number} of {all} readings, {dates}, lies in {window}",
        "{number} of {all} readings, {dates}, lie in {window}",
        len(meeting),
        dates=listed(tuple(span_words(spans[at - 1]) for at in meeting)),
        **values,
    )


def _missed(spans: tuple[DateSpan, ...], window: DateSpan, of: str) -> str:
    """No reading lies in the window: by how many days the nearest misses it."""
    off = days_off(nearest(spans, window), window)
    if len(spans) > 1 and off < 0:
        return counted(
            "no reading lies in {window}; the nearest is {number} day earlier",
            "no reading lies in {window}; the nearest is {number} days earlier",
            -off,
            window=of,
        )
    if len(spans) > 1:
        return counted(
            "no reading lies in {window}; the nearest is {number} day later",
            "no reading lies in {window}; the nearest is {number} days later",
            off,
            window=of,
        )
    return _beyond(off, of)


def _beyond(off: int, of: str) -> str:
    """So many days before (below 0) or after what is named."""
    if off < 0:
        return counted(
            "{number} day earlier than {window}",
            "{number} days earlier than {window}",
            -off,
            window=of,
        )
    return counted(
        "{number} day later than {window}",
        "{number} days later than {window}",
        off,
        window=of,
    )


def beside_claim(spans: tuple[DateSpan, ...], claimed: DateSpan) -> str:
    """How a written date of the car stands to the claimed one."""
    off = days_off(nearest(spans, claimed), claimed)
    of = said("the claimed build date")
    return _beyond(off, of) if off else said("consistent with {window}", window=of)


def site_words(state: SiteState) -> str:
    """Why no date was read at a place, in a few words."""
    return {
        SiteState.READ: said("nothing of it was read"),
        SiteState.FOUND_ILLEGIBLE: said("found, but it cannot be read"),
        SiteState.ABSENT: said("looked at, and nothing was there"),
        SiteState.NOT_ACCESSIBLE: said("not read, could not be reached"),
        SiteState.NOT_LOOKED_FOR: said("not looked for"),
    }[state]


def paper_words(state: PaperState) -> str:
    """Why no date was read on a paper, in a few words."""
    return {
        PaperState.IN_HAND: said("nothing of it was read"),
        PaperState.COPY: said("nothing of the copy was read"),
        PaperState.AWAITED: said("the paper is awaited"),
        PaperState.REFUSED: said("the paper was refused"),
        PaperState.LOST: said("the paper is said to be lost"),
        PaperState.NOT_ASKED_FOR: said("the paper was not asked for"),
    }[state]


def no_date_words(found: Showing) -> str:
    """Why a field that was read gives no date."""
    if found.placeholder:
        return said("no date; {placeholder}", placeholder=found.placeholder)
    if found.is_empty:
        return said("left empty")
    if found.lacks:
        return said("fewer characters than a date has")
    if not any(sign.isalnum() for sign in found.shown):
        return said("cannot be read")
    return said("not a date code that the book lists")
