"""Years: in order, and inside the book's."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_rows import ReversedYears, YearOutside
from witnessmark.codebook.draft import Draft
from witnessmark.documents.entries import Entry
from witnessmark.problem import Problem


def check_years(draft: Draft) -> tuple[Problem, ...]:
    """The years of the book and of every entry that has its own."""
    problems = list(_reversed(draft.top, draft))
    for form in draft.date_forms:
        # A part may be dated before the first car, so these years may lie outside.
        problems += _reversed(form.entry, draft)
    for placed in (
        draft.assemblies,
        draft.marks,
        draft.works,
        draft.models,
        draft.codes,
        draft.series,
        draft.rules,
        draft.lags,
        draft.sites,
        draft.features,
        draft.exceptions,
        draft.settlements,
        draft.remarks,
        draft.points,
        draft.pieces,
    ):
        for each in placed:
            problems += _reversed(each.entry, draft)
            problems += _outside(each.entry, draft)
    for alias in (each for mark in draft.marks for each in mark.entry.entries("alias")):
        problems += _reversed(alias, draft)
        problems += _outside(alias, draft)
    return tuple(problems)


def _reversed(entry: Entry, draft: Draft) -> Iterator[Problem]:
    first = entry.number_or("first_year", draft.ground.first_year)
    last = entry.number_or("last_year", draft.ground.last_year)
    key = "last_year" if entry.is_written("last_year") else "first_year"
    # A single year outside the book is reported as that.
    if first > last and (entry.is_written("first_year") and entry.is_written("last_year")):
        yield ReversedYears(entry.source(key), first, last)


def _outside(entry: Entry, draft: Draft) -> Iterator[Problem]:
    ground = draft.ground
    for key in ("first_year", "last_year"):
        year = entry.number_or(key, ground.first_year)
        if not ground.first_year <= year <= ground.last_year and entry.is_written(key):
            yield YearOutside(entry.source(key), year, ground.first_year, ground.last_year)
