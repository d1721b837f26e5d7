"""Tables and figures as GitHub's markdown knows them."""

import re
from collections.abc import Sequence

NUMBER = re.compile(r"[-+−]?\d[\d,. ]*( ?%)?( .*)?")
"""A cell that begins with a number: a column of such cells stands to the right."""


def table(headers: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """A table with a line of headings, ending in a line break.

    Cells are written as `str` writes them, pipes escaped and line breaks as `<br>`. A
    column in which every filled cell begins with a number stands to the right. Raises
    ValueError where a row is not as long as the headings.
    """
    cells = [[_cell(each) for each in row] for row in rows]
    if any(len(row) != len(headers) for row in cells):
        raise ValueError("a row is not as long as the headings")
    under = [
        "---:" if _is_number([row[k] for row in cells]) else "---" for k in range(len(headers))
    ]
    return "".join(f"| {' | '.join(row)} |\n" for row in [[*map(_cell, headers)], under, *cells])


def figure(path: str, title: str, sentence: str) -> str:
    """A picture with its title for those who do not see it, and a sentence under it.

    `path` is relative to the page; it may hold blanks.
    """
    shown = re.sub(r"([\[\]])", r"\\\1", " ".join(title.split()))
    place = f"<{path}>" if " " in path else path
    return f"![{shown}]({place})\n\n{sentence}\n"


def _cell(value: object) -> str:
    return str(value).strip().replace("|", "\\|").replace("\n", "<br>")


def _is_number(column: Sequence[str]) -> bool:
    filled = [cell for cell in column if cell not in ("", "–")]
    return bool(filled) and all(NUMBER.fullmatch(cell) for cell in filled)
