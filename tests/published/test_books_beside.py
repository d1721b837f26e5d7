"""Tires, glass, belts and labels in the case of any maker's car: explained, dated, not weighed.

The numbers are invented, of the forms that the books give.
"""

import json
from dataclasses import replace
from datetime import date

import pytest

from tests.examination.cars import sprint
from tests.published.books import opened
from tests.published.test_real_books_weigh import CASES
from tests.worked.opened import case_of
from witnessmark.agreement import CarMarks, compare
from witnessmark.agreement.items import showings
from witnessmark.casefile import Casefile, Claim, LookSeen, MarkReading
from witnessmark.codebook import joined
from witnessmark.decoding import decode
from witnessmark.examination import BookVersion, car_marks, examine, render_opinion
from witnessmark.reading import parse_reading
from witnessmark.report import build_outline, report_text
from witnessmark.report.issue.issued import parse_issued
from witnessmark.report.outline import build_annex
from witnessmark.report.sections.rows_used import rows_used
from witnessmark.weighing import answer

FURTHER = ("dated-parts", "seventeen-characters")
CARS = {"sprint": case_of("clean"), **CASES}
LATE = {
    "dated-parts.tire_number_3": "DOT A1 XYZ 107",
    "dated-parts.tire_week_4": "2519",
    "dated-parts.glazing_maker_code": "DOT 23",
    "dated-parts.seat_belt_label": "2001",
    "dated-parts.parts_marking": "1TVDA22E6FP123456",
    "seventeen-characters.vehicle_number": "1TVDA22E6FP123456",
}
"""A tire of thirty years after the car and more, and another car's number."""


def beside(casefile: Casefile, readings: dict[str, str], *looks: LookSeen) -> Casefile:
    """The case with both further books and what was read by them."""
    added = tuple(MarkReading(mark=mark, text=text) for mark, text in readings.items())
    update = {
        "beside": FURTHER,
        "readings": (*casefile.readings, *added),
        "looks": (*casefile.looks, *looks),
    }
    return replace(casefile, **update)


def marks_of(casefile: Casefile) -> CarMarks:
    """The marks of the case, decoded by its books."""
    return car_marks(casefile, joined(opened(casefile.book), tuple(map(opened, casefile.beside))))


def ratios(casefile: Casefile) -> dict[tuple[str, str], float]:
    """log10 LR of every question."""
    found = answer(marks_of(casefile), with_contributions=False, with_next_looks=False)
    return {(each.question, each.about): each.log10_lr for each in found.conclusions}


@pytest.mark.parametrize("car", CARS)
def test_late_parts_and_another_cars_labels_move_no_conclusion(car):
    """Neither shell nor engine nor plate, by nothing; and they ask no question of their own."""
    ground_off = LookSeen(site="dated-parts.tire_sidewall", outcome="disturbed")
    before = ratios(CARS[car])
    assert before == pytest.approx(ratios(beside(CARS[car], LATE, ground_off)), abs=1e-9)


@pytest.mark.parametrize("car", CARS)
def test_every_late_part_is_decoded_and_none_is_compared_with_the_car(car):
    """Of each the likeliest meaning; no finding sets two tires, or a tire and the car, apart."""
    marks = marks_of(beside(CARS[car], LATE))
    said = {d.mark: d.alternatives[0].fields[-1].meaning for d in marks.decodings}
    assert said["dated-parts.tire_week_4"] == "23 to 29 June 2019"
    assert said["dated-parts.seat_belt_label"] == "1 January 2001 to 31 December 2001"
    between = [
        finding
        for finding in compare(marks)
        if {subject.mark for subject in finding.subjects} & set(LATE) and len(finding.subjects) > 1
    ]
    assert between == []


def test_the_claimed_year_settles_no_decade_of_a_tire():
    """Nor is the one near the car preferred where the marks are compared."""
    claim = CASES["camaro"].claim
    items = claim.items | {"model_year": "1971"}
    case = replace(CASES["camaro"], claim=replace(claim, items=items))
    marks = marks_of(beside(case, {"dated-parts.tire_week_3": "101"}))
    (showing,) = showings(marks, "dated-parts.tire_date")
    assert [day.span.first.year for day in showing.dates] == [1971, 1981, 1991]


