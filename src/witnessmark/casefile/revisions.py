"""The revisions of a case: `revisions/000001.json` and so on beside `case.json`, none overwritten.

Each is one state of the document, whole, with the digest of the one before it, the moment, who,
and what was done. A change is written as `next.json`, then the document is replaced, then the
file gets its number: whatever breaks off between two of these steps is finished by the next
command. What somebody else wrote into the document is a revision too, before the change.
"""

import hashlib
import json
import os
import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from witnessmark.casefile.folder import CASE_NAME
from witnessmark.casefile.parse import MOST_MEGABYTES
from witnessmark.casefile.problems import (
    CaseMovedOn,
    CaseUnreadable,
    CaseUnwritable,
    NothingToUndo,
    RevisionAbsent,
    RevisionBroken,
)
from witnessmark.casefile.whole import put_whole, who_wrote
from witnessmark.documents.json_places import places_of
from witnessmark.documents.json_rows import JsonRows
from witnessmark.documents.open_row import OpenRow, as_json, noted
from witnessmark.documents.row import form, free_text, moment, word
from witnessmark.documents.row import number as whole
from witnessmark.problem import Problem
from witnessmark.source import Source

REVISIONS_NAME: Final = "revisions"
PENDING_NAME: Final = "next.json"
FORMAT: Final = "witnessmark-revision"
FOUND: Final = "found like this"
"""What a revision says that no command made: the first, and what was written by other means."""

_NUMBERED = re.compile(r"(\d{6})\.json", re.ASCII)
_MOST_REVISIONS = 999_999
_DIGEST = r"(?:[0-9a-f]{64})?"


class Revision(OpenRow, called="a revision"):
    """One state of a case document, and how it came about."""

    format: str = word("the word that says this is a revision", (FORMAT,), default=FORMAT)
    format_version: int = whole("the version of this format", 1, 1, default=1)
    number: int = whole("which it is, from 1", 1, _MOST_REVISIONS)
    parent: str = form("the SHA-256 of the document before; empty for the first", _DIGEST)
    sha256: str = form("the SHA-256 of the document", _DIGEST)
    when: datetime | None = moment("when it was made, such as 2025-03-14T10:30", default=None)
    who: str = noted("who made it")
    did: str = noted("what was done")
    undoes: int | None = whole("the revision that it takes back", 1, _MOST_REVISIONS, default=None)
    case: str = free_text("the whole document, as it was written", most=MOST_MEGABYTES * 1_000_000)


@dataclass(frozen=True, slots=True)
class Alteration:
    """What is to be written, by whom and when, what was done, and the revision taken back."""

    case: str
    did: str
    who: str
    when: datetime
    undoes: int | None = None


