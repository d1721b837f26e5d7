"""The checks across a book, in the order in which a person would look."""

from witnessmark.codebook.check_basis import check_basis
from witnessmark.codebook.check_dates import check_dates
from witnessmark.codebook.check_marks import check_marks
from witnessmark.codebook.check_names import check_names
from witnessmark.codebook.check_rows import check_rows
from witnessmark.codebook.check_values import check_values
from witnessmark.codebook.check_years import check_years
from witnessmark.codebook.draft import Draft
from witnessmark.problem import Problem


def check_book(draft: Draft, folder_name: str) -> tuple[Problem, ...]:
    """All problems that no single table or row shows; `folder_name` is what the id should be."""
    return (
        *check_names(draft, folder_name),
        *check_basis(draft),
        *check_years(draft),
        *check_values(draft),
        *check_rows(draft),
        *check_marks(draft),
        *check_dates(draft),
    )
