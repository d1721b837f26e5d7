"""The field sheet: all that is needed beside the car, and no number that could be struck."""

import io
import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader
from pypdf.generic import DictionaryObject, IndirectObject

from tests.examples import tried_on
from tests.never_said import never_said
from tests.worked.opened import CARS, book_and_version, case_of, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import AttachmentSeen, Casefile, Claim, SiteState
from witnessmark.codebook import open_book, shipped_books
from witnessmark.figures.sketch import sketch
from witnessmark.outline.records import (
    CharacterBoxes,
    Drawing,
    DrawnBoxes,
    PlaceHeading,
    TickBoxes,
    Together,
    WriteIn,
)
from witnessmark.plan import visit_plan
from witnessmark.report import report_text
from witnessmark.report.mask.short_name import SharedId, shared_id
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.report.sheets.field_sheet import field_sheet
from witnessmark.wording.visit import attachments, expectations, so_far

PRINTED = date(2026, 11, 25)
BOOK = book_and_version()[0]


@cache
def sheet_of(car):
    """The sheet of a demonstration car, for an hour and a half."""
    plan = visit_plan(case_of(car), BOOK, opinion_of(car).looks, 90)
    return field_sheet(plan, shared_id(opinion_of(car), BOOK), PRINTED)


def blocks_of(outline):
    """Every block, those that are kept together too."""
    for section in outline.sections:
        yield from opened(section.blocks)


def opened(blocks):
    """Blocks one by one, in place of what keeps them together."""
    for block in blocks:
        if isinstance(block, Together):
            yield from opened(block.blocks)
        else:
            yield block


@cache
def pdf_of(car):
    """The sheet of a demonstration car as a PDF; the compiler complains of nothing."""
    printed = print_outline(sheet_of(car), (), PRINTED, Form())
    assert printed.warnings == ()
    return printed.pdf


def text_in(pdf):
    """What can be taken out of a PDF, its notes on itself too, without white space."""
    told = "".join(page_texts(pdf)) + str(dict(PdfReader(io.BytesIO(pdf)).metadata or {}))
    return re.sub(r"\s", "", told)


def pdf_text(outline, size):
    """What can be taken out of the PDF; the compiler complains of nothing."""
    printed = print_outline(outline, (), PRINTED, Form(size=size))
    assert printed.warnings == ()
    return text_in(printed.pdf)


def alternative_texts(pdf):
    """What is heard in place of the pictures of a PDF."""
    reader = PdfReader(io.BytesIO(pdf))
    told = set()
    for number in range(1, reader.trailer["/Size"]):
        found = reader.get_object(IndirectObject(number, 0, reader))
        if isinstance(found, DictionaryObject) and "/Alt" in found:
            told.add(str(found["/Alt"]))
    return told


def runs(number):
    """Every run of three characters of a number."""
    return [number[at : at + 3] for at in range(len(number) - 2)]


def claimed(case):
    """The numbers that a case claims, reads or has on its title."""
    values = [value for item, value in case.claim.items.items() if item.endswith("_number")]
    return [*values, case.title_paper.number]


@pytest.mark.parametrize("car", CARS)
def test_no_run_of_a_claimed_number_stands_on_the_sheet(car):
    """Neither in the outline, its drawings included, nor in what a PDF reader takes out."""
    outline = sheet_of(car)
    text = report_text(outline)
    drawn = "".join(
        "".join(re.findall(r">([^<]+)<", block.svg))
        for block in blocks_of(outline)
        if isinstance(block, Drawing)
    )
    told = re.sub(r"\s", "", text) + drawn + text_in(pdf_of(car))
    for number in claimed(case_of(car)):
        assert [run for run in runs(number) if run in told] == []


