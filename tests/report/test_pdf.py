"""The printed report: whole, tagged, the same every time, and nothing in it is evaluated."""

import io
import struct
import zlib
from dataclasses import replace
from datetime import date
from functools import cache
from hashlib import sha256

import invented_opinion as invented  # made known by conftest.py
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pdf_oxide import PdfDocument
from PIL import Image
from pypdf import PdfReader

from tests.examples import tried_on
from tests.never_said import never_said
from tests.weighed import with_conclusions, with_more
from tests.worked.pdf_pages import page_texts as pages
from witnessmark.casefile import ExhibitEntry, parse_casefile, render_casefile
from witnessmark.catalogue import Catalogue
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.examination import Disclosed, Opinion
from witnessmark.report import build_outline, render_report
from witnessmark.report.issue.issued import case_attachment
from witnessmark.report.press.coverage import covered, font_files, showable
from witnessmark.report.press.pictures import (
    LONGEST_SIDE,
    NO_PICTURE,
    NOT_BROUGHT,
    OTHER_DIGEST,
    TOO_LARGE,
    prepare_pictures,
)
from witnessmark.report.press.render import Printed, ToPrint, print_outline
from witnessmark.report.records import Form, PaperSize

_opened = open_book(find_book("tarvane-1952-1961")).book
assert _opened is not None
BOOK = _opened
"""The demonstration book, which the invented Opinion's ids are of."""

A4_POINTS = (595, 842)


@cache
def report() -> bytes:
    """The report on the invented car: printed once for all who look at it."""
    return render_report(invented.opinion(), BOOK, dict(invented.EXHIBITS), invented.PRINTED)


def print_report(
    opinion: Opinion, book: CodeBook, exhibits: dict[str, bytes], printed: date
) -> Printed:
    """The report with what the compiler complained about."""
    return ToPrint(opinion=opinion, book=book, exhibits=exhibits, printed=printed).report()


def squeezed(text: str) -> str:
    """Text without any white space, so that a line end in the PDF hides nothing."""
    return "".join(text.replace("\u200b", "").split())


def with_client(opinion, text):
    assignment = replace(opinion.casefile.assignment, client=text)
    return replace(opinion, casefile=replace(opinion.casefile, assignment=assignment))


def entry(content: bytes) -> ExhibitEntry:
    digest = sha256(content).hexdigest()
    return ExhibitEntry(id="x", file="x.jpg", sha256=digest)


def test_it_compiles_without_a_warning(opinion, exhibits, printed):
    assert print_report(opinion, BOOK, exhibits, printed).warnings == ()


def test_the_same_opinion_gives_the_same_bytes(opinion, exhibits, printed):
    first = report()
    assert first == render_report(opinion, BOOK, exhibits, printed)
    assert first != render_report(opinion, BOOK, exhibits, date(2026, 5, 15))


def test_case_date_and_page_number_stand_on_every_page():
    found = pages(report())
    assert len(found) > 5
    for number, text in enumerate(found, start=1):
        assert "Report 26-031, issue 1, printed 14 May 2026" in text
        assert "tarvane-105512" not in text
        assert f"page {number} of {len(found)}" in text
        assert "For the purpose and users stated on page 1" in text


def test_it_is_tagged_titled_and_in_english_on_a4():
    reader = PdfReader(io.BytesIO(report()))
    root = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"].value is True
    assert "/StructTreeRoot" in root
    assert root["/Lang"].startswith("en")
    assert reader.metadata is not None
    assert reader.metadata.title == (
        "Is this car solent-sprint 105512 of 1955?, report 26-031, issue 1"
    )
    for page in reader.pages:
        assert (round(page.mediabox.width), round(page.mediabox.height)) == A4_POINTS


def test_every_font_is_embedded_and_is_one_of_ours():
    reader = PdfReader(io.BytesIO(report()))
    fonts = [
        each.get_object()
        for each in map(reader.get_object, range(1, len(reader.xref[0]) + 1))
        if isinstance(each, dict) and each.get("/Type") == "/FontDescriptor"
    ]
    assert fonts
    for font in fonts:
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(font)
        assert "Source" in font["/FontName"]


