"""The books that a case or a command names, found, opened and joined: problems come back, and
nobody is told of anything.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.codebook import (
    BookOpened,
    CarContext,
    CodeBook,
    Mark,
    find_book,
    joined,
    makers_own,
    open_book,
    shipped_books,
)
from witnessmark.codebook.names import plain_name
from witnessmark.codebook.qualified import bare_name
from witnessmark.decoding import marks_meant
from witnessmark.entry.problems import NotAllowed, NotBeside, SeveralMarks, UnknownName
from witnessmark.problem import Problem
from witnessmark.source import Source

if TYPE_CHECKING:  # a mark is decoded without a case
    from witnessmark.casefile import Casefile
    from witnessmark.documents.json_places import JsonPlaces

type Heeded = Callable[[BookOpened, Path], None]
"""What is to hear of each book that was opened, and from which folder."""


def _unheeded(opened: BookOpened, folder: Path) -> None:
    """Nobody hears of it."""


@dataclass(frozen=True, slots=True)
class BooksOpened:
    """The maker's book with those beside it as one, and what each was opened from, in order."""

    book: CodeBook
    each: tuple[BookOpened, ...]


@dataclass(frozen=True, slots=True)
class BookNamed:
    """A book as it was named, where, and the folder that was found; None where there is none."""

    name: str
    source: Source
    folder: Path | None


type KnownBooks = dict[tuple[Path | None, ...], BooksOpened]
"""Books that were opened already, by their folders."""


def books_of(
    casefile: "Casefile",
    places: "JsonPlaces",
    case_folder: Path | None = None,
    *,
    known: KnownBooks | None = None,
    heeded: Heeded = _unheeded,
) -> BooksOpened | tuple[Problem, ...]:
    """The case's code book and those beside it, or what is wrong with them: each by its name, or
    by its folder, which may be given from the case's. A case without a folder has shipped ones
    alone. Those `known` are not opened again, and those opened are put there."""
    names = (casefile.book, *casefile.beside)
    sources = (
        places.source(("book",)),
        *(places.source(("beside", n)) for n in range(len(names) - 1)),
    )
    folders = tuple(
        shipped_folder_of(name) if case_folder is None else found_folder(name, case_folder)
        for name in names
    )
    if known is not None and folders in known:
        return known[folders]
    own, *beside = map(BookNamed, names, sources, folders)
    found = books_named(own, beside, heeded=heeded)
    if known is not None and isinstance(found, BooksOpened):
        known[folders] = found
    return found


def books_named(
    own: BookNamed, beside: Sequence[BookNamed] = (), *, heeded: Heeded = _unheeded
) -> BooksOpened | tuple[Problem, ...]:
    """A maker's book with those named beside it as one, or what is wrong with them."""
    if own.folder is None:
        return (unknown_book(own.source, own.name),)
    opened = open_book(own.folder)
    if opened.book is None or opened.problems:
        return opened.problems
    heeded(opened, own.folder)
    return _joined(opened, beside, heeded=heeded)


def _joined(
    own: BookOpened, beside: Sequence[BookNamed], *, heeded: Heeded = _unheeded
) -> BooksOpened | tuple[Problem, ...]:
    """The books as one, or all that is wrong with those beside the maker's."""
    assert own.book is not None, "a book that cannot be read has nothing beside it"
    problems: list[Problem] = []
    found: dict[str, BookOpened] = {}
    for each in beside:
        if each.folder is None:
            problems.append(unknown_book(each.source, each.name))
            continue
        opened = open_book(each.folder)
        heeded(opened, each.folder)
        problems.extend(opened.problems)
        if opened.book is None or opened.problems:
            continue
        if opened.book.id in (own.book.id, *found):
            problems.append(
                NotAllowed(each.source, each.name, "is already in use", "each book once")
            )
        elif owned := makers_own(opened.book):
            problems.append(NotBeside(each.source, opened.book.id, owned))
        else:
            found[opened.book.id] = opened
    if problems:
        return tuple(problems)
    books = tuple(each.book for each in found.values() if each.book is not None)
    return BooksOpened(joined(own.book, books), (own, *found.values()))


def shipped_folder_of(name: str) -> Path | None:
    """The folder of the shipped book of this name; None where none is called so."""
    return next((path for path in shipped_books() if path.name == name), None)


def found_folder(name: str, case_folder: Path | None = None) -> Path | None:
    """The folder of a book by its name or path: the shipped one of this name, then the one
    beside the case, then the one where we are."""
    shipped = shipped_folder_of(name)
    if shipped is None and name and case_folder is not None:
        return find_book(str(case_folder / name)) or find_book(name)
    return shipped or find_book(name)


def unknown_book(source: Source, name: str) -> Problem:
    """The problem of a code book that is neither shipped nor in such a folder."""
    known = tuple(path.name for path in shipped_books())
    return UnknownName(source, "code book", name, "", known)


def found_marks(book: CodeBook, name: str, context: CarContext | None = None) -> tuple[Mark, ...]:
    """The book's marks that people call so, as far as the car's year, works and model tell
    them apart; what was typed must choose where several are left."""
    found = book.marks_named(name.strip(), context or CarContext())
    if found:
        return found
    # One of a further book needs its book's id only where two have such a mark.
    wanted = plain_name(name)
    return tuple(m for m in book.marks if m.book and plain_name(bare_name(m.id)) == wanted)


def mark_read(book: CodeBook, name: str, text: str, given: CarContext) -> Mark | None:
    """The book's mark of this name; where several marks have it, the one that was typed."""
    meant = marks_meant(book, name, text, given) or found_marks(book, name, given)
    return meant[0] if len(meant) == 1 else None


def unknown_mark(
    book: CodeBook,
    name: str,
    text: str,
    source: Source,
    given: CarContext,
    *,
    year: str = "model year",
) -> Problem:
    """The problem of a mark that the book does not have, or of a name of several that this
    text fits alike; `year` is what the car's year is called where it is entered."""
    several = marks_meant(book, name, text, given)
    if several:
        return SeveralMarks(source, name, tuple(mark.id for mark in several), year)
    known = tuple(mark.id for mark in book.marks_for(given))
    return UnknownName(source, "mark", name, f"of the book {book.id}", known)
