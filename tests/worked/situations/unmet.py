"""What does not come out yet as an inspector would answer: a list that can only shrink.

`bin/situations` writes unmet.csv anew; reasons stay with their rows. A new row has none, which a
test refuses.
"""

import csv
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from tests.worked.situations.asked import Key, Row

TABLE = Path(__file__).with_name("unmet.csv")
COLUMNS = ("situation", "title", "car", "what", "expected", "got", "accuses", "reason")


@cache
def unmet() -> dict[Key, dict[str, str]]:
    """The rows of the table by situation, title, car, and what of it."""
    with TABLE.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    return {(r["situation"], r["title"], r["car"], r["what"]): r for r in rows}


def listed(row: Row) -> set[str]:
    """What of a situation on a car is listed as unmet."""
    head = (row.number, row.title, row.car)
    return {key[3] for key in unmet() if key[:3] == head}


def write(rows: Iterable[Row]) -> int:
    """Write the table anew; gives how many things are unmet. A reason that a row lacks is that
    of the same situation on another car."""
    before = unmet() if TABLE.is_file() else {}
    alike = {(number, what): r["reason"] for (number, _, _, what), r in before.items()}
    lines = []
    for row in rows:
        for fault in row.faults:
            key = row.key(fault)
            reason = before[key]["reason"] if key in before else ""
            reason = reason or alike.get((row.number, fault.what), "")
            accuses = "yes" if fault.accuses else "no"
            lines.append((*key, fault.expected, fault.got, accuses, reason))
    with TABLE.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerows([COLUMNS, *lines])
    return len(lines)