@given(number=st.text(alphabet="0123456789", min_size=6, max_size=6))
@tried_on(25, few=8)
def test_the_sheet_is_the_same_whatever_number_is_claimed(number):
    """Two cases that differ in their number alone give the same sheet, block by block."""
    case = case_of("clean")
    items = case.claim.items | {"chassis_number": number}
    other = replace(case, claim=replace(case.claim, items=items))
    plans = (visit_plan(each, BOOK, (), None) for each in (case, other))
    first, second = (field_sheet(plan, SharedId("car"), PRINTED) for plan in plans)
    assert first == second


@pytest.mark.parametrize("car", CARS)
def test_the_sheet_says_nothing_that_is_never_said(car):
    """Of our own sentences and those of the book."""
    assert never_said(report_text(sheet_of(car))) == ()


def test_every_mark_has_a_box_for_each_of_its_places():
    """The brass plate: two, six, five, two, two, three and up to two, row by row."""
    boxes = next(
        block
        for block in blocks_of(sheet_of("clean"))
        if isinstance(block, CharacterBoxes) and block.label == "Scuttle plate"
    )
    rows = [[(window.label, window.places) for window in row] for row in boxes.rows]
    assert rows == [
        [("TYPE", 2), ("CHASSIS NO.", 6)],
        [("ENGINE NO.", 5), ("PAINT", 2)],
        [("TRIM", 2), ("AXLE", 3)],
        [("EXTRAS", 2), ("Spare", 2)],
    ]


def test_a_field_of_unknown_length_gets_a_line():
    """No width is known: no box, and the note says so."""
    plan = visit_plan(case_of("clean"), BOOK, (), None)
    site = plan.sites[0]
    mark = site.marks[0]
    window = tuple(replace(each, row=replace(each.row, widths=())) for each in mark.windows[0])
    changed = replace(site, marks=(replace(mark, windows=(window,)),))
    reach = replace(plan.reaches[0], sites=(changed,))
    outline = field_sheet(replace(plan, reaches=(reach,)), SharedId("car"), PRINTED)
    boxes = next(b for b in blocks_of(outline) if isinstance(b, CharacterBoxes))
    assert [(each.places, each.note) for each in boxes.rows[0]] == [(0, "length not known")] * len(
        window
    )


def test_every_place_has_the_five_ways_to_end_and_every_feature_its_outcomes():
    """As many as there are places; what holds the plate by its letters, no answer first."""
    plan = visit_plan(case_of("clean"), BOOK, (), None)
    ticks = [block for block in blocks_of(sheet_of("clean")) if isinstance(block, TickBoxes)]
    ends = [block.choices for block in ticks if re.fullmatch(r"Outcome at place \d+", block.label)]
    assert ends == [tuple(SiteState)] * len(plan.sites)
    fixings = drawn_boxes("clean")["What holds the plate?"]
    assert [choice.text for choice in fixings] == [
        "fresh holes beside the rivets",
        "other rivets",
        "round brass rivets",
        "screws",
    ]


def drawn_boxes(car):
    """The choices of each question that is drawn, by its words; the last of several alike."""
    blocks = blocks_of(sheet_of(car))
    return {block.label: block.choices for block in blocks if isinstance(block, DrawnBoxes)}


@pytest.mark.parametrize("car", CARS)
def test_every_outcome_stands_beside_the_sketch_that_the_book_names(car):
    """In the order of their letters; what has no sketch has a box alone."""
    blocks = list(blocks_of(sheet_of(car)))
    asked = {feature.prompt for site in walked(car) for feature in site.features}
    shown = [
        (block.label, tuple((choice.text, choice.svg) for choice in block.choices))
        for block in blocks
        if isinstance(block, DrawnBoxes)
    ]
    assert shown == [
        (feature.prompt, tuple((each.id, sketch(each.sketch).svg) for each in feature.outcomes))
        for site in walked(car)
        for feature in site.features
        if all(each.sketch for each in feature.outcomes)
    ]
    bare = [block.label for block in blocks if isinstance(block, TickBoxes)]
    assert asked & set(bare) == {"How does the metal look: the plate and the metal round it?"}


