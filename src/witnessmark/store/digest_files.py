"""Files by their digest, each written once: beside its place, to the disk, then into it in one
step. A machine that stops between two steps leaves a file in `coming/`, and nothing half written.
"""

import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import IO

from django.conf import settings

PIECE = 1 << 20
"""Bytes that are taken from a stream at once."""


class TooLongError(Exception):
    """A stream that holds more than it may."""


def home() -> Path:
    """The folder that holds everything."""
    return Path(settings.WITNESSMARK_HOME)


@contextmanager
def received_file(stream: IO[bytes], most: int | None = None) -> Iterator[Path]:
    """A stream as a file that is on the disk and in nobody's place; gone at the end, unless it
    was put in one. `TooLongError` where there are more than `most` bytes."""
    coming = home() / "coming"
    coming.mkdir(parents=True, exist_ok=True)
    beside = coming / os.urandom(12).hex()
    try:
        size = 0
        with beside.open("xb") as out:
            while piece := stream.read(PIECE):
                size += len(piece)
                if most is not None and size > most:
                    raise TooLongError
                out.write(piece)
            out.flush()
            os.fsync(out.fileno())
        yield beside
    finally:
        beside.unlink(missing_ok=True)


def put_in_place(beside: Path, target: Path) -> None:
    """Let a file that is whole and on the disk take its place, and its name last. The stem of
    the target is the digest: one that is there is left alone, one that is spoilt is replaced."""
    if not target.parent.is_dir():
        target.parent.mkdir(parents=True, exist_ok=True)
        let_names_last(target.parent.parent)
    if digest_of(target) != target.stem:
        beside.replace(target)
        let_names_last(target.parent)


def digest_of(path: Path) -> str:
    """The SHA-256 of a file, read piece by piece; empty where there is none."""
    with suppress(FileNotFoundError), path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()
    return ""


def let_names_last(folder: Path) -> None:
    """Let the names in a folder outlast a loss of power, where the system can see to that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def files_below(folder: Path) -> Iterator[Path]:
    """Every file below a folder, in order; no link is followed."""
    for root, folders, names in os.walk(folder):
        folders.sort()
        yield from (path for name in sorted(names) if not (path := Path(root, name)).is_symlink())


def forget_unfinished(before: datetime) -> int:
    """Clear away what began to come before this moment and never arrived; gives how many."""
    gone = 0
    for path in files_below(home() / "coming"):
        with suppress(FileNotFoundError):  # it has arrived meanwhile
            if path.stat().st_mtime < before.timestamp():
                path.unlink()
                gone += 1
    return gone
