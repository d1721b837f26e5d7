"""The masked copy: no serial, no person, no place, in text, in figures, in pixels, in the file."""

import io
import re
import unicodedata
from dataclasses import fields, is_dataclass, replace
from datetime import date
from enum import Enum
from functools import cache
from hashlib import sha256
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from invented_opinion import EXHIBITS, PRINTED
from invented_opinion import opinion as invented
from PIL import Image, ImageDraw
from pypdf import PdfReader

from tests.examples import tried_on
from tests.worked.found_in_pdf import Found, pieces, read_pdf, runs, serials, squeezed
from tests.worked.opened import (
    CARS,
    DEMO,
    book_and_version,
    case_of,
    opinion_of,
    unsteadied,
)
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import Casefile, Circumstances, ExhibitEntry, Region, Vouched
from witnessmark.catalogue import Catalogue, Sentence, in_a_row, said, speaking
from witnessmark.decoding import FieldCells
from witnessmark.documents.open_row import OpenRow
from witnessmark.examination import Opinion
from witnessmark.reading.as_read import AsRead
from witnessmark.report import build_outline, render_report, report_text
from witnessmark.report.mask.case import KEPT, LEFT_OUT
from witnessmark.report.mask.copied import MaskedCopy, masked_copy, print_masked_copy
from witnessmark.report.mask.opinion import masked
from witnessmark.report.mask.pictures import TONE, masked_pictures
from witnessmark.report.mask.texts import TextMask
from witnessmark.report.records import Form

BOOK = book_and_version()[0]
FOOTER = (
    "Masked copy: serials, the owner, the client and places are left out; the examiners are named"
)
AMOUNTS = re.compile(
    r"SHA-256\s+[0-9a-f]{8,64}|D:\d{14}|"
    r"(?:1/)?\d{1,3}(?:,\d{3})+|\d+\.\d+(?:\.\d+)*|\d{4}-\d\d(?:-\d\d)?|1/\d+|(?<!\d)10{0,4}(?!\d)"
)
"""A book's digest, ratios, shares, days and the figures of an axis: no numbers of a car."""
LEFT_OUT_WHOLE = "[left out]"
COINCIDENCES = {"clean": {"1203"}}
"""The date code on the clean car's axle has three figures in common with its axle number."""
PEOPLE_AND_PLACES = {
    "clean": ("Fenwick", "Orla", "Harnbrook"),
    "no-papers": ("Havering", "Joss", "Saltmere"),
    "panel": ("Lindqvist", "Petra", "Harnbrook", "Thornbeck"),
    "altered": ("Penhallow", "Aldous", "Okonjo", "Ruth", "Wexmoor"),
}


def exhibits_of(car: str) -> dict[str, bytes]:
    """The photographs of a demonstration car by exhibit id."""
    entries = opinion_of(car).casefile.exhibits
    return {each.id: (DEMO / car / "exhibits" / each.file).read_bytes() for each in entries}


@cache
def copy_of(car: str) -> MaskedCopy:
    """The masked copy of a demonstration car."""
    return masked_copy(opinion_of(car), BOOK, exhibits_of(car), PRINTED)


@cache
def pdf_of(car: str) -> bytes:
    """Its PDF."""
    return print_masked_copy(copy_of(car), PRINTED)


@cache
def found_in(car: str) -> Found:
    """Everything in its PDF."""
    return read_pdf(pdf_of(car))


def opinion_with_regions() -> Opinion:
    """The invented Opinion, the first two of its three photographs looked at for numbers."""
    case = invented().casefile
    regions: tuple[tuple[Region, ...] | None, ...] = (
        (Region(left=150, top=450, width=900, height=250),),
        (Region(left=150, top=450, width=1300, height=250),),
        None,
    )
    entries = tuple(
        replace(each, number_regions=region)
        for each, region in zip(case.exhibits, regions, strict=True)
    )
    return replace(invented(), casefile=replace(case, exhibits=entries))


@cache
def invented_copy() -> MaskedCopy:
    """The masked copy of the invented Opinion."""
    return masked_copy(opinion_with_regions(), BOOK, EXHIBITS, PRINTED)


@cache
def found_in_invented() -> Found:
    """Everything in its PDF."""
    return read_pdf(print_masked_copy(invented_copy(), PRINTED))


def not_amounts(text: str) -> str:
    """The text without what can be no number of a car."""
    return AMOUNTS.sub("~", text)


# ------------------------------------------------------------------ the whole PDF


