"""The checks across a book, in the order in which a person would look."""

from witnessmark.codebook.checks.aliases import check_aliases
from witnessmark.codebook.checks.basis import check_basis
from witnessmark.codebook.checks.dates import check_dates
from witnessmark.codebook.checks.listed import check_listed
from witnessmark.codebook.checks.marks import check_marks
from witnessmark.codebook.checks.names import check_names
from witnessmark.codebook.checks.pieces import check_pieces
from witnessmark.codebook.checks.problems_names import NotInBook, UnknownValue
from witnessmark.codebook.checks.problems_reach import CodeUnread, NoSuchCar
from witnessmark.codebook.checks.problems_rows import (
    Gap,
    NoCodeOf,
    NoIdentityBearer,
    OverlappingRows,
    OverlappingSeries,
    SeriesGap,
    ThirdIdentityBearer,
)
from witnessmark.codebook.checks.reach import check_reach
from witnessmark.codebook.checks.rows import check_rows
from witnessmark.codebook.checks.values import check_values
from witnessmark.codebook.checks.years import check_runs, check_years
from witnessmark.codebook.draft import Draft
from witnessmark.problem import Problem

THINGS = {
    "works": "works",
    "models": "model",
    "body_families": "body family",
    "codes": "table",
    "sites": "site",
}
"""What the rows of a table are called where they are named."""
OF_MISSING_ROWS = (UnknownValue, Gap, SeriesGap, NoIdentityBearer, NoSuchCar, CodeUnread, NoCodeOf)
"""Problems that rows which are not there can cause."""


def check_book(draft: Draft, folder_name: str) -> tuple[Problem, ...]:
    """All problems that no single table or row shows; `folder_name` is what the id should be."""
    found = (
        *check_names(draft, folder_name),
        *check_aliases(draft),
        *check_basis(draft),
        *check_years(draft),
        *check_values(draft),
        *check_rows(draft),
        *check_runs(draft),
        *check_marks(draft),
        *check_listed(draft),
        *check_pieces(draft),
        *check_dates(draft),
        *check_reach(draft),
    )
    return tuple(problem for problem in found if not _is_echo(problem, draft.unread))


def _is_echo(problem: Problem, unread: frozenset[str]) -> bool:
    """Would it go away once the tables that could not be read whole are read?"""
    if isinstance(problem, NotInBook):
        return problem.thing in {THINGS.get(table) for table in unread}
    if isinstance(problem, OF_MISSING_ROWS):
        return bool(unread)
    if isinstance(problem, OverlappingRows | OverlappingSeries | ThirdIdentityBearer):
        # Without its works nobody knows which works stand for the same part of a car.
        return "works" in unread
    return False
