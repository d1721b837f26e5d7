"""The appendix names the rows that an Opinion used, as they stand in the book, and no other."""

from dataclasses import replace

import pytest

from tests.worked.opened import CARS, book_and_version, case_of, opinion_of, unweighed
from witnessmark.report.sections.rows_used import RowKind, rows_used, sources_of

every_car = pytest.mark.parametrize("car", CARS)
BOOK = book_and_version()[0]


def keys(opinion, kind):
    return {row.key for row in rows_used(opinion, BOOK) if row.kind is kind}


@every_car
def test_every_code_that_was_read_stands_with_its_table(car):
    opinion = opinion_of(car)
    rows = {(r.table, r.key, r.meaning) for r in rows_used(opinion, BOOK) if r.kind is RowKind.CODE}
    listed = {(each.table, each.code, each.meaning) for each in BOOK.codes}
    own = {row for row in rows if row[1] != "_"}  # left empty: no row of a table
    assert own
    assert own <= listed
    for decoding in opinion.decodings:
        mark = BOOK.mark(decoding.mark)
        tables = {field.id: field.table for field in mark.fields}
        for field in decoding.alternatives[0].fields if decoding.alternatives else ():
            if field.listed and tables[field.field] and field.code.isalnum():
                assert (tables[field.field], field.code) in {row[:2] for row in rows}


def test_what_cannot_be_read_and_what_was_left_empty_is_told_apart():
    """The type figure on the frame of `no-papers` is worn away: no row of the book says it."""
    assert "?" not in keys(opinion_of("no-papers"), RowKind.CODE)
    assert "_" in keys(opinion_of("clean"), RowKind.CODE)


@every_car
def test_every_rule_and_lag_that_a_finding_rests_on_stands_there(car):
    opinion = opinion_of(car)
    for rule, kind in (
        ("combination_of_codes", RowKind.RULE),
        ("dates_in_order", RowKind.LAG),
    ):
        topics = {each.topic for each in opinion.findings if each.rule == rule}
        assert keys(opinion, kind) == topics


@every_car
def test_every_row_stands_once_with_a_source(car):
    rows = rows_used(opinion_of(car), BOOK)
    assert len(rows) == len(set(rows))
    assert all(row.source for row in rows)
    assert set(sources_of(rows)) == {(row.basis, row.source) for row in rows}


@every_car
def test_every_feature_and_place_that_was_noted_stands_there(car):
    opinion = opinion_of(car)
    rows = rows_used(opinion, BOOK)
    noted = {(look.site, look.feature) for look in opinion.casefile.looks}
    assert {(r.table, r.key) for r in rows if r.kind is RowKind.FEATURE} == noted
    assert keys(opinion, RowKind.SITE) == {site.name for site in opinion.sites}


def test_a_lag_has_its_days():
    (row,) = (r for r in rows_used(opinion_of("clean"), BOOK) if r.key == "casting-to-despatch")
    assert row.days == (20, 60, 240)


def test_only_the_series_that_a_finding_names_stand_there():
    clean = keys(opinion_of("clean"), RowKind.SERIES)
    assert "31750 – 32522" in clean
    assert "520001 – 520318" not in clean
    assert len(clean) < len(BOOK.series)


def test_a_source_beyond_the_car_stands_where_it_speaks_of_what_is_open():
    assert "frame-photographs" in keys(opinion_of("no-papers"), RowKind.SETTLEMENT)
    assert "frame-photographs" not in keys(opinion_of("clean"), RowKind.SETTLEMENT)


def test_what_is_no_longer_read_is_no_longer_used():
    case = case_of("clean")
    blank = unweighed("clean", replace(case, readings=()))
    assert keys(opinion_of("clean"), RowKind.CODE)
    assert keys(blank, RowKind.CODE) == keys(blank, RowKind.DATE_FORM) == set()


def test_a_known_exception_stands_where_a_finding_names_it():
    """Chassis 700102 of 1954 is one of the pilot cars of the book."""
    case = case_of("clean")
    claim = replace(
        case.claim,
        items={**case.claim.items, "chassis_number": "700102", "model_year": "1954"},
        built="1954-05",
    )
    pilot = unweighed("clean", replace(case, claim=claim))
    named = any("pilot Sprints" in each.observation for each in pilot.findings)
    assert named == bool(keys(pilot, RowKind.EXCEPTION))
    assert named
    assert keys(opinion_of("clean"), RowKind.EXCEPTION) == set()
