"""Finds what a command line names: a book, a mark, a car, a language.

Whatever cannot be found or read ends the command with its problems; what comes
back is ready to use.
"""

import sys
from pathlib import Path

import typer

from witnessmark.catalogue import Catalogue, speaking
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import read_named
from witnessmark.codebook import (
    BookOpened,
    CarContext,
    CodeBook,
    Mark,
    open_book,
    shipped_books,
)
from witnessmark.codebook.book_format import FORMAT_VERSION
from witnessmark.entry import (
    BookNamed,
    NotAllowed,
    UnknownName,
    books_named,
    found_folder,
    mark_read,
    unknown_book,
    unknown_mark,
)
from witnessmark.source import Source
from witnessmark.translation import NoCatalogue, parse_catalogue

MOST_CATALOGUE_BYTES = 1_000_000
"""A larger file is not a translation of a few thousand sentences."""


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
    own = BookNamed(name, typed(argument, name), found_folder(name))
    further = [BookNamed(each, typed("--beside", each), found_folder(each)) for each in beside]
    found = books_named(own, further, heeded=tell_of_book)
    if isinstance(found, tuple):
        refuse(found)
    return found.book


def named_mark(book: CodeBook, name: str, text: str, given: CarContext) -> Mark:
    """The book's mark of this name; where several have it, the one that this text fits."""
    mark = mark_read(book, name, text, given)
    if mark is None:
        refuse((unknown_mark(book, name, text, typed("MARK", name), given, year="--year"),))
    return mark


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
