"""What stands on a printed page: how many there are, what the first one holds and how large, and
that no heading is left alone at the foot of one."""

from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from pdf_oxide import PdfDocument

from tests.worked.opened import DEMO, book_and_version, case_of, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.figures.drawing import PAGE_HEIGHT
from witnessmark.outline.records import Drawing, Heading, Paragraph, Section
from witnessmark.report import Outline, build_outline
from witnessmark.report.outline import build_annex
from witnessmark.report.press.pictures import prepare_pictures
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize, Picture

PRINTED = date(2026, 11, 25)
FOOTER = "Report "
ALL_CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")
FEWEST, MOST = 8, 12
"""Pages of a report that is read to its end."""
LEAST_POINTS = 9.0

every_car = pytest.mark.parametrize("car", ALL_CARS)


@cache
def pictures_of(car: str) -> tuple[Picture, ...]:
    entries = case_of(car).exhibits
    files = {each.id: (DEMO / car / "exhibits" / each.file).read_bytes() for each in entries}
    return prepare_pictures(entries, files)


@cache
def outline_of(car: str) -> Outline:
    return build_outline(opinion_of(car), book_and_version()[0], PRINTED, pictures_of(car))


@cache
def report_on(car: str) -> bytes:
    """Every other car on the other paper."""
    paper = tuple(PaperSize)[ALL_CARS.index(car) % len(PaperSize)]
    return print_outline(outline_of(car), pictures_of(car), PRINTED, Form(paper)).pdf


@every_car
def test_a_report_has_eight_to_twelve_pages(car):
    assert FEWEST <= len(page_texts(report_on(car))) <= MOST


@every_car
def test_the_first_page_is_one_page_and_ends_with_what_to_do(car):
    first, second, *_ = ("".join(page.split()) for page in page_texts(report_on(car)))
    assert "Whattodonext" in first
    steps = outline_of(car).front[-1].right[-1].items
    assert all("".join(each.split()) in first for each in steps)
    assert second.startswith("".join(f"{outline_of(car).title}Report of examination1The".split()))


@every_car
def test_nothing_on_the_first_page_is_set_smaller_than_nine_points(car):
    spans = PdfDocument.from_bytes(report_on(car)).extract_spans(0)
    assert min(round(each.font_size, 1) for each in spans if each.text.strip()) >= LEAST_POINTS


@every_car
def test_a_photograph_bears_one_number_wherever_it_stands(car):
    """On page one, at its place and in the annex."""
    captions = {each.caption.rstrip(".") for each in case_of(car).exhibits}
    book = book_and_version()[0]
    annex = build_annex(opinion_of(car), book, PRINTED, pictures_of(car))
    numbers: dict[str, set[str]] = {}
    for block in every_block((*outline_of(car).front, *blocks_of(outline_of(car)))):
        for each in getattr(block, "photographs", ()):
            if each.number:
                numbers.setdefault(each.caption, set()).add(each.number)
    log = next(s for s in annex.sections if s.title == "Photograph log")
    for number, caption, *_ in log.blocks[1].rows:
        numbers.setdefault(caption.text, set()).add(number.text)
    assert set(numbers) == captions
    assert all(len(each) == 1 for each in numbers.values())


def every_block(blocks):
    for block in blocks:
        yield block
        for part in ("blocks", "left", "right"):
            yield from every_block(getattr(block, part, ()))


def blocks_of(outline: Outline):
    return [block for section in outline.sections for block in section.blocks]


def headings(outline: Outline) -> set[str]:
    """All that stands above something else, as it is printed, without white space."""
    found = {f"{at}{each.title}" for at, each in enumerate(outline.sections, start=1)}
    for block in blocks_of(outline):
        if isinstance(block, Heading):
            found.add(block.text)
        if isinstance(block, Drawing):
            found.add(block.title)
    return {"".join(each.split()) for each in found}


def last_line(page: str) -> str:
    """The last line above the footer, without white space."""
    lines = page.splitlines()
    foot = max(at for at, line in enumerate(lines) if line.startswith(FOOTER))
    return "".join(lines[foot - 1].split())


@every_car
def test_no_page_ends_with_a_heading(car):
    above = headings(outline_of(car))
    for number, page in enumerate(page_texts(report_on(car)), start=1):
        assert last_line(page) not in above, number


def test_a_heading_alone_at_the_foot_would_be_found():
    """A figure as tall as a page leaves its heading behind."""
    tall = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 482 640"></svg>'
    section = Section("Sites", (Drawing(tall, "A figure", "It shows nothing."),))
    outline = replace(outline_of("altered"), sections=(section,))
    pdf = print_outline(outline, (), PRINTED, Form(PaperSize.LETTER)).pdf
    lines = [last_line(page) for page in page_texts(pdf)]
    assert "1Sites" in headings(outline) & set(lines)


@every_car
def test_no_figure_is_taller_than_a_page_of_any_paper(car):
    annex = build_annex(opinion_of(car), book_and_version()[0], PRINTED)
    drawn = [b for b in (*blocks_of(outline_of(car)), *blocks_of(annex)) if isinstance(b, Drawing)]
    assert drawn
    for each in drawn:
        height = float(each.svg.split('viewBox="0 0 ', 1)[1].split('"', 1)[0].split()[1])
        assert height <= PAGE_HEIGHT + 4, each.title


def test_a_text_of_pages_is_begun_and_the_page_says_where_the_rest_is():
    notes = tuple(Paragraph(text) for text in ("A" + " worn" * 1_000, "A" + " dull" * 700))
    outline = replace(outline_of("altered"), front=(), sections=(Section("Notes", notes),))
    printed = " ".join("".join(page_texts(print_outline(outline, (), PRINTED).pdf)).split())
    told = "[4,000 of 5,001 characters are printed here; the case holds the whole text.]"
    assert told in printed
    assert (printed.count("worn"), printed.count("dull")) == (799, 700)
