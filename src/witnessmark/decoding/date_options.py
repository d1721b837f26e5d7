"""A field with a form of date: every date that the cells allow, weighed by what was seen.

Unlike a code table a form of date allows almost every text, so only texts of the
characters that were read are told: a set gives each of its characters, a worn place each
that the form can have there. What a misread figure could do is in `days_seen`, for the
weighing. Of the dates of one code those of the car's own years come first: the runs of the
cars in question, and before them the days by which the book has such a part precede a car.
"""

from dataclasses import replace
from datetime import timedelta
from functools import partial
from math import prod

from witnessmark.catalogue import either, said
from witnessmark.codebook import (
    Applies,
    CarContext,
    CodeBook,
    DateForm,
    Field,
    Mark,
    Placeholder,
    Run,
    read_date_code,
)
from witnessmark.dates import DateSpan, year_span
from witnessmark.day_words import date_text, span_words
from witnessmark.decoding.days_seen import cuts_in, letters_of
from witnessmark.decoding.hypotheses import meet
from witnessmark.decoding.kept import kept
from witnessmark.decoding.open_dates import allows, open_codes
from witnessmark.decoding.options import FieldOption, as_typed, is_clear, not_listed
from witnessmark.decoding.rates import NOT_LISTED_ROW, shipped_value
from witnessmark.decoding.records import FieldMeaning, FieldSeen
from witnessmark.decoding.seen import index_of
from witnessmark.reading import Cell

MOST_CODES = 400
"""Most codes that are read one by one: every day of a year, and a little more."""

SEPARATE_CODES = 12
"""More codes than this are given as one meaning with all their spans."""

SPANS_SHOWN = 3
"""More spans than this are told as the first and the last of them."""

PRECEDES_AT_MOST = 366
"""Days by which a part is taken to precede its car at most, where the book has no lag."""


def date_options(
    book: CodeBook,
    mark: Mark,
    field: Field,
    seen: FieldSeen,
    cars: Applies,
    own: DateSpan | None = None,
) -> tuple[FieldOption, ...]:
    """What the field may say: dates, a placeholder, or a code that the form has not.

    `own`: the days of the car's own years.
    """
    form = book.date_form(field.date_form)
    assert form is not None, "a field without a form of date has no dates"
    cells = seen.readings[0].cells.cells
    found = _codes(form, book, seen, runs_of(book, cars))
    if len(found) > MOST_CODES:
        # Too many to read one by one: any day of the form's years.
        years = (year_span(form.first_year, form.last_year),)
        return (FieldOption(1.0, _meaning(field, form, as_typed(cells), years, None)),)
    meanings = [(likely, _meaning(field, form, code, spans, own)) for code, spans, likely in found]
    for each in form.placeholders:
        if any(allows(reading.cells.cells, each.code) for reading in seen.readings):
            meanings = _with_placeholder(meanings, field, each, _likelihood(seen, each.code))
    texts = prod(len(cell.characters) or len(field.alphabet) or 1 for cell in cells)
    refused = 1.0 - len(found) / texts
    total = sum(likely for likely, _ in meanings)
    if not meanings or total <= 0:
        return (FieldOption(1.0, not_listed(field, cells)),)
    unlisted = shipped_value(NOT_LISTED_ROW) * max(refused, 0.0)
    if len(meanings) > SEPARATE_CODES:
        meanings = [(total, _merged(field, form, cells, [m for _, m in meanings]))]
    options = [FieldOption((1.0 - unlisted) * w / total, meaning) for w, meaning in meanings]
    if unlisted:
        options.append(FieldOption(unlisted, not_listed(field, cells)))
    return tuple(sorted(options, key=lambda option: -option.share))


def runs_of(book: CodeBook, cars: Applies) -> tuple[Run, ...]:
    """The runs in which such cars can have been built; all where none fits."""
    return tuple(run for run in book.runs if meet(run.applies, cars)) or book.runs


def own_years(
    book: CodeBook, item: str, cars: Applies, by_number: DateSpan | None = None
) -> DateSpan | None:
    """The days on which such cars were built, with the days before that the book gives a part
    with this date; None where nothing is known of their years."""
    if cars.first_year <= book.first_year and book.last_year <= cars.last_year:
        return None

    def answer() -> DateSpan:
        built = by_number or days_of(book, cars)
        before = [lag.most_days for lag in book.lags if lag.earlier == item]
        after = [-lag.least_days for lag in book.lags if lag.earlier == item]
        lead = timedelta(days=max(before, default=PRECEDES_AT_MOST))
        trail = timedelta(days=max([0, *after]))
        return DateSpan(built.first - lead, built.last + trail)

    return kept(book, "own years", (item, cars, by_number), answer)


def days_of(book: CodeBook, cars: Applies) -> DateSpan:
    """The days on which such cars were built, by the runs of their years."""
    model = next(iter(cars.models)) if len(cars.models) == 1 else None
    context = CarContext(None, model, cars.works)
    return book.days_built(context, cars.first_year, cars.last_year)


