# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""Every row can be reached: a car of the book is meant, and bears a mark that reads it."""

import pytest


def test_a_row_is_of_a_car_that_was_built(tiny):
    changed = tiny.add("codes", "types,PS,solent-sprint,x,1955,1955,,solent-sprint,invented,demo")
    told = """\
tables/codes.csv:9:37: no car of the book is of these years, works and models
    types,PS,solent-sprint,x,1955,1955,,solent-sprint,invented,demo
                                        ^^^^^^^^^^^^^
expected years, works and models in which a car was built"""
    assert changed.told() == told


def test_a_row_is_of_works_that_built_the_model(tiny):
    row = "no-trim,x,forbidden,trim,tan-leather,trim,none,firm,,,ellery,solent-sprint,invented,demo"
    told = """\
tables/rules.csv:3:62: no car of the book is of these years, works and models
    no-trim,x,forbidden,trim,tan-leather,trim,none,firm,,,ellery,solent-sprint,invented,demo
                                                                 ^^^^^^^^^^^^^
expected years, works and models in which a car was built"""
    assert tiny.add("rules", row).told() == told
    # A works and a coachbuilder both had a hand in one car.
    both = row.replace("ellery,solent-sprint", "tarvane marrick,solent-sprint")
    assert tiny.add("rules", both).told() == ""


def test_a_mark_is_on_a_car_that_was_built_and_its_rows_are_not_told_of_as_well(tiny):
    limits = 'carried = "frame rail"\nlast_year = 1955\nmodels = ["solent-sprint"]'
    told = """\
book.toml:94:10: no car of the book is of these years, works and models
    models = ["solent-sprint"]
             ^^^^^^^^^^^^^^^^^
expected years, works and models in which a car was built"""
    assert tiny.change("book", 'carried = "frame rail"', limits).told() == told


def test_a_code_is_of_a_car_with_a_mark_that_reads_it(tiny):
    changed = tiny.change("book", 'id = "plate"', 'id = "plate"\nlast_year = 1956')
    changed = changed.add("codes", "types,PS,solent-sprint,x,1957,,,,invented,demo")
    told = """\
tables/codes.csv:9:26: no mark on these cars has a field for the table 'types'
    types,PS,solent-sprint,x,1957,,,,invented,demo
                             ^^^^
expected years, works and models of a mark that has one"""
    assert changed.told() == told


def test_a_letter_of_a_date_is_reached_through_its_form(tiny):
    changed = tiny.change(
        "book", 'carried = "frame rail"', 'carried = "frame rail"\nlast_year = 1956'
    )
    assert changed.told() == ""
    told = """\
tables/codes.csv:9:14: no mark on these cars has a field for the table 'months'
    months,B,2,x,1957,,,,invented,demo
                 ^^^^
expected years, works and models of a mark that has one"""
    codes = changed.tables["codes"].replace("February,,", "February,,1956")
    assert changed.table("codes", codes + "months,B,2,x,1957,,,,invented,demo\n").told() == told


BODY_NUMBER = """\
[[item]]
id = "body_number"
name = "body number"
kind = "number"
length = 4

[[item]]
id = "trim"
"""


def test_the_series_of_an_item_that_no_mark_says_is_told_of_once(tiny):
    changed = tiny.change("book", '[[item]]\nid = "trim"\n', BODY_NUMBER)
    for first, last in (("0001", "0400"), ("0401", "0900")):
        changed = changed.add(
            "series", f"body_number,{first},{last},x,new,1955,1957,,,invented,demo"
        )
    told = """\
tables/series.csv:5:1: no mark says 'body_number'
    body_number,0001,0400,x,new,1955,1957,,,invented,demo
    ^^^^^^^^^^^
expected an item that a field of a mark says"""
    assert changed.told() == told


@pytest.mark.parametrize(
    ("row", "column", "told"),
    [
        (
            "late,trim,C,C2,x,,,,,invented,demo",
            "C2",
            "no mark can say 'C2' for 'trim'\nexpected a code of a table that a mark reads for it",
        ),
        (
            "lost,casting_date,00A0,1X05,x,,,,,invented,demo",
            "1X05",
            "no mark can say '1X05' for 'casting_date'\n"
            "expected a date such as 1955, 1955-03 or 1955-03-14, or its code as a mark has it",
        ),
        (
            "strike,build_date,1955-02,1955-02-30,x,,,,,invented,demo",
            "1955-02-30",
            "no mark can say '1955-02-30' for 'build_date'\n"
            "expected a date such as 1955, 1955-03 or 1955-03-14, or its code as a mark has it",
        ),
    ],
)
def test_an_exception_is_of_a_code_or_date_that_its_item_can_have(tiny, row, column, told):
    (problem,) = tiny.add("exceptions", row).parsed().problems
    at = row.index(column) + 1
    says, wants = told.split("\n")
    mark = " " * (at - 1) + "^" * len(column)
    shown = f"tables/exceptions.csv:3:{at}: {says}\n    {row}\n    {mark}\n{wants}"
    assert tiny.add("exceptions", row).told() == shown
    assert problem.source.column == at


