"""What the Tab key offers: books, marks and items by their everyday names, cases, questions.

A shell asks anew at every key, so each of these opens what is named before and nothing else, and
whatever is wrong with that is told when the command is run, not here. A name is offered without
blanks, which a shell would part: `trim-tag` is what a book calls trim tag.
"""

from collections.abc import Callable, Iterable, Iterator
from glob import escape
from itertools import chain, islice
from pathlib import Path

import typer

from witnessmark.cli.main import line_to_complete
from witnessmark.codebook import CarContext, CodeBook, find_book, open_book, shipped_books
from witnessmark.codebook.names import plain_name

MOST_OFFERED = 200
"""No list on a screen is longer."""

type _Named = tuple[str, str]
"""What is offered, and what is shown beside it."""

type Completion = Callable[[typer.Context, str], list[_Named]]


def _offered(begun: str, found: Iterable[_Named]) -> list[_Named]:
    """Those that begin so, in any writing of the name, each once."""
    wanted = plain_name(begun)
    kept = ((name, beside) for name, beside in found if plain_name(name).startswith(wanted))
    return list(dict(kept).items())[:MOST_OFFERED]


def books(begun: str) -> list[_Named]:
    """The shipped books by their ids, and folders that hold a book."""
    shipped = ((folder.name, "") for folder in shipped_books())
    return [*_offered(begun, shipped), *_folders(begun, "book.toml")]


def cases(begun: str) -> list[_Named]:
    """The folders that hold a case, and those that may lead to one."""
    return _folders(begun, "case.json")


def _folders(begun: str, holding: str) -> list[_Named]:
    """Folders of that name, or in one of that name, that hold the file. Where there is none a
    shell offers all files by itself."""
    start, stroke, name = begun.rpartition("/")
    base = Path(start + stroke)
    try:
        named = f"{escape(name)}*"
        found = chain(base.glob(f"{named}/{holding}"), base.glob(f"{named}/*/{holding}"))
        return [(str(each.parent), "") for each in islice(found, MOST_OFFERED)]
    except (OSError, ValueError):
        return []


def _named_before(holding: str) -> Path | None:
    """The first folder with this file that the line names, a book also by its id. The line is
    read itself: an option that still lacks its value keeps it from being parsed."""
    for word in line_to_complete():
        folder = find_book(word)
        if folder is not None and (folder / holding).is_file():
            return folder
    return None


def _of_book(names_of: Callable[[CodeBook, typer.Context], Iterable[_Named]]) -> Completion:
    """Names of the book that stands before them on the line; none where there is no such book."""

    def offered(context: typer.Context, incomplete: str) -> list[_Named]:
        folder = _named_before("book.toml")
        book = open_book(folder).book if folder is not None else None
        return _offered(incomplete, names_of(book, context)) if book is not None else []

    return offered


def _marks(book: CodeBook, context: typer.Context) -> Iterator[_Named]:
    year = context.params.get("year")
    marks = book.marks_for(CarContext(model_year=year if isinstance(year, int) else None))
    yield from ((mark.id, mark.name) for mark in marks)
    for mark in marks:
        for name in filter(None, (mark.local_name, *(alias.name for alias in mark.aliases))):
            yield "-".join(name.split()), mark.name


def _claimed(book: CodeBook, _: typer.Context) -> Iterator[_Named]:
    """ITEM=, and ITEM=VALUE."""
    from witnessmark.examination import values_of

    yield from ((f"{item.id}=", item.name) for item in book.items)
    for item in book.items:
        yield from ((f"{item.id}={value}", item.name) for value in values_of(book, item.id))


def _pairs(book: CodeBook, context: typer.Context) -> Iterator[_Named]:
    yield from ((f"{name}=", beside) for name, beside in _marks(book, context))


marks = _of_book(_marks)
"""The marks of the book: by id, then by what people call them."""
pairs = _of_book(_pairs)
"""MARK=, for a reading behind it."""
claims = _of_book(_claimed)
items = _of_book(lambda book, _: ((each.id, each.name) for each in book.items))
models = _of_book(lambda book, _: ((each.id, each.name) for each in book.models))
works = _of_book(lambda book, _: ((each.id, each.name) for each in book.works))


def questions(incomplete: str) -> list[_Named]:
    """What the conclusions of the case before it can be about: its book's pieces and items, and
    the kinds of questions."""
    from witnessmark.casefile import open_case
    from witnessmark.weighing import Asked

    place = _named_before("case.json")
    case = open_case(place).casefile if place is not None else None
    folder = find_book(case.book) if case is not None else None
    book = open_book(folder).book if folder is not None else None
    if book is None:
        return []
    known = [(each.id, each.name) for each in book.assemblies]
    known += [(each.id, each.name) for each in book.pieces]
    known += [(each.id, each.name) for each in book.items]
    return _offered(incomplete, (*known, *((each.value, "") for each in Asked)))
