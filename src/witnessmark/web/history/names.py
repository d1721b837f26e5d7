"""What the book calls the things of a case, as far as it can be opened."""

from witnessmark.entry import CaseDraft
from witnessmark.report.issue.supplement_changes import UNNAMED
from witnessmark.web.shared.desk import Bench
from witnessmark.wording import Names


def names_of(bench: Bench) -> Names:
    """The names of marks, places and items; ids read as words where there is no book."""
    on = bench.on
    if on.books is None:
        return UNNAMED
    return CaseDraft(opened=on.opened, casefile=on.casefile, book=on.book).names
