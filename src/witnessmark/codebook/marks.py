"""Marks: the plates, stampings, castings, labels and papers of a code book, and their fields."""

from datetime import date
from enum import StrEnum
from itertools import groupby
from typing import Any

from witnessmark.codebook.listed import ListingRow
from witnessmark.codebook.records import (
    FOR_CARS,
    LONGEST_FIELD,
    Applies,
    CarRow,
    CitedRow,
    applies_of,
)
from witnessmark.documents.entries import Entry
from witnessmark.documents.row import (
    Row,
    canonical,
    day,
    form,
    free_text,
    identifier,
    many_rows,
    number,
    numbers,
    one_row,
    texts,
    together,
    word,
    year,
    yes_no,
)

SEVENTEEN = "seventeen characters"
RULE_TABLES = {
    SEVENTEEN: (
        "characters",
        "check_digits",
        "letter_values",
        "look_alikes",
        "never_in_year",
        "never_used",
        "regions",
        "weights",
    )
}
"""The code tables that the rules of a whole number read, by the name of the rules."""


class WeekCount(StrEnum):
    """How the weeks of a year are counted."""

    SEVENS = "sevens"
    FULL_WEEKS = "full weeks"


class YearIs(StrEnum):
    """What the year digits of a date code are: some makers stamped the model year."""

    CALENDAR = "calendar"
    MODEL = "model"
    EITHER = "either"


class DatePart(StrEnum):
    """The parts of which a date code is composed."""

    DAY = "day"
    MONTH = "month"
    MONTH_LETTER = "month_letter"
    YEAR_DIGIT = "year_digit"
    YEAR_TWO = "year_two"
    YEAR_FOUR = "year_four"
    WEEK = "week"
    WEEK_LETTER = "week_letter"
    DAY_COUNT = "day_count"
    LITERAL = "literal"


class DateToken(Row, called="a part of a date"):
    """One part of a date code, in the order in which the code is written.

    A month letter's row value is 1 to 12, or 13 to 24 for the second calendar year of the same
    model run; a week letter's value is the week of the month from 1 (1 = days 1 to 7).
    """

    part: DatePart = word("What this part of the code gives.", DatePart, instead=DatePart.LITERAL)
    width: int = number("How many characters it has, at most.", 0, LONGEST_FIELD, default=0)
    least_width: int = number(
        "The fewest it can have, where a number is written without leading zeros.",
        0,
        LONGEST_FIELD,
        default=0,
    )
    table: str = identifier(
        "The code table of a month letter or week letter.", of="table", default=""
    )
    text: str = free_text("The text of a literal part, which carries no meaning.", default="")
    counted: WeekCount = word(
        "How weeks are counted: sevens from 1 January, or full weeks, Sunday to Saturday.",
        WeekCount,
        default=WeekCount.SEVENS,
    )

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """A literal without a width is as wide as its text."""
        made["width"] = made["width"] or len(made["text"])


class Placeholder(CitedRow, called="a placeholder"):
    """A code that stands where a date should and is none."""

    code: str = free_text("The code as written.")
    meaning: str = free_text("What it says instead.")


class DateForm(CitedRow, called="a form of date"):
    """How a date code is built.

    Where the code does not give the year, or only its last digit, every year from `first_year`
    to `last_year` that fits is a reading of it. Within a run, letters count the months of it.
    """

    id: str = identifier("Its id, which fields name under `date_form`.", names="form of date")
    first_year: int = year("First calendar year that a code of this form can mean.", default=None)
    last_year: int = year("Last calendar year that a code of this form can mean.", default=None)
    start: date | None = day("Day 0 of a day count.", default=None)
    tokens: tuple[DateToken, ...] = many_rows("Its parts, in order.", DateToken)
    placeholders: tuple[Placeholder, ...] = many_rows(
        "Codes that are not dates.", Placeholder, default=()
    )
    within = word(
        "run: the day lies in a run of the car's model year (tables/runs.csv).",
        ("", "run"),
        default="",
    )
    within_run: bool = False
    year_is: YearIs = word(
        "What its year is: the calendar year, the model year, or either by its sources.",
        YearIs,
        default=YearIs.CALENDAR,
    )
    model_year_from_month: int = number(
        "The month from which a model year's dates lie in the calendar year before.",
        1,
        12,
        default=8,
    )

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """Its years are the book's where it names none."""
        made["first_year"] = entry.number_or("first_year", ground.first_year)
        made["last_year"] = entry.number_or("last_year", ground.last_year)
        made["within_run"] = entry.text("within") == "run"


class MarkKind(StrEnum):
    """What kind of mark it is."""

    PLATE = "plate"
    STAMPING = "stamping"
    CASTING = "casting"
    LABEL = "label"
    PAPER = "paper"


class HowMade(StrEnum):
    """How a mark's characters were made: by hand, mis-strikes happen."""

    STRUCK_BY_HAND = "struck by hand"
    GANG_STRUCK = "gang-struck"
    CAST = "cast"
    PRINTED = "printed"
    WRITTEN = "written"


class Carried(StrEnum):
    """What carries a mark: decides how it may have come to the car."""

    FRAME_RAIL = "frame rail"
    WELDED_PANEL = "welded panel"
    BOLTED_PANEL = "bolted panel"
    BLOCK = "block"
    CASING = "casing"
    PLATE = "plate"
    PAPER = "paper"


class EmptyMeaning(CitedRow, called="an empty field's meaning"):
    """What it says that the field was left empty."""

    value: str = canonical("The canonical value that an empty field says.")
    meaning: str = free_text("The meaning in words.")


