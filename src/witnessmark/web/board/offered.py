"""The books that a new case can name, and what a number that was typed could be by them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from pathlib import Path

from witnessmark.codebook import CodeBook, find_book, makers_own, open_book, shipped_books
from witnessmark.decoding.guess import Guess, guess
from witnessmark.web.shared import books


@dataclass(frozen=True, slots=True)
class MakersBooks:
    """A maker and its books, in the order of their years."""

    maker: str
    books: tuple[CodeBook, ...]


def offered() -> tuple[CodeBook, ...]:
    """Every book that can be read: those that come with the program, and the workshop's own."""
    return _offered(books.state(), books.home_books())


@lru_cache(4)
def _offered(_state: str, own: Path) -> tuple[CodeBook, ...]:
    folders = [*shipped_books(), *_own_folders(own)]
    opened = (open_book(each) for each in folders)
    found = {e.book.id: e.book for e in opened if e.book is not None and not e.problems}
    return tuple(sorted(found.values(), key=lambda each: (each.maker, each.first_year)))


def _own_folders(own: Path) -> Iterable[Path]:
    names = sorted(each.name for each in own.iterdir()) if own.is_dir() else ()
    return filter(None, (find_book(str(own / each)) for each in names))


def by_maker() -> tuple[MakersBooks, ...]:
    """The makers' own books, maker by maker; a book of any maker's cars comes last."""
    mine = sorted(offered(), key=lambda each: (not makers_own(each), each.maker))
    return tuple(
        MakersBooks(maker, tuple(each)) for maker, each in groupby(mine, lambda book: book.maker)
    )


def book_of(name: str) -> CodeBook | None:
    """The offered book of this name."""
    return next((each for each in offered() if each.id == name), None)


def guesses(text: str, most: int = 4) -> tuple[Guess, ...]:
    """What a number could be, the likeliest book first, each book once."""
    found: dict[str, Guess] = {}
    for each in guess(offered(), text):
        found.setdefault(each.book.id, each)
    return tuple(found.values())[:most]