def test_each_sketch_is_heard_in_the_plain_text_and_in_the_pdf():
    """Of a pitted rail: three titles, three different pictures described."""
    text = report_text(sheet_of("clean"))
    told = alternative_texts(pdf_of("clean"))
    for choice in drawn_boxes("clean")["How do pits and characters lie to each other?"]:
        assert f"[ ] {choice.text} [{choice.heard}]" in text
        assert choice.heard in told


def test_nothing_marks_the_outcome_that_the_factory_left():
    """A book in which each outcome counts as another look gives the same sheet."""
    turned = {"factory": "disturbed", "disturbed": "doubtful", "doubtful": "factory"}
    features = tuple(
        replace(
            feature,
            outcomes=tuple(replace(each, look=turned[each.look]) for each in feature.outcomes),
        )
        for feature in BOOK.features
    )
    other = replace(BOOK, features=features)
    assert other != BOOK
    plans = (visit_plan(case_of("clean"), book, (), None) for book in (BOOK, other))
    first, second = (field_sheet(plan, SharedId("car"), PRINTED) for plan in plans)
    assert first == second


def test_one_outcome_without_a_sketch_leaves_all_undrawn():
    """The only one that is drawn, or the only one that is not, would lead the eye."""
    features = tuple(
        replace(
            feature,
            outcomes=(*feature.outcomes[:-1], replace(feature.outcomes[-1], sketch=None)),
        )
        for feature in BOOK.features
    )
    plan = visit_plan(case_of("clean"), replace(BOOK, features=features), (), None)
    blocks = list(blocks_of(field_sheet(plan, SharedId("car"), PRINTED)))
    assert not any(isinstance(block, DrawnBoxes) for block in blocks)
    ticks = {block.label: block.choices for block in blocks if isinstance(block, TickBoxes)}
    for site in plan.sites:
        for feature in site.features:
            assert ticks[feature.prompt] == tuple(each.id for each in feature.outcomes)


def test_a_feature_of_several_rows_draws_the_outcomes_of_all():
    """Where the year is open: round rivets and hollow ones, each once."""
    case = Casefile(id="bare", book=BOOK.id)
    plan = visit_plan(case, BOOK, (), None)
    outline = field_sheet(plan, SharedId("car"), PRINTED)
    fixings = next(
        block.choices
        for block in blocks_of(outline)
        if isinstance(block, DrawnBoxes) and block.label == "What holds the plate?"
    )
    assert [choice.text for choice in fixings] == [
        "fresh holes beside the rivets",
        "hollow alloy rivets",
        "other rivets",
        "round brass rivets",
        "screws",
    ]
    assert len({choice.svg for choice in fixings}) == len(fixings)


def test_the_best_looks_bear_a_word_and_not_a_colour_alone():
    """Of the car without papers: “look here first” in the walk and at the place."""
    stops = [block for block in blocks_of(sheet_of("no-papers")) if isinstance(block, PlaceHeading)]
    first = [stop for stop in stops if stop.is_starred]
    assert first
    assert all("look here first" in stop.note for stop in first)
    assert not any("look here first" in stop.note for stop in stops if stop not in first)


def test_what_should_stand_there_is_told_in_codes_dots_and_days():
    """The frame and the block of a Sprint of May 1955."""
    text = report_text(sheet_of("clean"))
    assert "Type figure: 4 (Solent Sprint, two litres)" in text
    assert "Chassis number: · · · · · · (6 figures)" in text
    assert "Casting date: a day from 3 September 1954 to 11 May 1955" in text


