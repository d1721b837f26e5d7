"""`witnessmark field-sheet` and `witnessmark picture-request`."""

import io

import pytest
from pypdf import PdfReader

COMMANDS = ("field-sheet", "picture-request")


@pytest.mark.parametrize("command", COMMANDS)
def test_the_paper_is_a_pdf_where_it_was_asked_for(type_in, demo_folder, tmp_path, command):
    """--out paper.pdf, on A4 and on Letter."""
    for paper, width in (("a4", 595), ("letter", 612)):
        ended = type_in(command, "demo/panel", "--out", "paper.pdf", "--paper", paper)
        assert (ended.code, ended.out, ended.err) == (0, "paper.pdf\n", "")
        page = PdfReader(io.BytesIO((tmp_path / "paper.pdf").read_bytes())).pages[0]
        assert round(float(page.mediabox.width)) == width


@pytest.mark.parametrize("command", COMMANDS)
def test_without_a_name_it_is_named_after_the_case(type_in, demo_folder, tmp_path, command):
    """witnessmark field-sheet demo/clean"""
    assert type_in(command, "demo/clean").out == f"clean-{command}.pdf\n"
    assert (tmp_path / f"clean-{command}.pdf").is_file()


@pytest.mark.parametrize("command", COMMANDS)
def test_a_case_named_after_its_number_gives_a_file_that_is_not(type_in, demo_folder, command):
    """The id sprint-700143 of the car 700143."""
    document = demo_folder / "clean/case.json"
    text = document.read_text("utf-8").replace('"id": "clean"', '"id": "sprint-700143"')
    document.write_text(text, "utf-8")
    assert type_in(command, "demo/clean").out == f"sprint-xxxxxx-{command}.pdf\n"


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize(
    ("case_id", "stem"),
    [("car-58-20-63", "car-xx-xx-xx"), ("car582O63-31877", "xxxxxxxxx-xxxxx")],
)
def test_no_serial_of_the_id_stands_in_the_file_or_its_name(
    type_in, demo_folder, tmp_path, command, case_id, stem
):
    """The panel car: 582063 claimed, engine 31877 read and not claimed."""
    document = demo_folder / "panel/case.json"
    text = document.read_text("utf-8").replace('"id": "panel"', f'"id": "{case_id}"')
    document.write_text(text, "utf-8")
    assert type_in(command, "demo/panel").out == f"{stem}-{command}.pdf\n"
    pages = PdfReader(io.BytesIO((tmp_path / f"{stem}-{command}.pdf").read_bytes())).pages
    told = "".join("".join(page.extract_text().split()) for page in pages)
    assert "·" * 2 in told
    assert case_id not in told
    assert "31877" not in told


@pytest.mark.parametrize("command", COMMANDS)
def test_what_is_no_pdf_is_never_replaced(type_in, demo_folder, command):
    """--out that names the case itself."""
    document = demo_folder / "panel/case.json"
    before = document.read_bytes()
    ended = type_in(command, "demo/panel", "--out", "demo/panel/case.json")
    assert (ended.code, ended.out) == (2, "")
    assert "already exists and is not a PDF; nothing was written" in ended.err
    assert document.read_bytes() == before


@pytest.mark.parametrize("command", COMMANDS)
def test_a_paper_that_is_none_is_refused(type_in, demo_folder, command):
    """--paper legal"""
    ended = type_in(command, "demo/panel", "--paper", "legal")
    assert (ended.code, ended.out) == (2, "")
    assert "legal" in ended.err
    assert "letter" in ended.err


@pytest.mark.parametrize("command", COMMANDS)
def test_a_bad_case_gives_no_paper(type_in, demo_folder, tmp_path, command):
    """Problems and exit code 2."""
    (demo_folder / "panel/case.json").write_text("{", "utf-8")
    ended = type_in(command, "demo/panel", "--out", "paper.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert not (tmp_path / "paper.pdf").exists()


def test_a_case_that_only_claims_a_year_has_a_sheet_and_a_request(type_in, tmp_path):
    """The barest case that there is, as `case new` opens it."""
    opened = type_in(
        "case", "new", "bare", "--book", "tarvane-1952-1961", "--id", "bare",
        "--claim", "model_year=1955",
    )  # fmt: skip
    assert opened.code == 0, opened.err
    for command in COMMANDS:
        assert type_in(command, "bare").code == 0


def test_the_minutes_decide_what_comes_first(type_in, demo_folder, tmp_path):
    """Three minutes are too few for anything; half an hour is not."""
    for minutes, is_starred in ((3, False), (30, True)):
        type_in("field-sheet", "demo/no-papers", "--minutes", str(minutes), "--out", "f.pdf")
        pages = PdfReader(io.BytesIO((tmp_path / "f.pdf").read_bytes())).pages
        told = " ".join(" ".join(page.extract_text() for page in pages).split())
        assert ("look here first" in told) is is_starred
