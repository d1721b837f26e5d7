"""Problems of a list that is to be taken into a book: the file, its headings, its cells."""

import unicodedata

from witnessmark.problem import Problem, shown


class NoList(Problem):
    """The file is not a list that can be read here; `reason` goes on after "the file"."""

    reason: str
    wanted: str = "a table saved as .xlsx or as CSV"
    says = "the file {reason}"
    wants = "{wanted}"


class ListTooLarge(Problem):
    """A list beyond all use; `most` is the limit in words."""

    most: str
    says = "the list is too large"
    wants = "at most {most}"


class OtherAlphabet(Problem):
    """Bytes that are no UTF-8; `letter` is what Windows would show for the first of them."""

    byte: int
    letter: str
    lines: int
    wants = "a file saved as CSV UTF-8 (the spreadsheet asks for it under Save as)"

    @property
    def says(self) -> str:
        """With the letter where there is one, and with the lines where there are several."""
        match bool(self.letter), self.lines > 1:
            case False, False:
                return "the byte 0x{byte:02X} here is not UTF-8 text"
            case False, True:
                return "the byte 0x{byte:02X} here is not UTF-8 text; {lines} lines have such bytes"
            case True, False:
                return (
                    "the byte 0x{byte:02X} here is not UTF-8 text, "
                    "where an older Windows has {letter!r}"
                )
        return (
            "the byte 0x{byte:02X} here is not UTF-8 text, where an older Windows has {letter!r}; "
            "{lines} lines have such bytes"
        )


class WhichTable(Problem):
    """Nothing says into which table the list belongs, or several names do."""

    named: tuple[str, ...]
    known: tuple[str, ...]

    @property
    def says(self) -> str:
        """Which of the two."""
        if self.named:
            return "several sheets are named as tables: {named!l}"
        return "neither the file nor a sheet is named as a table of the book"

    @property
    def wants(self) -> str:
        """Those that were named, or else all."""
        return "--table with one of: {named!l}" if self.named else "--table with one of: {known!l}"


class WhichSheet(Problem):
    """Several sheets, and none is named as the table."""

    table: str
    sheets: tuple[str, ...]
    says = "the workbook has several sheets and none is named {table!r}: {names}"
    wants = "one sheet, or one that is named {table!r}"

    @property
    def names(self) -> str:
        """The sheets in quotes, or the first of very many."""
        return ", ".join(map(shown, self.sheets[:12]))


class NoRows(Problem):
    """A list without headings, or without a row under them."""

    columns: tuple[str, ...]
    has_headings: bool

    @property
    def says(self) -> str:
        """Which of the two."""
        return "no row stands under the headings" if self.has_headings else "the list is empty"

    @property
    def wants(self) -> str:
        """What is lacking."""
        if self.has_headings:
            return "one row for each thing, from the second line on"
        return "headings in the first line: {columns!l}"


class MissingHeading(Problem):
    """A column that the table needs and the list has not."""

    column: str
    table: str
    says = "no heading is {column!r}, which {table} needs"

    @property
    def wants(self) -> str:
        """The column, or the option that stands for it."""
        if self.column in ("basis", "source"):
            return (
                "a column with this heading, or --{column} where it is the same for the whole list"
            )
        return "a column with this heading"


class UnderNoHeading(Problem):
    """A cell in a column that has no heading."""

    text: str
    says = "{text!q} is in a column without a heading"
    wants = "a heading over each column that holds something"


class RowLength(Problem):
    """A row of a text with more or fewer cells than there are headings."""

    found: int
    wanted: int
    separator: str
    wants = "a cell for each column; quotes around a cell that holds {separator}"

    @property
    def says(self) -> str:
        """One cell or several."""
        if self.found == 1:
            return "the row has 1 cell, the headings are {wanted}"
        return "the row has {found} cells, the headings are {wanted}"


class HasColumn(Problem):
    """An option that fills a column, for a list that has the column."""

    column: str
    says = "the list has a column {column!r} of its own"
    wants = "either the column or --{column}"


class MadeOfText(Problem):
    """The base of every fault in which a spreadsheet has changed what was typed."""

    wants = "format the column as text and type the cell again"


class MadeDate(MadeOfText):
    """A cell of which the spreadsheet made a date or a time."""

    column: str
    thing: str = "date"
    says = "the spreadsheet turned this {column!r} cell into a {thing}"


class MadeTruth(MadeOfText):
    """A cell of which the spreadsheet made true or false."""

    column: str
    says = "the spreadsheet turned this {column!r} cell into true or false"


class MadeNumber(MadeOfText):
    """A text of which the spreadsheet made a number that no longer says what was typed."""

    column: str
    how: str
    says = "the spreadsheet turned this {column!r} cell into a number: {how}"


class LostNoughts(Problem):
    """Figures that are fewer than the places they belong in."""

    text: str
    places: int
    reader: str
    is_sure: bool
    wants = "{padded!r} if that is meant: format the column as text and type the cell again"

    @property
    def says(self) -> str:
        """One figure or several, for so many places or perhaps so many."""
        match len(self.text) == 1, self.is_sure:
            case True, True:
                return (
                    "{text!q} has 1 figure where {reader} is {places} wide: a spreadsheet "
                    "drops leading zeros"
                )
            case True, False:
                return (
                    "{text!q} has 1 figure where {reader} may be {places} wide, and a "
                    "number loses its leading zeros"
                )
            case False, True:
                return (
                    "{text!q} has {text!n} figures where {reader} is {places} wide: a "
                    "spreadsheet drops leading zeros"
                )
        return (
            "{text!q} has {text!n} figures where {reader} may be {places} wide, and a "
            "number loses its leading zeros"
        )

    @property
    def padded(self) -> str:
        """The figures with zeros in front."""
        return self.text.zfill(self.places)


class CellError(Problem):
    """A cell in which the spreadsheet shows an error."""

    text: str
    says = "the cell holds the spreadsheet's own error {text!q}"
    wants = "the value itself"


class FormulaUnread(Problem):
    """A formula of which the workbook does not hold the value."""

    says = "the cell holds a formula, and the workbook does not hold its value"
    wants = "the value itself (copy the column, then paste only the values)"


class Merged(Problem):
    """Cells that were made into one."""

    cells: str
    says = "the cells {cells} are merged into one"
    wants = "a cell of its own for each row and column"


class Unseen(Problem):
    """A character that nobody sees: a line break, a control character, a joiner."""

    character: str
    wants = "one line of visible characters"

    @property
    def says(self) -> str:
        """A line break by that word, all others by their number and name."""
        if self.character in "\n\r\v\f\x85\u2028\u2029":
            return "the cell holds a line break"
        if self.name:
            return "the cell holds an invisible character: {character!u}, {name}"
        return "the cell holds an invisible character: {character!u}, a control character"

    @property
    def name(self) -> str:
        """The name in Unicode, or an empty text."""
        return unicodedata.name(self.character, "").lower()


class OtherRow(Problem):
    """A row of this name is there already and says something else."""

    name: str
    column: str
    there: str
    here: str
    place: str
    says = "{name} is in {place} already, where {column!r} is {there!q} and not {here!q}"
    wants = "the same row, or other years, works or models, or another name"
