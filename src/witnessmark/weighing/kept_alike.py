"""What was worked out of things that never change, kept by what they say, from one examination to
the next.

Somebody who changes one reading has all others weighed again as they were. So a piece of which
the same is noted as before is the same thing (`told`), and what follows from things alone is
kept by these things. Nothing is kept of many draws: that is large, and asked for once.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import fields, is_dataclass
from threading import Lock
from typing import Any

import numpy as np

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark
from witnessmark.reading import kept_beside

MOST_ANSWERS = 128
"""Answers of one kind about one book that are kept; those asked for longest ago go first."""


MOST_BOOKS = 4
"""Books of which answers are kept in a process; one in which rows are vouched for is another."""
_LATEST: list[dict[str, "Latest[Any]"]] = []
_LOCK = Lock()


def _one(_: object) -> int:
    return 1


class Latest[T]:
    """The answers that were asked for last, up to so much in all. Several threads may ask: an
    answer may then be worked out twice, and is the same for all of them."""

    def __init__(self, most: int = MOST_ANSWERS, size: Callable[[T], int] = _one) -> None:
        self.most, self.worked_out = most, 0
        self._size, self._whole = size, 0
        self._known: OrderedDict[Hashable, tuple[T]] = OrderedDict()
        self._lock = Lock()

    def known(self, question: Hashable) -> T | None:
        """The answer that is kept; None where it was not asked for lately."""
        with self._lock:
            found = self._known.get(question)
            return found[0] if found is not None else None

    def ask(self, question: Hashable, answer: Callable[[], T]) -> T:
        """The answer that is kept, or what is worked out now."""
        with self._lock:
            known = self._known.get(question)
            if known is not None:
                self._known.move_to_end(question)
                return known[0]
        found = answer()
        with self._lock:
            self.worked_out += 1
            known = self._known.get(question)
            if known is not None:
                return known[0]
            self._known[question] = (found,)
            self._whole += self._size(found)
            while self._whole > self.most and self._known:
                _, (gone,) = self._known.popitem(last=False)
                self._whole -= self._size(gone)
        return found

    def forget(self) -> None:
        """Start again."""
        with self._lock:
            self._known.clear()
            self._whole = 0


@kept_beside
def of_book(_: CodeBook) -> dict[str, Latest[Any]]:
    """The answers about a book by their kind."""
    return {}


def alike[T](book: CodeBook, kind: str, question: Hashable, answer: Callable[[], T]) -> T:
    """The answer to a question of some kind about this book."""
    answers = of_book(book)
    _asked_now(answers)
    latest: Latest[T] = answers.setdefault(kind, Latest())
    return latest.ask(question, answer)


def _asked_now(answers: dict[str, Latest[Any]]) -> None:
    """Forget the answers of the book that was asked of longest ago, beyond the last few: those of
    one book are some hundred megabytes."""
    if _LATEST and _LATEST[-1] is answers:
        return
    with _LOCK:
        _LATEST[:] = [*(each for each in _LATEST if each is not answers), answers]
        while len(_LATEST) > MOST_BOOKS:
            _LATEST.pop(0).clear()


def told(thing: object) -> Hashable:
    """All that a record of one book says, equal where another says the same; a mark stands for
    itself by its name in the book."""
    if isinstance(thing, np.ndarray):
        return thing.shape, thing.dtype.str, thing.tobytes()
    if isinstance(thing, Mark):
        return thing.id
    if isinstance(thing, tuple):
        return tuple([told(each) for each in thing])
    if isinstance(thing, dict):
        return tuple([(key, told(each)) for key, each in thing.items()])
    if is_dataclass(thing):
        return (type(thing), *[told(getattr(thing, each.name)) for each in fields(thing)])
    assert isinstance(thing, Hashable)
    return thing
