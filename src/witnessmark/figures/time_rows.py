"""Every date of a car as a row of the time line, with the windows that the book gives it."""

from dataclasses import dataclass
from datetime import timedelta

from witnessmark.agreement.build_date import date_of_year, stated_date
from witnessmark.agreement.items import BUILD_DATE, claimed, showings
from witnessmark.agreement.records import CarMarks, FindingKind, Outcome
from witnessmark.agreement.showing import Showing
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.date_records import Lag
from witnessmark.codebook.marks import DatePart, Field, Mark
from witnessmark.codebook.records import ItemKind
from witnessmark.dates import DateSpan
from witnessmark.day_words import span_words
from witnessmark.examination import Opinion, marks_of
from witnessmark.figures.time_words import (
    beside_claim,
    no_date_words,
    paper_words,
    placed_words,
    reading_words,
    site_words,
)
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital

LEAST_SHARE = 0.05
"""A reading with less than this share of the likeliest one's is not drawn."""


@dataclass(frozen=True, slots=True)
class TimeRow:
    """One date: its name, the characters as read (`shown`), the days it may mean, the windows
    in which the book expects it and the sentences that say so; `spans` is empty where there
    is no date, `is_car` is True for the car's own date. `dues` are the days that it misses by
    being late or early: its windows, or of a written day of the car the claimed one. `mark` bears
    it, if one does."""

    name: str
    shown: str
    spans: tuple[DateSpan, ...]
    windows: tuple[DateSpan, ...]
    sentences: tuple[str, ...]
    is_car: bool = False
    dues: tuple[DateSpan, ...] = ()
    mark: str = ""

    @property
    def is_open(self) -> bool:
        """Can it mean more than one date?"""
        return len(self.spans) > 1


@dataclass(frozen=True, slots=True)
class CarDate:
    """The days on which the car was built, or another date from which windows are counted.

    `name` is its row's, `told` what it rests on, `counted_from` its name in a sentence; `mark`
    is the mark that bears it, empty where none does.
    """

    span: DateSpan
    counted_from: str
    name: str = ""
    told: str = ""
    mark: str = ""


def time_rows(opinion: Opinion, book: CodeBook) -> tuple[TimeRow, ...]:
    """All dates, in order of time; those that are not read come last, in the order of the book."""
    car = marks_of(opinion, book)
    own = car_date(car)
    rows = [] if own is None or own.mark else [_own_row(own)]
    stated = _stated(car)
    if stated is not None and own is not None and own.mark:
        rows.append(_own_row(stated))
    for mark in book.marks_for(opinion.context):
        for field in mark.fields:
            item = book.item(field.says)
            if item is not None and item.kind is ItemKind.DATE and field.date_form:
                row = _row(opinion, car, mark, field, own)
                rows.extend([row] if row is not None else [])
    dated = [row for row in rows if row.spans]
    dated.sort(key=lambda row: (row.spans[0].first, row.spans[-1].last))
    return (*dated, *(row for row in rows if not row.spans))


def car_date(car: CarMarks) -> CarDate | None:
    """The car's own date: claimed or on a paper, else its model year's, else its number's."""
    found = stated_date(car) or date_of_year(car)
    on_mark = any(each.dates for each in showings(car, BUILD_DATE.id))
    if found is not None and found.dates and not found.is_claim and on_mark:
        told = said("the date on the {mark}", mark=found.name)
        return CarDate(_hull(found), told, mark=found.mark)
    if (stated := _stated(car)) is not None:
        return stated
    if car.context.model_year:
        return _of_model_year(car, car.context.model_year)
    if found is None or not found.dates:
        return None
    return CarDate(
        _hull(found),
        said("the years of the car’s number"),
        said("years of the car’s number"),
        said("by the book’s series of numbers"),
    )


def _stated(car: CarMarks) -> CarDate | None:
    """The claimed build date."""
    claim = claimed(car, BUILD_DATE.id)
    if claim is None or not claim.dates:
        return None
    return CarDate(
        claim.dates[0].span,
        said("the claimed build date"),
        said("claimed build date"),
        said("as claimed, not read on the car"),
    )


def _of_model_year(car: CarMarks, year: int) -> CarDate:
    """The days on which cars of the claimed model year were built, as far as the book knows."""
    return CarDate(
        car.book.days_built(car.context, year, year),
        said("the days of model year {year}", year=year),
        said("cars of model year {year}", year=year),
        said("built on these days, by the book")
        if car.book.runs
        else said("the calendar year, as the book has no model-year runs"),
    )


def _own_row(own: CarDate) -> TimeRow:
    told = said("{dates}: {what}", dates=span_words(own.span), what=own.told)
    return TimeRow(capital(own.name), "", (own.span,), (), (told,), is_car=True)


