"""The workshop's own books on the disk: one is put in place only without a fault and kept aside
else, and the one that it takes the place of is kept."""

import os
import shutil
import threading
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from witnessmark.bookmaking.new_book import may_be_id
from witnessmark.casefile.whole import put_whole
from witnessmark.codebook import BookOpened, changelog_problems, open_book, shipped_books
from witnessmark.codebook.checks.changelog import CHANGELOG
from witnessmark.codebook.folder import MOST_BYTES, TABLE_FOLDER, TOP_FILE
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.books.problems import NameOfShipped
from witnessmark.web.shared import books

ASIDE_NAME = "books-unsound"
BEFORE_NAME = "books-before"
UNNAMED = "unnamed-book"
"""What a book is called aside whose book.toml does not say."""

_LOCK = threading.Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class BookKept:
    """What became of a book that was brought: in its place, or aside with what is wrong. `before`
    is the folder in which the one before it is kept; `advice` is what its author is told all the
    same."""

    name: str
    opened: BookOpened
    problems: tuple[Problem, ...]
    advice: tuple[Problem, ...] = ()
    before: str = ""

    @property
    def is_in_place(self) -> bool:
        """Is it used from now on?"""
        return not self.problems


def aside() -> Path:
    """The folder of books that are not sound yet."""
    return Path(settings.WITNESSMARK_HOME) / ASIDE_NAME


def before() -> Path:
    """The folder of books that others took the place of."""
    return Path(settings.WITNESSMARK_HOME) / BEFORE_NAME


def aside_names() -> tuple[str, ...]:
    """The books that are kept aside."""
    with suppress(OSError):
        found = (each.name for each in aside().iterdir() if each.is_dir())
        return tuple(sorted(name for name in found if books.is_plain(name)))
    return ()


def files_in(folder: Path) -> dict[str, bytes]:
    """What a book's folder holds, by its place in it."""
    paths = (folder / TOP_FILE, folder / CHANGELOG, *sorted((folder / TABLE_FOLDER).glob("*.csv")))
    found: dict[str, bytes] = {}
    for path in paths:
        if path.is_file() and not path.is_symlink():
            with path.open("rb") as stream:
                found[path.relative_to(folder).as_posix()] = stream.read(MOST_BYTES + 1)
    return found


def checked(folder: Path) -> BookKept:
    """Everything that is wrong with the book in this folder."""
    opened = open_book(folder, anew=True)
    problems = opened.problems
    if folder.name in {each.name for each in shipped_books()}:
        place = Source(f"{folder.name}/{TOP_FILE}")
        problems = (NameOfShipped(place, folder.name), *problems)
    advice = changelog_problems(folder, opened.book.version) if opened.book else ()
    return BookKept(name=folder.name, opened=opened, problems=problems, advice=advice)


def keep(files: Mapping[str, bytes], name: str = "") -> BookKept:
    """Write these files whole into a folder of their own and check them; then they take their
    place, or are kept aside. `name` is what the book is called where it does not say."""
    name = _id_of(files) or (name if books.is_plain(name) else UNNAMED)
    coming = aside() / f".coming-{os.urandom(6).hex()}"
    folder = coming / name
    try:
        for place, content in files.items():
            path = folder / place
            path.parent.mkdir(parents=True, exist_ok=True)
            put_whole(path, content, may_replace=False)
        folder.mkdir(parents=True, exist_ok=True)
        kept = checked(folder)
        with _LOCK:
            return _put_aside(folder, kept) if kept.problems else _put_in_place(folder, kept)
    finally:
        shutil.rmtree(coming, ignore_errors=True)


def _put_aside(folder: Path, kept: BookKept) -> BookKept:
    target = aside() / kept.name
    if target.exists():
        target.rename(folder.parent / ".older")
    folder.rename(target)
    return kept


def _put_in_place(folder: Path, kept: BookKept) -> BookKept:
    target, older = books.home_books() / kept.name, ""
    target.parent.mkdir(exist_ok=True)
    if target.exists():
        if files_in(target) == files_in(folder):
            return kept
        found = open_book(target)
        version = found.book.version if found.book else "unread"
        older = _moved_before(target, f"{kept.name}-{version}")
    folder.rename(target)
    books.have_changed()
    if (aside() / kept.name).exists():  # what was begun there has come to its end
        _moved_before(aside() / kept.name, f"{kept.name}-unsound")
    return BookKept(
        name=kept.name, opened=kept.opened, problems=(), advice=kept.advice, before=older
    )


def _moved_before(folder: Path, wanted: str) -> str:
    """Keep a folder under this name among those before; under the next that nobody has."""
    before().mkdir(exist_ok=True)
    plain = "".join(sign if sign.isalnum() or sign in "._-" else "-" for sign in wanted)[:120]
    name, number = plain, 1
    while (before() / name).exists():
        number += 1
        name = f"{plain}-{number}"
    folder.rename(before() / name)
    return name


def _id_of(files: Mapping[str, bytes]) -> str:
    """What its book.toml calls the book; empty where it does not, or not as a book can be."""
    try:
        found = tomllib.loads(files.get(TOP_FILE, b"").decode("utf-8-sig")).get("id")
    except (ValueError, RecursionError):
        return ""
    return found if isinstance(found, str) and may_be_id(found) else ""
