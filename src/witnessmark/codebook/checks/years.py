"""Years: in order, and inside the book's; runs, and the forms of date that ask for one."""

from collections.abc import Iterator

from witnessmark.codebook.book_format import BOOK
from witnessmark.codebook.checks.problems_rows import (
    NoRun,
    ReversedRange,
    ReversedYears,
    YearOutside,
)
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import DateForm
from witnessmark.problem import Problem


def check_years(draft: Draft) -> Iterator[Problem]:
    """The years of the book and of every entry that has its own."""
    whole = draft.ground.whole
    for each in draft.lists:
        for entry in each.entries if "first_year" in each.shape.by_name else ():
            first = entry.number_or("first_year", whole.first_year)
            last = entry.number_or("last_year", whole.last_year)
            # A single year outside the book is reported as that.
            if first > last and entry.is_written("first_year") and entry.is_written("last_year"):
                yield ReversedYears(entry.source("last_year"), first, last)
            # A part may be dated before the first car, so a form's years may lie outside.
            for key in ("first_year", "last_year") if each.shape not in _OF_ANY_YEAR else ():
                year = entry.number_or(key, whole.first_year)
                if not whole.first_year <= year <= whole.last_year and entry.is_written(key):
                    yield YearOutside(entry.source(key), year, whole.first_year, whole.last_year)


_OF_ANY_YEAR = (BOOK, DateForm.shape)


def check_runs(draft: Draft) -> Iterator[Problem]:
    """Every run, with its days in order, and the forms of date that are read within one."""
    whole = draft.ground.whole
    for run in draft.runs:
        entry, record = run.entry, run.record
        year = record.applies.first_year
        if entry.is_written("model_year") and not whole.first_year <= year <= whole.last_year:
            place = entry.source("model_year")
            yield YearOutside(place, year, whole.first_year, whole.last_year)
        if record.first > record.last and entry.day("first_day") and entry.day("last_day"):
            place = entry.source("last_day")
            yield ReversedRange(place, record.first.isoformat(), record.last.isoformat())
    for form in draft.date_forms:
        if form.record.within_run and not draft.runs and "runs" not in draft.unread:
            yield NoRun(form.entry.source("within"), form.record.id)
