"""The shipped books as they were when all their checks were run (see docs/decisions/0034).

`books/checked.txt` holds a line for each, SHA-256 and id, as `make docs` writes it; a book that
stands there to the byte is not checked across its tables again.
"""

from functools import cache
from pathlib import Path

SHIPPED = Path(__file__).parent / "books"
CHECKED = SHIPPED / "checked.txt"


def checked_line(sha256: str, name: str) -> str:
    """The line of a book in the list; `name` is that of its folder."""
    return f"{sha256}  {name}"


def is_other_than_shipped(sha256: str, name: str) -> bool:
    """Does a book with this digest bear the id of a shipped one, and hold something else?"""
    lines = checked_lines()
    return checked_line(sha256, name) not in lines and any(
        line.partition("  ")[2] == name for line in lines
    )


@cache
def checked_lines() -> frozenset[str]:
    """The lines of the list; none where there is no list, so that every book is checked."""
    try:
        return frozenset(CHECKED.read_text("utf-8").splitlines())
    except (OSError, ValueError):
        return frozenset()