@pytest.mark.parametrize("car", CARS)
def test_no_full_serial_stands_anywhere_in_the_pdf(car):
    found, numbers = found_in(car), serials(opinion_of(car), BOOK)
    assert len(numbers) >= 3
    text = squeezed(found.texts())
    assert [each for each in numbers if len(each) >= 4 and each in text] == []
    whole = "|".join(each for each in numbers if len(each) >= 5)
    assert re.findall(rf"(?<![\d.])(?:{whole})(?!\d)", found.streams) == []


@pytest.mark.parametrize("car", CARS)
def test_no_piece_of_a_serial_stands_anywhere_in_the_pdf(car):
    text = not_amounts(found_in(car).texts())
    assert pieces(text, serials(opinion_of(car), BOOK)) == COINCIDENCES.get(car, set())


@pytest.mark.parametrize("car", CARS)
def test_no_person_but_the_examiners_and_no_place_is_named(car):
    text = found_in(car).texts()
    assert [word for word in PEOPLE_AND_PLACES[car] if word in text] == []
    assert "Ines Calder" in text
    assert "[left out]" in text


@pytest.mark.parametrize("car", CARS)
def test_nothing_lies_inside_the_file_and_no_digest_or_file_name_stands_in_it(car):
    found = found_in(car)
    assert found.attachments == ()
    digests = [each.sha256[:12] for each in opinion_of(car).casefile.exhibits]
    assert [each for each in digests if each in found.texts()] == []


@pytest.mark.parametrize("car", CARS)
def test_every_page_says_what_it_is(car):
    pages = found_in(car).pages
    assert pages.count(FOOTER) == pages.count("page 1 of") * int(
        re.findall(r"page \d+ of (\d+)", pages)[0]
    )


def test_the_private_report_holds_what_these_tests_look_for():
    """So that none of them passes because it looks in the wrong place."""
    pdf = render_report(opinion_of("altered"), BOOK, exhibits_of("altered"), PRINTED)
    found, numbers = read_pdf(pdf), serials(opinion_of("altered"), BOOK)
    text = squeezed(found.texts())
    whole = {each for each in numbers if len(each) >= 5}
    assert {each for each in whole if each in text} == whole
    assert pieces(not_amounts(found.texts()), numbers)
    assert any("700236" in each for each in found.strings), "titles, descriptions, bookmarks"
    assert [word for word in PEOPLE_AND_PLACES["altered"] if word not in found.texts()] == []


def test_the_same_case_gives_the_same_bytes():
    again = masked_copy(opinion_of("panel"), BOOK, exhibits_of("panel"), PRINTED)
    assert print_masked_copy(again, PRINTED) == pdf_of("panel")


# --------------------------------------------------------- what a reader can still see


def test_what_agrees_and_what_differs_can_still_be_seen():
    text = report_text(copy_of("altered").outline)
    assert "the seat pan reads •≠◆≠; the claimed chassis number is ••••••" in text
    assert "M ••[•≠]•" in text, "a figure in doubt, one of the two agreeing"
    assert "E ≠≠•≠◆≠" in text, "a number whose last four places differ from the claim's in three"
    assert copy_of("altered").outline.title == "Is this car Solent Sprint •••••• of 1957?"


@pytest.mark.parametrize(
    ("place", "shown"),
    [
        (
            "{place}: {first} statt {second}",
            "Stelle 5 von 6: • statt ◆; Stelle 6 von 6: • statt [•≠]",
        ),
        ("{first}/{second} {first} ({place})", "•/◆ • (Stelle 5 von 6); •/[•≠] • (Stelle 6 von 6)"),
    ],
)
def test_single_places_are_masked_in_whatever_words_a_language_puts_them(place, shown):
    german = Catalogue(
        "de",
        {
            "place {place} of {length}": "Stelle {place} von {length}",
            "{place} ({first} and {second})": place,
        },
    )
    opinion = opinion_of("altered")
    places = [
        said(
            "{place} ({first} and {second})",
            place=said("place {place} of {length}", place=at, length=6),
            first=AsRead(first, item="chassis_number", from_end=6 - at),
            second=AsRead(second, item="chassis_number", from_end=6 - at),
        )
        for at, first, second in ((5, "3", "1"), (6, "6", "[67]"))
    ]
    finding = replace(opinion.findings[0], observation=in_a_row(places, "; "))
    with speaking(german):
        made = masked(replace(opinion, findings=(finding,)), BOOK).opinion
    assert made.findings[0].observation == shown


def test_nothing_in_the_copy_says_that_numbers_stand_in_full():
    text = report_text(copy_of("panel").outline)
    assert "Numbers stand here in full" not in text
    assert "This report shows numbers in full" not in text
    assert "This copy can be shown to others" in text