def _row(
    opinion: Opinion, car: CarMarks, mark: Mark, field: Field, own: CarDate | None
) -> TimeRow | None:
    """The row of one date field; None for a mark that the case does not mention."""
    names = Names(opinion.names)
    name, item = capital(names.mark(mark.id)), capital(names.item(field.says))
    here = (mark.id, field.id)
    found = next((s for s in showings(car, field.says) if (s.mark, s.field) == here), None)
    if found is None:
        told = _unread(opinion, mark)
        unread = TimeRow(name, "", (), (), (f"{item}: {told}",), mark=mark.id)
        return unread if told else None
    if not found.dates:
        told = f"{item}: {no_date_words(found)}"
        return TimeRow(name, found.shown, (), (), (told,), mark=mark.id)
    spans = _spans(found)
    told = reading_words(spans, _why_open(car.book, field, found))
    if sum(bool(each.date_form) for each in mark.fields) > 1:
        told = f"{item}: {told}"
    windows, placed = _windows(opinion, car, found, spans, own)
    is_car = own is not None and own.mark == mark.id and field.says == BUILD_DATE.id
    stated = _stated(car) if field.says == BUILD_DATE.id else None
    dues = windows if stated is None else (stated.span,)
    return TimeRow(name, found.shown, spans, windows, (told, *placed), is_car, dues, mark.id)


def _spans(found: Showing) -> tuple[DateSpan, ...]:
    most = max(each.share for each in found.dates)
    return tuple(sorted({d.span for d in found.dates if d.share >= LEAST_SHARE * most}))


def _why_open(book: CodeBook, field: Field, found: Showing) -> tuple[str, ...]:
    """Why a code means several dates: places that were not read, a year that is not written."""
    form = book.date_form(field.date_form)
    parts = {token.part for token in form.tokens} if form else set()
    reasons = []
    if any(sign in found.shown for sign in "?~[…/"):
        reasons.append(said("not every character is certain"))
    if DatePart.YEAR_DIGIT in parts:
        reasons.append(said("year not written in full"))
    elif not parts & {DatePart.YEAR_TWO, DatePart.YEAR_FOUR, DatePart.DAY_COUNT}:
        reasons.append(said("year not written"))
    return tuple(reasons)


def _unread(opinion: Opinion, mark: Mark) -> str:
    """Why nothing of a mark was read; empty where the case says nothing of it."""
    if any(each.mark == mark.id for each in opinion.decodings):
        return said("nothing is where it should be")
    papers = [each for each in opinion.casefile.papers if each.mark == mark.id]
    if papers:
        return paper_words(papers[0].state)
    sites = [each for each in opinion.sites if mark.id in each.marks]
    return site_words(sites[0].state) if sites else ""


def _windows(
    opinion: Opinion,
    car: CarMarks,
    found: Showing,
    spans: tuple[DateSpan, ...],
    own: CarDate | None,
) -> tuple[tuple[DateSpan, ...], tuple[str, ...]]:
    """The windows of one date and, in words, how it stands to each."""
    if found.item.id == BUILD_DATE.id:
        stated = _stated(car)
        return (), () if stated is None else (beside_claim(spans, stated.span),)
    lags = [lag for lag in car.book.lags if lag.applies.covers(car.context)]
    own_lags = [lag for lag in lags if lag.earlier == found.item.id or _is_after_car(lag, found)]
    windows, sentences = [], []
    for lag in own_lags:
        if not lag.citation.basis.weighs:
            sentences.append(said("no window is drawn: the book’s is from memory only"))
            continue
        end = _other_end(car, lag, found, own)
        if end is None:
            continue
        window = window_of(lag, end.span, is_before=lag.earlier == found.item.id)
        if window is not None:
            windows.append(window)
            counted_from = "" if end == own else end.counted_from
            outcome = _outcome(opinion, lag, found.mark)
            sentences.append(placed_words(spans, window, counted_from, outcome))
    if not own_lags:
        sentences.append(said("no window in the book"))
    elif not sentences:
        sentences.append(said("no window: the date it is counted from is not known"))
    return tuple(windows), tuple(sentences)


def _is_after_car(lag: Lag, found: Showing) -> bool:
    return lag.later == found.item.id and lag.earlier == BUILD_DATE.id


def _other_end(car: CarMarks, lag: Lag, found: Showing, own: CarDate | None) -> CarDate | None:
    """The date that a window is counted from: the car's own, or another part's nearest to it."""
    other = lag.later if lag.earlier == found.item.id else lag.earlier
    if other == BUILD_DATE.id:
        return own
    dated = [(each, s) for each in showings(car, other) if each.dates for s in _spans(each)]
    if not dated:
        return None
    near = own.span if own is not None else dated[0][1]
    showing, span = min(dated, key=lambda pair: abs((pair[1].first - near.first).days))
    told = said("the date on the {mark}, {dates}", mark=showing.name, dates=span_words(span))
    return CarDate(span, told, mark=showing.mark)


def window_of(lag: Lag, end: DateSpan, *, is_before: bool) -> DateSpan | None:
    """The days that a lag allows before (or after) a date; None beyond the calendar."""
    try:
        if is_before:
            first = end.first - timedelta(days=lag.most_days)
            return DateSpan(first, end.last - timedelta(days=lag.least_days))
        first = end.first + timedelta(days=lag.least_days)
        return DateSpan(first, end.last + timedelta(days=lag.most_days))
    except OverflowError:
        return None


def _outcome(opinion: Opinion, lag: Lag, mark: str) -> Outcome | None:
    """What the comparison found for this lag and mark, where it made one."""
    for finding in opinion.findings:
        subjects = {each.mark for each in finding.subjects}
        if finding.kind is FindingKind.LAG and finding.topic == lag.id and mark in subjects:
            return finding.outcome
    return None


def _hull(found: Showing) -> DateSpan:
    spans = _spans(found)
    return DateSpan(min(s.first for s in spans), max(s.last for s in spans))
