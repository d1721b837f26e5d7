"""A code book's folder on disk: read within limits, never outside it."""

import hashlib
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from pathlib import Path

from witnessmark.codebook.checked import (
    SHIPPED,
    checked_line,
    checked_lines,
)
from witnessmark.codebook.checks.changelog import CHANGELOG, check_changelog
from witnessmark.codebook.parse import BookOpened, parse_book
from witnessmark.codebook.problems_folder import (
    FileTooLarge,
    NoBookFile,
    NoFolder,
    NotReadable,
    OutsideFolder,
    TooManyFiles,
)
from witnessmark.documents.entries import FileText
from witnessmark.documents.utf8 import decode_text, printable
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BYTES = 2 * 1024 * 1024
USUAL_BYTES = 64 * 1024
MOST_FILES = 200
TOP_FILE = "book.toml"
TABLE_FOLDER = "tables"


_checked_before = lru_cache(maxsize=16)(partial(parse_book, is_checked=True))
"""A shipped book as it was shipped: it is frozen, and the same text is read once."""


@dataclass(frozen=True, slots=True)
class BookFile:
    """One file of the folder: its bytes, and its text or the problem that there is none."""

    name: str
    content: bytes = b""
    text: FileText | None = None
    problem: Problem | None = None


@dataclass(frozen=True, slots=True)
class BookFiles:
    """The files of a book as they were read: book.toml and its tables, sorted by their names.

    `names` are those of all tables that are there, of which the first `MOST_FILES` are read.
    """

    root: Path
    top: BookFile
    tables: tuple[BookFile, ...]
    names: frozenset[str]

    def with_table(self, name: str, text: str) -> "BookFiles":
        """The files as they would be with this text for one table."""
        table = _book_file(self.root, name, text.encode("utf-8"))
        tables = (table, *(each for each in self.tables if each.name != name))
        in_order = sorted(tables, key=lambda each: each.name)
        return replace(self, tables=tuple(in_order), names=self.names | {name})

    def opened(self, *, anew: bool = False) -> BookOpened:
        """The book in these files; `anew` as in `open_book`."""
        read = self.tables[: MOST_FILES - 1]
        problems = [file.problem for file in (self.top, *read) if file.problem]
        if len(self.names) > MOST_FILES - 1:
            problems.append(TooManyFiles(source_in(self.root, TABLE_FOLDER), MOST_FILES))
        sha256 = _digest((self.top, *read))
        if self.top.text is None:
            return BookOpened(None, tuple(problems), sha256)
        tables = tuple(file.text for file in read if file.text)
        unread = self.names - {file.name for file in read if file.text}
        is_checked = not anew and checked_line(sha256, self.root.name) in checked_lines()
        parse = _checked_before if is_checked else parse_book
        parsed = parse(self.top.text, tables, self.root.name, unread)
        return replace(parsed, problems=(*problems, *parsed.problems), sha256=sha256)


def open_book(folder: Path, *, anew: bool = False) -> BookOpened:
    """Read the book in this folder. Whatever is wrong with it is a problem, never an exception.

    A shipped book that is unchanged since its checks were run is checked across its tables
    only where this is asked for: `anew`.
    """
    files = read_files(folder)
    if isinstance(files, Problem):
        return BookOpened(None, (files,))
    return files.opened(anew=anew)


def read_files(folder: Path) -> BookFiles | Problem:
    """The files of the book in this folder, or the problem that there is none."""
    root = _resolved(folder)
    if root is None:
        return NoFolder(Source(printable(folder)))
    top = _read(root, TOP_FILE, root)
    if top is None:
        return NoBookFile(source_in(root, TOP_FILE))
    names = _table_names(root)
    folder = _resolved(root / TABLE_FOLDER) or root
    read = (_read(root, name, folder) for name in names[: MOST_FILES - 1])
    return BookFiles(root, top, tuple(file for file in read if file), frozenset(names))