@dataclass(frozen=True, slots=True)
class Revisions:
    """The revisions of the case in this document; only one writer at a time may ask for a change.

    A revision that cannot be read, or a disk that refuses, is a problem and no exception.
    """

    document: Path

    @property
    def folder(self) -> Path:
        """Where they lie; those of a document with another name apart."""
        name = self.document.name
        own = REVISIONS_NAME if name == CASE_NAME else f"{name}.{REVISIONS_NAME}"
        return self.document.parent / own

    def numbers(self) -> list[int]:
        """The numbers there are, in order."""
        try:
            names = [each.name for each in self.folder.iterdir()]
        except (OSError, ValueError):
            return []
        return sorted(int(found[1]) for name in names if (found := _NUMBERED.fullmatch(name)))

    def read(self, wanted: int) -> Revision | Problem:
        """The revision of this number."""
        found = self._in(self.file(wanted))
        if isinstance(found, Revision) and found.number != wanted:
            return RevisionBroken(Source(str(self.file(wanted))), f"it says {found.number}")
        return found

    def all(self) -> Iterator[Revision | Problem]:
        """Each that there is, the first one first."""
        return map(self.read, self.numbers())

    def settle(self) -> Problem | None:
        """Finish a change that broke off between two writes, if there is one."""
        pending = self.folder / PENDING_NAME
        if not pending.is_file():
            return None
        found = self._in(pending)
        if isinstance(found, Problem):
            return found
        try:
            if digest(self.document.read_bytes()) == found.parent:
                put_whole(self.document, found.case.encode("utf-8"), may_replace=True)
            pending.replace(self.file(found.number))
        except OSError as fault:
            return _unwritable(self.document, fault)
        return None

    def found(self, was: bytes, when: datetime) -> Problem | None:
        """Keep the document as it stands, where it is not what the last revision says."""
        try:
            head = self._head(was, when) if self.numbers() else None
        except OSError as fault:
            return _unwritable(self.document, fault)
        return head if isinstance(head, Problem) else None

    def record(self, was: bytes, change: Alteration) -> Revision | Problem:
        """Replace the document, which held `was`, by the text of a change, and keep both."""
        pending = self.folder / PENDING_NAME
        try:
            self.folder.mkdir(exist_ok=True)
            head = self._head(was, change.when)
            if isinstance(head, Problem):
                return head
            made = _revision(change, head.number + 1, head.sha256)
            put_whole(pending, rendered(made), may_replace=False)
            try:
                if self.document.read_bytes() != was:
                    return CaseMovedOn(Source(str(self.document)), who_wrote(self.document))
                put_whole(self.document, change.case.encode("utf-8"), may_replace=True)
                pending.replace(self.file(made.number))
            finally:
                self._forget(pending, made)
        except FileExistsError:
            return CaseMovedOn(Source(str(self.document)), who_wrote(self.document))
        except OSError as fault:
            return _unwritable(self.document, fault)
        return made

    def to_undo(self) -> Revision | Problem:
        """The latest change that stands: neither taken back, nor itself taking one back."""
        undone: set[int] = set()
        for each in reversed(self.numbers()):
            found = self.read(each)
            if isinstance(found, Problem):
                return found
            if found.undoes is not None:
                undone.add(found.undoes)
            elif each not in undone:
                return found if found.parent else NothingToUndo(Source(str(self.document)))
        return NothingToUndo(Source(str(self.document)))

    def _head(self, was: bytes, when: datetime) -> Revision | Problem:
        """The last revision, which is the document as it stands: one is added where it is not."""
        numbers = self.numbers()
        last = self.read(numbers[-1]) if numbers else None
        if isinstance(last, Problem) or (last is not None and last.sha256 == digest(was)):
            return last
        try:
            found = Alteration(was.decode("utf-8"), FOUND, "", when)
        except UnicodeDecodeError:
            return CaseUnreadable(Source(str(self.document)), "it is not UTF-8 text")
        head = _revision(found, last.number + 1 if last else 1, last.sha256 if last else "")
        put_whole(self.file(head.number), rendered(head), may_replace=False)
        return head

    def _forget(self, pending: Path, made: Revision) -> None:
        """Away with what was to come, unless the document has become it."""
        with suppress(OSError):
            if digest(self.document.read_bytes()) != made.sha256:
                pending.unlink(missing_ok=True)

    def file(self, wanted: int) -> Path:
        """Where the revision of this number lies."""
        return self.folder / f"{wanted:06}.json"

    def _in(self, file: Path) -> Revision | Problem:
        source = Source(str(file))
        try:
            text = file.read_bytes().decode("utf-8")
            rows, values = JsonRows(places_of(str(file), text)), json.loads(text)
        except FileNotFoundError:
            return RevisionAbsent(source)
        except OSError as fault:
            return RevisionBroken(source, fault.strerror or "it cannot be read")
        except (ValueError, RecursionError):
            return RevisionBroken(source, "it is not JSON in UTF-8")
        found = rows.row(Revision, values) if isinstance(values, dict) else None
        if found is None:
            told = [each.sentence() for each in rows.problems()]
            return RevisionBroken(source, told[0] if told else "it is not an object")
        try:
            is_whole = digest(found.case.encode("utf-8")) == found.sha256
            f"{found.who}{found.did}".encode()
        except UnicodeEncodeError:
            return RevisionBroken(source, "it holds half a sign, which no text has")
        if not is_whole:
            return RevisionBroken(source, "its text is not that of its SHA-256")
        return found


def digest(content: bytes) -> str:
    """The SHA-256 of a document, in small letters."""
    return hashlib.sha256(content).hexdigest()


def _revision(change: Alteration, which: int, parent: str) -> Revision:
    return Revision(
        number=which,
        parent=parent,
        sha256=digest(change.case.encode("utf-8")),
        when=change.when,
        who=change.who,
        did=change.did,
        undoes=change.undoes,
        case=change.case,
    )


def rendered(revision: Revision) -> bytes:
    """The file of a revision, as it is written."""
    return (json.dumps(as_json(revision), indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def _unwritable(document: Path, fault: OSError) -> Problem:
    return CaseUnwritable(Source(str(document)), fault.strerror or os.strerror(fault.errno or 0))
