"""`witnessmark report`."""

import json

import pytest
from pypdf import PdfReader

from tests.worked.pdf_pages import text_of
from witnessmark.report.issue.issued import opinion_digest
from witnessmark.report.press.html.page import OPENING
from witnessmark.report.sections.photo import grouped


def test_the_report_is_a_pdf_where_it_was_asked_for(type_in, demo_folder, tmp_path):
    """With its annex in both forms beside it, and for a browser where that was asked for."""
    asked = ("report", "demo/panel", "--out", "panel.pdf", "--html", "panel.html")
    ended = type_in(*asked)
    written = ["panel.pdf", "panel-annex.pdf", "panel-annex.html", "panel.html"]
    assert (ended.code, ended.out.split(), ended.err) == (0, written, "")
    for name in written:
        opening = b"%PDF-" if name.endswith(".pdf") else OPENING
        assert (tmp_path / name).read_bytes().startswith(opening)


def test_without_a_name_the_report_is_named_after_the_case(type_in, demo_folder, tmp_path):
    """witnessmark report demo/clean"""
    written = ["clean.pdf", "clean-annex.pdf", "clean-annex.html"]
    assert type_in("report", "demo/clean").out.split() == written
    assert all((tmp_path / each).is_file() for each in written)


def test_what_is_no_report_is_never_replaced(type_in, demo_folder):
    """--out that names the case itself."""
    document = demo_folder / "panel/case.json"
    before = document.read_bytes()
    ended = type_in("report", "demo/panel", "--out", "demo/panel/case.json")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "--out: demo/panel/case.json already exists and is not a PDF; nothing was written\n"
        "expected a new file name\n"
    )
    assert document.read_bytes() == before


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("demo/panel/case.json", "already exists and is not a page of ours"),
        ("demo", "already exists and is not a page of ours"),
        ("-", "does not name a file"),
        ("x.pdf", "is where another of these documents goes"),
        ("./x-annex.html", "is where another of these documents goes"),
    ],
)
def test_a_page_for_a_browser_replaces_nothing_but_its_like(type_in, demo_folder, name, told):
    before = (demo_folder / "panel/case.json").read_bytes()
    ended = type_in("report", "demo/panel", "--out", "x.pdf", "--html", name)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("--html: ")
    assert told in ended.err
    assert (demo_folder / "panel/case.json").read_bytes() == before


