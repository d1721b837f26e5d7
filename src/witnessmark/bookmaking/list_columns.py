"""The headings of a list, matched with the columns of a table."""

from dataclasses import dataclass

from witnessmark.bookmaking.problems import HasColumn, MissingHeading, UnderNoHeading
from witnessmark.bookmaking.sheet import ListRow, SheetPlace
from witnessmark.codebook.book_format import TABLES
from witnessmark.documents.problems_csv import RepeatedColumn, UnknownColumn
from witnessmark.documents.shapes import Shape
from witnessmark.problem import Problem
from witnessmark.source import Source

FILLED = ("basis", "source")
"""The columns that may be given once for a whole list."""


@dataclass(frozen=True, slots=True)
class ColumnMatch:
    """For each column of the list the table's column, or an empty name where it is blank."""

    names: tuple[str, ...]
    problems: tuple[Problem, ...]


def plain_heading(heading: str) -> str:
    """A heading as the table would write it.

    >>> plain_heading(" First year ")
    'first_year'
    """
    return "_".join(heading.lower().replace("-", " ").replace("_", " ").split())


HEADINGS = frozenset(name for shape in TABLES.values() for name in shape.names())


def is_heading(text: str) -> bool:
    """Is this the heading of a column of any table?"""
    return plain_heading(text) in HEADINGS


def match_columns(rows: tuple[ListRow, ...], shape: Shape, given: dict[str, Source]) -> ColumnMatch:
    """Match the first row with the table's columns, in any order.

    `given` names the columns that an option fills, each with the place of the option.
    """
    header, *others = rows
    problems: list[Problem] = []
    names: list[str] = []
    for at, cell in enumerate(header.cells):
        name = plain_heading(cell.text)
        if not name:
            under = next(
                (cell for row in others for cell in row.cells[at : at + 1] if cell.holds), None
            )
            problems += [UnderNoHeading(under.source, under.text)] if under else []
        elif shape.key(name) is None:
            problems.append(UnknownColumn(cell.source, cell.text, shape.names(), shape.name))
        elif name in names:
            problems.append(RepeatedColumn(cell.source, cell.text))
        elif name in given:
            problems.append(HasColumn(given[name], name))
        names.append(name)
    problems += [
        MissingHeading(_end(header), key.name, shape.name)
        for key in shape.keys
        if key.required and key.name not in names and key.name not in given
    ]
    return ColumnMatch(tuple(names), tuple(problems))


def _end(header: ListRow) -> Source:
    """The end of the headings: the line's, or the last cell of a sheet."""
    place = header.place
    if isinstance(place, SheetPlace):
        return header.cells[-1].source
    return Source(place.name, place.line, len(place.text) + 1, 1, place.text)