def test_nothing_that_is_never_said_is_printed():
    text = " ".join(pages(report()))
    assert {said.words for said in never_said(text)} == set()


def test_everything_in_the_outline_is_printed(opinion, printed):
    """The sentences of the summary and of the limits, found again in the PDF."""
    outline = build_outline(opinion, BOOK, printed)
    text = squeezed(" ".join(pages(report())))
    for section in outline.sections:
        assert squeezed(section.title) in text
        for block in section.blocks:
            for item in getattr(block, "items", ()):
                assert squeezed(item) in text


HOSTILE = (
    '#import "@preview/x:1.0.0"',
    "#panic() [x] $y$ *z* _u_ @ref <label>",
    "= A heading\n- a list\n/ term: x",
    '"); #read("/etc/passwd") //',
    "\\u{41} \\ # $ ` ~ { } < >",
    "</svg><script>alert(1)</script>",
    "{{ x }} {% y %} %s {0}",
)
"""What would be a command of the typesetter, of a drawing or of a template."""


def test_what_a_client_types_comes_out_as_typed(opinion, exhibits, printed):
    """All on page two and, each in a statement of its own, in the table of the disclosure."""
    said = tuple(Disclosed("engine", each, "Nothing.", "open") for each in HOSTILE)
    client, purpose = " ".join(HOSTILE[1::2]), " ".join(HOSTILE[::2])
    assignment = replace(opinion.casefile.assignment, client=client, purpose=purpose)
    case = replace(opinion.casefile, assignment=assignment)
    typed = replace(opinion, casefile=case, disclosure=said)
    done = print_report(typed, BOOK, exhibits, printed)
    assert done.warnings == ()
    found = pages(done.pdf)
    assert squeezed(client) in squeezed(found[1])
    assert squeezed(purpose) in squeezed(found[1])
    whole = squeezed(" ".join(found))
    assert [each for each in HOSTILE if squeezed(each) not in whole] == []


def test_a_character_that_no_font_has_is_printed_as_its_code_point(opinion, exhibits, printed):
    done = print_report(with_client(opinion, "Ms 山田 \U0001f697 \x07"), BOOK, exhibits, printed)
    assert done.warnings == ()
    assert "Ms‹U+5C71›‹U+7530›‹U+1F697›‹U+0007›" in squeezed(pages(done.pdf)[0])


@tried_on(15, few=3)
@given(st.text(max_size=60))
def test_any_name_can_be_printed(text):
    """The fixtures of pytest would be shared between examples, so the case is built here."""
    opinion = with_client(invented.opinion(), text)
    assert print_report(opinion, BOOK, {}, invented.PRINTED).warnings == ()


def test_a_word_without_end_is_broken_and_not_cut_off(opinion, exhibits, printed):
    word = "".join(f"{n:04}" for n in range(250))
    done = print_report(with_client(opinion, word), BOOK, exhibits, printed)
    assert word in squeezed(pages(done.pdf)[1])


def test_the_shipped_fonts_cover_what_reports_are_written_in():
    assert len(font_files()) == 6
    for c in "ÀéßøŁñ“”‘’–—…−×‹›←→€£½0OIl1":
        assert ord(c) in covered()


@given(st.text())
def test_what_can_be_shown_needs_no_second_showing(text):
    assert showable(showable(text, breaking=False), breaking=False) == showable(
        text, breaking=False
    )


def test_a_missing_photograph_is_named_and_the_report_goes_on(opinion, exhibits, printed):
    del exhibits["p2"]
    text = " ".join(pages(render_report(opinion, BOOK, exhibits, printed)))
    assert NOT_BROUGHT in text
    assert "Frame stamping, raking light" in text


def test_a_photograph_that_is_not_the_recorded_one_is_not_shown(opinion, exhibits, printed):
    exhibits["p2"] = exhibits["p1"]
    text = squeezed(" ".join(pages(render_report(opinion, BOOK, exhibits, printed))))
    assert squeezed(OTHER_DIGEST) in text


