"""The code books as they stand on the shelf: those that come with the program, and the workshop's
own, each opened once for as long as its files are the same."""

from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

from django.http import Http404

from witnessmark.codebook import BookOpened, CodeBook, makers_own, open_book, shipped_books
from witnessmark.web.shared import books

OWN_KEPT = 24
"""Own books whose tables are kept in memory, the latest used ones."""


@dataclass(frozen=True, slots=True)
class OnShelf:
    """A book in its folder, which its name is also the name of."""

    folder: Path
    opened: BookOpened
    is_own: bool

    @property
    def name(self) -> str:
        """The name of its folder, by which it is asked for."""
        return self.folder.name

    @property
    def book(self) -> CodeBook:
        """The book itself."""
        assert self.opened.book is not None, "what cannot be read stands on no shelf"
        return self.opened.book

    @property
    def title(self) -> str:
        """What people call it."""
        return self.book.title

    @property
    def is_makers(self) -> bool:
        """Is it on a maker's cars, and not on what cars of any maker carry?"""
        return bool(makers_own(self.book))


def shelf(*, own: bool = True) -> tuple[OnShelf, ...]:
    """The books that come with the program, then the workshop's own where these are asked for."""
    folder, state = books.home_books(), books.state()
    named = sorted(each.name for each in folder.iterdir()) if own and folder.is_dir() else []
    found = (*map(_shipped, shipped_books()), *(_own(folder / name, state) for name in named))
    return tuple(each for each in found if each is not None)


def on_shelf(name: str, *, own: bool = True) -> OnShelf:
    """The book of this name. Http404 where none is called so."""
    found = next((each for each in shipped_books() if each.name == name), None)
    if found is not None:
        book = _shipped(found)
    else:
        is_name = own and books.is_plain(name)
        book = _own(books.home_books() / name, books.state()) if is_name else None
    if book is None:
        raise Http404
    return book


@cache
def _shipped(folder: Path) -> OnShelf | None:
    return _opened(folder, is_own=False)


@lru_cache(OWN_KEPT)
def _own(folder: Path, state: str) -> OnShelf | None:
    return _opened(folder, is_own=True)


def _opened(folder: Path, is_own: bool) -> OnShelf | None:
    opened = open_book(folder)
    return None if opened.book is None else OnShelf(folder, opened, is_own)
