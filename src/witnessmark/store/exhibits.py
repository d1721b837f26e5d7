"""Exhibits by digest: `exhibits/ab/abcdef….jpg` below the workshop's folder, written once.

A file is written beside its place, brought to the disk, checked as every exhibit is, and put in its
place in one step; only then does a row speak of it.
"""

import hashlib
import os
from contextlib import suppress
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import IO

from django.conf import settings

from witnessmark.casefile.exhibits import MOST_MEGABYTES, Exhibit, received
from witnessmark.casefile.file_names import MEDIA_TYPES
from witnessmark.casefile.problems import ExhibitTooLarge
from witnessmark.source import NOWHERE, Source
from witnessmark.store.models import HeldExhibit
from witnessmark.store.moments import columns, moment
from witnessmark.store.problems import ExhibitNotHeld, NotKeptError
from witnessmark.store.records import KeptExhibit

PIECE = 1 << 20
"""Bytes that are taken from a stream at once."""
COMING = "coming"
"""The folder of files that are still being received."""
_ENDINGS = {kind: ending for ending, kind in reversed(MEDIA_TYPES.items())}


def keep_exhibit(
    content: bytes | IO[bytes], name: str, at: datetime, source: Source = NOWHERE
) -> KeptExhibit:
    """Keep a photograph or document; `name` is its sender's, for what is wrong with it. One that
    is here already is the same one."""
    coming = folder() / COMING
    coming.mkdir(parents=True, exist_ok=True)
    beside = coming / os.urandom(12).hex()
    try:
        _receive(BytesIO(content) if isinstance(content, bytes) else content, beside, name, source)
        found = received(beside.read_bytes(), name, source)
        if found.exhibit is None:
            raise NotKeptError(found.problems)
        put_in_place(beside, folder() / found.exhibit.entry.sha256[:2] / found.exhibit.entry.file)
        return _row(found.exhibit, at)
    finally:
        beside.unlink(missing_ok=True)


def exhibit(sha256: str) -> KeptExhibit:
    """The exhibit of this digest."""
    row = HeldExhibit.objects.filter(sha256=sha256).first()
    if row is None:
        raise NotKeptError((ExhibitNotHeld(NOWHERE, sha256),))
    return _kept(row)


def exhibit_path(sha256: str) -> Path:
    """Where the file of this digest lies; the digest is one that is held."""
    return path_of(exhibit(sha256))


def path_of(kept: KeptExhibit) -> Path:
    """Where the file of an exhibit lies."""
    return folder() / kept.sha256[:2] / kept.file


def folder() -> Path:
    """The folder of all exhibits."""
    return Path(settings.WITNESSMARK_HOME) / "exhibits"


def put_in_place(beside: Path, target: Path) -> None:
    """Let a file that is whole and on the disk take its place, and its name last."""
    if not target.parent.is_dir():
        target.parent.mkdir(exist_ok=True)
        _last(target.parent.parent)
    if digest_of(target) != target.stem:  # not there, or spoilt
        beside.replace(target)
        _last(target.parent)


def digest_of(path: Path) -> str:
    """The SHA-256 of a file, read piece by piece; empty where there is none."""
    with suppress(FileNotFoundError), path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()
    return ""


def _receive(stream: IO[bytes], beside: Path, name: str, source: Source) -> None:
    """Bring a stream to the disk, no more of it than an exhibit may have."""
    size = 0
    with beside.open("xb") as out:
        while piece := stream.read(PIECE):
            size += len(piece)
            if size > MOST_MEGABYTES * 1_000_000:
                raise NotKeptError((ExhibitTooLarge(source, name, MOST_MEGABYTES),))
            out.write(piece)
        out.flush()
        os.fsync(out.fileno())


def _last(folder: Path) -> None:
    """Let the names in a folder outlast a loss of power, where the system can see to that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _row(found: Exhibit, at: datetime) -> KeptExhibit:
    row, _is_new = HeldExhibit.objects.get_or_create(
        sha256=found.entry.sha256,
        defaults={
            "size": len(found.content),
            "media_type": found.media_type,
            "width": found.width_px,
            "height": found.height_px,
            **columns(at),
        },
    )
    return _kept(row)


def _kept(row: HeldExhibit) -> KeptExhibit:
    return KeptExhibit(
        sha256=row.sha256,
        size=row.size,
        media_type=row.media_type,
        width_px=row.width,
        height_px=row.height,
        file=f"{row.sha256}{_ENDINGS[row.media_type]}",
        at=moment(row.at, row.offset_minutes),
    )
