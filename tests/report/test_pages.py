"""What stands together on a printed page: no heading is left alone at its foot."""

from dataclasses import replace
from datetime import date

import pytest

from tests.worked.opened import CARS, book_and_version, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.figures.drawing import PAGE_HEIGHT
from witnessmark.outline.records import Drawing, Heading, Paragraph, Section
from witnessmark.report import Outline, build_outline, render_report
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize

PRINTED = date(2026, 11, 25)
FOOTER = "Report 26-"


def outline_of(car: str) -> Outline:
    return build_outline(opinion_of(car), book_and_version()[0], PRINTED)


def headings(outline: Outline) -> set[str]:
    """All that stands above something else, as it is printed, without white space."""
    found = {f"{at}{each.title}" for at, each in enumerate(outline.sections, start=1)}
    for section in outline.sections:
        for block in section.blocks:
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


@pytest.mark.parametrize(("car", "paper"), [("altered", PaperSize.LETTER), ("clean", PaperSize.A4)])
def test_no_page_ends_with_a_heading(car, paper):
    pdf = render_report(opinion_of(car), book_and_version()[0], {}, PRINTED, Form(paper))
    above = headings(outline_of(car))
    for number, page in enumerate(page_texts(pdf), start=1):
        assert last_line(page) not in above, number


def test_a_heading_alone_at_the_foot_would_be_found():
    """A figure as tall as a page leaves its heading behind."""
    tall = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 482 640"></svg>'
    section = Section("Sites", (Drawing(tall, "A figure", "It shows nothing."),))
    outline = replace(outline_of("altered"), sections=(section,))
    pdf = print_outline(outline, (), PRINTED, Form(PaperSize.LETTER)).pdf
    lines = [last_line(page) for page in page_texts(pdf)]
    assert "1Sites" in headings(outline) & set(lines)


@pytest.mark.parametrize("car", CARS)
def test_no_figure_is_taller_than_a_page_of_any_paper(car):
    drawn = [
        block
        for section in outline_of(car).sections
        for block in section.blocks
        if isinstance(block, Drawing)
    ]
    assert drawn
    for each in drawn:
        height = float(each.svg.split('viewBox="0 0 ', 1)[1].split('"', 1)[0].split()[1])
        assert height <= PAGE_HEIGHT + 4, each.title


def test_a_text_of_pages_is_begun_and_the_page_says_where_the_rest_is():
    notes = tuple(Paragraph(text) for text in ("A" + " worn" * 1_000, "A" + " dull" * 700))
    outline = replace(
        outline_of("altered"), front=(), cover=(), sections=(Section("Notes", notes),)
    )
    printed = " ".join("".join(page_texts(print_outline(outline, (), PRINTED).pdf)).split())
    told = "[4,000 of 5,001 characters are printed here; the case holds the whole text.]"
    assert told in printed
    assert (printed.count("worn"), printed.count("dull")) == (799, 700)
