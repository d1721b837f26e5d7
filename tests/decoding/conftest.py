"""A small code book of the invented maker, declared in Python."""

from dataclasses import replace
from datetime import date

import pytest

from witnessmark.codebook import (
    Applies,
    Basis,
    CarContext,
    Carried,
    Citation,
    CodeBook,
    CodeRow,
    DateForm,
    DatePart,
    DateToken,
    EmptyMeaning,
    Field,
    HowMade,
    Item,
    ItemKind,
    Mark,
    MarkKind,
    Placeholder,
    Series,
    Works,
)
from witnessmark.decoding import decode
from witnessmark.reading import parse_reading

INVENTED = Citation(Basis.INVENTED, "invented for a test")
DIGITS = "0123456789"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MONTHS = "ABCDEFGHJKLM"
ALWAYS = Applies(1952, 1961)


def row(table, code, value, meaning, first=1952, last=1961, basis=Basis.INVENTED, **applies):
    """One row of a code table."""
    source = "somebody's memory" if basis is Basis.MEMORY else INVENTED.source
    return CodeRow(
        table, code, value, meaning, Applies(first, last, **applies), Citation(basis, source)
    )


CODES = (
    row("types", "SA", "solent-saloon", "Solent saloon"),
    row("types", "SD", "solent-drophead", "Solent drophead"),
    row("types", "SP", "solent-sprint", "Solent Sprint", 1954, 1957),
    row("paints", "11", "coach-black", "Coach Black"),
    row("paints", "14", "fen-green", "Fen Green", 1952, 1955),
    row("paints", "14", "pine-green", "Pine Green", 1956, 1961),
    row("paints", "17", "signal-red", "Signal Red", basis=Basis.MEMORY),
    row("paints", "21", "primrose", "Primrose", 1959, 1961),
    row("paints", "24", "elm", "Elm", works=frozenset({"ellery"})),
    row("extras", "H", "heater", "heater"),
    row("extras", "R", "radio", "radio"),
    row("extras", "HR", "heater-radio", "heater and radio"),
    *(row("months", letter, str(n), letter) for n, letter in enumerate(MONTHS, 1)),
)

CASTING_DAY = DateForm(
    "casting_day",
    (
        DateToken(DatePart.DAY, 2),
        DateToken(DatePart.MONTH_LETTER, 1, table="months"),
        DateToken(DatePart.YEAR_DIGIT, 1),
    ),
    1952,
    1963,
    None,
    (Placeholder("00A0", "pattern without a date", INVENTED),),
    INVENTED,
)
AXLE_DAY = DateForm(
    "axle_day", (DateToken(DatePart.DAY_COUNT, 4),), 1952, 1966, date(1952, 1, 1), (), INVENTED
)


def mark_of(name, *fields, windows=False, how_made=HowMade.STRUCK_BY_HAND):
    """A mark with these fields, each in a window of its own where it has windows."""
    if windows:
        fields = tuple(replace(field, column=k) for k, field in enumerate(fields, 1))
    return Mark(
        id=name,
        name=name.replace("_", " "),
        local_name="",
        kind=MarkKind.PLATE if windows else MarkKind.STAMPING,
        assembly="",
        site="scuttle",
        how_made=how_made,
        carried=Carried.PLATE,
        fixings="",
        windows=windows,
        always_struck=True,
        applies=ALWAYS,
        fields=fields,
        citation=INVENTED,
    )


NO_EXTRAS = EmptyMeaning("none", "no extras ordered", INVENTED)

MARKS = (
    mark_of(
        "plate",
        Field("type", "type", "model", (2,), LETTERS, table="types"),
        Field("chassis", "chassis number", "chassis_number", (6,), DIGITS),
        Field("paint", "paint", "paint", (2,), DIGITS, table="paints"),
        Field("extras", "extras", "extras", (1, 2), LETTERS, table="extras", empty=NO_EXTRAS),
        windows=True,
    ),
    mark_of(
        "frame",
        Field("type", "type", "model", (2,), LETTERS, table="types"),
        Field("chassis", "chassis number", "chassis_number", (6,), DIGITS),
    ),
    mark_of("wing", Field("tail", "tail", "chassis_number", (4,), DIGITS, part="last 4")),
    mark_of(
        "casting",
        Field(
            "date", "date", "casting_date", (4,), DIGITS + "ABCDEFGHJKLM", date_form="casting_day"
        ),
        how_made=HowMade.CAST,
    ),
    mark_of("axle", Field("day", "day", "axle_date", (4,), DIGITS, date_form="axle_day")),
)

BOOK = CodeBook(
    id="tarvane-test",
    title="Tarvane",
    maker="Tarvane",
    version="1",
    first_year=1952,
    last_year=1961,
    summary="",
    works=(Works("ellery", "Ellery", "body_works", ALWAYS, INVENTED),),
    items=(
        Item("chassis_number", "chassis number", ItemKind.NUMBER, length=6, identification=True),
        Item("model", "model", ItemKind.CODE),
        Item("paint", "paint", ItemKind.CODE),
    ),
    series=(
        Series(
            "chassis_number", "700001", "700140", Applies(1954, 1957), "Solent Sprints", INVENTED
        ),
    ),
    codes=CODES,
    date_forms=(CASTING_DAY, AXLE_DAY),
    marks=MARKS,
)


@pytest.fixture(scope="session")
def book():
    """The book of this folder's tests."""
    return BOOK


@pytest.fixture(scope="session")
def decoded():
    """`decoded("frame", "SP700143", year=1955)`: what is typed for a mark, decoded."""

    def decoded_as_typed(mark_id, text, *, year=None, works=(), book=BOOK, **ways):
        mark = book.mark(mark_id)
        context = CarContext(model_year=year, works=frozenset(works))
        return decode(parse_reading(text, mark, **ways), book, mark, context)

    return decoded_as_typed
