"""The fixed words and sentences that stand in tables: `bin/catalogue` hands them to translators."""

import csv
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).with_name("words")


@cache
def word_table(name: str) -> dict[str, str]:
    """A table of this room in its order: its second column by its first, in English."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        _, *rows = csv.reader(lines)
    return dict(rows)
