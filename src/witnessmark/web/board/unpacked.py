"""A case that comes as a zip or as a document, put into an empty folder: nothing in it is trusted.

No name in a zip says where a file is written; what is counted are the bytes that come out of it,
whatever it says of itself.
"""

import re
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import IO, Final

from witnessmark.casefile import EXHIBITS_NAME
from witnessmark.casefile.exhibits import MOST_MEGABYTES as MOST_OF_EXHIBIT
from witnessmark.casefile.file_names import name_fault
from witnessmark.casefile.folder import CASE_NAME
from witnessmark.casefile.parse import MOST_MEGABYTES as MOST_OF_CASE
from witnessmark.casefile.revisions import REVISIONS_NAME
from witnessmark.problem import Problem
from witnessmark.source import Source
from witnessmark.web.board.problems import (
    NeitherZipNorCase,
    ZipBroken,
    ZipLeadsOut,
    ZipTooLarge,
    ZipWithoutCase,
)

MOST_FILES: Final = 5000
MOST_MEGABYTES: Final = 600
"""What all files of a zip may have together; a request has at most a tenth of it."""
PIECE: Final = 1 << 20
_REVISION = re.compile(r"\d{6}\.json", re.ASCII)
_LINK = 0o120000


class _RefusedError(Exception):
    """A zip of which nothing more is unpacked."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(problem.sentence())


def unpack(stream: IO[bytes], name: str, folder: Path) -> tuple[Problem, ...]:
    """Put the case of this file into an empty folder, as `open_case` finds it; gives what was
    wrong, after which nothing in the folder is to be used."""
    source = Source(name)
    head = stream.read(4)
    stream.seek(0)
    if head.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
        with (folder / CASE_NAME).open("wb") as out:
            out.write(stream.read(MOST_OF_CASE * 1_000_000 + 1))
        return ()
    if not head.startswith(b"PK"):
        return (NeitherZipNorCase(source, name),)
    try:
        with zipfile.ZipFile(stream) as packed:
            _unpack(packed, name, folder)
    except _RefusedError as refused:
        return (refused.problem,)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, ValueError):
        return (ZipBroken(source, name),)
    except (zlib.error, EOFError, OSError):
        return (ZipBroken(source, name),)
    return ()


def _unpack(packed: zipfile.ZipFile, name: str, folder: Path) -> None:
    source, entries = Source(name), packed.infolist()
    if len(entries) > MOST_FILES:
        raise _RefusedError(ZipTooLarge(source, "files", MOST_FILES))
    for each in entries:
        path = PurePosixPath(each.filename.replace("\\", "/"))
        is_out = path.is_absolute() or ".." in path.parts or ":" in each.filename
        if is_out or (each.external_attr >> 16) & 0o170000 == _LINK:
            raise _RefusedError(ZipLeadsOut(source, each.filename))
    documents = [e for e in entries if PurePosixPath(e.filename).name == CASE_NAME]
    documents = [e for e in documents if "__MACOSX" not in e.filename]
    if len(documents) != 1:
        raise _RefusedError(ZipWithoutCase(source, name, len(documents)))
    left = MOST_MEGABYTES * 1_000_000
    for entry, target, most in _wanted(entries, PurePosixPath(documents[0].filename).parent):
        place = folder / target
        place.parent.mkdir(exist_ok=True)
        left -= _written(packed, entry, place, min(left, most * 1_000_000))
        if left <= 0:
            raise _RefusedError(ZipTooLarge(source, "megabytes", MOST_MEGABYTES))


def _wanted(
    entries: list[zipfile.ZipInfo], root: PurePosixPath
) -> Iterator[tuple[zipfile.ZipInfo, str, int]]:
    """The files of a case, where each goes, and how many megabytes it may have."""
    for entry in entries:
        path = PurePosixPath(entry.filename)
        if entry.is_dir() or not path.is_relative_to(root):
            continue
        match path.relative_to(root).parts:
            case (only,) if only == CASE_NAME:
                yield entry, CASE_NAME, MOST_OF_CASE + 1
            case (where, only) if where == EXHIBITS_NAME and name_fault(only) is None:
                yield entry, f"{EXHIBITS_NAME}/{only}", MOST_OF_EXHIBIT + 1
            case (where, only) if where == REVISIONS_NAME and _REVISION.fullmatch(only):
                yield entry, f"{REVISIONS_NAME}/{only}", 2 * MOST_OF_CASE + 1


def _written(packed: zipfile.ZipFile, entry: zipfile.ZipInfo, target: Path, most: int) -> int:
    """How many bytes came out; what is too large stops at its bound and is told as that."""
    size = 0
    with packed.open(entry) as found, target.open("wb") as out:
        while size < most and (piece := found.read(min(PIECE, most - size))):
            size += len(piece)
            out.write(piece)
    return size
