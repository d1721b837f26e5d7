"""Problems of a table: its columns, its quotes, its rows."""

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem


class NoHeader(Problem):
    """A table without a first row of column names."""

    columns: tuple[str, ...]
    says = "the table has no header row"
    wants = "{header}"

    @property
    def header(self) -> str:
        """The row as it could be written."""
        return ",".join(self.columns)


class WrongSeparator(Problem):
    """A table whose cells are not separated by commas."""

    separator: str
    wants = "commas between cells"

    @property
    def says(self) -> str:
        """Tabs by their name."""
        if self.separator == "\t":
            return "the cells are separated by tabs"
        return "the cells are separated by {separator!r}"


class UnknownColumn(Unknown):
    """A column that the table does not have."""

    table: str
    says = "{name!q} is not a column of {table}"


class RepeatedColumn(Problem):
    """A column that stands in the header twice."""

    column: str
    says = "the column {column!q} is here a second time"
    wants = "each column once"


class MissingColumn(Problem):
    """A column that the table needs."""

    column: str
    table: str
    says = "{table} needs a column {column!r}"
    wants = "it in the header, with a cell in each row"


class WrongCellCount(Problem):
    """A row with more or fewer cells than the header."""

    found: int
    wanted: int
    wants = "a cell for each column; quotes around a cell that holds a comma"

    @property
    def says(self) -> str:
        """One cell or several."""
        if self.found == 1:
            return "the row has 1 cell, the header {wanted}"
        return "the row has {found} cells, the header {wanted}"


class OpenQuote(Problem):
    """A quoted cell that never ends: what follows it is not read."""

    says = "the quote that opens here is never closed; nothing after it was read"
    wants = 'a closing " (and "" for a quote inside the cell)'


class AfterQuote(Problem):
    """Text between a closing quote and the next comma."""

    says = "there is text between the closing quote and the next comma"
    wants = 'a comma (and "" for a quote inside the cell)'
