"""A backup put into an empty workshop, on either database: all of it, or nothing.

Every file is hashed before anything is written, and each exhibit and issued report once more as it
comes to lie in its place; the rows come last, in one transaction.
"""

import hashlib
import json
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import Any

from django.core.management import call_command
from django.db import transaction

from witnessmark.source import Source
from witnessmark.store.backup import FORMAT, FORMAT_VERSION, MANIFEST
from witnessmark.store.digest_files import PIECE, digest_of, home, put_in_place, received_file
from witnessmark.store.problems import (
    BackupSpoilt,
    FromANewerVersion,
    HomeInUse,
    NotABackup,
    NotKeptError,
)
from witnessmark.store.snapshot import applied, count_on, put_rows, tables, unknown

_BY_DIGEST = ("exhibits", "issued")


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """What was put back: when it had been backed up, files, rows, and what was missing then."""

    made_at: datetime
    files: int
    rows: int
    missing: tuple[str, ...]


def restore(source: Path) -> Restored:
    """Put a backup into this workshop, which holds nothing yet."""
    try:
        with zipfile.ZipFile(source) as archive:
            told = _Told.of(archive, source)
            told.check()
            _refuse_in_use(source)
            told.put_files()
            told.put_all_rows()
    except (OSError, zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError) as fault:
        reason = getattr(fault, "strerror", None) or str(fault) or "it breaks off"
        raise NotKeptError((NotABackup(Source(str(source)), reason),)) from fault
    call_command("migrate", verbosity=0, interactive=False)
    return Restored(
        made_at=datetime.fromisoformat(told.manifest["made_at"]),
        files=len(told.files),
        rows=sum(told.manifest["rows"].values()),
        missing=tuple(told.manifest["missing"]),
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """A backup, and what its manifest tells of it."""

    archive: zipfile.ZipFile
    source: Source
    manifest: Mapping[str, Any]

    @classmethod
    def of(cls, archive: zipfile.ZipFile, path: Path) -> "_Told":
        """Read the manifest."""
        source = Source(str(path))
        try:
            manifest = json.loads(archive.read(MANIFEST))
            is_ours = manifest["format"] == FORMAT
            version = manifest["format_version"]
            datetime.fromisoformat(manifest["made_at"])
            if not is_ours or {type(manifest[k]) for k in ("files", "rows", "migrations")} != {
                dict
            }:
                raise ValueError
        except (KeyError, TypeError, ValueError):
            raise NotKeptError((NotABackup(source, f"it has no {MANIFEST}"),)) from None
        newer = unknown(manifest["migrations"])
        if version != FORMAT_VERSION or newer:
            found = ", ".join(newer) or f"backup format {version}"
            raise NotKeptError((FromANewerVersion(source, found),))
        return cls(archive, source, manifest)

    @property
    def files(self) -> Mapping[str, Mapping[str, Any]]:
        """Each file's size and SHA-256 by its name."""
        found: Mapping[str, Mapping[str, Any]] = self.manifest["files"]
        return found

    def check(self) -> None:
        """Refuse it all where one file does not fit."""
        there = set(self.archive.namelist()) - {MANIFEST}
        faults = {name: "the manifest does not name it" for name in there - self.files.keys()}
        faults |= {name: "it is not there" for name in self.files.keys() - there}
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
        for app, name in sorted(migrations.items()):
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
        hashed, size = hashlib.sha256(), 0
        try:
            for piece in _pieces(self.archive, name):
                hashed.update(piece)
                size += len(piece)
        except (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError, OSError) as fault:
            return str(fault) or "it breaks off"
        except Exception as fault:  # noqa: BLE001  # whatever a decompressor says of spoilt bytes
            return str(fault) or "it cannot be unpacked"
        wanted = self.files[name]
        return (
            "" if hashed.hexdigest() == wanted["sha256"] else f"its SHA-256 is {hashed.hexdigest()}"
        )


def _pieces(archive: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with archive.open(name) as stream:
        while piece := stream.read(PIECE):
            yield piece


def _name_fault(name: str, sha256: str) -> str:
    """Why a file of this name is none of a backup; empty where it can be one."""
    path = PurePosixPath(name)
    top = path.parts[0] if path.parts else ""
    is_plain = str(path) == name and "\\" not in name and ".." not in path.parts
    if not is_plain or ":" in name or len(path.parts) < 2:
        return "it would lie elsewhere"
    if top in _BY_DIGEST:
        return "" if path.stem == sha256 and path.parts[1:-1] == (sha256[:2],) else "another digest"
    return "" if top == "rows" or top.startswith("books") else "it would lie elsewhere"


def _refuse_in_use(source: Path) -> None:
    """Nothing is put over what somebody has."""
    held = [name for name in (*_BY_DIGEST, "books") if any((home() / name).glob("*"))]
    found = applied()
    if found:
        held += [
            table._meta.verbose_name_plural.__str__()
            for table in tables(found)
            if table._base_manager.exists()
        ]
    if held:
        raise NotKeptError((HomeInUse(Source(str(source)), ", ".join(held)),))
