"""Finds what a command line names: a book, a mark, a car, a language.

Whatever cannot be found or read ends the command with its problems; what comes
back is ready to use.
"""

import sys
from dataclasses import dataclass
from pathlib import Path

import typer

from witnessmark.catalogue import Catalogue, speaking
from witnessmark.cli.problems import NotAllowed, NotBeside, SeveralMarks, UnknownName, typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import read_named
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
from witnessmark.codebook.book_format import FORMAT_VERSION
from witnessmark.codebook.names import plain_name
from witnessmark.codebook.qualified import bare_name
from witnessmark.decoding import marks_meant
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.translation import NoCatalogue, parse_catalogue

MOST_CATALOGUE_BYTES = 1_000_000
"""A larger file is not a translation of a few thousand sentences."""


@dataclass(frozen=True, slots=True)
class BooksOpened:
    """The maker's book with those beside it as one, and what each was opened from, in order."""

    book: CodeBook
    each: tuple[BookOpened, ...]


def opened_book(name: str, argument: str = "BOOK") -> BookOpened:
    """The book of this name or in this folder, with the digest of its files."""
    return opened_in(folder_of_book(name, argument))


def books_asked(names: list[str] | None) -> list[CodeBook]:
    """The books of these names or folders, or all that come with Witnessmark."""
    opened = map(opened_book, names) if names else map(faultless, shipped_books())
    return [each.book for each in opened if each.book is not None]


def opened_in(folder: Path) -> BookOpened:
    """The same of the book in this folder."""
    opened = faultless(folder)
    tell_of_book(opened, folder)
    return opened


def folder_of_book(name: str, argument: str = "BOOK") -> Path:
    """The folder of the book of this name, or at this path."""
    folder = found_folder(name)
    if folder is None:
        refuse((unknown_book(typed(argument, name), name),))
    return folder


def books_beside(name: str, beside: tuple[str, ...], argument: str = "BOOK") -> CodeBook:
    """The book of this name with those named under --beside, as one."""
    places = [typed("--beside", each) for each in beside]
    own = opened_book(name, argument)
    return joined_books(
        own, tuple(zip(places, map(found_folder, beside), beside, strict=True))
    ).book


def named_mark(book: CodeBook, name: str, text: str, given: CarContext) -> Mark:
    """The book's mark of this name; where several have it, the one that this text fits."""
    mark = mark_read(book, name, text, given)
    if mark is None:
        refuse((unknown_mark(book, name, text, typed("MARK", name), given),))
    return mark


def found_marks(book: CodeBook, name: str, context: CarContext | None = None) -> tuple[Mark, ...]:
    """The book's marks that people call so, as far as the car's year, works and model tell
    them apart; what was typed must choose where several are left."""
    found = book.marks_named(name.strip(), context or CarContext())
    if found:
        return found
    # One of a further book needs its book's id only where two have such a mark.
    wanted = plain_name(name)
    return tuple(m for m in book.marks if m.book and plain_name(bare_name(m.id)) == wanted)


def unknown_mark(
    book: CodeBook, name: str, text: str, source: Source, given: CarContext
) -> Problem:
    """The problem of a mark that the book does not have, or of a name of several that this
    text fits alike."""
    several = marks_meant(book, name, text, given)
    if several:
        return SeveralMarks(source, name, tuple(mark.id for mark in several))
    known = tuple(mark.id for mark in book.marks)
    return UnknownName(source, "mark", name, f"of the book {book.id}", known)


def mark_read(book: CodeBook, name: str, text: str, given: CarContext) -> Mark | None:
    """The book's mark of this name; where several marks have it, the one that was typed."""
    meant = marks_meant(book, name, text, given) or found_marks(book, name, given)
    return meant[0] if len(meant) == 1 else None