def jpeg(width: int, height: int, **more: object) -> bytes:
    stream = io.BytesIO()
    Image.new("RGB", (width, height), (90, 90, 90)).save(stream, "JPEG", **more)
    return stream.getvalue()


def test_a_photograph_is_reduced_and_its_camera_notes_are_left_out():
    notes = Image.Exif()
    notes[0x010E] = "where it was taken"
    content = jpeg(3000, 1500, exif=notes)
    assert b"where it was taken" in content
    (picture,) = prepare_pictures((entry(content),), {"x": content})
    with Image.open(io.BytesIO(picture.jpeg)) as image:
        assert image.size == (LONGEST_SIDE, LONGEST_SIDE // 2)
    assert b"where it was taken" not in picture.jpeg


def test_a_photograph_taken_on_its_side_is_set_upright():
    notes = Image.Exif()
    notes[0x0112] = 6
    content = jpeg(400, 200, exif=notes)
    (picture,) = prepare_pictures((entry(content),), {"x": content})
    with Image.open(io.BytesIO(picture.jpeg)) as image:
        assert image.size == (200, 400)


def chunk(kind: bytes, content: bytes) -> bytes:
    body = kind + content
    return struct.pack(">L", len(content)) + body + struct.pack(">L", zlib.crc32(body))


def test_a_picture_that_claims_too_many_pixels_is_never_unpacked():
    size = struct.pack(">LLBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    bomb = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", size)
    bomb += chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    (picture,) = prepare_pictures((entry(bomb),), {"x": bomb})
    assert (picture.jpeg, picture.missing) == (b"", TOO_LARGE)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"%PDF-1.7 a scan",
        b"\xff\xd8\xff\xe0 cut short",
        jpeg(80, 60)[:200],
        b"GIF89a" + b"\0" * 40,
        b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",
    ],
)
def test_a_file_that_is_no_whole_picture_is_named_and_not_shown(content):
    (picture,) = prepare_pictures((entry(content),), {"x": content})
    assert (picture.jpeg, picture.missing) == (b"", NO_PICTURE)


@tried_on(60)
@given(st.integers(0, 600), st.integers(0, 255))
def test_a_damaged_picture_never_stops_a_report(at, value):
    content = bytearray(jpeg(64, 48))
    content[at % len(content)] = value
    (picture,) = prepare_pictures((entry(bytes(content)),), {"x": bytes(content)})
    assert bool(picture.jpeg) != bool(picture.missing)


def test_no_photograph_is_left_behind(opinion, exhibits, printed):
    from pathlib import Path

    from witnessmark.report.press.typst_press import press

    render_report(opinion, BOOK, exhibits, printed)
    assert [each.name for each in Path(press().folder.name).glob("**/*.jpg")] == []


def test_an_outline_can_be_printed_again_by_itself(opinion, printed):
    outline = build_outline(opinion, BOOK, printed)
    assert print_outline(outline, (), printed).pdf.startswith(b"%PDF-")


def with_many_words(opinion):
    """Everything that stands on the first page as long as somebody may make it."""
    long = "A sentence that goes on and on about the car and its owners. " * 60
    case = opinion.casefile
    assignment = replace(case.assignment, client=long, purpose=long, intended_users=long)
    claim = replace(case.claim, text=long, made_by=long)
    sites = tuple(replace(each, reason=long) for each in opinion.sites * 5)
    parts = (with_more(each, about=f"part_{n}") for n in range(5) for each in opinion.weighed)
    return replace(
        with_conclusions(opinion, *parts),
        casefile=replace(case, assignment=assignment, claim=claim),
        sites=sites,
    )


@pytest.mark.parametrize("size", PaperSize)
def test_what_has_no_room_moves_on_and_nothing_is_shrunk(opinion, printed, size):
    """Whatever somebody wrote, and on either paper: the contradictions stay on page one."""
    outline = build_outline(opinion, BOOK, printed)
    (page,) = pages(print_outline(replace(outline, sections=()), (), printed, Form(size=size)).pdf)
    assert "Read the owner’s reply in section 6." in page
    long = build_outline(with_many_words(opinion), BOOK, printed)
    pdf = print_outline(replace(long, sections=()), (), printed, Form(size=size)).pdf
    first, second = pages(pdf)
    for misfit in opinion.answer.misfits:
        assert squeezed(misfit.sentence.rstrip(".")) in squeezed(first)
    assert "What to do next" in first + second
    for number in range(2):
        spans = PdfDocument.from_bytes(pdf).extract_spans(number)
        assert min(round(each.font_size, 1) for each in spans if each.text.strip()) >= 9