def test_one_number_has_one_mask_wherever_it_is_read_and_however_it_is_called():
    """The exchange engine's number stands on the block and, as another item, on the invoice."""
    made = masked(opinion_of("panel"), BOOK).opinion
    shown = {each.mark: each.reading.as_typed for each in made.decodings}
    assert shown["engine_number"] == "X ≠≠≠≠≠"
    assert shown["service_invoice"] == "••••••|≠≠≠≠≠|210960"


def test_a_whole_mark_that_somebody_typed_is_left_out():
    """A number among other codes: with spaces or without."""
    opinion = opinion_of("panel")
    mask = masked(opinion, BOOK).mask
    typed = [each.reading.as_typed for each in opinion.decodings]
    assert any("582063" in each for each in typed)
    for each in typed:
        if "582063" in each:
            for text in (each, each.lower(), f"{each[:3]} {each[3:]}", f"X{each}9"):
                assert mask.typed_text(f"It bears {text}.") == LEFT_OUT_WHOLE


def test_what_the_copy_says_of_digests_holds_for_the_copy():
    text = report_text(copy_of("clean").outline)
    assert "The names and digests of the picture files" in text
    assert "photograph log with digests" not in text


def test_conclusions_ratios_and_bands_are_those_of_the_report():
    for car in CARS:
        made = masked(opinion_of(car), BOOK).opinion
        before, after = opinion_of(car), made
        assert [each.log10_lr for each in before.weighed] == [
            each.log10_lr for each in after.weighed
        ]
        assert before.steadiness == after.steadiness


# ------------------------------------------------- the serials do not decide what it says

NUMBERS = re.compile(r"105512|1055\?2|20713|20718|2071")
ITEMS = ("chassis_number", "engine_number", "body_number", "gearbox_number")


def renumbered(value: Any, spelt: dict[int, int]) -> Any:
    """Any record of the invented case with its serials written in other figures."""
    if isinstance(value, Enum) or value is None:
        return value
    if isinstance(value, Sentence):
        return in_a_row((renumbered(each, spelt) for each in value.how.texts), value.how.between)
    if isinstance(value, str):
        text = NUMBERS.sub(lambda found: found[0].translate(spelt), value)
        if isinstance(value, AsRead):
            return AsRead(text, mark=value.mark, field=value.field, item=value.item)
        return text
    if isinstance(value, FieldCells) and value.says in ITEMS:
        cells = tuple(
            replace(cell, characters=cell.characters.translate(spelt)) for cell in value.cells
        )
        return replace(value, cells=cells)
    if isinstance(value, tuple):
        return tuple(renumbered(each, spelt) for each in value)
    if isinstance(value, dict):
        return {key: renumbered(each, spelt) for key, each in value.items()}
    if isinstance(value, OpenRow):
        changed = {n: renumbered(getattr(value, n), spelt) for n in value.columns}
        return replace(value, **changed)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(
            value, **{f.name: renumbered(getattr(value, f.name), spelt) for f in fields(value)}
        )
    return value


def with_reading_cells(opinion: Opinion, spelt: dict[int, int]) -> Opinion:
    """The readings' own cells, which hold the characters once more."""
    decodings = []
    for each in opinion.decodings:
        written = {c.column: c for f in each.field_cells for c in f.cells if f.says in ITEMS}
        cells = tuple(
            replace(cell, characters=cell.characters.translate(spelt))
            if NUMBERS.search("".join(c.characters or "?" for c in each.reading.cells))
            and written
            and cell.characters.isdigit()
            and len(each.field_cells) == 1
            else cell
            for cell in each.reading.cells
        )
        decodings.append(replace(each, reading=replace(each.reading, cells=cells)))
    return replace(opinion, decodings=tuple(decodings))


@tried_on(15, few=3)
@given(st.permutations("0123456789"))
def test_the_copy_is_the_same_whatever_the_serials_were(figures):
    """Nothing of a serial can be learnt from a copy that any other serial gives as well."""
    spelt = str.maketrans("0123456789", "".join(figures))
    numbers = {each.translate(spelt) for each in ("105512", "20713", "20718", "2071")}
    rest = NUMBERS.sub(" ", plain_text_of_report())
    assume(not pieces(rest, numbers))
    assume(not any(re.fullmatch("(?:1[789]|20).*", each) for each in numbers if len(each) == 4))
    other = with_reading_cells(renumbered(invented(), spelt), spelt)
    assert text_of_copy(other) == plain_text_of_copy()


