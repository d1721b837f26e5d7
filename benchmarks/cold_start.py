"""How long a command takes from nothing: a whole run of the interpreter, imports and all.

Taken in turn with an interpreter that does nothing, and with one that imports
NumPy; the ratios are those of neighbours in time, pair by pair.
"""

import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

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


def measure(scale: Scale) -> list[Figure]:
    """Every command beside every bare start."""
    found = []
    for name, (arguments, aim) in COMMANDS.items():
        for beside, program in BESIDE.items():
            found.append(_beside(name, arguments, aim, beside, program, scale.cold_starts))
    return found


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


def _whole_run(command: list[str]) -> Callable[[], float]:
    """A function that runs the command to its end and gives the milliseconds."""

    def run() -> float:
        start = time.perf_counter()
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
        return (time.perf_counter() - start) * 1e3

    return run
