"""`python -m benchmarks`: measure, print one table, and with --json write it to a file too."""

import argparse
import json
import os
import platform
import sys
from importlib.metadata import version
from pathlib import Path

from benchmarks import (
    answering,
    books,
    cold_start,
    decoding,
    examining,
    memory,
    photographs,
    serving,
    weighing,
    workshop,
)
from benchmarks.cars import CARS, opened_car
from benchmarks.figure import Figure
from benchmarks.scale import FULL, QUICK, Scale
from benchmarks.table import render_table

PLAIN_CAR = "panel"
"""The car that is weighed beside plain sums: others would take minutes so."""
TYPED_CARS = ("clean", "altered")
"""The cars of which readings are changed: that with the largest sums, and one with small ones."""


def main(arguments: list[str] | None = None) -> int:
    """Measure what is asked for; always 0, for no aim is a condition."""
    asked = _parser().parse_args(arguments)
    figures = measured(QUICK if asked.quick else FULL)
    machine = machine_facts()
    print("; ".join(f"{name} {value}" for name, value in machine.items()))
    print(render_table(figures), end="")
    if asked.json is not None:
        document = {"machine": machine, "figures": [figure.plain() for figure in figures]}
        asked.json.write_text(json.dumps(document, indent=2) + "\n", "utf-8")
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description=__doc__)
    parser.add_argument("--quick", action="store_true", help="few runs: about two minutes")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the figures there too")
    return parser


def measured(scale: Scale) -> list[Figure]:
    """Every figure, in the order of the table; what is being measured on the error stream."""
    cars = [opened_car(name) for name in CARS]
    found: list[Figure] = []
    for car in cars:
        _say(f"opinion and report of {car.name}")
        found += examining.measure(car, scale)
    for car in (each for each in cars if each.name in TYPED_CARS):
        _say(f"answers while somebody types: {car.name}")
        found += answering.measure(car, scale)
    _say("peak memory")
    found += memory.measure_bare()
    for car in cars:
        found += memory.measure(car)
    _say("a report with many photographs")
    found += photographs.measure(scale)
    _say("cold starts")
    found += cold_start.measure(scale)
    _say("weighing")
    found += weighing.measure(next(car for car in cars if car.name == PLAIN_CAR), scale)
    _say("decoding")
    found += decoding.measure(cars[0], scale)
    _say("code books")
    found += books.measure(scale)
    _say("three servers")
    found += serving.measure(scale)
    _say("the workshop on each database")
    found += workshop.measure(scale)
    return found


def machine_facts() -> dict[str, str]:
    """What the figures depend on."""
    return {
        "python": platform.python_version(),
        "numpy": version("numpy"),
        "system": platform.system(),
        "cores": str(os.cpu_count()),
    }


def _say(what: str) -> None:
    print(f"measuring: {what}", file=sys.stderr, flush=True)


if __name__ == "__main__":
    sys.exit(main())