@cache
def plain_text_of_copy() -> str:
    return text_of_copy(invented())


@cache
def plain_text_of_report() -> str:
    return report_text(build_outline(invented(), BOOK, PRINTED))


def text_of_copy(opinion: Opinion) -> str:
    """All that the copy says, drawings included."""
    copy = masked_copy(opinion, BOOK, {}, PRINTED)
    assert copy.problems == ()
    drawn = [
        block.svg for section in copy.outline.sections for block in section.blocks
        if block.kind == "drawing"
    ]  # fmt: skip
    return report_text(copy.outline) + "\n".join(drawn)


# -------------------------------------------------------- numbers however they are typed

WIDE = str.maketrans("0123456789", "０１２３４５６７８９")


@st.composite
def typed(draw, number: str = "582063") -> str:
    """The chassis number of the panel car as somebody may type it."""
    form = draw(st.sampled_from(["plain", "wide", "apart", "odd", "prefix", "twins", "halves"]))
    if form == "wide":
        return number.translate(WIDE)
    if form == "apart":
        between = draw(st.sampled_from([" ", "-", ".", "–", "\u00a0", " - ", "/", "\u200b", ", "]))
        return between.join(number)
    if form == "odd":
        return draw(st.sampled_from(["\u0301", "★", "*", "_", "\n", "|", "[", "·"])).join(number)
    if form == "prefix":
        return draw(st.sampled_from(["no.", "sn", "chassis-", "2", "#"])) + number
    if form == "twins":
        return number.replace("0", draw(st.sampled_from("oO")))
    if form == "halves":
        return f"{number[:3]} {draw(st.sampled_from(['and then ', '', '| ', '… ']))}{number[3:]}"
    return number


BEFORE = ("", "Was told of ", "(seen: ")
WRITTEN = ("title", "claim", "statement", "note", "caption", "reason", "exhibit", "unknown field")


def written_into(case: Casefile, where: str, text: str) -> Casefile:
    """The case with this text in one of its fields."""
    if where == "title":
        return replace(case, title=text)
    if where == "claim":
        return replace(case, claim=replace(case.claim, text=text))
    if where == "statement":
        said = (replace(case.claim.statements[0], says=text),)
        return replace(case, claim=replace(case.claim, statements=said))
    if where == "unknown field":
        return replace(case, unknown={"seen_before_as": text})
    place, field = {
        "note": ("readings", "note"), "caption": ("exhibits", "caption"),
        "reason": ("sites", "reason"), "exhibit": ("exhibits", "id"),
    }[where]  # fmt: skip
    records = getattr(case, place)
    first = replace(records[0], **({field: text}))
    return replace(case, **({place: (first, *records[1:])}))


@tried_on(12, few=3)
@given(st.fixed_dictionaries({where: typed() for where in WRITTEN}), st.sampled_from(BEFORE))
def test_a_serial_is_found_however_and_wherever_it_is_typed(numbers, before):
    """Every field of the case at once, each with the number in a form of its own."""
    opinion = opinion_of("panel")
    case = opinion.casefile
    for where, number in numbers.items():
        case = written_into(case, where, f"{before}{number} by somebody.")
    copy = masked_copy(replace(opinion, casefile=case), BOOK, {}, PRINTED)
    assert copy.problems == ()
    text = not_amounts(report_text(copy.outline))
    assert pieces(text, serials(opinion, BOOK)) == set()
    assert runs({"582063"}) & set(re.findall(r"(?=(\d{3}))", text)) == set()


@pytest.mark.parametrize("by", ["Zyxwina Quillfeather, 14 Mill Lane", "Ines Calder 82063"])
def test_whoever_read_a_mark_and_does_not_sign_is_not_named(by):
    """Neither the name nor what else was typed beside it."""
    case = opinion_of("panel").casefile
    readings = (replace(case.readings[0], by=by), *case.readings[1:])
    known = Circumstances(vouched=(Vouched(row="paints:17", by=by, reason="Seen often."),))
    changes = {"readings": readings, "circumstances": known}
    opinion = unsteadied(replace(case, **changes))
    text = report_text(masked_copy(opinion, BOOK, {}, PRINTED).outline)
    assert "The row paints:17 of the code book is from memory and vouched for by" in text
    assert [word for word in ("Quillfeather", "Mill Lane", "82063") if word in text] == []
    assert "Tomas Brook" in text


PLACES = "{place} ({first} and {second})"
PLACE = "place {place} of {length}"
RANGE = "{first} to {last}"


