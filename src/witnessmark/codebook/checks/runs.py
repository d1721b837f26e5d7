"""Runs: days in order, model years of the book, and a run for every form that asks for one."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_rows import NoRun, ReversedRange, YearOutside
from witnessmark.codebook.draft import Draft
from witnessmark.problem import Problem


def check_runs(draft: Draft) -> tuple[Problem, ...]:
    """Every run, and the forms of date that are read within one."""
    return (*_rows(draft), *_forms(draft))


def _rows(draft: Draft) -> Iterator[Problem]:
    first, last = draft.ground.first_year, draft.ground.last_year
    for run in draft.runs:
        entry, record = run.entry, run.record
        if entry.is_written("model_year") and not first <= record.applies.first_year <= last:
            place = entry.source("model_year")
            yield YearOutside(place, record.applies.first_year, first, last)
        if record.first > record.last and entry.day("first_day") and entry.day("last_day"):
            place = entry.source("last_day")
            yield ReversedRange(place, record.first.isoformat(), record.last.isoformat())


def _forms(draft: Draft) -> Iterator[Problem]:
    for form in draft.date_forms:
        if form.record.within_run and not draft.runs and "runs" not in draft.unread:
            yield NoRun(form.entry.source("within"), form.record.id)
