"""Rows from memory that an examiner answers for, as a page says it."""

from witnessmark.casefile.records import Vouched
from witnessmark.catalogue import said
from witnessmark.wording.amounts import clause


def vouched_sentence(vouched: Vouched) -> str:
    """One row, who answers for it, and why.

    >>> vouched_sentence(Vouched(row="paint:17", by="IL", reason="Seen nine times."))
    'The row paint:17 of the code book is from memory and vouched for by IL: Seen nine times.'
    """
    return said(
        "The row {row} of the code book is from memory and vouched for by {name}: {reason}.",
        row=vouched.row,
        name=clause(vouched.by),
        reason=clause(vouched.reason),
    )
