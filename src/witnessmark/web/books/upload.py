"""The files of a book as they are brought: a zip of its folder, or its files one by one.

Nothing of an archive is unpacked but what a book consists of, under names that are made here, and
no more of each than a book's file may have.
"""

import re
import zipfile
import zlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import IO

from django.core.files.base import File

from witnessmark.codebook.checks.changelog import CHANGELOG
from witnessmark.codebook.folder import MOST_BYTES, MOST_FILES, TABLE_FOLDER, TOP_FILE
from witnessmark.problem import Problem, shown
from witnessmark.source import Source
from witnessmark.web.books.problems import (
    BroughtTooLarge,
    BroughtTwice,
    NoBookInside,
    NotAnArchive,
    NothingBrought,
)

MOST_IN_ALL = 40_000_000
"""Bytes of all files of a book together, unpacked."""
MOST_ENTRIES = 2_000
"""Entries of an archive that are looked at."""

_TABLE = re.compile(r"[a-z0-9][a-z0-9_-]{0,79}\.csv", re.IGNORECASE)
_ARCHIVE = b"PK\x03\x04"


@dataclass(slots=True)
class Brought:
    """The files of a book by their place in its folder, what was left out, what is wrong; `name`
    is that of the folder in an archive."""

    files: dict[str, bytes] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    name: str = ""

    def take(self, place: str, stream: IO[bytes], source: Source) -> None:
        """Read one file, no more of it than it may have."""
        room = min(MOST_BYTES, MOST_IN_ALL - sum(map(len, self.files.values())))
        content = stream.read(room + 1)
        if len(content) > room:
            most = f"{MOST_BYTES:,} bytes a file, {MOST_IN_ALL:,} in all"
            self.problems.append(BroughtTooLarge(source, shown(place), most))
        elif place in self.files:
            self.problems.append(BroughtTwice(source, place))
        elif len(self.files) > MOST_FILES:
            self.problems.append(BroughtTooLarge(source, "the book", f"{MOST_FILES} files"))
        else:
            self.files[place] = content


def brought(given: Sequence["File[bytes]"]) -> Brought:
    """What was chosen in the form."""
    found = Brought()
    if not given:
        found.problems.append(NothingBrought(Source("files")))
    for each in given:
        name = str(each.name or "").replace("\\", "/").rpartition("/")[2]
        beginning = each.read(len(_ARCHIVE))
        each.seek(0)
        if beginning == _ARCHIVE and not name.lower().endswith(".csv"):
            _unpack(found, each, Source(name))
            continue
        place = _place((name,)) or _place((TABLE_FOLDER, name))
        if place:
            found.take(place, each, Source(name))
        else:
            found.left_out.append(name)
    return found


def _unpack(found: Brought, given: "File[bytes]", source: Source) -> None:
    """The book in an archive: its book.toml that lies the least deep, and what is beside it."""
    try:
        with zipfile.ZipFile(given) as archive:
            entries = archive.infolist()
            if len(entries) > MOST_ENTRIES:
                most = f"{MOST_ENTRIES:,} entries"
                found.problems.append(BroughtTooLarge(source, "this archive", most))
                return
            paths = [(_parts(each.filename), each) for each in entries if not each.is_dir()]
            tops = [parts for parts, _ in paths if parts[-1:] == (TOP_FILE,)]
            if not tops:
                found.problems.append(NoBookInside(source))
                return
            above = min(tops, key=len)[:-1]
            found.name = above[-1] if above else ""
            for parts, entry in paths:
                is_within = parts[: len(above)] == above
                place = _place(parts[len(above) :]) if is_within else ""
                if place:
                    with archive.open(entry) as stream:
                        found.take(place, stream, Source(f"{source.name}/{place}"))
                elif not any(part.startswith((".", "__MACOSX")) for part in parts):
                    found.left_out.append("/".join(parts))
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError):
        found.problems.append(NotAnArchive(source, "cannot be read"))
    except (RuntimeError, NotImplementedError):
        found.problems.append(NotAnArchive(source, "is locked, or packed in another way"))


def _parts(name: str) -> tuple[str, ...]:
    return tuple(part for part in name.replace("\\", "/").split("/") if part)


def _place(parts: tuple[str, ...]) -> str:
    """The place of a file in a book's folder; empty where a book has none such."""
    match parts:
        case (name,) if name in (TOP_FILE, CHANGELOG):
            return name
        case (folder, name) if folder == TABLE_FOLDER and _TABLE.fullmatch(name):
            return f"{TABLE_FOLDER}/{name}"
    return ""
