"""The books that a new case can name, and what a number that was typed could be by them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from pathlib import Path

from witnessmark.codebook import (
    ANY_CAR,
    CodeBook,
    find_book,
    makers_own,
    open_book,
    shipped_books,
)
from witnessmark.decoding.guess import guess
from witnessmark.decoding.number_meant import number_meant
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
    """The books that say which cars there are, maker by maker."""
    whole = [each for each in offered() if any(a.identity_bearer for a in each.assemblies)]
    mine = sorted(whole, key=lambda each: (not makers_own(each), each.maker))
    return tuple(
        MakersBooks(maker, tuple(each)) for maker, each in groupby(mine, lambda book: book.maker)
    )


def book_of(name: str) -> CodeBook | None:
    """The offered book of this name."""
    return next((each for each in offered() if each.id == name), None)


@dataclass(frozen=True, slots=True)
class CouldBe:
    """A book by which a number could be a car's own, and what it would say of it."""

    book: CodeBook
    says: tuple[str, ...]


def could_be(text: str) -> tuple[CouldBe, ...]:
    """The books in whose form such a number is, those first that would say most of it."""
    found: dict[str, CouldBe] = {}
    for each in guess([book for maker in by_maker() for book in maker.books], text):
        if any(_is_of_car(each.book, field.says) for field in each.marks[0].fields):
            told = tuple(meant.meaning for meant in each.speaks)
            found.setdefault(each.book.id, CouldBe(each.book, told))
    for maker in by_maker():
        for book in maker.books:
            own = [item for item in book.items if item.identification and item.length]
            if any(number_meant(book, item, text, ANY_CAR) for item in own):
                found.setdefault(book.id, CouldBe(book, ()))
    return tuple(found.values())


def _is_of_car(book: CodeBook, item: str) -> bool:
    found = book.item(item)
    return found is not None and found.identification
