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
        table=table,
        code=code,
        value=value,
        meaning=meaning,
        applies=Applies(first, last, **applies),
        citation=Citation(basis, source),
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
    id="casting_day",
    tokens=(
        DateToken(part=DatePart.DAY, width=2),
        DateToken(part=DatePart.MONTH_LETTER, width=1, table="months"),
        DateToken(part=DatePart.YEAR_DIGIT, width=1),
    ),
    first_year=1952,
    last_year=1963,
    start=None,
    placeholders=(Placeholder(code="00A0", meaning="pattern without a date", citation=INVENTED),),
    citation=INVENTED,
)
AXLE_DAY = DateForm(
    id="axle_day",
    tokens=(DateToken(part=DatePart.DAY_COUNT, width=4),),
    first_year=1952,
    last_year=1966,
    start=date(1952, 1, 1),
    placeholders=(),
    citation=INVENTED,
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


NO_EXTRAS = EmptyMeaning(value="none", meaning="no extras ordered", citation=INVENTED)

MARKS = (
    mark_of(
        "plate",
        Field(id="type", name="type", says="model", widths=(2,), alphabet=LETTERS, table="types"),
        Field(
            id="chassis", name="chassis number", says="chassis_number", widths=(6,), alphabet=DIGITS
        ),
        Field(id="paint", name="paint", says="paint", widths=(2,), alphabet=DIGITS, table="paints"),
        Field(
            id="extras",
            name="extras",
            says="extras",
            widths=(1, 2),
            alphabet=LETTERS,
            table="extras",
            empty=NO_EXTRAS,
        ),
        windows=True,
    ),
    mark_of(
        "frame",
        Field(id="type", name="type", says="model", widths=(2,), alphabet=LETTERS, table="types"),
        Field(
            id="chassis", name="chassis number", says="chassis_number", widths=(6,), alphabet=DIGITS
        ),
    ),
    mark_of(
        "wing",
        Field(
            id="tail",
            name="tail",
            says="chassis_number",
            widths=(4,),
            alphabet=DIGITS,
            part="last 4",
        ),
    ),
    mark_of(
        "casting",
        Field(
            id="date",
            name="date",
            says="casting_date",
            widths=(4,),
            alphabet=DIGITS + "ABCDEFGHJKLM",
            date_form="casting_day",
        ),
        how_made=HowMade.CAST,
    ),
    mark_of(
        "axle",
        Field(
            id="day",
            name="day",
            says="axle_date",
            widths=(4,),
            alphabet=DIGITS,
            date_form="axle_day",
        ),
    ),
)

BOOK = CodeBook(
    id="tarvane-test",
    title="Tarvane",
    maker="Tarvane",
    version="1",
    first_year=1952,
    last_year=1961,
    summary="",
    works=(
        Works(id="ellery", name="Ellery", role="body_works", applies=ALWAYS, citation=INVENTED),
    ),
    items=(
        Item(
            id="chassis_number",
            name="chassis number",
            kind=ItemKind.NUMBER,
            length=6,
            identification=True,
        ),
        Item(id="model", name="model", kind=ItemKind.CODE),
        Item(id="paint", name="paint", kind=ItemKind.CODE),
    ),
    series=(
        Series(
            item="chassis_number",
            supplied="new",
            first="700001",
            last="700140",
            applies=Applies(1954, 1957),
            meaning="Solent Sprints",
            citation=INVENTED,
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