POINTS = "id,item,first,last,dated,date_first,date_last,meaning,basis,source\n"


def point(tiny, row):
    return tiny.table("points", f"{POINTS}{row}\n").told()


def test_the_day_of_a_point_is_in_the_calendar(tiny):
    told = """\
tables/points.csv:2:44: '1955-02-30' has no day 30
    one,chassis_number,550001,,built,1955-0228,1955-02-30,x,invented,demo
                                               ^^^^^^^^^^
expected a year, a month or a day: 1955, 1955-03 or 1955-03-14"""
    row = "one,chassis_number,550001,,built,1955-0228,1955-02-30,x,invented,demo"
    assert told in point(tiny, row)
    assert "'1955-0228' is not a date such as 1955, 1955-03 or 1955-03-14" in point(tiny, row)


def test_the_last_day_of_a_point_is_not_before_its_first(tiny):
    told = """\
tables/points.csv:2:42: the last, '1955-02-28', comes before the first, '1955-03'
    one,chassis_number,550001,,built,1955-03,1955-02-28,x,invented,demo
                                             ^^^^^^^^^^
expected '1955-03' or later"""
    assert (
        point(tiny, "one,chassis_number,550001,,built,1955-03,1955-02-28,x,invented,demo") == told
    )
    assert point(tiny, "one,chassis_number,550001,,built,1955-03,1955,x,invented,demo") == ""


def test_a_point_is_of_a_number_written_as_its_item_is(tiny):
    told = """\
tables/points.csv:2:20: '55001' is not written as 'chassis_number' is
    one,chassis_number,55001,,built,1955,,x,invented,demo
                       ^^^^^
expected 6 characters of '0123456789'"""
    assert point(tiny, "one,chassis_number,55001,,built,1955,,x,invented,demo") == told
    told = """\
tables/points.csv:2:5: 'trim' is an item of kind code
    one,trim,L1,,built,1955,,x,invented,demo
        ^^^^
expected an item of kind number"""
    assert point(tiny, "one,trim,L1,,built,1955,,x,invented,demo") == told


def test_a_lag_leads_from_one_item_to_another(tiny):
    changed = tiny.change("lags", "casting_date,build_date", "casting_date,casting_date")
    told = """\
tables/lags.csv:2:26: the lag leads from 'casting_date' to itself
    cast-to-car,casting_date,casting_date,20,60,240,,,,,invented,demo
                             ^^^^^^^^^^^^
expected two items"""
    assert changed.told() == told


def test_lags_in_a_circle_do_not_set_a_date_after_itself(tiny):
    changed = tiny.add("lags", "car-to-cast,build_date,casting_date,-10,60,240,,,,,invented,demo")
    told = """\
tables/lags.csv:3:37: this lag and cast-to-car go in a circle, by which a date is 10 days after itself
    car-to-cast,build_date,casting_date,-10,60,240,,,,,invented,demo
                                        ^^^
expected least_days that add up to 0 or less on the way round"""
    assert changed.told() == told
    assert (
        tiny.add("lags", changed.tables["lags"].splitlines()[2].replace("-10", "-20")).told() == ""
    )


def test_lags_of_other_cars_go_in_no_circle(tiny):
    changed = tiny.change("lags", "20,60,240,,,", "20,60,240,,1955,")
    row = "car-to-cast,build_date,casting_date,-10,60,240,{},,,,invented,demo"
    assert changed.add("lags", row.format(1956)).told() == ""
    assert "go in a circle" in changed.add("lags", row.format(1955)).told()


def test_a_circle_over_three_lags_is_told_once_at_its_last(tiny):
    dates = "".join(
        f'[[item]]\nid = "{name}_date"\nname = "{name} date"\nkind = "date"\n\n'
        for name in ("glass", "frame")
    )
    changed = tiny.change("book", '[[item]]\nid = "trim"', f'{dates}[[item]]\nid = "trim"')
    changed = changed.add("lags", "a,build_date,glass_date,-5,1,9,,,,,invented,demo")
    changed = changed.add("lags", "b,glass_date,frame_date,-5,1,9,,,,,invented,demo")
    assert changed.told() == ""
    changed = changed.add("lags", "c,frame_date,casting_date,-5,1,9,,,,,invented,demo")
    told = """\
tables/lags.csv:5:27: this lag and cast-to-car, a, b go in a circle, by which a date is 5 days after itself
    c,frame_date,casting_date,-5,1,9,,,,,invented,demo
                              ^^
expected least_days that add up to 0 or less on the way round"""
    assert changed.told() == told
