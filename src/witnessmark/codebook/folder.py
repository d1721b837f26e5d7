"""A code book's folder on disk: read within limits, never outside it."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.entries import FileText
from witnessmark.codebook.parse import parse_book
from witnessmark.codebook.problems import (
    FileTooLarge,
    NoBookFile,
    NoFolder,
    NotReadable,
    NotUtf8,
    OutsideFolder,
    TooManyFiles,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BYTES = 2 * 1024 * 1024
MOST_FILES = 200
TOP_FILE = "book.toml"
TABLE_FOLDER = "tables"
SHIPPED = Path(__file__).parent / "books"


@dataclass(frozen=True, slots=True)
class BookOpened:
    """The book, or None where it cannot be built at all, its problems and its digest.

    `sha256` is taken over the sorted names, relative to the folder, and the
    bytes of book.toml and its tables; empty where there is no book.toml.
    """

    book: CodeBook | None
    problems: tuple[Problem, ...]
    sha256: str


@dataclass(frozen=True, slots=True)
class _FileRead:
    """One file: its bytes if it could be read, else its problem."""

    name: str
    content: bytes = b""
    problem: Problem | None = None


def open_book(folder: Path) -> BookOpened:
    """Read the book in this folder. Whatever is wrong with it is a problem, never an exception."""
    try:
        root = folder.resolve()
        is_folder = root.is_dir()
    except (OSError, ValueError, RuntimeError):
        return BookOpened(None, (NoFolder(Source(str(folder))),), "")
    if not is_folder:
        return BookOpened(None, (NoFolder(Source(str(folder))),), "")
    top = _read(root, root / TOP_FILE)
    if top is None:
        return BookOpened(None, (NoBookFile(Source(f"{root.name}/{TOP_FILE}")),), "")
    names = _table_names(root)
    problems: list[Problem] = []
    if len(names) + 1 > MOST_FILES:
        problems.append(TooManyFiles(Source(f"{root.name}/{TABLE_FOLDER}"), MOST_FILES))
        names = names[: MOST_FILES - 1]
    found = [_read(root, root / TABLE_FOLDER / name) for name in names]
    files = [top, *(file for file in found if file is not None)]
    texts: list[FileText] = []
    for file in files:
        text = _decoded(file, f"{root.name}/{file.name}")
        problems += [text] if isinstance(text, Problem) else []
        texts += [text] if isinstance(text, FileText) else []
    sha256 = _digest(files)
    if not texts or texts[0].name != f"{root.name}/{TOP_FILE}":
        return BookOpened(None, tuple(problems), sha256)
    parsed = parse_book(texts[0], tuple(texts[1:]), root.name)
    return BookOpened(parsed.book, (*problems, *parsed.problems), sha256)


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


def _table_names(root: Path) -> list[str]:
    """The names of the tables, sorted; the leftovers of editors and spreadsheets are passed by."""
    try:
        entries = sorted(path.name for path in (root / TABLE_FOLDER).iterdir())
    except OSError:
        return []
    return [name for name in entries if name.endswith(".csv") and not name.startswith((".", "~"))]


def _read(root: Path, path: Path) -> _FileRead | None:
    """One file with its limits; None if there is no such file."""
    name = path.relative_to(root).as_posix()
    source = Source(f"{root.name}/{name}")
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
            content = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError, RuntimeError):
        return _FileRead(name, problem=NotReadable(source))
    if len(content) > MOST_BYTES:
        return _FileRead(name, problem=FileTooLarge(source, MOST_BYTES))
    return _FileRead(name, content)


def _decoded(file: _FileRead, name: str) -> FileText | Problem:
    """The text of a file, strictly UTF-8; a byte order mark is passed over."""
    if file.problem is not None:
        return file.problem
    content = file.content.removeprefix(b"\xef\xbb\xbf")
    try:
        return FileText(name, content.decode("utf-8"))
    except UnicodeDecodeError as fault:
        before = content[: fault.start]
        start = before.rfind(b"\n") + 1
        end = content.find(b"\n", fault.start)
        line = content[start : end if end >= 0 else len(content)]
        place = Source(
            name,
            before.count(b"\n") + 1,
            len(before[start:].decode("utf-8")) + 1,
            1,
            line.decode("utf-8", "replace").rstrip("\r"),
        )
        return NotUtf8(place, content[fault.start])


def _digest(files: list[_FileRead]) -> str:
    """SHA-256 over sorted names and bytes, each with its length so that none can be shifted."""
    digest = hashlib.sha256()
    for file in sorted(files, key=lambda each: each.name):
        name = file.name.encode("utf-8", "surrogateescape")
        for part in (name, file.content):
            digest.update(len(part).to_bytes(8, "big"))
            digest.update(part)
    return digest.hexdigest()
