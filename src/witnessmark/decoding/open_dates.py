"""The codes of a form of date that cells with places open, or parted by blanks, allow.

The days of the form's years are gone through, in stretches that it writes alike.
"""

import re
from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from itertools import accumulate, product

from witnessmark.codebook import CodeBook, DateForm, Run
from witnessmark.dates import DateSpan
from witnessmark.decoding.days_seen import Written, cuts_in, letters_of, months_between, widths_of
from witnessmark.decoding.kept import kept
from witnessmark.reading import Cell


def open_codes(
    form: DateForm, book: CodeBook, cells: tuple[Cell, ...], runs: tuple[Run, ...]
) -> dict[str, tuple[DateSpan, ...]]:
    """The codes that unsure or parted cells allow, each with the days it can mean."""
    days: dict[str, set[int]] = {}
    ways = [_fitting(cells, each) for each in widths_of(form, len(cells), cuts_in(cells))]
    for run in runs or (None,):
        first = run.first if run else date(form.first_year, 1, 1)
        last = run.last if run else date(form.last_year, 12, 31)
        answer = partial(Written, form, letters_of(form, book), run)
        written = kept(book, "days as written", (form.id, run and run.id), answer)
        for start, end in months_between(first, last):
            for code, of_month in _of_month(written, ways, start, end):
                days.setdefault(code, set()).update(of_month)
    return {code: _as_spans(found) for code, found in days.items()}


type Fits = Callable[[str], object]
"""Can what was read in one part of a code be this text?"""


def _fitting(cells: tuple[Cell, ...], widths: tuple[int, ...]) -> list[Fits]:
    """For each part of a code, of these widths, which texts its cells allow."""
    signs = [f"[{re.escape(cell.characters)}]" if cell.characters else "." for cell in cells]
    ends = list(accumulate(widths))
    return [
        re.compile("".join(signs[end - width : end]), re.DOTALL).fullmatch
        for width, end in zip(widths, ends, strict=True)
    ]


def _of_month(
    written: Written,
    ways: list[list[Fits]],
    start: date,
    end: date,
) -> Iterator[tuple[str, range]]:
    """The codes that the cells allow for the days of one month, each with its days."""
    tokens = range(len(written.form.tokens))
    years = [k for k in written.years() if not written.by_month(k)]
    for by_model in written.by_model:
        for fits in ways:
            of_month = [
                [t for t in written.texts(k, start, by_model) if fits[k](t)]
                if written.by_month(k)
                else []
                for k in tokens
            ]
            if any(written.by_month(k) and not of_month[k] for k in tokens):
                continue
            if not all(
                _may_be_year(written, k, fits[k], start=start, end=end, by_model=by_model)
                for k in years
            ):
                continue
            for first, last in written.alike(start, end):
                texts = [
                    of_month[k]
                    if written.by_month(k)
                    else [t for t in written.texts(k, first, by_model) if fits[k](t)]
                    for k in tokens
                ]
                for code in product(*texts):
                    yield "".join(code), range(first.toordinal(), last.toordinal() + 1)


def _may_be_year(
    written: Written, k: int, fits: Fits, start: date, end: date, by_model: bool
) -> bool:
    """Can the cells be the year of the first or the last day?"""
    texts = (*written.texts(k, start, by_model), *written.texts(k, end, by_model))
    return any(fits(text) for text in texts)


def allows(cells: tuple[Cell, ...], text: str) -> bool:
    """Can what was read be this text?"""
    return len(cells) == len(text) and all(
        not cell.characters or each in cell.characters
        for cell, each in zip(cells, text, strict=True)
    )


def _as_spans(days: set[int]) -> tuple[DateSpan, ...]:
    """Days as spans, days that follow each other in one."""
    spans: list[list[int]] = []
    for day in sorted(days):
        if spans and spans[-1][1] == day - 1:
            spans[-1][1] = day
        else:
            spans.append([day, day])
    return tuple(DateSpan(date.fromordinal(a), date.fromordinal(b)) for a, b in spans)
