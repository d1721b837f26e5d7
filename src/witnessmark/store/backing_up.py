"""Everything that is kept in one zip file, made while others write.

`manifest.json` names each file with its size and SHA-256; `rows/` has the tables, a line of JSON a
row, so that either database can take them; exhibits, issued reports and books of one's own lie in
their folders. An exhibit is written before its row, and none is removed: whatever the rows speak of
is there.
"""

import hashlib
import json
import os
import zipfile
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import IO, Any

from witnessmark.source import Source
from witnessmark.store.digest_files import PIECE, digest_of, files_below, home, let_names_last
from witnessmark.store.exhibits import file_of
from witnessmark.store.issued import files_issued
from witnessmark.store.problems import BackupUnwritten, NotKeptError
from witnessmark.store.snapshot import applied, one_moment, tables, write_rows

FORMAT = "witnessmark-backup"
FORMAT_VERSION = 1
MANIFEST = "manifest.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class BackedUp:
    """A backup that was made: how many files and rows are in it, and files that the rows speak
    of and that are not there, or are not what was kept."""

    path: Path
    files: int
    rows: int
    missing: tuple[str, ...]


def backup(target: Path, at: datetime) -> BackedUp:
    """Write everything into the file `target`, which appears when it is whole."""
    beside = target.with_name(f".{target.name}.{os.urandom(6).hex()}")
    try:
        with beside.open("xb") as stream:
            with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
                packing = _Packing(archive=archive)
                packing.rows_of_one_moment()
                packing.contents()
                packing.brought()
                packing.manifest(at)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(target)
        let_names_last(target.parent)
    except OSError as fault:
        reason = fault.strerror or "the system refuses"
        raise NotKeptError((BackupUnwritten(Source(str(target)), reason),)) from fault
    finally:
        beside.unlink(missing_ok=True)
    return BackedUp(
        path=target,
        files=len(packing.files),
        rows=sum(packing.counts.values()),
        missing=tuple(packing.missing),
    )


@dataclass(slots=True, kw_only=True)
class _Packing:
    """A zip file as it fills."""

    archive: zipfile.ZipFile
    files: dict[str, dict[str, Any]] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)
    migrations: dict[str, str] = field(default_factory=dict)
    wanted: set[str] = field(default_factory=set)
    missing: list[str] = field(default_factory=list)

    def rows_of_one_moment(self) -> None:
        """All tables, and which files they speak of."""
        with one_moment() as moment:
            self.migrations = applied(moment)
            for table in tables(self.migrations):
                name = table._meta.label_lower
                with self._writing(f"rows/{name}.jsonl") as out:
                    self.counts[name] = write_rows(table, moment, out)
                rows = table._base_manager.using(moment)
                if name == "store.heldexhibit":
                    for sha256, kind in rows.values_list("sha256", "media_type"):
                        self.wanted.add(f"exhibits/{sha256[:2]}/{file_of(sha256, kind)}")
                elif name == "store.issuedreport":
                    self.wanted |= files_issued(rows.values_list("files", flat=True))

    def contents(self) -> None:
        """The files that the rows speak of; one that is not what it was is missing."""
        for name in sorted(self.wanted):
            path = home() / name
            if not path.is_file() or not self._pack(name, path, path.stem):
                self.missing.append(name)

    def brought(self) -> None:
        """Books and languages of one's own."""
        for top in sorted([*home().glob("books*"), *home().glob("languages")]):
            for path in files_below(top):
                self._pack(path.relative_to(home()).as_posix(), path)

    def manifest(self, at: datetime) -> None:
        """What is in it."""
        told = {
            "format": FORMAT,
            "format_version": FORMAT_VERSION,
            "made_at": at.isoformat(),
            "migrations": self.migrations,
            "rows": self.counts,
            "files": self.files,
            "missing": self.missing,
        }
        self.archive.writestr(MANIFEST, json.dumps(told, indent=2, ensure_ascii=False) + "\n")

    def _pack(self, name: str, path: Path, wanted: str = "") -> bool:
        """Copy a file piece by piece; False where it is not the one that was kept."""
        if wanted and digest_of(path) != wanted:
            return False
        with path.open("rb") as stream, self._writing(name, zipfile.ZIP_STORED) as out:
            while piece := stream.read(PIECE):
                out.write(piece)
        return True

    def _writing(self, name: str, how: int = zipfile.ZIP_DEFLATED) -> "_Member":
        entry = zipfile.ZipInfo(name)
        entry.compress_type = how
        return _Member(self, name, self.archive.open(entry, "w", force_zip64=True))


@dataclass(slots=True)
class _Member:
    """A file in the zip, hashed while it is written; the manifest names it when it is whole."""

    packing: _Packing
    name: str
    out: IO[bytes]
    size: int = 0
    hashed: Any = field(default_factory=hashlib.sha256)

    def __enter__(self) -> "_Member":
        return self

    def __exit__(self, kind: object, *_rest: object) -> None:
        self.out.close()
        if kind is None:
            told = {"size": self.size, "sha256": self.hashed.hexdigest()}
            self.packing.files[self.name] = told

    def write(self, piece: bytes) -> int:
        """Write a piece."""
        self.size += len(piece)
        self.hashed.update(piece)
        return self.out.write(piece)
