"""What was worked out of a book once, kept beside it.

A book is never altered, so what follows from it alone holds as long as it does.
It is kept by the book's identity, since to compare or hash a whole book takes
far longer than to decode a plate; the book itself is kept too, so that no other
can take its place.
"""

from collections.abc import Callable, Hashable
from typing import Any

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CodeRow

BOOKS_KEPT = 8
"""Books of which anything is kept; with one more, all are forgotten."""

ANSWERS_KEPT = 5000
"""Answers kept of one book; with one more, that book is forgotten."""

_KEPT: dict[int, tuple[CodeBook, dict[Hashable, Any]]] = {}

MOST_KEPT = 4000
"""Answers of one kind that are kept side by side."""


class Kept[T](dict[Hashable, T]):
    """Answers kept up to a number; with one more, all are forgotten."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        super().__init__()
        self.most = most

    def ask(self, question: Hashable, answer: Callable[[], T]) -> T:
        """The answer that is kept, or what is worked out now."""
        found = self.get(question)
        if found is None:
            found = answer()
            if len(self) >= self.most:
                self.clear()
            self[question] = found
        return found


def kept[T](book: CodeBook, question: Hashable, answer: Callable[[], T]) -> T:
    """The answer to a question about this book, worked out the first time it is asked."""
    known = _KEPT.get(id(book))
    if known is None or known[0] is not book or len(known[1]) >= ANSWERS_KEPT:
        if len(_KEPT) >= BOOKS_KEPT:
            _KEPT.clear()
        known = _KEPT[id(book)] = (book, {})
    answers = known[1]
    if question not in answers:
        answers[question] = answer()
    found: T = answers[question]
    return found


def table_rows(book: CodeBook, table: str) -> tuple[CodeRow, ...]:
    """The rows of one table of a book."""
    return kept(book, "rows of the tables", lambda: _by_table(book)).get(table, ())


def _by_table(book: CodeBook) -> dict[str, tuple[CodeRow, ...]]:
    rows_of: dict[str, list[CodeRow]] = {}
    for row in book.codes:
        rows_of.setdefault(row.table, []).append(row)
    return {name: tuple(rows) for name, rows in rows_of.items()}
