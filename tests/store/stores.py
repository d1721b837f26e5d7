"""Stores for tests: a folder and a database of its own each, a file or on a server."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.db import connections

SQLITE, POSTGRESQL = "sqlite", "postgresql"
_BINARIES = Path("/usr/lib/postgresql")


def server_binaries() -> Path | None:
    """Where the programs of a PostgreSQL server are, if there is one."""
    on_path = shutil.which("initdb")
    found = [Path(on_path).resolve().parent] if on_path else []
    found += sorted(_BINARIES.glob("*/bin"), key=lambda each: float(each.parent.name))
    whole = [each for each in found if (each / "initdb").exists() and (each / "postgres").exists()]
    return whole[-1] if whole else None


@dataclass
class Server:
    """A PostgreSQL server in a folder, reached by a socket there and by nothing else."""

    binaries: Path
    folder: Path
    made: list[str] = field(default_factory=list)

    def start(self) -> None:
        """Make the cluster and start it."""
        self.folder.mkdir(parents=True)
        if os.geteuid() == 0:  # a server refuses to be run by root
            shutil.chown(self.folder, "nobody")
        cluster = self.folder / "cluster"
        self._run(
            "initdb", "-D", cluster, "-U", "tests", "-A", "trust", "-N", "--no-locale", "-E", "UTF8"
        )
        options = f"-k {self.folder} -c listen_addresses= -c fsync=off -c max_connections=60"
        self._run("pg_ctl", "-D", cluster, "-o", options, "-l", self.folder / "log", "-w", "start")

    def stop(self) -> None:
        """Stop it at once."""
        self._run("pg_ctl", "-D", self.folder / "cluster", "-m", "immediate", "-w", "stop")

    def database(self, name: str, like: str = "template0") -> dict[str, Any]:
        """The settings of a new database."""
        self._run("psql", "-h", self.folder, "-U", "tests", "-d", "postgres", "-q", "-c",
                  f"create database {name} template {like}")  # fmt: skip
        return {
            "ENGINE": "django.db.backends.postgresql",
            "NAME": name,
            "USER": "tests",
            "HOST": str(self.folder),
        }

    def _run(self, program: str, *given: object) -> None:
        command = [str(self.binaries / program), *map(str, given)]
        if os.geteuid() == 0:
            command = ["setpriv", "--reuid=nobody", "--clear-groups", *command]
        done = subprocess.run(
            command, cwd=self.folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
        )
        assert done.returncode == 0, done.stderr


@dataclass
class Stores:
    """Makes stores; the tables of the first of each kind are copied for the others."""

    folder: Path
    server: Server | None
    made: int = 0
    ready: dict[str, Any] = field(default_factory=dict)

    @contextmanager
    def opened(self, kind: str, is_bare: bool = False) -> Iterator[Path]:
        """A new store, with its tables or bare, open until the end; its folder."""
        database = self._database(kind) if is_bare else self._with_tables(kind)
        home = self.folder / f"home-{self.made}"
        with using(database, home):
            yield home

    def _with_tables(self, kind: str) -> dict[str, Any]:
        if kind not in self.ready:
            self.ready[kind] = self._database(kind)
            with using(self.ready[kind], self.folder / "no-home"):
                call_command("migrate", verbosity=0)
        if kind == POSTGRESQL:
            return self._database(kind, like=self.ready[kind]["NAME"])
        database = self._database(kind)
        shutil.copyfile(self.ready[kind]["NAME"], database["NAME"])
        return database

    def _database(self, kind: str, like: str = "template0") -> dict[str, Any]:
        self.made += 1
        if kind == POSTGRESQL:
            assert self.server is not None
            return self.server.database(f"store_{self.made}", like)
        return {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": str(self.folder / f"store-{self.made}.sqlite3"),
            "OPTIONS": {
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
                " PRAGMA foreign_keys=ON;",
            },
        }


@contextmanager
def using(database: dict[str, Any], home: Path) -> Iterator[None]:
    """Let Django use this database and folder until the end, in every thread."""
    was, was_home = connections.settings["default"], settings.WITNESSMARK_HOME
    home.mkdir(parents=True, exist_ok=True)
    _shut()
    connections.settings["default"] = connections.configure_settings({"default": dict(database)})[
        "default"
    ]
    settings.WITNESSMARK_HOME = home
    try:
        yield
    finally:
        _shut()
        connections.settings["default"], settings.WITNESSMARK_HOME = was, was_home


def _shut() -> None:
    """Close this thread's connection, and let the next be made anew."""
    connections["default"].close()
    del connections["default"]
