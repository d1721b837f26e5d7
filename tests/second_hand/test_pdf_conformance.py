"""A general-purpose PDF library checks what our documents say of themselves: PDF/A and PDF/UA.

It sees the metadata, the fonts, the structure tree, the language, encryption and scripts, not
each operator of each page: where it finds nothing, a full validator may still find something.
"""

import io
from datetime import date
from functools import cache

import pytest
from pdf_oxide import PdfDocument
from pypdf import PdfReader, PdfWriter

from tests.worked.opened import DEMO, book_and_version, case_of, opinion_of
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import open_case
from witnessmark.plan import visit_plan
from witnessmark.report import render_report
from witnessmark.report.issue.issued import case_attachment
from witnessmark.report.mask.copied import masked_copy, print_masked_copy
from witnessmark.report.mask.short_name import SharedId
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.report.sheets.field_sheet import field_sheet

CAR = "panel"
PRINTED = date(2026, 11, 25)
PRIVATE, MASKED, SHEET = "private report", "masked copy", "field sheet"
LEVELS = {PRIVATE: "3a", MASKED: "2a", SHEET: "2a"}


@cache
def pdf_of(document: str) -> bytes:
    opinion, (book, _) = opinion_of(CAR), book_and_version()
    exhibits = open_case(DEMO / CAR).exhibits.contents(case_of(CAR).exhibits)
    if document == PRIVATE:
        form = Form(PaperSize.LETTER, attachments=(case_attachment(opinion),))
        return render_report(opinion, book, exhibits, PRINTED, form)
    if document == MASKED:
        return print_masked_copy(masked_copy(opinion, book, exhibits, PRINTED), PRINTED)
    plan = visit_plan(case_of(CAR), book, opinion.looks, 90)
    return print_outline(field_sheet(plan, SharedId(CAR), PRINTED), (), PRINTED).pdf


def without(pdf: bytes, *keys: str) -> bytes:
    """The document without an entry of its catalogue."""
    writer = PdfWriter(clone_from=io.BytesIO(pdf))
    root = writer.root_object
    for key in keys:
        del root[key]
    written = io.BytesIO()
    writer.write(written)
    return written.getvalue()


@pytest.mark.parametrize("document", LEVELS)
def test_it_is_of_the_level_that_it_claims(document):
    pdf = pdf_of(document)
    checked = PdfDocument.from_bytes(pdf).validate_pdf_a(LEVELS[document])
    assert (checked["valid"], checked["errors"]) == (True, [])
    assert not any("pdfaid" in warning for warning in checked["warnings"])
    accessible = PdfDocument.from_bytes(pdf).validate_pdf_ua()
    assert (accessible["valid"], accessible["errors"]) == (True, [])


@pytest.mark.parametrize("key", ["/Metadata", "/StructTreeRoot", "/MarkInfo", "/Lang"])
def test_the_checker_finds_what_is_taken_out(key):
    checked = PdfDocument.from_bytes(without(pdf_of(PRIVATE), key)).validate_pdf_a("3a")
    assert not checked["valid"]
    assert checked["errors"]


def test_the_checker_sees_that_another_part_of_the_standard_is_claimed():
    checked = PdfDocument.from_bytes(pdf_of(MASKED)).validate_pdf_a("3a")
    assert any("pdfaid:part is '2'" in warning for warning in checked["warnings"])


@pytest.mark.parametrize("document", [MASKED, SHEET])
def test_two_readers_take_the_same_text_out(document):
    """`page_texts`, in which the other tests look for what must not stand there, leaves nothing
    out and keeps the order."""
    read = [page.extract_text() for page in PdfReader(io.BytesIO(pdf_of(document))).pages]
    bare = [
        tuple("".join(page.split()) for page in each)
        for each in (page_texts(pdf_of(document)), read)
    ]
    assert bare[0] == bare[1]