def changelog_problems(folder: Path, version: str) -> tuple[Problem, ...]:
    """Whether the changelog in this book's folder, where there is one, begins with its version.

    A book with an old changelog can be used all the same; only its author is told.
    """
    root = _resolved(folder)
    read = _read(root, CHANGELOG, root) if root is not None else None
    if read is None:
        return ()
    if read.text is None:
        return (read.problem,) if read.problem else ()
    return check_changelog(read.text, version)


def shipped_books() -> tuple[Path, ...]:
    """The folders of the books that come with the program, in the order of their ids."""
    if not SHIPPED.is_dir():
        return ()
    return tuple(sorted(path.parent for path in SHIPPED.glob(f"*/{TOP_FILE}")))


def find_book(name_or_path: str) -> Path | None:
    """The folder of a shipped book by its id, or the folder at this path; None if neither."""
    shipped = next((path for path in shipped_books() if path.name == name_or_path), None)
    if shipped is not None:
        return shipped
    try:
        path = Path(name_or_path)
        # Somebody may well point at the file itself.
        folder = path.parent if path.name == TOP_FILE and path.is_file() else path
        return folder if name_or_path and folder.is_dir() else None
    except (OSError, ValueError):
        return None


def _resolved(folder: Path) -> Path | None:
    """The folder without links, or None if there is no such folder."""
    try:
        root = folder.resolve()
        return root if root.is_dir() else None
    except (OSError, ValueError, RuntimeError):
        return None


def source_in(root: Path, name: str) -> Source:
    """A file as a whole, named from the book's folder so that no path of a machine shows."""
    return Source(printable(f"{root.name}/{name}"))


def _table_names(root: Path) -> list[str]:
    """The tables, sorted; the leftovers of editors and spreadsheets are passed by."""
    try:
        names = sorted(path.name for path in (root / TABLE_FOLDER).iterdir())
    except OSError:
        return []
    return [
        f"{TABLE_FOLDER}/{name}"
        for name in names
        if name.endswith(".csv") and not name.startswith((".", "~"))
    ]


def _read(root: Path, name: str, folder: Path) -> BookFile | None:
    """One file of a folder, which is named without links, within the limits; None if there is no
    such file."""
    path, source = folder / name.rpartition("/")[2], source_in(root, name)
    try:
        is_link = path.is_symlink()
        if not is_link and not path.exists():
            return None
        target = path.resolve() if is_link else path
        if not target.is_relative_to(root):
            return BookFile(name, problem=OutsideFolder(source))
        # A pipe or a device would wait for ever.
        if not target.is_file():
            return BookFile(name, problem=NotReadable(source))
        with target.open("rb") as stream:
            # Room for the most at once takes longer to find than a usual table to read.
            content = stream.read(USUAL_BYTES)
            if len(content) == USUAL_BYTES:
                content += stream.read(MOST_BYTES + 1 - USUAL_BYTES)
    except (OSError, ValueError, RuntimeError):
        return BookFile(name, problem=NotReadable(source))
    return _book_file(root, name, content)


def _book_file(root: Path, name: str, content: bytes) -> BookFile:
    """A file with its text, strictly UTF-8; a byte order mark is passed over."""
    source = source_in(root, name)
    if len(content) > MOST_BYTES:
        return BookFile(name, problem=FileTooLarge(source, MOST_BYTES))
    text = decode_text(content, source.name)
    if isinstance(text, Problem):
        return BookFile(name, content, problem=text)
    return BookFile(name, content, FileText(source.name, text.removeprefix("\ufeff")))


def _digest(files: tuple[BookFile, ...]) -> str:
    """SHA-256 over sorted names and bytes, each with its length so that none can be shifted."""
    digest = hashlib.sha256()
    for file in sorted(files, key=lambda each: each.name):
        name = file.name.encode("utf-8", "surrogateescape")
        for part in (name, file.content):
            digest.update(len(part).to_bytes(8, "big"))
            digest.update(part)
    return digest.hexdigest()
