"""A code book's folder on disk: read within limits, never outside it."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.checked import (
    SHIPPED,
    checked_line,
    checked_lines,
    is_other_than_shipped,
)
from witnessmark.codebook.checks.changelog import CHANGELOG, check_changelog
from witnessmark.codebook.parse import parse_book
from witnessmark.codebook.problems_folder import (
    FileTooLarge,
    NoBookFile,
    NoFolder,
    NotReadable,
    OutsideFolder,
    TooManyFiles,
)
from witnessmark.documents.changes import FormatChange
from witnessmark.documents.entries import FileText
from witnessmark.documents.utf8 import decode_text
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BYTES = 2 * 1024 * 1024
USUAL_BYTES = 64 * 1024
MOST_FILES = 200
TOP_FILE = "book.toml"
TABLE_FOLDER = "tables"


@dataclass(frozen=True, slots=True)
class BookOpened:
    """The book, or None where it cannot be built at all, its problems and its digest.

    `sha256` is taken over the sorted names, relative to the folder, and the
    bytes of book.toml and its tables; empty where there is no book.toml. `changes` is what
    stands otherwise in a book.toml of the format before, which is read as it is.
    """

    book: CodeBook | None
    problems: tuple[Problem, ...]
    sha256: str
    changes: tuple[FormatChange, ...] = ()

    @property
    def is_other_than_shipped(self) -> bool:
        """Does it bear the id of a shipped book, and hold something else?"""
        return self.book is not None and is_other_than_shipped(self.sha256, self.book.id)


@dataclass(frozen=True, slots=True)
class _FileRead:
    """One file of the folder: its bytes, and its text or the problem that there is none."""

    name: str
    content: bytes = b""
    text: FileText | None = None
    problem: Problem | None = None


def open_book(folder: Path, *, anew: bool = False) -> BookOpened:
    """Read the book in this folder. Whatever is wrong with it is a problem, never an exception.

    A shipped book that is unchanged since its checks were run is checked across its tables
    only where this is asked for: `anew`.
    """
    root = _resolved(folder)
    if root is None:
        return BookOpened(None, (NoFolder(Source(_plain(str(folder)))),), "")
    top = _read(root, TOP_FILE)
    if top is None:
        return BookOpened(None, (NoBookFile(_source(root, TOP_FILE)),), "")
    names = _table_names(root)
    read = [file for name in names[: MOST_FILES - 1] if (file := _read(root, name))]
    problems = [file.problem for file in (top, *read) if file.problem]
    if len(names) > MOST_FILES - 1:
        problems.append(TooManyFiles(_source(root, TABLE_FOLDER), MOST_FILES))
    sha256 = _digest((top, *read))
    if top.text is None:
        return BookOpened(None, tuple(problems), sha256)
    tables = tuple(file.text for file in read if file.text)
    unread = frozenset(names) - {file.name for file in read if file.text}
    is_checked = not anew and checked_line(sha256, root.name) in checked_lines()
    parsed = parse_book(top.text, tables, root.name, unread, is_checked=is_checked)
    return BookOpened(parsed.book, (*problems, *parsed.problems), sha256, parsed.changes)


def changelog_problems(folder: Path, version: str) -> tuple[Problem, ...]:
    """Whether the changelog in this book's folder, where there is one, begins with its version.

    A book with an old changelog can be used all the same; only its author is told.
    """
    root = _resolved(folder)
    read = _read(root, CHANGELOG) if root is not None else None
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


def _plain(name: str) -> str:
    """A name that can be printed, whatever bytes it has on disk."""
    return name.encode("utf-8", "backslashreplace").decode("utf-8")


def _source(root: Path, name: str) -> Source:
    """A file as a whole, named from the book's folder so that no path of a machine shows."""
    return Source(_plain(f"{root.name}/{name}"))


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


def _read(root: Path, name: str) -> _FileRead | None:
    """One file within the limits; None if there is no such file."""
    path, source = root / name, _source(root, name)
    try:
        if not path.is_symlink() and not path.exists():
            return None
        target = path.resolve()
        if not target.is_relative_to(root):
            return _FileRead(name, problem=OutsideFolder(source))
        # A pipe or a device would wait for ever.
        if not target.is_file():
            return _FileRead(name, problem=NotReadable(source))
        with target.open("rb") as stream:
            # Room for the most at once takes longer to find than a usual table to read.
            content = stream.read(USUAL_BYTES)
            if len(content) == USUAL_BYTES:
                content += stream.read(MOST_BYTES + 1 - USUAL_BYTES)
    except (OSError, ValueError, RuntimeError):
        return _FileRead(name, problem=NotReadable(source))
    if len(content) > MOST_BYTES:
        return _FileRead(name, problem=FileTooLarge(source, MOST_BYTES))
    return _decoded(name, content, source)


def _decoded(name: str, content: bytes, source: Source) -> _FileRead:
    """A file with its text, strictly UTF-8; a byte order mark is passed over."""
    text = decode_text(content, source.name)
    if isinstance(text, Problem):
        return _FileRead(name, content, problem=text)
    return _FileRead(name, content, FileText(source.name, text.removeprefix("\ufeff")))


def _digest(files: tuple[_FileRead, ...]) -> str:
    """SHA-256 over sorted names and bytes, each with its length so that none can be shifted."""
    digest = hashlib.sha256()
    for file in sorted(files, key=lambda each: each.name):
        name = file.name.encode("utf-8", "surrogateescape")
        for part in (name, file.content):
            digest.update(len(part).to_bytes(8, "big"))
            digest.update(part)
    return digest.hexdigest()