def test_two_tires_are_two_parts_and_marks_at_two_places_are_compared():
    """Two forms of mark in one sidewall are of two tires; at two places they would be one's."""
    tires = {"dated-parts.tire_week_3": "107", "dated-parts.tire_week_4": "2519"}
    dated = opened("dated-parts")
    apart = [replace(m, site="glass") if m.id == "tire_week_3" else m for m in dated.marks]
    compared = []
    for further in (dated, replace(dated, marks=tuple(apart))):
        book = joined(opened("ford-1964-1973"), (further,))
        findings = compare(car_marks(beside(CASES["mustang"], tires), book))
        compared.append("dated-parts.tire_date" in {finding.topic for finding in findings})
    assert compared == [False, True]


def test_the_opinion_and_its_report_name_each_book_and_the_rows_of_each():
    """With version and digest; what was noted by it is told among what is not weighed."""
    own, dated = opened("tarvane-1952-1961"), opened("dated-parts")
    versions = [
        BookVersion(each.id, each.title, each.version, digest * 64)
        for each, digest in ((own, "a"), (dated, "b"))
    ]
    case = sprint({"dated-parts.tire_week_4": "2519"}, beside=["dated-parts"])
    book = joined(own, (dated,))
    opinion = examine(case, book, versions[0], tuple(versions[1:]), steady=False)
    document = json.loads(render_opinion(opinion))
    assert document["book"]["id"] == "tarvane-1952-1961"
    assert document["beside"] == [
        {
            "id": "dated-parts",
            "title": dated.title,
            "version": dated.version,
            "sha256": "b" * 64,
            "is_other_than_shipped": False,
        }
    ]
    assert parse_issued(json.dumps(document), "kept.json").beside == opinion.beside
    assert parse_issued(json.dumps(document | {"beside": []}), "kept.json").beside == ()
    assert (
        "Noted by the book dated-parts, which stands beside the maker’s: date of a tire, four "
        "digits. This explains and dates parts, which may have been fitted at any time, and does "
        "not argue."
    ) in [limit.sentence for limit in opinion.limitations]
    used = {(row.book, row.key) for row in rows_used(opinion, book)}
    assert {("dated-parts", "tire_week_four"), ("dated-parts", "tire sidewall")} <= used
    assert ("dated-parts", "glass mark") not in used
    text = report_text(build_outline(opinion, book, date(2026, 11, 25)))
    named = f"Beside it: {dated.title} (dated-parts), version {dated.version}, SHA-256 {'b' * 16}…"
    assert named in text
    behind = report_text(build_annex(opinion, book, date(2026, 11, 25)))
    assert "of the book dated-parts" in behind


def test_a_book_of_parts_alone_can_be_a_car_s_own_book():
    """A tire is fitted to no assembly: it is read and told, and nothing speaks for or against."""
    dated = opened("dated-parts")
    case = replace(sprint({"tire_week_4": "2519"}), book="dated-parts", claim=Claim(), looks=())
    version = BookVersion(dated.id, dated.title, dated.version, "b" * 64)
    opinion = examine(case, dated, version)
    assert [each.mark for each in opinion.decodings] == ["tire_week_4"]
    assert all(each.log10_lr == 0 for each in opinion.weighed)
    assert "2519" in report_text(build_outline(opinion, dated, date(2026, 10, 13)))


def test_a_word_typed_for_a_mark_of_few_characters_is_a_text_that_does_not_fit():
    """A month in words, as the label of a car has it, typed for the month of a wheel rim."""
    book = opened("dated-parts")
    for name in ("rim_month", "brake_hose_month"):
        mark = book.mark(name)
        said = decode(parse_reading("JANUARY1969", mark), book, mark)
        assert said.slip is not None or said.unread or said.unexplained
