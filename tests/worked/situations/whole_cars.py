"""What a whole car is held to: an inspector's answer, but for what is listed as unmet."""

from collections.abc import Iterable
from typing import Any

import pytest

from tests.worked.situations import page
from tests.worked.situations.asked import Row
from tests.worked.situations.unmet import listed

AGAIN = "write the list and the pages anew: bin/situations"


def hold(row: Row) -> None:
    """All is as expected but what is listed, and what is listed still is not."""
    known = listed(row)
    new = [str(fault) for fault in row.faults if fault.what not in known]
    gone = known - {fault.what for fault in row.faults}
    assert not new, f"{row.got}; not as expected: {'; '.join(new)}"
    assert not gone, f"{row.got}; now as expected: {', '.join(sorted(gone))}; {AGAIN}"


LONG = frozenset({"sprint", "camaro"})
"""Cars on which laws are held in the proving run alone: cores, each with every law, on which most
time goes; there is a second car of the one's book, and of the other's kind."""


def in_time(pairs: Iterable[tuple[Any, str]]) -> list[Any]:
    """The pairs of something and a car, those of long cars left to the proving run."""
    return [
        pytest.param(*pair, marks=pytest.mark.prove if pair[1] in LONG else ()) for pair in pairs
    ]


def named(pair: object) -> str:
    """The name of a case in pytest's own list."""
    number = getattr(pair, "number", None)
    return str(pair) if number is None else str(number)


def hold_pages(car: str) -> None:
    """The pages say of this car what it was answered."""
    situations = (page.DOCS / "situations.md").read_text("utf-8")
    weighing = (page.DOCS / "weighing.md").read_text("utf-8")
    assert page.section(car) in situations, AGAIN
    assert page.laws_row(car) in weighing, AGAIN
