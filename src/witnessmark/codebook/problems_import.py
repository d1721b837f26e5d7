"""Problems of a list that is to be taken into a book: the file, its headings, its cells."""

import unicodedata
from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import nearest, one_of, shown
from witnessmark.problem import Problem

AS_TEXT = "format the column as text and type the cell again"
"""What to do where a spreadsheet has changed what was typed."""


@dataclass(frozen=True, slots=True)
class NoList(Problem):
    """The file is no list that can be read here; `reason` goes on after "the file"."""

    reason: str
    wanted: str = "a table saved as .xlsx or as CSV"

    @override
    def sentence(self) -> str:
        return f"the file {self.reason}"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class ListTooLarge(Problem):
    """A list beyond all use; `most` is the limit in words."""

    most: str

    @override
    def sentence(self) -> str:
        return "the list is too large"

    @override
    def expected(self) -> str:
        return f"at most {self.most}"


@dataclass(frozen=True, slots=True)
class OtherAlphabet(Problem):
    """Bytes that are no UTF-8; `letter` is what Windows would show for the first of them."""

    byte: int
    letter: str
    lines: int

    @override
    def sentence(self) -> str:
        stands = f", where an older Windows has {self.letter!r}" if self.letter else ""
        more = f"; {self.lines} lines have such bytes" if self.lines > 1 else ""
        return f"the byte 0x{self.byte:02X} here is not UTF-8 text{stands}{more}"

    @override
    def expected(self) -> str:
        return "a file saved as CSV UTF-8 (the spreadsheet asks for it under Save as)"


@dataclass(frozen=True, slots=True)
class NoTable(Problem):
    """A name that no table of a book has."""

    name: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"{shown(self.name)} is not a table of a code book"

    @override
    def expected(self) -> str:
        return nearest(self.name, self.known) or one_of(self.known)


@dataclass(frozen=True, slots=True)
class WhichTable(Problem):
    """Nothing says into which table the list belongs, or several names do."""

    named: tuple[str, ...]
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        if self.named:
            return f"several sheets are named as tables: {', '.join(self.named)}"
        return "neither the file nor a sheet is named as a table of the book"

    @override
    def expected(self) -> str:
        return f"--table with {one_of(self.named or self.known)}"


@dataclass(frozen=True, slots=True)
class WhichSheet(Problem):
    """Several sheets, and none is named as the table."""

    table: str
    sheets: tuple[str, ...]

    @override
    def sentence(self) -> str:
        names = ", ".join(shown(sheet) for sheet in self.sheets[:12])
        return f"the workbook has several sheets and none is named {self.table!r}: {names}"

    @override
    def expected(self) -> str:
        return f"one sheet, or one that is named {self.table!r}"


@dataclass(frozen=True, slots=True)
class NoRows(Problem):
    """A list without headings, or without a row under them."""

    columns: tuple[str, ...]
    has_headings: bool

    @override
    def sentence(self) -> str:
        if self.has_headings:
            return "no row stands under the headings"
        return "the list is empty"

    @override
    def expected(self) -> str:
        if self.has_headings:
            return "one row for each thing, from the second line on"
        return f"headings in the first line: {', '.join(self.columns)}"


@dataclass(frozen=True, slots=True)
class MissingHeading(Problem):
    """A column that the table needs and the list has not."""

    column: str
    table: str

    @override
    def sentence(self) -> str:
        return f"no heading is {self.column!r}, which {self.table} needs"

    @override
    def expected(self) -> str:
        asked = "a column with this heading"
        if self.column in ("basis", "source"):
            return f"{asked}, or --{self.column} where it is the same for the whole list"
        return asked


@dataclass(frozen=True, slots=True)
class UnderNoHeading(Problem):
    """A cell in a column that has no heading."""

    text: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.text)} stands in a column without a heading"

    @override
    def expected(self) -> str:
        return "a heading over each column that holds something"


@dataclass(frozen=True, slots=True)
class RowLength(Problem):
    """A row of a text with more or fewer cells than there are headings."""

    found: int
    wanted: int
    separator: str

    @override
    def sentence(self) -> str:
        cells = "1 cell" if self.found == 1 else f"{self.found} cells"
        return f"the row has {cells}, the headings are {self.wanted}"

    @override
    def expected(self) -> str:
        return f"a cell for each column; quotes around a cell that holds {self.separator}"