@pytest.mark.parametrize(
    "sentences",
    [
        {PLACE: "{place}{length}", PLACES: "{place}{first}{second}"},
        {PLACES: "{second}{first}{place}"},
        {RANGE: "Nr.{first} bis Nr.{last}"},
        {RANGE: "\u4ece{first}\u5230{last}"},
    ],
)
def test_no_way_of_putting_a_sentence_shows_more_of_a_number(sentences):
    """A translation without spaces, turned round, or with a stop before a figure."""
    assert all(said(each) for each in sentences)
    form = Form(catalogue=Catalogue("xx", sentences))
    with speaking(form.catalogue):
        opinion = unsteadied(case_of("altered"))
    text = report_text(masked_copy(opinion, BOOK, {}, PRINTED, form).outline)
    known = {number for row in BOOK.series for number in (row.first, row.last) if len(number) > 4}
    numbers = [each for each in serials(opinion, BOOK) if len(each) > 4]
    assert [each for each in (*known, *numbers) if each in text] == []
    english = report_text(copy_of("altered").outline)
    wanted = pieces(not_amounts(english), serials(opinion, BOOK))
    assert pieces(not_amounts(text), serials(opinion, BOOK)) <= wanted


@cache
def mask_of_panel() -> TextMask:
    """The mask of the panel car's texts."""
    return masked(opinion_of("panel"), BOOK).mask


@tried_on(200)
@given(st.text(max_size=40), typed(), st.text(max_size=40))
def test_no_text_around_a_serial_hides_it_from_the_mask(before, number, after):
    mask = mask_of_panel()
    assert "582063" not in squeezed(mask.typed_text(before + number + after))


@pytest.mark.parametrize(
    "number",
    ["➎➑➋⓿➏➌", "❺❽❷⓿❻❸", "五八二〇六三", "5 8 Ⅱ 0 6 3", "5·8·2 · 0·6·3"],
)
def test_a_serial_in_figures_of_any_kind_is_masked(number):
    shown = mask_of_panel().typed_text(f"It reads {number}.")
    assert not any(unicodedata.numeric(each, -1) in range(10) for each in shown)


@pytest.mark.parametrize(
    "text",
    [
        "Bought in 2019, restored 1988.",
        "On 2026-08-20, as on 12.05.1958 and 3 September 1960",
        "Built 1955-1957; the 1950s saw two owners.",
        "Six figures stand there, where four would be looked for.",
        "BOSS and GOES",
        "The seller is so sure.",
        "Zoe Biggs",
    ],
)
def test_what_tells_no_number_stands(text):
    assert mask_of_panel().typed_text(text) == text


@pytest.mark.parametrize(
    "text",
    [
        "It starts 58 2 and ends 06 3.",
        "5·8·2, then 06/3; 8.2.06",
        "The engine was 31877 before.",
        "It ends in 063.",
        "Chassis 582063 and 582168.",
        "At 05:82",
        "Read on 58 September.",
        "five eight, then two",
        "One of Forty-seven",
        "Five hundred and eighty-two",
        "Known as NTgyMDYz.",
        "A 351C beside it",
        "½ of 6³",
        "Seen by p@example",
        "",
    ],
)
def test_what_may_tell_one_is_left_out_as_a_whole(text):
    assert mask_of_panel().typed_text(text) == (LEFT_OUT_WHOLE if text else "")


def test_a_date_that_is_a_piece_of_a_serial_is_left_out():
    """A claimed number that begins with 1955."""
    case = opinion_of("clean").casefile
    claim = replace(case.claim, items=case.claim.items | {"body_number": "195512"})
    opinion = replace(opinion_of("clean"), casefile=replace(case, claim=claim))
    mask = masked(opinion, BOOK).mask
    assert mask.typed_text("Built in 1955.") == LEFT_OUT_WHOLE
    assert mask.typed_text("Built in 1956.") == "Built in 1956."


@pytest.mark.parametrize(
    "text",
    [
        "(5) , (8) , (2) , (0) , (6) , (3)",
        "58 .... 20 .... 63",
        "58 (20) - (63)",
        "5****8****2****0****6****3",
        "582\n\n\n\n063",
        "5\u0301\u0301\u0301\u03018\u200e\u200e\u200e\u200e2063",
        "58Z063",
        "S8Z063",
        "582O6E",
        "s8zo63",
        "58 ZO 63",
        "58.Z0.G3",
        "SBZOGE",
        "58206\u0417",
    ],
)
def test_whatever_parts_the_figures_of_a_serial_or_looks_like_them(text):
    """582063 in odd hands: any number of signs between, letters for figures."""
    assert mask_of_panel().typed_text(f"It is {text}.") == LEFT_OUT_WHOLE


