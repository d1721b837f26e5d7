"""Marks: the plates, stampings, castings, labels and papers of a code book, and their fields."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import groupby

from witnessmark.codebook.records import Applies, Citation


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


@dataclass(frozen=True, slots=True)
class DateToken:
    """One part of a date code. `table` lists letters; `text` is a literal's own text.

    `width` is the number of characters; a month letter's row value is 1 to 12,
    or 13 to 24 for the second calendar year of the same model run; a week
    letter's value is the week of the month from 1 (1 = days 1 to 7).
    `least_width` is smaller than `width` where a number may stand without its
    leading noughts; 0 means that it never does. `counted` says how weeks are
    counted: in sevens from 1 January, or full weeks from Sunday to Saturday.
    """

    part: DatePart
    width: int
    table: str = ""
    text: str = ""
    least_width: int = 0
    counted: WeekCount = WeekCount.SEVENS


@dataclass(frozen=True, slots=True)
class Placeholder:
    """A code that stands where a date should and is none."""

    code: str
    meaning: str
    citation: Citation


@dataclass(frozen=True, slots=True)
class DateForm:
    """How a date code is built. `start` is day 0 of a day count.

    Where the code does not give the year, or only its last digit, every year
    from `first_year` to `last_year` that fits is a reading of it. `within_run`:
    the day lies in a run of the car's model year, and letters count the months of
    that run. `year_is` says what year digits are; where they are the model year's,
    months from `model_year_from_month` on lie in the calendar year before.
    """

    id: str
    tokens: tuple[DateToken, ...]
    first_year: int
    last_year: int
    start: date | None
    placeholders: tuple[Placeholder, ...]
    citation: Citation
    within_run: bool = False
    year_is: YearIs = YearIs.CALENDAR
    model_year_from_month: int = 8


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


@dataclass(frozen=True, slots=True)
class EmptyMeaning:
    """What it says that a field was left empty."""

    value: str
    meaning: str
    citation: Citation


@dataclass(frozen=True, slots=True)
class Field:
    """One part of a mark and what it says.

    `widths`: the lengths it can have, in characters. `says` names an item.
    `part`: "all", or "last 4", "first 3": which places of a number stand here.
    `table` names the code table, `date_form` the form of date; both empty for
    free digits. `before` is text that stands before it on the metal and says
    nothing. `heading`, `row`, `column`: where the window stands on a plate.
    `incomplete`: the table is known to have gaps, so that it cannot say of a code
    that it was not in use. `tokens` are the parts of its form of date.
    """

    id: str
    name: str
    says: str
    widths: tuple[int, ...]
    alphabet: str
    part: str = "all"
    table: str = ""
    date_form: str = ""
    before: str = ""
    heading: str = ""
    row: int = 1
    column: int = 1
    optional: bool = False
    empty: EmptyMeaning | None = None
    incomplete: bool = False
    tokens: tuple[DateToken, ...] = ()


@dataclass(frozen=True, slots=True)
class Alias:
    """A name that people use for a mark, and the cars for which it means this one."""

    name: str
    applies: Applies


@dataclass(frozen=True, slots=True)
class Mark:
    """Any plate, stamping, casting, label or paper that the book describes.

    `assembly` is where it stands for the weighing; empty for plates and papers.
    `windows`: True where fields stand in windows, typed between `|`; fields of
    the same row and column share one, in their order. `always_struck`: this works
    always made it, so that its absence is evidence. `number_rules` names the rules
    that a whole number follows beyond its fields, or is empty. `other_form_of` names the
    mark in whose place a car bears this one, or is empty: a car has one of the two. `piece` is
    the declared piece it stands on and `surface` what is struck, ground or skimmed with it, both
    empty where they are derived (pieces.py). `book`
    is the further book beside the maker's that describes it; empty for the maker's own.
    """

    id: str
    name: str
    local_name: str
    kind: MarkKind
    assembly: str
    site: str
    how_made: HowMade
    carried: Carried
    fixings: str
    windows: bool
    always_struck: bool
    applies: Applies
    fields: tuple[Field, ...]
    citation: Citation
    number_rules: str = ""
    book: str = ""
    aliases: tuple[Alias, ...] = ()
    other_form_of: str = ""
    piece: str = ""
    surface: str = ""

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
