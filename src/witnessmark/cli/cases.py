"""Opens the case that a command line names, with its books, and examines it.

Whatever cannot be found or read ends the command with its problems.
"""

from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.casefile import FORMAT_VERSION, Casefile, CaseOpened, open_case, sums_left_out
from witnessmark.cli.opening import tell_before, tell_of_book
from witnessmark.cli.terminal import refuse
from witnessmark.codebook import CodeBook
from witnessmark.entry import BooksOpened, KnownBooks, books_of, versions_of
from witnessmark.examination import Opinion, check_case, examine
from witnessmark.problem import Problem


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
    folder = opened.exhibits.folder.parent
    found = books_of(casefile, opened.places, folder, known=known, heeded=tell_of_book)
    if isinstance(found, tuple):
        refuse(found)
    return found


@dataclass(frozen=True, slots=True)
class Examined:
    """An Opinion, and the case and book it was made from."""

    opinion: Opinion
    opened: CaseOpened
    book: CodeBook

    @property
    def left_out(self) -> tuple[Problem, ...]:
        """What was typed and a report does not print: no fault of the case, and told."""
        sums = sums_left_out(self.opinion.casefile, self.opened.places)
        return (*self.opinion.problems, *sums)


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
    version, beside = versions_of(books)
    opinion = examine(casefile, books.book, version, beside, steady=steady)
    return Examined(opinion, checked.opened, books.book)
