"""Three servers with the same workshop behind them, in turn: how long a page takes for each of
eight browsers at once, and how much memory the process has at its end.

What a local workshop needs beside speed no figure says: one process on every system, and TLS of
its own for the machines of a network (docs/decisions/0085-the-server.md).
"""

import http.client
import os
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import Final

from benchmarks.figure import Figure, ratio_of
from benchmarks.scale import Scale

PAGE: Final = "/sign-in"
BROWSERS: Final = 8
ROUNDS: Final = 3
SECONDS_TO_OPEN: Final = 60
PREPARED: Final = """
import sys
from pathlib import Path
from witnessmark.web import server
server.prepare(Path(sys.argv[1]))
server.bring_up()
from witnessmark.store import accounts
accounts.first_owner("Ada", "a long password")
"""
STARTED: Final = {
    "cheroot": "from benchmarks import served; served.server.opened('127.0.0.1', port).serve()",
    "waitress": "from benchmarks import served; from waitress import serve;"
    " serve(served.application, host='127.0.0.1', port=port, threads=8)",
    "granian": "from granian import Granian; Granian('benchmarks.served:application',"
    " interface='wsgi', address='127.0.0.1', port=port, blocking_threads=8).serve()",
}


def measure(scale: Scale) -> list[Figure]:
    """Milliseconds a page by each server, and its memory; ratios to the one that is used."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-c", PREPARED, folder], check=True)
        rounds = [
            {name: _asked(name, folder, scale.pages) for name in STARTED} for _ in range(ROUNDS)
        ]
    figures = []
    for name in STARTED:
        times = [each[name][0] for each in rounds]
        own = [each["cheroot"][0] for each in rounds]
        figures.append(
            Figure(
                f"a page by {name}, {BROWSERS} browsers at once",
                median(times),
                "ms",
                len(times),
                min(times),
                max(times),
                ratio=ratio_of(times, own) if name != "cheroot" else None,
                ratio_to="by cheroot" if name != "cheroot" else "",
            )
        )
        memory = [each[name][1] for each in rounds]
        figures.append(Figure(f"memory of {name}", median(memory), "MB", len(memory)))
    return figures


def _asked(name: str, folder: str, pages: int) -> tuple[float, float]:
    """Milliseconds between a browser's question and its page, in the middle; megabytes."""
    with _served(name, folder) as (port, process):
        with ThreadPoolExecutor(BROWSERS) as browsers:
            asked = browsers.map(_browse, [port] * BROWSERS, [pages] * BROWSERS)
            times = [each for found in asked for each in found]
        return median(times), _megabytes(process)


def _browse(port: int, pages: int) -> list[float]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    found = []
    for _ in range(pages):
        start = time.perf_counter()
        connection.request("GET", PAGE)
        answer = connection.getresponse()
        answer.read()
        assert answer.status == 200, answer.status
        found.append((time.perf_counter() - start) * 1e3)
    return found


@contextmanager
def _served(name: str, folder: str) -> Iterator[tuple[int, int]]:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, "-c", f"import sys; port = int(sys.argv[1]); {STARTED[name]}", str(port)],
        env={**os.environ, "WITNESSMARK_HOME": folder},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        until = time.monotonic() + SECONDS_TO_OPEN
        while time.monotonic() < until:
            try:
                _browse(port, 1)
                break
            except OSError:
                time.sleep(0.1)
        yield port, process.pid
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()


def _megabytes(group: int) -> float:
    """Resident memory of all processes of a group, where the system has a /proc; else nothing."""
    pages = 0
    for each in Path("/proc").glob("[0-9]*"):
        try:
            if os.getpgid(int(each.name)) == group:
                pages += int((each / "statm").read_text().split()[1])
        except (OSError, ValueError):
            continue
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
