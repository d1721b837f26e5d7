"""Opens the case that a command line names, with its books, and examines it.

Whatever cannot be found or read ends the command with its problems.
"""

from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.casefile import FORMAT_VERSION, Casefile, CaseOpened, open_case
from witnessmark.cli.opening import (
    BooksOpened,
    found_folder,
    joined_books,
    opened_in,
    tell_before,
    unknown_book,
)
from witnessmark.cli.terminal import refuse
from witnessmark.codebook import CodeBook, ItemKind
from witnessmark.decoding import as_written
from witnessmark.examination import (
    BookVersion,
    Opinion,
    book_names,
    car_marks,
    check_case,
    examine,
    in_book_words,
)
from witnessmark.wording import Names, claim_sentences

type KnownBooks = dict[tuple[Path | None, ...], BooksOpened]
"""Books that were opened already, by their folders."""


def opened_case(path: str) -> CaseOpened:
    """The case in this folder or document; every problem of it ends the command."""
    opened = open_case(Path(path))
    if opened.casefile is None or opened.problems:
        refuse(opened.problems)
    tell_format(opened, path)
    return opened


def tell_format(opened: CaseOpened, path: str) -> None:
    """A line on the error stream where a case is of the previous format, and what converts it."""
    if opened.changes:
        tell_before(opened.places.name, FORMAT_VERSION, f"case upgrade {path}")


def books_of_case(
    opened: CaseOpened, casefile: Casefile, known: KnownBooks | None = None
) -> BooksOpened:
    """The case's code book and those beside it: each by its name, or by its folder, which may
    be given from the case's. Those `known` are not opened again, and those opened are put there."""
    case_folder, places = opened.exhibits.folder.parent, opened.places
    names = (casefile.book, *casefile.beside)
    folders = tuple(found_folder(name, case_folder) for name in names)
    if known is not None and folders in known:
        return known[folders]
    folder, *beside = folders
    if folder is None:
        refuse((unknown_book(places.source(("book",)), casefile.book),))
    sources = (places.source(("beside", n)) for n in range(len(beside)))
    own = opened_in(folder)
    found = joined_books(own, tuple(zip(sources, beside, casefile.beside, strict=True)))
    if known is not None:
        known[folders] = found
    return found


def claim_read(casefile: Casefile, book: CodeBook) -> tuple[str, ...]:
    """How the claim is read, where its numbers were typed as they stand on the car."""
    read = in_book_words(casefile, book)
    car = car_marks(replace(read, readings=()), book)
    numbers = (each for each in book.items if each.kind is ItemKind.NUMBER)
    written = {
        each.id: as_written(book, each, read.claim.items[each.id], car.context)
        for each in numbers
        if each.id in read.claim.items
    }
    claim = replace(read.claim, items={**read.claim.items, **written})
    return claim_sentences(casefile.claim, claim, Names(book_names(car)))


@dataclass(frozen=True, slots=True)
class Examined:
    """An Opinion, and the case and book it was made from."""

    opinion: Opinion
    opened: CaseOpened
    book: CodeBook


@dataclass(frozen=True, slots=True)
class Checked:
    """A case that has no problem, and the books that it was checked by."""

    opened: CaseOpened
    casefile: Casefile
    books: BooksOpened


def checked_case(path: str, known: KnownBooks | None = None) -> Checked:
    """The case in this folder with its books; every problem of either ends the command."""
    opened = opened_case(path)
    casefile = opened.casefile
    assert casefile is not None, "a case that cannot be read has ended the command"
    books = books_of_case(opened, casefile, known)
    problems = check_case(casefile, opened.places, books.book)
    if problems:
        refuse(problems)
    return Checked(opened, casefile, books)


def examined_case(path: str, minutes: int | None = None, *, steady: bool = True) -> Examined:
    """The case in this folder examined by its own book, with `minutes` for further looks; not
    `steady` where no page says how far answers rest on assumed rates."""
    checked = checked_case(path)
    casefile, books = checked.casefile, checked.books
    if minutes is not None:
        assignment = replace(casefile.assignment, minutes_available=minutes)
        casefile = replace(casefile, assignment=assignment)
    version, *beside = (
        BookVersion(book.id, book.title, book.version, each.sha256, each.is_other_than_shipped)
        for each in books.each
        if (book := each.book) is not None
    )
    opinion = examine(casefile, books.book, version, tuple(beside), steady=steady)
    return Examined(opinion, checked.opened, books.book)
