"""Problems of a table: its columns, its quotes, its rows."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import nearest, one_of, shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class NoHeader(Problem):
    """A table without a first row of column names."""

    columns: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return "the table has no header row"

    @override
    def expected(self) -> str:
        return ",".join(self.columns)


@dataclass(frozen=True, slots=True)
class WrongSeparator(Problem):
    """A table whose cells are not separated by commas."""

    separator: str

    @override
    def sentence(self) -> str:
        name = "tabs" if self.separator == "\t" else f"{self.separator!r}"
        return f"the cells are separated by {name}"

    @override
    def expected(self) -> str:
        return "commas between cells"


@dataclass(frozen=True, slots=True)
class UnknownColumn(Problem):
    """A column that the table does not have."""

    column: str
    table: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.column)} is not a column of {self.table}"

    @override
    def expected(self) -> str:
        return nearest(self.column, self.known) or one_of(self.known)


@dataclass(frozen=True, slots=True)
class RepeatedColumn(Problem):
    """A column that stands in the header twice."""

    column: str

    @override
    def sentence(self) -> str:
        return f"the column {shown(self.column)} stands here a second time"

    @override
    def expected(self) -> str:
        return "each column once"


@dataclass(frozen=True, slots=True)
class MissingColumn(Problem):
    """A column that the table needs."""

    column: str
    table: str

    @override
    def sentence(self) -> str:
        return f"{self.table} needs a column {self.column!r}"

    @override
    def expected(self) -> str:
        return "it in the header, with a cell in each row"


@dataclass(frozen=True, slots=True)
class WrongCellCount(Problem):
    """A row with more or fewer cells than the header."""

    found: int
    wanted: int

    @override
    def sentence(self) -> str:
        cells = "1 cell" if self.found == 1 else f"{self.found} cells"
        return f"the row has {cells}, the header {self.wanted}"

    @override
    def expected(self) -> str:
        return "a cell for each column; quotes around a cell that holds a comma"


@dataclass(frozen=True, slots=True)
class OpenQuote(Problem):
    """A quoted cell that never ends: what follows it is not read."""

    @override
    def sentence(self) -> str:
        return "the quote that opens here is never closed; nothing after it was read"

    @override
    def expected(self) -> str:
        return 'a closing " (and "" for a quote inside the cell)'


@dataclass(frozen=True, slots=True)
class AfterQuote(Problem):
    """Text between a closing quote and the next comma."""

    @override
    def sentence(self) -> str:
        return "text stands between the closing quote and the next comma"

    @override
    def expected(self) -> str:
        return 'a comma (and "" for a quote inside the cell)'
