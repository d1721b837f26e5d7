"""Exhibits by digest: `exhibits/ab/abcdef….jpg` below the workshop's folder, written once.

Each is checked as every exhibit is, by its content; only when it lies in its place, on the disk,
does a row speak of it.
"""

from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import IO

from witnessmark.casefile.exhibits import MOST_MEGABYTES, Exhibit, received
from witnessmark.casefile.file_names import MEDIA_TYPES
from witnessmark.casefile.problems import ExhibitTooLarge
from witnessmark.source import NOWHERE, Source
from witnessmark.store.digest_files import (
    TooLongError,
    files_below,
    home,
    put_in_place,
    received_file,
)
from witnessmark.store.models import HeldExhibit, IssuedReport
from witnessmark.store.moments import columns, moment
from witnessmark.store.problems import ExhibitNotHeld, NotKeptError
from witnessmark.store.records import KeptExhibit

_ENDINGS = {kind: ending for ending, kind in reversed(MEDIA_TYPES.items())}


def keep_exhibit(
    content: bytes | IO[bytes], name: str, at: datetime, source: Source = NOWHERE
) -> KeptExhibit:
    """Keep a photograph or document; `name` is its sender's, for what is wrong with it. One that
    is here already is the same one."""
    stream = BytesIO(content) if isinstance(content, bytes) else content
    try:
        with received_file(stream, MOST_MEGABYTES * 1_000_000) as beside:
            found = received(beside.read_bytes(), name, source)
            if found.exhibit is None:
                raise NotKeptError(found.problems)
            put_in_place(beside, place_of(found.exhibit.entry.file))
            return _row(found.exhibit, at)
    except TooLongError:
        raise NotKeptError((ExhibitTooLarge(source, name, MOST_MEGABYTES),)) from None


def exhibit(sha256: str) -> KeptExhibit:
    """The exhibit of this digest."""
    row = HeldExhibit.objects.filter(sha256=sha256).first()
    if row is None:
        raise NotKeptError((ExhibitNotHeld(NOWHERE, sha256),))
    return _kept(row)


def exhibit_path(sha256: str) -> Path:
    """Where the file of this exhibit lies."""
    return place_of(exhibit(sha256).file)


def file_of(sha256: str, media_type: str) -> str:
    """The name of an exhibit's file."""
    return f"{sha256}{_ENDINGS[media_type]}"


def folder() -> Path:
    """The folder of all exhibits."""
    return home() / "exhibits"


@dataclass(frozen=True, slots=True, kw_only=True)
class Orphans:
    """What does not fit: files that nothing speaks of, what is spoken of and is not there, and
    what began to come and never arrived. The first and the last do no harm."""

    files: tuple[Path, ...]
    rows: tuple[str, ...]
    unfinished: tuple[Path, ...]


def orphans() -> Orphans:
    """Compare the folders with the rows; each path is told from the workshop's folder."""
    from witnessmark.store.issued import files_issued

    held = HeldExhibit.objects.values_list("sha256", "media_type")
    told = {f"exhibits/{sha256[:2]}/{file_of(sha256, kind)}" for sha256, kind in held}
    told |= files_issued(IssuedReport.objects.values_list("files", flat=True))
    there = {
        path.relative_to(home()).as_posix(): path
        for name in ("exhibits", "issued")
        for path in files_below(home() / name)
    }
    return Orphans(
        files=tuple(Path(each) for each in there if each not in told),
        rows=tuple(sorted(told - there.keys())),
        unfinished=tuple(each.relative_to(home()) for each in files_below(home() / "coming")),
    )


def place_of(file: str) -> Path:
    """Where a file of this name lies among the exhibits."""
    return folder() / file[:2] / file


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
        file=file_of(row.sha256, row.media_type),
        at=moment(row.at, row.offset_minutes),
    )
