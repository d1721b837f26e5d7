"""A PostgreSQL server for a while, with its usual care for the disk, where its programs are."""

import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

_BINARIES: Final = Path("/usr/lib/postgresql")


def programs() -> Path | None:
    """Where the newest server's programs are, if there are any."""
    on_path = shutil.which("initdb")
    found = [Path(on_path).resolve().parent] if on_path else []
    found += sorted(_BINARIES.glob("*/bin"), key=lambda each: float(each.parent.name))
    whole = [each for each in found if (each / "initdb").exists() and (each / "postgres").exists()]
    return whole[-1] if whole else None


@contextmanager
def served() -> Iterator[str]:
    """The address of an empty database on this machine; empty where there are no programs."""
    there = programs()
    if there is None:
        yield ""
        return
    with tempfile.TemporaryDirectory(prefix="witnessmark-bench-") as name:
        folder, cluster = Path(name), Path(name) / "cluster"
        if os.geteuid() == 0:  # a server refuses to be run by root
            shutil.chown(folder, "nobody")
        _run(there, folder, "initdb", "-D", cluster, "-U", "bench", "-A", "trust", "-E", "UTF8")
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        options = f"-k {folder} -c listen_addresses=127.0.0.1 -c port={port}"
        _run(there, folder, "pg_ctl", "-D", cluster, "-o", options, "-l", folder / "log", "start")
        try:
            yield f"postgresql://bench@127.0.0.1:{port}/postgres"
        finally:
            _run(there, folder, "pg_ctl", "-D", cluster, "-m", "fast", "stop")


def _run(there: Path, folder: Path, program: str, *given: object) -> None:
    command = [str(there / program), *map(str, given)]
    if os.geteuid() == 0:
        command = ["setpriv", "--reuid=nobody", "--clear-groups", *command]
    subprocess.run(command, cwd=folder, stdout=subprocess.DEVNULL, check=True)