@tried_on(100)
@given(st.lists(st.text(alphabet=" .,-()*_\n\u0301\u200e/|", max_size=12), min_size=5, max_size=5))
def test_no_number_of_signs_between_hides_a_serial(between):
    written = "".join(a + b for a, b in zip("582063", [*between, ""], strict=True))
    assert mask_of_panel().typed_text(written) == LEFT_OUT_WHOLE


def with_examiner(opinion: Opinion, **told: str) -> Opinion:
    """The Opinion, its first examiner described otherwise."""
    assignment = opinion.casefile.assignment
    first = replace(assignment.examiners[0], **told)
    signing = (first, *assignment.examiners[1:])
    made = replace(assignment, examiners=signing)
    return replace(opinion, casefile=replace(opinion.casefile, assignment=made))


def test_what_an_examiner_says_of_himself_is_masked_and_his_name_stands():
    opinion = with_examiner(
        opinion_of("panel"),
        qualifications="Keeper of car 58.20.63; once of LINDQVIST.",
        declared_interest="Sold none since 2004",
    )
    copy = masked_copy(opinion, BOOK, {}, PRINTED)
    assert copy.problems == ()
    text = report_text(copy.outline)
    assert "Ines Calder" in text
    assert "Sold none since 2004" in text
    assert "Keeper" not in text
    numbered = with_examiner(opinion, name="Ines Calder (582063)")
    assert "(582063)" not in report_text(masked_copy(numbered, BOOK, {}, PRINTED).outline)


@pytest.mark.parametrize("text", ["58.20.63", "5-8-2/063", "(5) (8) (2) (0) (6) (3)"])
def test_the_last_sweep_finds_a_serial_whatever_parts_it(text):
    assert mask_of_panel().holds_serial(f"Keeper of car {text}")
    assert not mask_of_panel().holds_serial("Keeper of car ••••••")


def test_the_limits_of_a_known_exception_are_no_more_shown_than_those_of_a_series():
    """700211 to 700214: four Sprints that the book knows."""
    row = next(each for each in BOOK.exceptions if each.id == "changeover-bodies")
    series = next(each for each in BOOK.series if each.first == row.first)
    plain = replace(BOOK, series=tuple(each for each in BOOK.series if each is not series))
    opinion = opinion_of("altered")
    misfit = replace(opinion.answer.misfits[0], sentence=f"It has {row.first} to {row.last}.")
    made = replace(opinion, answer=replace(opinion.answer, misfits=(misfit,)))
    private = report_text(build_outline(made, plain, PRINTED))
    text = report_text(masked_copy(made, plain, {}, PRINTED).outline)
    assert "It has 700211 to 700214" in private
    assert "It has ###### to ######" in text
    assert "700211" not in text
    assert "700214" not in text


def with_people(opinion: Opinion, made_by: str, place: str, note: str) -> TextMask:
    """The mask of the case with another claimant and place."""
    case = opinion.casefile
    update = {
        "claim": replace(case.claim, made_by=made_by, text=note),
        "visit": replace(case.visit, place=place),
    }
    return masked(replace(opinion, casefile=replace(case, **update)), BOOK).mask


@pytest.mark.parametrize(
    ("made_by", "written"),
    [
        ("Petra Lindqvist-Amory", "Lindqvist-Amory"),
        ("Petra Lindqvist-Amory", "LINDQVIST-AMORY"),
        ("Petra Lindqvist-Amory", "Lindqvist\u2013Amory"),
        ("Petra Lindqvist\u2010Amory", "Lindqvist Amory"),
        ("Petra Lindqvist-Amory", "Lindqvist"),
        ("Petra Lindqvist-Amory", "Amory"),
        ("Petra Lindqvist-Amory", "lindqvist"),
        ("Petra Lindqvist-Amory", "Lind\u200bqvist"),
        ("Petra Lindqvist-Amory", "Ｌｉｎｄｑｖｉｓｔ"),
        ("Petra Lindqvist-Amory", "Lindqvist_582063"),
        ("José D’Arcy", "Jose\u0301 D'Arcy"),
        ("Jose\u0301 D'Arcy", "JOSÉ D’ARCY"),
        ("the widow, Xu Li", "Xu Li"),
        ("王伟", "王伟"),
        ("ד״ר כהן", "כהן"),
        ("हिन्दी शर्मा", "शर्मा"),
    ],
)
def test_a_name_is_found_however_it_is_written(made_by, written):
    mask = with_people(opinion_of("panel"), made_by, "", "Told nothing.")
    assert mask.typed_text(f"Bought from {written} once.") == LEFT_OUT_WHOLE


