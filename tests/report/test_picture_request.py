"""The picture request: what a seller may photograph, and nothing of what ought to be there."""

import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from tests.never_said import never_said
from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import Casefile, Claim
from witnessmark.codebook import open_book, shipped_books
from witnessmark.outline.records import Drawing
from witnessmark.plan import visit_plan
from witnessmark.plan.records import needed
from witnessmark.report import report_text
from witnessmark.report.mask.short_name import SharedId, shared_id
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.report.sheets.picture_request import (
    MOST_SIGNS,
    Sender,
    asked_for,
    message,
    picture_request,
)
from witnessmark.wording.pictures import car_views

PRINTED = date(2026, 11, 25)
BOOK = book_and_version()[0]
WORKS = ("Ellery", "Marrick")
SENDER = Sender(case_of("clean").assignment.examiners[0], "", date(2026, 12, 14))


@cache
def plan_of(car):
    """The plan of a demonstration car."""
    return visit_plan(case_of(car), BOOK, (), None)


@cache
def request_of(car):
    """The request for a demonstration car."""
    return picture_request(plan_of(car), shared_id(opinion_of(car), BOOK), PRINTED)


def read(outline, size):
    """The pages of the PDF as text; the compiler complains of nothing."""
    printed = print_outline(outline, (), PRINTED, Form(size=size))
    assert printed.warnings == ()
    return page_texts(printed.pdf)


@pytest.mark.parametrize("car", CARS)
def test_no_run_of_a_claimed_number_stands_in_the_request(car):
    """Neither in its text nor in what a PDF reader takes out."""
    case = case_of(car)
    told = report_text(request_of(car)) + "".join(read(request_of(car), PaperSize.A4))
    told = re.sub(r"\s", "", told)
    numbers = [v for item, v in case.claim.items.items() if item.endswith("_number")]
    for number in (*numbers, case.title_paper.number):
        assert [n for at in range(len(number) - 2) if (n := number[at : at + 3]) in told] == []


@pytest.mark.parametrize("car", CARS)
def test_nothing_is_said_of_what_ought_to_stand_at_a_place(car):
    """No works, code, meaning, outcome, look or mark of the plan stands in the list of places."""
    plan = plan_of(car)
    told = " ".join(f"{place.name} {place.where}" for place in asked_for(plan)).casefold()
    for site in (each for each in plan.sites if each.row.for_a_seller):
        for feature in site.features:
            assert [each for each in feature.outcomes if each.id.casefold() in told] == []
        for mark in site.marks:
            assert [name for name in mark.names if name.casefold() in told] == []
            fields = [field for window in mark.windows for field in window]
            meanings = [code.meaning for field in fields for code in field.expected]
            assert [each for each in meanings if each.casefold() in told] == []
    assert not re.search(r"spacing|upright|upside|rivet|weld", told)
    assert [name for name in WORKS if name in report_text(request_of(car))] == []


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_a_book_asks_a_seller_for_no_risk_and_tells_nothing_of_what_stands_there(folder):
    """Not lying down, not behind what must come off; the place alone, and no mark on it."""
    book = open_book(folder).book
    asked = [site for site in book.sites if site.for_a_seller]
    assert asked
    for site in asked:
        assert site.posture in ("", "standing", "over the wing", "kneeling", "seated")
        assert not needed(site.dismantling)
        assert not re.search(
            r"\b(spacing|upright|upside|rivet|weld|tag|number|code|stamp)", site.for_a_seller
        )


def test_a_place_without_words_for_a_seller_is_not_asked_for():
    """The column is empty unless somebody wrote what may be shown; the car as a whole remains."""
    sites = tuple(replace(site, for_a_seller="") for site in BOOK.sites)
    plan = visit_plan(case_of("clean"), replace(BOOK, sites=sites), (), None)
    assert plan.sites
    assert [each.name for each in asked_for(plan)] == [name for name, _ in car_views()]


def test_the_places_of_all_works_are_asked_for_alike():
    """A car of Ellery and one of Marrick of the same year: one list of places for the wings."""
    lists = []
    for body_works in ("ellery", "marrick"):
        items = {"model_year": "1955", "body_works": body_works}
        case = Casefile(id="bare", book=BOOK.id, claim=Claim(items=items))
        lists.append([p for p in asked_for(visit_plan(case, BOOK, (), None)) if "wing" in p.name])
    assert lists[0] == lists[1]
    assert [place.name for place in lists[0]] == ["left-hand inner wing", "right-hand inner wing"]


@pytest.mark.parametrize("car", CARS)
def test_nothing_under_the_car_or_behind_a_seat_is_asked_for(car):
    """No frame rail, axle, gearbox, block side or seat pan."""
    names = " ".join(place.name for place in asked_for(plan_of(car)))
    assert not re.search("frame|axle|gearbox|casting|seat", names)


@pytest.mark.parametrize("car", CARS)
def test_the_request_says_nothing_that_is_never_said(car):
    """And asks for nothing to be cleaned, loosened or lifted."""
    text = report_text(request_of(car))
    assert never_said(text) == ()
    for rule in ("remove nothing", "Do not go under", "square on", "raking", "a ruler or a coin"):
        assert rule in text


@pytest.mark.parametrize("size", list(PaperSize))
@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_a_request_is_one_page_and_one_message_for_every_shipped_book(folder, size):
    """Every place of it, the whole car first, and a sender with address and day."""
    book = open_book(folder).book
    claim = Claim(items={"model_year": str((book.first_year + book.last_year) // 2)})
    plan = visit_plan(Casefile(id="bare", book=book.id, claim=claim), book, (), None)
    outline, text = picture_request(plan, SharedId("car"), PRINTED, SENDER), message(plan, SENDER)
    pages = read(outline, size)
    assert len(pages) == 1
    assert len(text) <= MOST_SIGNS
    for told in (*pages, text):
        told = re.sub(r"\s", "", told).casefold()
        names = [re.sub(r"\s", "", each.name).casefold() for each in asked_for(plan)]
        assert names[0] == "wholecar"
        assert all(name in told for name in names)


def test_who_asks_is_named_with_the_firm_in_brackets():
    """A firm alone, and a person alone, as they are."""
    plan, who = plan_of("clean"), SENDER.examiner
    for name, firm, told in (
        ("Imre Lund", "Lund & Daughter, surveyors", "Imre Lund (Lund & Daughter, surveyors)"),
        ("Imre Lund", "", "Imre Lund"),
        ("", "Lund & Daughter", "Lund & Daughter"),
    ):
        sender = Sender(replace(who, name=name, firm=firm))
        assert f"\n{told} asks for these pictures." in message(plan, sender)


def test_the_drawing_has_a_title():
    """Which is heard and seen."""
    drawn = [each for each in request_of("clean").front if isinstance(each, Drawing)]
    assert [each.title for each in drawn] == ["Where to point the camera"]
