"""`witnessmark book new`: a code book of your own, begun from an example."""

import os
import shutil
from datetime import date
from pathlib import Path
from typing import Annotated

from witnessmark.bookmaking.new_book import (
    EXAMPLE_MAKER,
    FIRST_YEAR,
    LAST_YEAR,
    NewBook,
    may_be_id,
    may_be_text,
    may_be_years,
    render_new_book,
    title_of,
)
from witnessmark.casefile import who_wrote
from witnessmark.cli.arguments import argument, option
from witnessmark.cli.problems import NotOverwritten, NotWritable, typed, why
from witnessmark.cli.terminal import known, print_outline, refuse
from witnessmark.cli.writing import only_writer
from witnessmark.entry import NotAllowed
from witnessmark.outline.records import Fact, Facts, Outline, Paragraph
from witnessmark.problem import Problem
from witnessmark.source import Source

HELP = """The folder's name becomes the book's id: lower-case letters and digits, joined by
- or _. book.toml explains each of its keys, and every table has its headings and
a row or two. All of it is invented: replace it piece by piece. Existing files are
never touched.

\b
Example:
  witnessmark book new my-maker-1950-1952
"""

WANTED = "a folder that is not there yet, or is empty"

SHOWN = 60
"""Characters of a faulty name that are shown."""


def book_new(
    folder: Annotated[Path, argument("FOLDER", "The folder to create.")],
    maker: Annotated[str, option("NAME", "The maker.")] = "",
    title: Annotated[str, option("TEXT", "The book's title.")] = "",
    first_year: Annotated[int | None, option("N", "The first model year.")] = None,
    last_year: Annotated[int | None, option("N", "The last model year.")] = None,
) -> None:
    """Write the example under its new name, whole or not at all."""
    span = LAST_YEAR - FIRST_YEAR
    if first_year is None:
        first_year = FIRST_YEAR if last_year is None else last_year - span
    last = first_year + span if last_year is None else last_year
    called = maker or EXAMPLE_MAKER
    name = _name(folder)
    title = title or title_of(called, first_year, last)
    book = NewBook(
        id=name,
        maker=called,
        title=title,
        first_year=first_year,
        last_year=last,
        version=date.today().isoformat(),
    )
    problems = _problems(folder, book)
    if problems:
        refuse(problems)
    texts = render_new_book(book)
    known(_write(folder, texts))
    _show(folder, book.title, len(texts))


def _name(folder: Path) -> str:
    """The folder's own name, also where it is given as a dot."""
    try:
        return folder.resolve().name
    except (OSError, ValueError, RuntimeError):
        return folder.name


def _problems(folder: Path, book: NewBook) -> tuple[Problem, ...]:
    """All that is wrong with the name, the texts, the years and the place."""
    problems: list[Problem] = []
    if not may_be_id(book.id):
        reason, wanted = "cannot be the id of a book", "small letters and figures, joined by - or _"
        shown = _cut(book.id)
        problems.append(NotAllowed(typed("FOLDER", shown), shown, reason, wanted))
    for name, text in (("--maker", book.maker), ("--title", book.title)):
        if not may_be_text(text):
            reason, wanted = "cannot stand in a book", "one line, at most 200 characters"
            problems.append(NotAllowed(typed(name, _cut(text)), _cut(text), reason, wanted))
    if not may_be_years(book.first_year, book.last_year):
        years = f"{book.first_year} to {book.last_year}"
        wanted = "the first year before the last, both from 1886 to 2100"
        both = "--first-year, --last-year"
        problems.append(NotAllowed(typed(both, years), years, "are not model years", wanted))
    standing = _standing(folder)
    if standing and not problems:
        problems.append(NotOverwritten(Source("FOLDER"), str(folder), standing, WANTED))
    return tuple(problems)


def _cut(text: str) -> str:
    return text if len(text) <= SHOWN else text[:SHOWN] + "..."


def _standing(folder: Path) -> str:
    """What stands at the place already; nothing where it is free or an empty folder."""
    try:
        if not os.path.lexists(folder):
            return ""
        if not folder.is_dir():
            return "is a file"
        return "is not empty" if any(folder.iterdir()) else ""
    except (OSError, ValueError):
        return ""  # said when it is written


def _write(folder: Path, texts: dict[str, str]) -> Problem | None:
    """Write beside the folder first, then put all of it in its place; book.toml comes last."""
    try:
        place = folder.resolve()
        beside = place.with_name(f".witnessmark-{os.urandom(6).hex()}")
        place.parent.mkdir(parents=True, exist_ok=True)
        try:
            for name, text in texts.items():
                path = beside / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(text.encode("utf-8"))
            if not _moved(beside, place):
                first = f"was filled meanwhile ({who_wrote(place)})"
                return NotOverwritten(Source("FOLDER"), str(folder), first, WANTED)
        finally:
            shutil.rmtree(beside, ignore_errors=True)
    except (OSError, ValueError) as fault:
        return NotWritable(Source("FOLDER"), str(folder), why(fault))
    return None


def _moved(beside: Path, folder: Path) -> bool:
    """Put it in its place, unless another was first there: as a folder of its own, entry by
    entry, the book's own last; a folder that is there may be the one somebody works in."""
    folder.mkdir(exist_ok=True)
    with only_writer(folder):
        if any(folder.iterdir()):
            return False
        book_last = sorted(beside.iterdir(), key=lambda each: (each.name == "book.toml", each.name))
        for path in book_last:
            os.rename(path, folder / path.name)
    return True


def _show(folder: Path, title: str, files: int) -> None:
    places = Facts(
        (
            Fact("begin with", str(folder / "book.toml")),
            Fact("tables", str(folder / "tables")),
            Fact("what changed", str(folder / "CHANGELOG.md")),
        )
    )
    told = (
        Paragraph(f"{files} files, an error-free example: all of it is invented."),
        Paragraph(f"Check after each change: witnessmark book check {folder}"),
    )
    print_outline(Outline(f"A new code book: {title}", (places, *told)))
