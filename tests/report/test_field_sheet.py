"""The field sheet: all that is needed beside the car, nothing that the claim expects."""

import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from tests.never_said import never_said
from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import Casefile, Claim, SiteState
from witnessmark.codebook import open_book, shipped_books
from witnessmark.figures.sketch import sketch
from witnessmark.outline.records import Cards, CharacterBoxes, DrawnBoxes, TickBoxes
from witnessmark.plan import visit_plan
from witnessmark.report import report_text
from witnessmark.report.mask.short_name import SharedId, shared_id
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.report.sheets.expectations import expectations_sheet
from witnessmark.report.sheets.field_sheet import field_sheet
from witnessmark.wording.visit import expectations, so_far

PRINTED = date(2026, 11, 25)
BOOK = book_and_version()[0]
MOST_PAGES = 5
"""Sides of a demonstration car with nine places: three sheets printed on both."""


@cache
def plan_of(car):
    """The plan of a demonstration car, for an hour and a half."""
    return visit_plan(case_of(car), BOOK, opinion_of(car).looks, 90)


@cache
def sheet_of(car):
    return field_sheet(plan_of(car), shared_id(opinion_of(car), BOOK), PRINTED)


def cards_of(outline):
    return next(block for block in outline.front if isinstance(block, Cards))


def blocks_of(outline, kind):
    found = (block for card in cards_of(outline).cards for block in card.blocks)
    return [block for block in found if isinstance(block, kind)]


def pages_of(outline, size=PaperSize.A4):
    """The pages of the PDF as text; the compiler complains of nothing."""
    printed = print_outline(outline, (), PRINTED, Form(size=size))
    assert printed.warnings == ()
    return page_texts(printed.pdf)


@pytest.mark.parametrize("car", CARS)
def test_nothing_that_the_claim_expects_stands_on_the_sheet(car):
    """No run of a number, no code with its meaning, no day, no fixing; in the file apart all but
    the numbers."""
    case, plan = case_of(car), plan_of(car)
    pages = pages_of(sheet_of(car))
    assert len(pages) <= MOST_PAGES
    sheet = report_text(sheet_of(car)) + "".join(pages)
    apart = report_text(expectations_sheet(plan, SharedId("car"), PRINTED))
    told = [each for site in plan.sites for mark in site.marks for each in expectations(mark)]
    assert told
    assert [each for each in told if each in sheet] == []
    assert [each for each in told if each not in apart] == []
    numbers = [v for item, v in case.claim.items.items() if item.endswith("_number")]
    for number in (*numbers, case.title_paper.number):
        runs = [number[at : at + 3] for at in range(len(number) - 2)]
        assert [run for run in runs if run in re.sub(r"\s", "", sheet + apart)] == []
    assert never_said(sheet) == () == never_said(apart)


def test_a_place_that_works_put_differently_is_told_alike_for_each():
    """A car of Ellery and one of Marrick: the card of the inner wing is the same."""
    cards = []
    for works in ("ellery", "marrick"):
        claim = Claim(items={"model_year": "1955", "body_works": works})
        plan = visit_plan(Casefile(id="bare", book=BOOK.id, claim=claim), BOOK, (), None)
        cards.append(cards_of(field_sheet(plan, SharedId("car"), PRINTED)).cards[0])
    assert "inner wing" in cards[0].name
    assert cards[0].name == cards[1].name
    assert cards[0].blocks[0] == cards[1].blocks[0]


def test_every_mark_has_a_box_for_each_of_its_places():
    """The brass plate: two, six, five, two, two, three and up to two, row by row, and spares."""
    boxes = blocks_of(sheet_of("clean"), CharacterBoxes)
    plate = next(each for each in boxes if each.label == "Scuttle plate")
    assert [[(window.label, window.places) for window in row] for row in plate.rows] == [
        [("TYPE", 2), ("CHASSIS NO.", 6)],
        [("ENGINE NO.", 5), ("PAINT", 2)],
        [("TRIM", 2), ("AXLE", 3)],
        [("EXTRAS", 2), ("Spare", 2)],
    ]
    assert all(each.rows[-1][-1].places == 2 for each in boxes)


@pytest.mark.parametrize("car", CARS)
def test_every_place_ends_in_one_of_five_ways_and_every_outcome_beside_its_sketch(car):
    """All of a question's outcomes are drawn, or none, in the order of their letters."""
    cards = [card for card in cards_of(sheet_of(car)).cards if card.number]
    assert [set(card.ended.choices) for card in cards] == [set(SiteState)] * len(plan_of(car).sites)
    features = [each for site in plan_of(car).sites for each in site.features]
    drawn = blocks_of(sheet_of(car), DrawnBoxes)
    assert [(each.label, [(c.text, c.svg) for c in each.choices]) for each in drawn] == [
        (each.prompt, [(o.id, sketch(o.sketch).svg) for o in each.outcomes])
        for each in features
        if all(o.sketch for o in each.outcomes)
    ]
    ticked = [each.label for each in blocks_of(sheet_of(car), TickBoxes)]
    bare = [each.prompt for each in features if not all(o.sketch for o in each.outcomes)]
    assert [each for each in ticked if each in bare] == bare


def test_how_a_place_ended_before_is_not_told():
    """The same word for what was read and what was absent."""
    assert so_far(SiteState.READ) == so_far(SiteState.ABSENT) == so_far(SiteState.FOUND_ILLEGIBLE)
    assert not re.search(r"\b(read|absent)\b", " ".join(map(so_far, SiteState)))


def test_the_best_places_come_first_on_the_cover_and_say_so_on_their_card():
    """Of the car without papers."""
    best = [site.number for site in plan_of("no-papers").sites if site.is_starred]
    marked = [card for card in cards_of(sheet_of("no-papers")).cards if card.note]
    assert best
    assert sorted(int(card.number) for card in marked) == best
    rows = next(block for block in sheet_of("no-papers").front if block.kind == "columns"
                and block.left[0].kind == "table").left[0].rows  # fmt: skip
    assert {int(row[0].text) for row in rows[: len(best)]} == set(best)


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_a_sheet_can_be_printed_for_every_shipped_book(folder):
    """Every place has its heading, and every card the signs on its foot."""
    book = open_book(folder).book
    items = {"model_year": str((book.first_year + book.last_year) // 2)}
    if book.models:
        items["model"] = book.models[0].id
    plan = visit_plan(Casefile(id="bare", book=book.id, claim=Claim(items=items)), book, (), 60)
    pages = pages_of(field_sheet(plan, SharedId("car"), PRINTED), PaperSize.LETTER)
    told = re.sub(r"\s", "", "".join(pages)).casefold()
    assert plan.sites
    for site in plan.sites:
        assert re.sub(r"\s", "", site.rows[0].name).casefold() in told
    assert told.count("placeslost") == int(re.findall(r"card\d+of(\d+)", told)[-1])


def test_a_field_of_unknown_length_gets_a_line():
    plan = visit_plan(case_of("clean"), BOOK, (), None)
    site = plan.sites[0]
    fields = (replace(each, row=replace(each.row, widths=())) for each in site.marks[0].windows[0])
    changed = replace(site, marks=(replace(site.marks[0], windows=(tuple(fields),)),))
    other = replace(plan, reaches=(replace(plan.reaches[0], sites=(changed,)),))
    boxes = blocks_of(field_sheet(other, SharedId("car"), PRINTED), CharacterBoxes)[0]
    assert {(each.places, each.note) for each in boxes.rows[0]} == {(0, "length not known")}