def test_a_report_that_cannot_be_written_leaves_nothing(type_in, demo_folder, tmp_path):
    """The folder is not there."""
    ended = type_in("report", "demo/panel", "--out", "nowhere/panel.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert "nothing was written" in ended.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["demo"]


def test_a_bad_case_gives_no_report(type_in, demo_folder, tmp_path):
    """Problems and exit code 2."""
    (demo_folder / "panel/case.json").write_text("{", "utf-8")
    ended = type_in("report", "demo/panel", "--out", "panel.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert not (tmp_path / "panel.pdf").exists()


def test_the_report_comes_on_the_paper_that_was_asked_for(type_in, demo_folder, tmp_path):
    """--paper letter"""
    assert type_in("report", "demo/panel", "--paper", "letter").code == 0
    page = PdfReader(tmp_path / "panel.pdf").pages[0]
    assert (round(page.mediabox.width), round(page.mediabox.height)) == (612, 792)


def test_the_report_holds_the_case_document(type_in, demo_folder, tmp_path):
    """And says what an examiner's reading alone would do, and the digest of its Opinion."""
    type_in("report", "demo/clean")
    (content,) = PdfReader(tmp_path / "clean.pdf").attachments["case.json"]
    assert json.loads(content)["id"] == "clean"
    assert "The difference changes nothing" in text_of(tmp_path / "clean-annex.pdf")
    text = text_of(tmp_path / "clean.pdf")
    kept = opinion_digest(type_in("examine", "demo/clean", "--json").out)
    assert grouped(kept)[:24] in text


def issue(type_in, tmp_path, car, following=2):
    """The Opinion of a car kept at issue, then its case changed, to be issued anew."""
    (tmp_path / "kept.json").write_text(type_in("examine", f"demo/{car}", "--json").out, "utf-8")
    document = tmp_path / "demo" / car / "case.json"
    case = json.loads(document.read_text("utf-8"))
    case["looks"].pop()
    case["report"]["issue"] = following
    document.write_text(json.dumps(case), "utf-8")


def supplement(type_in, car, *words):
    return type_in("report", f"demo/{car}", "--supplement-to", "kept.json", *words)


def test_a_supplement_says_what_changed_and_why(type_in, demo_folder, tmp_path):
    """witnessmark report demo/panel --supplement-to kept.json --because TEXT"""
    issue(type_in, tmp_path, "panel")
    ended = supplement(type_in, "panel", "--because", "One look was withdrawn")
    assert (ended.code, ended.out, ended.err) == (0, "panel-supplement.pdf\n", "")
    text = text_of(tmp_path / "panel-supplement.pdf")
    assert "Supplement to a report of examination" in text
    assert "One look was withdrawn." in text
    assert "One entry withdrawn." in text
    assert not (tmp_path / "panel.pdf").exists()


def test_a_supplement_that_is_not_the_next_issue_is_refused(type_in, demo_folder, tmp_path):
    """The case still says issue 1, under which its report was issued."""
    issue(type_in, tmp_path, "panel", following=1)
    ended = supplement(type_in, "panel", "--because", "One look was withdrawn")
    assert (ended.code, ended.out) == (2, "")
    assert (
        "the report was issued as 26-031, issue 1, and this case says 26-031, issue 1" in ended.err
    )
    assert sorted(tmp_path.glob("*.pdf")) == []


def test_a_sum_that_does_not_say_what_it_is_is_told_and_left_out(type_in, demo_folder, tmp_path):
    """So is a price asked in the stakes, as cases had it; the report is written all the same."""
    document = demo_folder / "panel/case.json"
    case = json.loads(document.read_text("utf-8"))
    case["stakes"]["price_asked"], case["sums"][0]["source"] = 61234, ""
    document.write_text(json.dumps(case), "utf-8")
    ended = type_in("report", "demo/panel")
    assert ended.code == 0
    assert ended.err.count("no document prints this sum: it lacks ") == 2
    text = text_of(tmp_path / "panel.pdf")
    assert "61,234" not in text
    assert "58,000" not in text
    checked = type_in("case", "check", "demo/panel")
    assert (checked.code, checked.err) == (0, "")
    assert " ".join(checked.out.split()).count("No document prints this sum") == 2


def test_a_supplement_needs_a_reason_and_a_reason_a_supplement(type_in, demo_folder, tmp_path):
    """Either alone is refused."""
    issue(type_in, tmp_path, "panel")
    ended = supplement(type_in, "panel")
    assert (ended.code, ended.out) == (2, "")
    assert "expected --because TEXT" in ended.err
    ended = type_in("report", "demo/panel", "--because", "so")
    assert (ended.code, ended.out) == (2, "")
    assert "expected --supplement-to FILE beside it" in ended.err


def test_a_supplement_to_another_case_is_refused(type_in, demo_folder, tmp_path):
    """The Opinion kept is that of panel."""
    issue(type_in, tmp_path, "panel")
    ended = supplement(type_in, "clean", "--because", "so")
    assert (ended.code, ended.out) == (2, "")
    assert "is the Opinion of the case 'panel', not of 'clean'" in ended.err


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b"%PDF-1.7", b"\xff\xfe{", None])
def test_a_file_that_is_no_opinion_gives_no_supplement(type_in, demo_folder, tmp_path, content):
    """A problem and exit code 2."""
    if content is not None:
        (tmp_path / "kept.json").write_bytes(content)
    ended = supplement(type_in, "panel", "--because", "so")
    assert (ended.code, ended.out) == (2, "")
    assert "witnessmark examine CASE --json" in ended.err
    assert sorted(tmp_path.glob("*.pdf")) == []
