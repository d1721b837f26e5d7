"""A backup put into an empty workshop, on either database: all of it, or nothing.

Every file is hashed before anything is written, and each exhibit and issued report once more as it
comes to lie in its place; the rows come last, in one transaction.
"""

import hashlib
import json
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import Any

from django.core.management import call_command
from django.db import transaction

from witnessmark.source import Source
from witnessmark.store.backing_up import FORMAT, FORMAT_VERSION, MANIFEST
from witnessmark.store.digest_files import (
    PIECE,
    digest_of,
    files_below,
    home,
    put_in_place,
    received_file,
)
from witnessmark.store.problems import (
    BackupSpoilt,
    FromANewerVersion,
    HomeInUse,
    NotABackup,
    NotKeptError,
    NotRestored,
)
from witnessmark.store.snapshot import applied, count_on, put_rows, tables, unknown
from witnessmark.store.upkeep import steps_ahead

_BY_DIGEST = ("exhibits", "issued")
_UNREADABLE = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError)
"""What a zip file raises that is none, or is spoilt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """What was put back: when it had been backed up, files, rows, and what was missing then."""

    made_at: datetime
    files: int
    rows: int
    missing: tuple[str, ...]


def restore(source: Path) -> Restored:
    """Put a backup into this workshop, which holds nothing yet."""
    place = Source(str(source))
    try:
        archive = zipfile.ZipFile(source)
    except (OSError, *_UNREADABLE) as fault:
        raise NotKeptError((NotABackup(place, _told(fault)),)) from fault
    with archive:
        packed = _Packed(archive, place, _manifest(archive, place))
        packed.check()
        _refuse_in_use(place)
        try:
            packed.put_files()
        except OSError as fault:
            raise NotKeptError((NotRestored(place, _told(fault)),)) from fault
        packed.put_all_rows()
    if steps_ahead():
        call_command("migrate", verbosity=0, interactive=False)
    return Restored(
        made_at=datetime.fromisoformat(packed.manifest["made_at"]),
        files=len(packed.files),
        rows=sum(packed.manifest["rows"].values()),
        missing=tuple(packed.manifest["missing"]),
    )


def _manifest(archive: zipfile.ZipFile, source: Source) -> Mapping[str, Any]:
    """What the backup says is in it, as far as this version can read it."""
    try:
        found = json.loads(archive.read(MANIFEST))
        known = {name: found[name] for name in ("files", "rows", "migrations")}
        datetime.fromisoformat(found["made_at"])
        if found["format"] != FORMAT or {type(each) for each in known.values()} != {dict}:
            raise ValueError(MANIFEST)
        newer = unknown(found["migrations"])
        if found["format_version"] != FORMAT_VERSION or newer:
            told = ", ".join(newer) or f"backup format {found['format_version']}"
            raise NotKeptError((FromANewerVersion(source, told),))
    except NotKeptError:
        raise
    except (KeyError, TypeError, ValueError, *_UNREADABLE):
        raise NotKeptError((NotABackup(source, f"it has no {MANIFEST}"),)) from None
    return dict(found)


@dataclass(frozen=True, slots=True)
class _Packed:
    """A backup, and what its manifest tells of it."""

    archive: zipfile.ZipFile
    source: Source
    manifest: Mapping[str, Any]

    @property
    def files(self) -> Mapping[str, Mapping[str, Any]]:
        """Each file's size and SHA-256 by its name."""
        found: Mapping[str, Mapping[str, Any]] = self.manifest["files"]
        return found

    def check(self) -> None:
        """Refuse it all where one file does not fit."""
        there = set(self.archive.namelist()) - {MANIFEST}
        faults = dict.fromkeys(there - self.files.keys(), "the manifest does not name it")
        faults |= dict.fromkeys(self.files.keys() - there, "it is not there")
        for name in sorted(there & self.files.keys()):
            if fault := _name_fault(name, self.files[name]["sha256"]) or self._fault(name):
                faults[name] = fault
        if faults:
            raise NotKeptError(BackupSpoilt(self.source, *each) for each in sorted(faults.items()))

    def put_files(self) -> None:
        """Each file in its place."""
        for name in self.files:
            if name.startswith("rows/"):
                continue
            with self.archive.open(name) as stream, received_file(stream) as beside:
                if digest_of(beside) != self.files[name]["sha256"]:
                    raise NotKeptError((BackupSpoilt(self.source, name, "it changed meanwhile"),))
                if name.split("/")[0] in _BY_DIGEST:
                    put_in_place(beside, home() / name)
                else:
                    (home() / name).parent.mkdir(parents=True, exist_ok=True)
                    beside.replace(home() / name)

    def put_all_rows(self) -> None:
        """The tables as they were in that version, and every row."""
        migrations = self.manifest["migrations"]
        now = applied()
        for app, name in sorted(migrations.items()):
            if now.get(app) == name:
                continue
            call_command("migrate", app, name, verbosity=0, interactive=False)
        found = tables(migrations)
        with transaction.atomic():
            for table in found:
                name = f"rows/{table._meta.label_lower}.jsonl"
                if name in self.files:
                    with self.archive.open(name) as lines:
                        put_rows(table, iter(lines))
            count_on(found)

    def _fault(self, name: str) -> str:
        """Why a file is not the one that was written; empty where it is."""
        hashed = hashlib.sha256()
        try:
            with self.archive.open(name) as stream:
                while piece := stream.read(PIECE):
                    hashed.update(piece)
        except (OSError, *_UNREADABLE) as fault:
            return _told(fault)
        wanted = self.files[name]
        return (
            "" if hashed.hexdigest() == wanted["sha256"] else f"its SHA-256 is {hashed.hexdigest()}"
        )


def _told(fault: Exception) -> str:
    """What the system or the zip file says is wrong."""
    return getattr(fault, "strerror", None) or str(fault) or "it breaks off"


def _name_fault(name: str, sha256: str) -> str:
    """Why a file of this name is none of a backup; empty where it can be one."""
    path = PurePosixPath(name)
    top = path.parts[0] if path.parts else ""
    is_plain = str(path) == name and "\\" not in name and ".." not in path.parts
    if not is_plain or ":" in name or len(path.parts) < 2:
        return "it would lie elsewhere"
    if top in _BY_DIGEST:
        return "" if path.stem == sha256 and path.parts[1:-1] == (sha256[:2],) else "another digest"
    is_ours = top in ("rows", "languages") or top.startswith("books")
    return "" if is_ours else "it would lie elsewhere"


def _refuse_in_use(source: Source) -> None:
    """Nothing is put over what somebody has; a file by its digest takes nobody's place."""
    held = [
        path.name
        for path in sorted([*home().glob("books*"), *home().glob("languages")])
        if any(files_below(path))
    ]
    found = applied()
    held += [
        str(table._meta.verbose_name_plural)
        for table in (tables(found) if found else ())
        if table._base_manager.exists()
    ]
    if held:
        raise NotKeptError((HomeInUse(source, ", ".join(held)),))
