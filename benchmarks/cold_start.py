"""How long a command takes from nothing: a whole run of the interpreter, imports and all.

Taken in turn with an interpreter that does nothing, and with one that imports
NumPy; the ratios are those of neighbours in time, pair by pair. Processor time stands
beside that of importing the libraries that the command has loaded at its end. All runs
find what Python has compiled, as in an installed program.
"""

import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from benchmarks.cars import CARS, CHECKOUT
from benchmarks.figure import Aim, Figure, in_turn, ratio_of
from benchmarks.scale import Scale

DECODE_AIM = Aim("under", 500.0)
DECODE = ("decode", "tarvane-1952-1961", "engine_number", "S2[38]117", "--year", "1955")
COMMANDS = {
    "cold: witnessmark decode": (DECODE, DECODE_AIM),
    "cold: witnessmark --help": (("--help",), None),
}
BESIDE = {"a bare interpreter": "pass", "importing numpy": "import numpy"}
STARTER = "from witnessmark.cli.main import run; run()"

LIBRARIES_AIM = Aim("under", 1.5, of_ratio=True)
TELL_LOADED = "import atexit, sys; atexit.register(lambda: print(*sys.modules, file=sys.stderr))"
IMPORT_ALL = """
from contextlib import suppress
from importlib import import_module
for name in {names!r}:
    with suppress(ImportError):
        import_module(name)
"""


def measure(scale: Scale) -> list[Figure]:
    """Every command beside every bare start, and decoding beside its libraries."""
    found = []
    with _compiled():
        for name, (arguments, aim) in COMMANDS.items():
            for beside, program in BESIDE.items():
                found.append(_beside(name, arguments, aim, beside, program, scale.cold_starts))
        found.append(_beside_libraries(scale.cold_starts))
        found.append(_batch(max(1, scale.cold_starts // 5)))
    return found


@contextmanager
def _compiled() -> Iterator[None]:
    """Compiled modules are kept for the time of the runs, whatever is set otherwise."""
    names = ("PYTHONDONTWRITEBYTECODE", "PYTHONPYCACHEPREFIX")
    before = {name: os.environ.pop(name) for name in names if name in os.environ}
    with TemporaryDirectory() as folder:
        os.environ["PYTHONPYCACHEPREFIX"] = folder
        try:
            yield
        finally:
            del os.environ["PYTHONPYCACHEPREFIX"]
            os.environ.update(before)


def _beside_libraries(runs: int) -> Figure:
    """The processor time of decoding one mark, and of importing what that loads of others."""
    started = [sys.executable, "-c", f"{TELL_LOADED}; {STARTER}", *DECODE]
    told = subprocess.run(started, check=True, capture_output=True, text=True).stderr.split()
    names = [name for name in told if name.partition(".")[0] not in ("witnessmark", "__main__")]
    command = _whole_run([sys.executable, "-c", STARTER, *DECODE], _children_seconds)
    libraries = _whole_run(
        [sys.executable, "-c", IMPORT_ALL.format(names=names)], _children_seconds
    )
    command(), libraries()
    ours, theirs = in_turn(command, libraries, runs)
    return Figure(
        "cold: witnessmark decode",
        min(ours),
        "ms",
        runs,
        min(ours),
        max(ours),
        min(ours) / min(theirs),
        f"importing its libraries ({min(theirs):.0f} ms)",
        LIBRARIES_AIM,
        "a whole run, its processor time, the best of several",
    )


def _batch(runs: int) -> Figure:
    """The demonstration cars examined in one run, beside a run for each of them."""
    cases = [str(CHECKOUT / "demo" / name) for name in CARS]
    batch = _whole_run([*_command(), "examine", "--csv", "-", *cases])
    each = [_whole_run([*_command(), "examine", "--csv", "-", case]) for case in cases]
    ours, theirs = in_turn(batch, lambda: sum(run() for run in each), runs)
    return Figure(
        "cold: witnessmark examine --csv",
        median(ours),
        "ms",
        runs,
        min(ours),
        max(ours),
        ratio_of(ours, theirs),
        f"a run for each case ({median(theirs):,.0f} ms)",
        None,
        f"{len(cases)} cases in one process",
    )


def _children_seconds() -> float:
    """Processor seconds of all that was started and has ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _beside(
    name: str, arguments: tuple[str, ...], aim: Aim | None, beside: str, program: str, runs: int
) -> Figure:
    command = _whole_run([*_command(), *arguments])
    bare = _whole_run([sys.executable, "-c", program])
    command(), bare()  # the first of each reads the disk
    ours, theirs = in_turn(command, bare, runs)
    return Figure(
        name,
        median(ours),
        "ms",
        runs,
        min(ours),
        max(ours),
        ratio_of(ours, theirs),
        f"{beside} ({median(theirs):.0f} ms)",
        aim,
        "a whole run, taken in turn",
    )


def _command() -> list[str]:
    """The console script beside this interpreter, else the same by its module."""
    script = Path(sys.executable).with_name("witnessmark")
    return [str(script)] if script.exists() else [sys.executable, "-c", STARTER]


def _whole_run(
    command: list[str], clock: Callable[[], float] = time.perf_counter
) -> Callable[[], float]:
    """A function that runs the command to its end and gives the milliseconds by this clock."""

    def run() -> float:
        start = clock()
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
        return (clock() - start) * 1e3

    return run