@pytest.mark.parametrize(
    ("size", "points"), [(PaperSize.A4, A4_POINTS), (PaperSize.LETTER, (612, 792))]
)
def test_every_page_has_the_size_of_the_paper_that_was_asked_for(opinion, printed, size, points):
    pdf = render_report(opinion, BOOK, {}, printed, Form(size=size))
    for page in PdfReader(io.BytesIO(pdf)).pages:
        assert (round(page.mediabox.width), round(page.mediabox.height)) == points


def private(opinion, printed):
    form = Form(attachments=(case_attachment(opinion),))
    return render_report(opinion, BOOK, {}, printed, form)


def test_the_private_report_holds_the_case_document(opinion, printed):
    """As it was rendered, byte for byte, and marked as what the report was made from."""
    reader = PdfReader(io.BytesIO(private(opinion, printed)))
    (content,) = reader.attachments["case.json"]
    assert content.decode() == render_casefile(opinion.casefile)
    assert parse_casefile(content.decode(), "case.json").casefile == opinion.casefile
    (file,) = reader.trailer["/Root"]["/AF"]
    assert file.get_object()["/AFRelationship"] == "/Source"
    assert private(opinion, printed) == private(opinion, printed)


def metadata(pdf: bytes) -> str:
    return PdfReader(io.BytesIO(pdf)).trailer["/Root"]["/Metadata"].get_object().get_data().decode()


def test_with_a_file_inside_it_is_archival_part_3_and_for_screen_readers(opinion, printed):
    """PDF/A-3a and PDF/UA-1 by its own metadata; without a file PDF/A-2a."""
    inside = metadata(private(opinion, printed))
    assert "<pdfaid:part>3</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance>" in inside
    assert "<pdfuaid:part>1</pdfuaid:part>" in inside
    bare = metadata(render_report(opinion, BOOK, {}, printed))
    assert "<pdfaid:part>2</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance>" in bare


def test_the_words_of_the_page_itself_come_from_the_catalogue(opinion, printed):
    """Foot, signature, photographs: what the template says it is given to say."""
    foreign = {
        "page {page} of {pages}": "feuille {page} sur {pages}",
        "Report {report}, printed {printed}": "Rapport {report}, {printed}",
        "Signature": "Signé",
        "Photograph {number}: {caption}": "Photo {number} : {caption}",
    }
    form = Form(catalogue=Catalogue("fr", foreign))
    found = pages(render_report(opinion, BOOK, {}, printed, form))
    text = "\n".join(found)
    assert all(f"feuille {n} sur {len(found)}" in page for n, page in enumerate(found, start=1))
    assert "Rapport 26-031, issue 1, 14 May 2026" in found[0]
    assert "Signé" in text


def test_a_long_running_title_is_not_cut(opinion, printed):
    title = "Is this car the Solent Sprint 700236 of 1957 that was offered before a purchase?"
    outline = replace(build_outline(opinion, BOOK, printed), title=title)
    second = pages(print_outline(outline, (), printed).pdf)[1]
    assert squeezed(title) in squeezed(second)


@pytest.mark.parametrize("letter", ["漢", "\U0001f697", "x"])
def test_a_title_and_a_caption_of_any_length_are_printed(opinion, exhibits, printed, letter):
    """What a PDF holds beside the page is cut; the page itself shows all of it."""
    first, *others = opinion.casefile.exhibits
    entries = (replace(first, caption=letter * 4_200), *others)
    changed = {"title": letter * 4_000, "exhibits": entries}
    long = replace(opinion, casefile=replace(opinion.casefile, **changed))
    assert print_report(long, BOOK, exhibits, printed).pdf.startswith(b"%PDF-")
