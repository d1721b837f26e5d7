"""The most memory one car takes: an interpreter of its own that examines it and reports.

    python -m benchmarks.memory clean

prints the peak in MB when the opinion is made, and when the report is. Nothing traces the
allocations, so that nothing is slowed or added; the operating system is asked for the peak.
"""

import resource
import subprocess
import sys
from pathlib import Path

from benchmarks.cars import CHECKOUT, Car, opened_car
from benchmarks.examining import PRINTED
from benchmarks.figure import Aim, Figure
from witnessmark.report import render_report

OPINION_AIM = Aim("under", 250)
"""Megabytes that an opinion may take, imports and all."""
OWN_PEAK = Path("/proc/self/status")
BARE = "import benchmarks.memory as memory; print(memory.peak_mb())"


def measure(car: Car) -> list[Figure]:
    """Peak memory of examining one car, and of reporting on it too, imports and all."""
    opinion, report = _printed(["-m", "benchmarks.memory", car.name])
    note = "an interpreter of its own: imports, opening, opinion"
    return [
        Figure(f"peak memory, opinion of {car.name}", opinion, "MB", 1, aim=OPINION_AIM, note=note),
        Figure(f"peak memory, {car.name}", report, "MB", 1, note=f"{note}, report"),
    ]


def measure_bare() -> list[Figure]:
    """What the imports alone take."""
    note = "an interpreter that has imported all this and done nothing"
    [value] = _printed(["-c", BARE])
    return [Figure("peak memory, nothing done", value, "MB", 1, note=note)]


def peak_mb() -> float:
    """The peak of this interpreter so far, in MB (1,000,000 bytes).

    On Linux from /proc: `getrusage` there also counts what the parent held when
    it started us.
    """
    if OWN_PEAK.exists():
        lines = OWN_PEAK.read_text("ascii").splitlines()
        found = next((line for line in lines if line.startswith("VmHWM:")), None)
        if found is not None:
            return int(found.split()[1]) * 1024 / 1e6
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / 1e6


def _printed(arguments: list[str]) -> list[float]:
    ended = subprocess.run(
        [sys.executable, *arguments], capture_output=True, text=True, check=True, cwd=CHECKOUT
    )
    return [float(each) for each in ended.stdout.split()]


def main(name: str) -> None:
    """Do all the work for one car and print the peak after the opinion, and after all."""
    car = opened_car(name)
    opinion = car.examined()
    print(peak_mb())
    render_report(opinion, car.book, car.exhibits, PRINTED)
    print(peak_mb())


if __name__ == "__main__":
    main(sys.argv[1])