def _codes(
    form: DateForm, book: CodeBook, seen: FieldSeen, runs: tuple[Run, ...]
) -> list[tuple[str, tuple[DateSpan, ...], float]]:
    """Every code that some reading allows, the days it can mean, and P(all seen | code)."""
    within = runs if form.within_run else ()
    found: dict[str, tuple[DateSpan, ...]] = {}
    for reading in seen.readings:
        if not reading.cells.missing:
            question = (form.id, reading.cells.key, tuple([run.id for run in within]))
            answer = partial(_read, form, book, reading.cells.cells, within)
            found |= kept(book, "dates", question, answer)
    return [(code, spans, _likelihood(seen, code)) for code, spans in found.items()]


def _read(
    form: DateForm, book: CodeBook, cells: tuple[Cell, ...], within: tuple[Run, ...]
) -> dict[str, tuple[DateSpan, ...]]:
    """Every code that these cells allow, and the days it can mean."""
    if not is_clear(cells) or cuts_in(cells):
        return open_codes(form, book, cells, within)
    code = "".join([cell.characters for cell in cells])
    spans = read_date_code(form, code, letters_of(form, book), within)
    return {code: spans} if spans else {}


def _likelihood(seen: FieldSeen, code: str) -> float:
    """P(all that was seen | code), from the places that were seen once."""
    index = index_of(seen.alphabet)
    if len(code) != len(seen.places):
        return 1.0
    return prod(
        place.likelihood[index[each]] if each in index else 0.0
        for place, each in zip(seen.places, code, strict=True)
    )


def _with_placeholder(
    meanings: list[tuple[float, FieldMeaning]],
    field: Field,
    placeholder: Placeholder,
    likely: float,
) -> list[tuple[float, FieldMeaning]]:
    """The meanings with that of a special code: it adds to the dates of the code, if it has
    any, and does not take their place."""
    found = []
    for weight, meaning in meanings:
        if meaning.code == placeholder.code:
            text = said("{dates}, or {other}", dates=meaning.meaning, other=placeholder.meaning)
            meaning = replace(meaning, meaning=text, placeholder=True, plain=placeholder.meaning)
        found.append((weight, meaning))
    if any(meaning.code == placeholder.code for _, meaning in found):
        return found
    return [*found, (likely, _placeholder(field, placeholder))]


def _placeholder(field: Field, placeholder: Placeholder) -> FieldMeaning:
    return FieldMeaning(
        field=field.id,
        code=placeholder.code,
        says=field.says,
        value="",
        meaning=placeholder.meaning,
        basis=placeholder.citation.basis,
        source=placeholder.citation.source,
        placeholder=True,
        plain=placeholder.meaning,
    )


def _meaning(
    field: Field, form: DateForm, code: str, spans: tuple[DateSpan, ...], own: DateSpan | None
) -> FieldMeaning:
    near, far = _parted(spans, own)
    return FieldMeaning(
        field=field.id,
        code=code,
        says=field.says,
        value=_told(near),
        meaning=spans_meant(near),
        basis=form.citation.basis,
        source=form.citation.source,
        spans=near,
        other_spans=far,
    )


def joined_dates(one: FieldMeaning, other: FieldMeaning) -> FieldMeaning:
    """One date code of two cars: the days of either, and of the rest what neither has."""
    if one.spans == other.spans:
        return one
    spans = tuple(sorted({*one.spans, *other.spans}))
    rest = tuple(sorted({*one.other_spans, *other.other_spans} - set(spans)))
    return replace(
        one, value=_told(spans), meaning=spans_meant(spans), spans=spans, other_spans=rest
    )


def _parted(
    spans: tuple[DateSpan, ...], own: DateSpan | None
) -> tuple[tuple[DateSpan, ...], tuple[DateSpan, ...]]:
    """The spans about the car's own years, and the others; all where none is about them."""
    if own is None or len(spans) < 2:
        return spans, ()
    near = tuple(s for s in spans if s.first <= own.last and own.first <= s.last)
    return (near, tuple(s for s in spans if s not in near)) if near else (spans, ())


def _merged(
    field: Field, form: DateForm, cells: tuple[Cell, ...], found: list[FieldMeaning]
) -> FieldMeaning:
    """Many codes as one meaning, with all their days."""
    spans = tuple(sorted({span for meaning in found for span in meaning.spans}))
    others = tuple(sorted({span for meaning in found for span in meaning.other_spans}))
    merged = _meaning(field, form, as_typed(cells), spans, None)
    return replace(merged, other_spans=others)


def spans_meant(spans: tuple[DateSpan, ...]) -> str:
    """The spans in the language of the page: all of a few, else how many between which days."""
    if len(spans) > SPANS_SHOWN:
        return said(
            "one of {number} dates from {first} to {last}",
            number=len(spans),
            first=date_text(spans[0].first),
            last=date_text(max(span.last for span in spans)),
        )
    return either(map(span_meant, spans))


def span_meant(span: DateSpan) -> str:
    """A span in the language of the page."""
    return span_words(span)


def _told(spans: tuple[DateSpan, ...]) -> str:
    """The spans in words that are the same in every language of a page."""
    if len(spans) <= SPANS_SHOWN:
        return " or ".join(str(span) for span in spans)
    last = max(span.last for span in spans)
    return f"one of {len(spans)} dates from {spans[0].first.isoformat()} to {last.isoformat()}"
