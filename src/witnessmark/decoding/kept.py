"""What was worked out of a book once, kept in it: a book is never altered."""

from collections.abc import Callable, Hashable
from typing import Any, cast

from witnessmark.codebook import CodeBook, CodeRow
from witnessmark.reading import kept_beside

MOST_KEPT = 20_000
"""Answers of one kind that are kept side by side; with one more, all of it are forgotten."""

_NO_ANSWER: Any = object()


class Kept[T](dict[Hashable, T]):
    """Answers kept up to a number; with one more, all are forgotten."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        super().__init__()
        self.most = most

    def ask(self, question: Hashable, answer: Callable[[], T]) -> T:
        """The answer that is kept, or what is worked out now."""
        found = self.get(question, cast(T, _NO_ANSWER))
        if found is _NO_ANSWER:
            found = answer()
            if len(self) >= self.most:
                self.clear()
            self[question] = found
        return found


@kept_beside
def _kinds(_: CodeBook) -> dict[str, Kept[Any]]:
    """The answers about a book by the kind of question."""
    return {}


def kept[T](book: CodeBook, kind: str, question: Hashable, answer: Callable[[], T]) -> T:
    """The answer to a question of some kind about this book, worked out the first time."""
    kinds = _kinds(book)
    known = kinds.get(kind)
    if known is None:
        known = kinds[kind] = Kept()
    found: T = known.ask(question, answer)
    return found


def table_rows(book: CodeBook, table: str) -> tuple[CodeRow, ...]:
    """The rows of one table of a book."""
    return _by_table(book).get(table, ())


@kept_beside
def _by_table(book: CodeBook) -> dict[str, tuple[CodeRow, ...]]:
    rows_of: dict[str, list[CodeRow]] = {}
    for row in book.codes:
        rows_of.setdefault(row.table, []).append(row)
    return {name: tuple(rows) for name, rows in rows_of.items()}
