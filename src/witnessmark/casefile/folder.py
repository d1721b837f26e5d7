"""A case on disk: a folder with `case.json` and, beside it, `exhibits/`."""

import errno
import os
import stat
from dataclasses import dataclass
from pathlib import Path

from witnessmark.casefile.exhibits import ExhibitFolder
from witnessmark.casefile.parse import MOST_MEGABYTES, CaseParsed, parse_casefile
from witnessmark.casefile.problems import (
    CaseAbsent,
    CaseExists,
    CaseUnreadable,
    CaseUnwritable,
    NotAFile,
)
from witnessmark.casefile.whole import put_whole, who_wrote
from witnessmark.documents.json_places import places_of
from witnessmark.documents.problems_json import TooLarge
from witnessmark.documents.utf8 import decode_text, printable
from witnessmark.problem import Problem
from witnessmark.source import Source

CASE_NAME = "case.json"
EXHIBITS_NAME = "exhibits"


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseOpened(CaseParsed):
    """A case as it was read, with the folder of its exhibits, and what is wrong with either."""

    exhibits: ExhibitFolder


def open_case(path: Path, check_exhibits: bool = True) -> CaseOpened:
    """Open a case by its folder or by the JSON itself.

    With `check_exhibits` every file in the list is read and its SHA-256
    compared. Never raises for anything that can lie on a disk.
    """
    document = document_of(path)
    exhibits = ExhibitFolder(document.parent / EXHIBITS_NAME)
    name = printable(document)
    content = read_document(document, name)
    text = content if isinstance(content, Problem) else decode_text(content, name)
    if isinstance(text, Problem):
        return CaseOpened(None, (text,), places_of(name, ""), exhibits=exhibits)
    parsed = parse_casefile(text, name)
    problems = parsed.problems
    if parsed.casefile is not None and check_exhibits:
        problems = (*problems, *exhibits.check(parsed.casefile, parsed.places))
    return CaseOpened(parsed.casefile, problems, parsed.places, parsed.changes, exhibits=exhibits)


def write_case(folder: Path, text: str, may_replace: bool = True) -> tuple[Problem, ...]:
    """Write `case.json` into the folder, which is made if need be; all of it or nothing.

    Gives what went wrong, or nothing. Where it went wrong, the case that was
    there before is still there.
    """
    target = folder / CASE_NAME
    source = Source(printable(target))
    content = text.encode("utf-8")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if not may_replace and os.path.lexists(target):
            return (CaseExists(source, who_wrote(target)),)
        put_whole(target, content, may_replace)
    except FileExistsError:
        # Another was faster, or the folder is a file.
        if os.path.lexists(target):
            return (CaseExists(source, who_wrote(target)),)
        return (CaseUnwritable(source, os.strerror(errno.EEXIST)),)
    except OSError as fault:
        return (CaseUnwritable(source, fault.strerror or "the system refuses"),)
    except ValueError:
        return (CaseUnwritable(source, "no file can have this name"),)
    return ()


def document_of(path: Path) -> Path:
    """The document of a case that is named by its folder or by the document itself."""
    try:
        return path / CASE_NAME if path.is_dir() else path
    except (OSError, ValueError):
        return path


def read_document(path: Path, name: str) -> bytes | Problem:
    """The bytes of a case, no more than a case can have."""
    source = Source(name)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return NotAFile(source)
        with path.open("rb") as stream:
            content = stream.read(MOST_MEGABYTES * 1_000_000 + 1)
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return CaseAbsent(source)
    except OSError as fault:
        return CaseUnreadable(source, fault.strerror or "the system refuses")
    if len(content) > MOST_MEGABYTES * 1_000_000:
        return TooLarge(source, MOST_MEGABYTES)
    return content