@pytest.mark.parametrize("car", CARS)
def test_what_the_claim_would_have_stands_on_the_last_page_alone(car):
    """Before it no code with its meaning, no day of a lag, no word of how a place ended."""
    outline = sheet_of(car)
    *before, last = outline.sections
    assert last.title.startswith("What each place should say if the claim is true")
    assert last.new_page
    told = report_text(replace(outline, sections=tuple(before)))
    assert "is printed on the last page only" in told
    assert "a day from" not in told
    expected = [
        sentence for site in walked(car) for mark in site.marks for sentence in expectations(mark)
    ]
    assert expected
    assert [sentence for sentence in expected if sentence in told] == []
    text = report_text(replace(outline, sections=(last,)))
    assert all(sentence in text for sentence in expected)


@pytest.mark.parametrize("state", list(SiteState))
def test_how_a_place_ended_before_is_not_told(state):
    """Seen, or out of reach, and no more; the same word for what was read and what was absent."""
    assert so_far(SiteState.READ) == so_far(SiteState.ABSENT)
    assert not re.search(r"\b(read|absent)\b", so_far(state))


def test_a_reading_that_is_longer_than_the_book_has_it_finds_room():
    """Every mark: spare boxes after the last, a line for what stands otherwise, one to read it."""
    marks = sum(len(site.marks) for site in walked("altered"))
    blocks = list(blocks_of(sheet_of("altered")))
    boxes = [block for block in blocks if isinstance(block, CharacterBoxes)]
    assert [block.rows[-1][-1].places for block in boxes] == [2] * marks
    lines = [block.label for block in blocks if isinstance(block, WriteIn)]
    assert lines.count("If laid out differently") == marks
    assert lines.count("Second reader") == marks
    assert lines.count("Why, if it was not read") == len(walked("altered"))


def test_the_part_can_be_noted_in_the_words_of_the_case():
    """In place, apart from the car, or no such part: at every place with a mark."""
    assert attachments() == tuple(each.value for each in AttachmentSeen)
    ticks = [block for block in blocks_of(sheet_of("clean")) if isinstance(block, TickBoxes)]
    bearing = [block.choices for block in ticks if block.label == "The part itself is"]
    assert bearing == [attachments()] * sum(1 for site in walked("clean") if site.marks)


def walked(car):
    """The places of a car's walk."""
    return visit_plan(case_of(car), BOOK, (), None).sites


def test_minutes_that_are_left_over_have_their_reason():
    """Of the altered car: one look in ninety minutes; none where no look tells anything."""
    assert "The other 26 minutes are left free" in report_text(sheet_of("altered"))
    clean = report_text(sheet_of("clean"))
    assert "None is marked: no remaining look fits into it." in clean


def test_how_a_place_varies_by_works_stands_on_the_sheet():
    """The inner wing."""
    text = report_text(sheet_of("clean"))
    assert "Ellery Coachworks: right-hand inner wing, on the flat behind the damper top" in text
    assert "Marrick & Sons: left-hand inner wing, on the flange above the steering box" in text


def test_cautions_come_before_anything_else():
    """Lifting first."""
    first = sheet_of("clean").sections[0]
    assert first.title == "Before you touch the car"
    assert first.blocks[0].items[0].startswith("Lifting: ")
    assert "abraded" in first.blocks[0].items[-1]


@pytest.mark.parametrize("folder", shipped_books(), ids=lambda folder: folder.name)
def test_a_sheet_can_be_printed_for_every_shipped_book(folder):
    """With a claim of year and model; every place has its heading in the PDF. (Both papers: the
    demonstration cars.)"""
    book = open_book(folder).book
    assert book is not None
    items = {"model_year": str((book.first_year + book.last_year) // 2)}
    if book.models:
        items["model"] = book.models[0].id
    case = Casefile(id="bare", book=book.id, claim=Claim(items=items))
    plan = visit_plan(case, book, (), 60)
    told = pdf_text(field_sheet(plan, SharedId("car"), PRINTED), PaperSize.LETTER)
    assert plan.sites
    for site in plan.sites:
        assert re.sub(r"\s", "", site.row.name).casefold() in told.casefold()