def test_short_names_are_no_part_of_other_words_and_everyday_words_stand():
    mask = with_people(opinion_of("panel"), "the widow, Xu Li, of No 4", "", "Told nothing.")
    text = "No Lid of Xuan; little is in it."
    assert mask.typed_text(text) == text


@pytest.mark.parametrize("written", ["TB4 7QX", "tb4 7qx", "TB47QX", "7QX"])
def test_a_postcode_of_the_place_is_left_out(written):
    mask = with_people(opinion_of("panel"), "", "Unit 2, Thornbeck TB4 7QX", "Told nothing.")
    assert mask.typed_text(f"Seen at {written}.") == LEFT_OUT_WHOLE


def test_a_serial_in_the_name_of_the_case_is_masked_in_the_copy_and_in_its_file_name():
    copy = invented_copy()
    assert copy.outline.case_id == "tarvane-######"
    assert copy.name == "tarvane-xxxxxx"
    assert "105512" not in squeezed(found_in_invented().texts())


def test_a_serial_that_the_mask_did_not_reach_stops_the_copy(monkeypatch):
    """The last sweep, with a mask that does nothing to what somebody typed."""
    monkeypatch.setattr(
        "witnessmark.report.mask.texts.TextMask.typed_text", lambda self, text: text
    )
    copy = masked_copy(opinion_of("altered"), BOOK, {}, PRINTED)
    sentences = [each.sentence() for each in copy.problems]
    assert any("The assignment" in each for each in sentences)
    assert not any("700236" in each.render() for each in copy.problems)


def test_every_text_of_a_case_is_kept_left_out_or_masked():
    """The names in these lists are fields of the records: a renamed field shows here."""
    records = {each.__name__: each for each in Casefile.__mro__[1].__subclasses__()}
    for name, listed in (*KEPT.items(), *LEFT_OUT.items()):
        assert set(listed) <= set(records[name].columns), name


# ------------------------------------------------------------------------- pictures


def entry(content: bytes, *regions: Region) -> ExhibitEntry:
    """An exhibit with these regions."""
    return ExhibitEntry(
        id="x", file="x.jpg", sha256=sha256(content).hexdigest(), number_regions=regions
    )


def pictured(content: bytes, *regions: Region) -> Image.Image:
    """The picture of the copy."""
    (picture,) = masked_pictures((entry(content, *regions),), {"x": content}, {"x": "x"})
    assert picture.jpeg, picture.missing
    return Image.open(io.BytesIO(picture.jpeg))


BLOCK = 16


def is_flat(image: Image.Image, box: tuple[int, int, int, int]) -> bool:
    """Has every pixel of the box the tone of the mask?

    A block at its edge, which a JPEG keeps together with what lies outside, is passed over.
    """
    left, top, right, bottom = box
    inside = (left + BLOCK, top + BLOCK, right - BLOCK, bottom - BLOCK)
    extremes = image.convert("RGB").crop(inside).getextrema()
    return all(
        abs(edge - tone) <= 2 for edges, tone in zip(extremes, TONE, strict=True) for edge in edges
    )


def pictured_in(blocks):
    """The photographs of a document, in its order."""
    for block in blocks:
        yield from getattr(block, "photographs", ())
        for part in ("blocks", "left", "right"):
            yield from pictured_in(getattr(block, part, ()))


@pytest.mark.parametrize("car", CARS)
def test_every_number_region_is_flat_in_the_pixels_of_the_pdf(car):
    entries = {e.id: e for e in opinion_of(car).casefile.exhibits}
    outline = copy_of(car).outline
    blocks = (*outline.front, *(b for section in outline.sections for b in section.blocks))
    ids = dict.fromkeys(each.id for each in pictured_in(blocks) if each.file)
    shown = [entries[each] for each in ids]
    assert all(each.number_regions is not None for each in shown)
    pictures = found_in(car).pictures
    assert len(pictures) == len(shown)
    for image, each in zip(pictures, shown, strict=True):
        assert image.size == (1200, 800)
        for region in each.number_regions or ():
            right, bottom = region.left + region.width, region.top + region.height
            assert is_flat(image, (region.left, region.top, right, bottom))
        assert not is_flat(image, (0, 0, *image.size))


def test_a_photograph_without_recorded_regions_is_left_out_and_said_so():
    copy = invented_copy()
    assert copy.left_out == ("exhibit-3",), "a name with a figure in it is not shown"
    text = report_text(copy.outline)
    assert "nobody has recorded where this picture shows numbers" in text
    assert len(found_in_invented().pictures) == 2
    assert copy_of("no-papers").left_out == ("ledger",)


