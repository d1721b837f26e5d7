"""The closed vocabulary of sketches: what an outcome of a feature can be drawn as.

A book names a sketch and brings no drawing of its own; each name of `sketches.csv` is drawn once,
as an SVG file of figures/sketches.
"""

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Sketch:
    """What is drawn beside an outcome, by the name that a code book writes; `title` is what is
    heard of it and `view` from where it is seen, both as they stand in the catalogue."""

    name: str
    title: str
    view: str


@cache
def sketches() -> dict[str, Sketch]:
    """All by their names, in the order in which docs/codebook.md lists them."""
    with Path(__file__).with_suffix(".csv").open(encoding="utf-8", newline="") as rows:
        return {row["sketch"]: Sketch(*row.values()) for row in csv.DictReader(rows)}
