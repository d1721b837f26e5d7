"""`witnessmark decode-sheet`."""

import io

import pytest
from pypdf import PdfReader

from tests.worked.pdf_pages import page_texts


def told(path):
    """What can be taken out of the one page."""
    [page] = page_texts(path.read_bytes())
    return "".join(page.split())


@pytest.mark.parametrize(("paper", "width"), [("a4", 595), ("letter", 612)])
def test_the_sheet_is_one_page_where_it_was_asked_for(type_in, demo_folder, tmp_path, paper, width):
    ended = type_in("decode-sheet", "demo/clean", "--out", "s.pdf", "--paper", paper)
    assert (ended.code, ended.out, ended.err) == (0, "s.pdf\n", "")
    [page] = PdfReader(io.BytesIO((tmp_path / "s.pdf").read_bytes())).pages
    assert round(float(page.mediabox.width)) == width


def test_numbers_stand_on_it_only_where_they_are_asked_for(type_in, demo_folder, tmp_path):
    type_in("decode-sheet", "demo/clean", "--out", "masked.pdf")
    type_in("decode-sheet", "demo/clean", "--out", "full.pdf", "--with-numbers")
    assert "700143" not in told(tmp_path / "masked.pdf")
    assert "700143" in told(tmp_path / "full.pdf")


def test_without_a_name_it_is_named_after_the_case(type_in, demo_folder, tmp_path):
    assert type_in("decode-sheet", "demo/panel").out == "panel-decode-sheet.pdf\n"
    assert (tmp_path / "panel-decode-sheet.pdf").is_file()


def test_a_case_that_is_named_by_its_number_gives_a_name_without_it(type_in, demo_folder, tmp_path):
    """The id 700143 in the case document of `clean`."""
    document = demo_folder / "clean/case.json"
    document.write_text(document.read_text("utf-8").replace('"clean"', '"700143"', 1), "utf-8")
    ended = type_in("decode-sheet", "demo/clean")
    assert ended.code == 0, ended.err
    assert "700143" not in ended.out
    assert (tmp_path / ended.out.strip()).is_file()


def test_what_is_no_pdf_is_never_replaced(type_in, demo_folder):
    document = demo_folder / "panel/case.json"
    before = document.read_bytes()
    ended = type_in("decode-sheet", "demo/panel", "--out", "demo/panel/case.json")
    assert (ended.code, ended.out) == (2, "")
    assert document.read_bytes() == before


def test_a_bad_case_gives_no_sheet(type_in, demo_folder, tmp_path):
    (demo_folder / "panel/case.json").write_text("{", "utf-8")
    ended = type_in("decode-sheet", "demo/panel", "--out", "s.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert not (tmp_path / "s.pdf").exists()