def test_no_region_at_all_shows_the_whole_picture():
    stream = io.BytesIO()
    Image.linear_gradient("L").convert("RGB").save(stream, "JPEG")
    assert not is_flat(pictured(stream.getvalue()), (0, 0, 256, 256))


@tried_on(40, few=8)
@given(
    turn=st.integers(1, 8),
    left=st.integers(0, 250),
    top=st.integers(0, 150),
    width=st.integers(1, 60),
    height=st.integers(1, 60),
)
def test_a_region_counts_in_the_upright_picture_however_the_camera_lay(
    turn, left, top, width, height
):
    """Whatever stands in the region, the picture of the copy is the same, byte for byte."""
    upright = (320, 240) if turn < 5 else (240, 320)
    assume(left + width <= upright[0] and top + height <= upright[1])
    seen = Image.effect_noise(upright, 90).convert("RGB")
    other = seen.copy()
    other.paste((250, 20, 20), (left, top, left + width, top + height))
    region = Region(left=left, top=top, width=width, height=height)
    made = [pictured(as_taken(each, turn), region) for each in (seen, other)]
    assert made[0].size == upright
    assert made[0].tobytes() == made[1].tobytes()
    elsewhere = seen.copy()
    elsewhere.paste((250, 20, 20), (upright[0] - 20, upright[1] - 20, *upright))
    assert pictured(as_taken(elsewhere, turn), region).tobytes() != made[0].tobytes() or (
        left + width > upright[0] - 20 and top + height > upright[1] - 20
    )


def as_taken(upright: Image.Image, turn: int) -> bytes:
    """The file of a camera that lay this way (EXIF tag 274) when it took the picture."""
    back = {
        1: None, 2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[turn]  # fmt: skip
    notes = Image.Exif()
    notes[274] = turn
    stream = io.BytesIO()
    (upright if back is None else upright.transpose(back)).save(stream, "PNG", exif=notes)
    return stream.getvalue()


def test_no_note_of_the_camera_comes_along():
    """Place, small picture, colour table, comment and the text of other programs."""
    image = Image.new("RGB", (400, 300), (90, 120, 150))
    ImageDraw.Draw(image).text((100, 100), "582063", font_size=40)
    notes = Image.Exif()
    notes[270], notes[315] = "chassis 582063", "Petra"
    notes.get_ifd(0x8825)[1] = "N"
    stream = io.BytesIO()
    image.save(
        stream, "JPEG", exif=notes, comment=b"582063", icc_profile=b"582063" * 40,
        xmp=b"<x>582063</x>",
    )  # fmt: skip
    content = stream.getvalue()
    assert content.count(b"582063") > 40
    region = Region(left=90, top=95, width=200, height=60)
    (picture,) = masked_pictures((entry(content, region),), {"x": content}, {"x": "x"})
    assert b"582063" not in picture.jpeg
    assert b"Petra" not in picture.jpeg
    made = Image.open(io.BytesIO(picture.jpeg))
    assert set(made.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert dict(made.getexif()) == {}


@pytest.mark.parametrize(
    "region",
    [
        Region(left=0, top=0, width=401, height=10),
        Region(left=300, top=290, width=10, height=11),
    ],
)
def test_a_region_that_does_not_lie_in_the_picture_leaves_it_out(region):
    stream = io.BytesIO()
    Image.new("RGB", (400, 300)).save(stream, "JPEG")
    content = stream.getvalue()
    (picture,) = masked_pictures((entry(content, region),), {"x": content}, {"x": "x"})
    assert picture.jpeg == b""
    assert picture.missing


def test_a_file_that_is_not_the_one_recorded_is_left_out():
    stream = io.BytesIO()
    Image.new("RGB", (40, 30)).save(stream, "JPEG")
    (picture,) = masked_pictures((entry(b"other"),), {"x": stream.getvalue()}, {"x": "x"})
    assert picture.jpeg == b""


def test_the_day_of_printing_is_the_one_given():
    day = date(2026, 1, 2)
    copy = masked_copy(opinion_of("panel"), BOOK, {}, day)
    bare = replace(copy, outline=replace(copy.outline, sections=()))
    pdf = print_masked_copy(bare, day)
    reader = PdfReader(io.BytesIO(pdf))
    assert reader.metadata is not None
    assert reader.metadata["/CreationDate"].startswith("D:20260102")
    assert "printed 2 January 2026" in page_texts(pdf)[0]
