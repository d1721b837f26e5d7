"""A number that stands in two fields is asked of series, known cars and days as one number."""

from dataclasses import replace
from datetime import date

import pytest

from tests.decoding.conftest import ALWAYS, BOOK, DIGITS, INVENTED, LETTERS, mark_of
from witnessmark.codebook import Applies, Field, Point
from witnessmark.decoding import decode, fields_said, pooled
from witnessmark.reading import parse_reading

TYPE = Field(id="type", name="type", says="model", widths=(2,), alphabet=LETTERS, table="types")


def part(name, which, alphabet=DIGITS, **more):
    """A field for some characters of the chassis number."""
    width = int(which.split()[1])
    return Field(
        id=name, name=f"{name} part", says="chassis_number", widths=(width,), alphabet=alphabet,
        part=which, **more,
    )  # fmt: skip


PARTED = mark_of("parted", TYPE, part("works", "first 1", "67"), part("serial", "last 5"))
WINDOWS = mark_of(
    "windowed", TYPE, part("serial", "last 5"), part("works", "first 1"), windows=True
)
POINT = Point(
    id="known", item="chassis_number", first="700100", last="", dated="built",
    date_first="1955-03", date_last="", date_code="", meaning="the hundredth",
    applies=Applies(1955, 1955), citation=INVENTED,
)  # fmt: skip
OWN = replace(BOOK, marks=(*BOOK.marks, PARTED, WINDOWS), points=(POINT,))


def read(mark, text):
    """What was typed for a mark, decoded."""
    return decode(parse_reading(text, mark), OWN, mark)


def told(decoding):
    return {each.field: (each.value, each.meaning) for each in decoding.alternatives[0].fields}


@pytest.mark.parametrize(
    ("mark", "text"), [(PARTED, "SP 7 00123"), (PARTED, "SP700123"), (WINDOWS, "SP | 00123 | 7")]
)
def test_both_parts_are_one_number_with_its_series(mark, text):
    found = read(mark, text)
    assert told(found)["serial"] == ("700123", "chassis number: Solent Sprints")
    assert set(told(found)) == {"type", "serial"}
    assert [(each.field, each.part) for each in found.field_cells][1] == ("serial", "all")


def test_it_is_told_as_the_same_number_in_one_field_is():
    parted, whole = read(PARTED, "SP700123"), read(OWN.mark("frame"), "SP700123")
    assert told(parted)["serial"] == told(whole)["chassis"]
    seen = [
        next(s for s in pooled(OWN, (each,)).values() if s.says == "chassis_number")
        for each in (parted, whole)
    ]
    assert [p.likelihood for p in seen[0].places] == [p.likelihood for p in seen[1].places]


def test_a_number_outside_every_series_is_told_so_and_another_inside():
    """What is kept of one number is not told of the next."""
    assert "not in any series" in told(read(PARTED, "SP700150"))["serial"][1]
    assert "Solent Sprints" in told(read(PARTED, "SP700123"))["serial"][1]
    assert "not in any series" in told(read(PARTED, "SP600123"))["serial"][1]


def test_a_window_left_out_is_named_and_its_places_say_nothing():
    found = read(WINDOWS, "SP | 00123 |")
    assert found.missing == ("works",)
    [number] = [each for each in found.field_cells if each.field == "serial"]
    assert ("".join(cell.sign() for cell in number.cells), number.missing) == ("?00123", 0)


def test_where_a_place_of_the_line_lacks_nobody_knows_which():
    found = read(PARTED, "SP00123")
    [number] = [each for each in found.field_cells if each.field == "serial"]
    assert number.lacks == 1
    assert told(found)["serial"][1] == "chassis number"
    assert pooled(OWN, (found,))["parted", "serial"].places == ()


def test_a_number_is_put_together_of_all_its_places_and_of_nothing_less():
    short = mark_of("short", part("works", "first 1"), part("serial", "last 4"))
    left_out = mark_of("left", part("works", "first 1", optional=True), part("serial", "last 5"))
    for mark in (short, left_out, OWN.mark("wing")):
        book = replace(OWN, marks=(mark,))
        assert fields_said(book, mark) == mark.fields


def test_days_follow_from_the_whole_number():
    book = replace(
        OWN, items=tuple(replace(i, numbers_follow="build") for i in OWN.items), points=(POINT,)
    )
    assert ALWAYS.first_year == 1952
    dated = replace(
        PARTED,
        id="dated",
        fields=(
            *PARTED.fields,
            Field(
                id="date", name="date", says="casting_date", widths=(4,),
                alphabet=DIGITS + "ABCDEFGHJKLM", date_form="casting_day",
            ),
        ),
    )  # fmt: skip
    book = replace(book, marks=(*book.marks, dated))
    found = decode(parse_reading("SP700123 03D5", dated), book, dated)
    [day] = [m for m in found.alternatives[0].fields if m.field == "date"]
    assert [span.first for span in day.spans] == [date(1955, 4, 3)]