def context_of_car(book: CodeBook, year: int | None, model: str, works: str) -> CarContext:
    """What is taken as given about a car; model and works are ones of the book,
    by id or name, in any case."""
    if year is not None and not book.first_year <= year <= book.last_year:
        reason = f"is not a year of the book {book.id}"
        wanted = f"a year from {book.first_year} to {book.last_year}"
        refuse((NotAllowed(typed("--year", str(year)), str(year), reason, wanted),))
    one, built_by = book.model_named(model), book.works_named(works)
    of_book = f"of the book {book.id}"
    if model and one is None:
        models = tuple(each.id for each in book.models)
        refuse((UnknownName(typed("--model", model), "model", model, of_book, models),))
    if works and built_by is None:
        factories = tuple(each.id for each in book.works)
        refuse((UnknownName(typed("--works", works), "works", works, of_book, factories),))
    given = frozenset({built_by.id} if built_by else ())
    return CarContext(model_year=year, model=one.id if one else None, works=given)


def tell_before(name: str, version: int, command: str) -> None:
    """A line on the error stream of what is of the previous format, and what converts it."""
    print_line(
        f"{name} is in format {version - 1} and was read as format {version}; "
        f"`witnessmark {command}` converts it.",
        sys.stderr,
    )


def found_folder(name: str, case_folder: Path | None = None) -> Path | None:
    """The folder of a book by its name or path: the shipped one of this name, then the one
    beside the case, then the one where we are."""
    is_shipped = name in (path.name for path in shipped_books())
    if name and case_folder is not None and not is_shipped:
        return find_book(str(case_folder / name)) or find_book(name)
    return find_book(name)


def unknown_book(source: Source, name: str) -> Problem:
    """The problem of a code book that is neither shipped nor in such a folder."""
    known = tuple(path.name for path in shipped_books())
    return UnknownName(source, "code book", name, "", known)


def faultless(folder: Path) -> BookOpened:
    """The book in this folder; every problem of it ends the command."""
    opened = open_book(folder)
    if opened.book is None or opened.problems:
        refuse(opened.problems)
    return opened


def tell_of_book(opened: BookOpened, folder: Path) -> None:
    """Lines on the error stream where a book is not the shipped one of its id, and where it is
    of the previous format, with what converts it."""
    if opened.book is not None and opened.is_other_than_shipped:
        from witnessmark.wording.books import other_book_sentence

        print_line(other_book_sentence(opened.book.id, str(folder), opened.sha256), sys.stderr)
    if opened.changes:
        tell_before(f"The book in {folder}", FORMAT_VERSION, f"book upgrade {folder}")


def joined_books(
    own: BookOpened, beside: tuple[tuple[Source, Path | None, str], ...]
) -> BooksOpened:
    """The books as one; whatever is wrong with those beside the maker's ends the command."""
    assert own.book is not None, "a book that cannot be read has ended the command"
    problems: list[Problem] = []
    found: dict[str, BookOpened] = {}
    for source, folder, name in beside:
        if folder is None:
            problems.append(unknown_book(source, name))
            continue
        opened = open_book(folder)
        tell_of_book(opened, folder)
        problems.extend(opened.problems)
        if opened.book is None or opened.problems:
            continue
        if opened.book.id in (own.book.id, *found):
            problems.append(NotAllowed(source, name, "is already in use", "each book once"))
        elif owned := makers_own(opened.book):
            problems.append(NotBeside(source, opened.book.id, owned))
        else:
            found[opened.book.id] = opened
    if problems:
        refuse(problems)
    books = tuple(each.book for each in found.values() if each.book is not None)
    return BooksOpened(joined(own.book, books), (own, *found.values()))


def spoken_throughout(context: typer.Context, path: Path | None) -> Path | None:
    """Let the whole command speak the language of this file; English where none is named."""
    if path is not None:
        context.with_resource(speaking(named_catalogue(path)))
    return path


def named_catalogue(path: Path) -> Catalogue:
    """The translation in this file."""
    try:
        found = parse_catalogue(read_named(path, MOST_CATALOGUE_BYTES).decode("utf-8"), str(path))
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "it is not UTF-8 text"
        refuse((NoCatalogue(Source(str(path)), str(path), reason),))
    if not isinstance(found, Catalogue):
        refuse((found,))
    return found