@dataclass(frozen=True, slots=True)
class HasColumn(Problem):
    """An option that fills a column, for a list that has the column."""

    column: str

    @override
    def sentence(self) -> str:
        return f"the list has a column {self.column!r} of its own"

    @override
    def expected(self) -> str:
        return f"either the column or --{self.column}"


@dataclass(frozen=True, slots=True)
class MadeDate(Problem):
    """A cell of which the spreadsheet made a date or a time."""

    column: str
    thing: str = "date"

    @override
    def sentence(self) -> str:
        return f"the spreadsheet made a {self.thing} of this {self.column!r}"

    @override
    def expected(self) -> str:
        return AS_TEXT


@dataclass(frozen=True, slots=True)
class MadeTruth(Problem):
    """A cell of which the spreadsheet made true or false."""

    column: str

    @override
    def sentence(self) -> str:
        return f"the spreadsheet made true or false of this {self.column!r}"

    @override
    def expected(self) -> str:
        return AS_TEXT


@dataclass(frozen=True, slots=True)
class MadeNumber(Problem):
    """A text of which the spreadsheet made a number that no longer says what was typed."""

    column: str
    how: str

    @override
    def sentence(self) -> str:
        return f"the spreadsheet made a number of this {self.column!r}: {self.how}"

    @override
    def expected(self) -> str:
        return AS_TEXT


@dataclass(frozen=True, slots=True)
class LostNoughts(Problem):
    """Figures that are fewer than the places they belong into."""

    text: str
    places: int
    reader: str
    is_sure: bool

    @override
    def sentence(self) -> str:
        figures = "1 figure" if len(self.text) == 1 else f"{len(self.text)} figures"
        if self.is_sure:
            says = f"is {self.places} wide: a spreadsheet drops leading noughts"
        else:
            says = f"may be {self.places} wide, and in a number leading noughts are dropped"
        return f"{shown(self.text)} has {figures} where {self.reader} {says}"

    @override
    def expected(self) -> str:
        return f"{self.text.zfill(self.places)!r} if that is meant: {AS_TEXT}"


@dataclass(frozen=True, slots=True)
class CellError(Problem):
    """A cell in which the spreadsheet shows an error."""

    text: str

    @override
    def sentence(self) -> str:
        return f"the cell holds the spreadsheet's own error {shown(self.text)}"

    @override
    def expected(self) -> str:
        return "the value itself"


@dataclass(frozen=True, slots=True)
class FormulaUnread(Problem):
    """A formula of which the workbook does not hold the value."""

    @override
    def sentence(self) -> str:
        return "the cell holds a formula, and the workbook does not hold its value"

    @override
    def expected(self) -> str:
        return "the value itself (copy the column, then paste only the values)"


@dataclass(frozen=True, slots=True)
class Merged(Problem):
    """Cells that were made into one."""

    cells: str

    @override
    def sentence(self) -> str:
        return f"the cells {self.cells} are merged into one"

    @override
    def expected(self) -> str:
        return "a cell of its own for each row and column"


@dataclass(frozen=True, slots=True)
class Unseen(Problem):
    """A character that nobody sees: a line break, a control character, a joiner."""

    character: str

    @override
    def sentence(self) -> str:
        if self.character in "\n\r\v\f\x85\u2028\u2029":
            return "the cell holds a line break"
        name = unicodedata.name(self.character, "a control character").lower()
        return f"the cell holds a character that is not seen: U+{ord(self.character):04X}, {name}"

    @override
    def expected(self) -> str:
        return "one line of characters that are seen"


@dataclass(frozen=True, slots=True)
class OtherRow(Problem):
    """A row of this name is there already and says something else."""

    name: str
    column: str
    there: str
    here: str
    place: str

    @override
    def sentence(self) -> str:
        return (
            f"{self.name} stands in {self.place} already, "
            f"where {self.column!r} is {shown(self.there)} and not {shown(self.here)}"
        )

    @override
    def expected(self) -> str:
        return "the same row, or other years, works or models, or another name"