class Field(ListingRow, called="a field"):
    """One part of a mark and what it says.

    Without a table and a form of date it holds free digits. A partial table cannot say of a
    code that it was not in use. `tokens` are the parts of its form of date.
    """

    id: str = identifier("Its id, different from any other of the same mark.", names="field")
    name: str = free_text("What it is called in sentences.")
    says: str = identifier("The item that it says.", of="item")
    widths: tuple[int, ...] = numbers("The numbers of characters it can have.", 1, LONGEST_FIELD)
    alphabet: str = free_text("The characters that it can have.")
    table: str = identifier("The code table that explains it.", of="table", default="")
    date_form: str = identifier("The form of date that it follows.", of="form of date", default="")
    part: str = form(
        "Which places of a number are here: all, last 4, first 3.",
        r"all|(?:first|last) [1-9][0-9]?",
        "all, or such as 'last 4' or 'first 3'",
        default="all",
    )
    before: str = free_text("Text in front of it on the metal that carries no meaning.", default="")
    heading: str = free_text("The heading of its window.", default="")
    row: int = number("The row of its window, from the top.", 1, 99, default=1)
    column: int = number("The column of its window, from the left.", 1, 99, default=1)
    optional: bool = yes_no("Can it be missing?", default=False)
    empty: EmptyMeaning | None = one_row(
        "What it says when it is left empty.", EmptyMeaning, default=None
    )
    tokens: tuple[DateToken, ...] = ()

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """The parts of its form of date stand with it."""
        ListingRow.settle(made, entry, ground)
        made["tokens"] = ground.tokens.get(made["date_form"], ())


class MarkLayout(Row, called="a layout"):
    """Fields that stand alike on several marks, each of which names it under `layout`."""

    id: str = identifier("Its id, which marks name.", names="layout")
    field = many_rows("Its fields, in reading order.", Field)


class Alias(Row, called="a name that people use"):
    """A name that means this mark on some of the cars that bear it."""

    name: str = free_text("The name: vin.")
    applies: Applies = together(applies_of, FOR_CARS)


class Mark(CarRow, called="a mark"):
    """A plate, stamping, casting, label or paper that says something about the car.

    Fields of windows are typed between `|`; fields of the same row and column share one, in
    their order. A car has one of a mark and its `other_form_of`. `piece` and `surface` are empty
    where they are derived (pieces.py). `book` is the further book beside the maker's that
    describes it; empty for the maker's own.
    """

    id: str = identifier("Its id, which readings name.", names="mark")
    name: str = free_text("What it is called in sentences: chassis plate.")
    local_name: str = free_text("What its maker's people call it.", default="")
    aliases: tuple[Alias, ...] = texts(
        "What the trade calls it: vin, trim tag. No other mark of the same car may have the name.",
        default=(),
    )
    alias = many_rows("Names that mean it on some cars only.", Alias, default=())
    other_form_of: str = identifier(
        "The mark that this one replaces on a car.",
        of="mark, itself no other form,",
        default="",
    )
    kind: MarkKind = word("What kind of mark it is.", MarkKind, instead=MarkKind.PAPER)
    assembly: str = identifier(
        "The assembly it is on; empty for plates and papers.", of="assembly", default=""
    )
    site: str = identifier("The site where it is; empty for papers.", of="site", default="")
    piece: str = identifier(
        "The declared piece that it is on; if empty, worked out from the mark.",
        of="piece",
        default="",
    )
    surface: str = identifier(
        "What is struck, ground or skimmed as one; if empty, its site.", default=""
    )
    how_made: HowMade = word("How its characters were made.", HowMade, instead=HowMade.PRINTED)
    carried: Carried = word("What carries it.", Carried, instead=Carried.PAPER)
    fixings: str = free_text("How it is fixed: four brass rivets.", default="")
    windows: bool = yes_no("Is each field a window of its own?", default=False)
    always_struck: bool = yes_no("Is its absence evidence?", default=False)
    number_rules: str = word(
        "Rules that the whole number follows beyond its fields.", ("", SEVENTEEN), default=""
    )
    layout = identifier(
        "The layout whose fields it has, before those of its own.", of="layout", default=""
    )
    field = many_rows("Its own fields, in reading order.", Field, default=())
    fields: tuple[Field, ...]
    book: str = ""

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """Fields of windows stand in reading order; a name is one for all its cars, or some."""
        fields = [Field.of(each, ground) for each in entry.entries("field")]
        if made["windows"]:
            fields.sort(key=lambda field: (field.row, field.column))
        made["fields"] = tuple(fields)
        whole: Applies = made["applies"]
        some = (Alias.of(each, ground) for each in entry.entries("alias"))
        made["aliases"] = (
            *(Alias(name=name, applies=whole) for name in entry.texts("aliases")),
            *(Alias(name=each.name, applies=whole.narrowed(each.applies)) for each in some),
        )

    @property
    def argues(self) -> bool:
        """May what it says be weighed? Not where the mark itself is from memory, nor where a
        further book describes it: such parts are fitted later as a rule."""
        return self.citation.basis.weighs and not self.book

    def windows_in_order(self) -> tuple[tuple[Field, ...], ...]:
        """The fields of each window, windows in reading order."""
        ordered = sorted(self.fields, key=lambda field: (field.row, field.column))
        groups = groupby(ordered, key=lambda field: (field.row, field.column))
        return tuple(tuple(fields) for _, fields in groups)
