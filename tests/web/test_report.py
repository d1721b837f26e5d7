"""The report's page: documents made behind it, issues kept for ever, the case as a folder."""

import io
import json
import zipfile
from datetime import date

import pytest

from tests.web.conftest import DEMO, WHEN
from witnessmark import store
from witnessmark.casefile import open_case
from witnessmark.casefile.revisions import Revision, Revisions
from witnessmark.report.mask.copied import SerialLeft
from witnessmark.source import NOWHERE
from witnessmark.web.report import kinds, worker
from witnessmark.web.report.issuing import proposed_number
from witnessmark.web.report.worker import Lane

PDF = b"%PDF-"
PNG = b"\x89PNG"


def test_a_document_is_made_behind_the_page_and_kept(owner, demo_case, behind, quick):
    """No request waits for it; what has changed since is another document."""
    case = demo_case("no-papers")
    file = f"/cases/{case}/documents/field-sheet/letter"
    waiting = owner.get(file)
    assert (waiting.status_code, waiting.headers["Refresh"]) == (202, "2")
    assert owner.get(file).status_code == 202
    assert behind.make() == 1
    made = owner.get(file)
    assert b"".join(made.streaming_content).startswith(PDF)
    assert made.headers["Content-Disposition"] == (
        'attachment; filename="no-papers-field-sheet.pdf"'
    )
    assert behind.make() == 0
    assert owner.get(f"{file}?minutes=30").status_code == 202
    assert owner.get(f"/cases/{case}/documents/nothing/a4").status_code == 404
    assert owner.get(f"/cases/{case}/documents/field-sheet/html").status_code == 404


def test_the_page_shows_what_it_has_and_what_shows_numbers(owner, demo_case, behind, quick):
    """Every document once; the first page of one that is made is a picture."""
    case = demo_case("no-papers")
    page = owner.get(f"/cases/{case}/report").content.decode()
    wanted = [name for name in kinds.ON_THE_PAGE if name != "supplement"]
    assert page.count("Being made") == len(behind.waiting) == len(wanted)
    assert page.count("Shows numbers in full") == 3
    behind.waiting = {k: v for k, v in behind.waiting.items() if False}
    owner.get(f"/cases/{case}/documents/decode-sheet/card")
    behind.make()
    card = owner.get(f"/cases/{case}/documents/decode-sheet/card").content.decode()
    assert "hx-trigger" not in card
    picture = owner.get(f"/cases/{case}/documents/decode-sheet/pages/1")
    assert b"".join(picture.streaming_content).startswith(PNG)
    assert owner.get(f"/cases/{case}/documents/decode-sheet/pages/2").status_code == 404


def test_before_it_is_issued_the_page_says_that_no_examiner_is_named(
    owner, demo_case, behind, quick
):
    named = owner.get(f"/cases/{demo_case('no-papers')}/report").content.decode()
    assert "Nobody is named who reads" not in named
    document = json.loads((DEMO / "clean" / "case.json").read_text("utf-8"))
    document["assignment"]["examiners"] = []
    kept = store.begin(json.dumps(document), "Ada", "opened", WHEN)
    page = owner.get(f"/cases/{kept.case}/report").content.decode()
    assert "Nobody is named who reads and signs." in page


def test_a_masked_copy_that_would_show_a_number_is_told_and_not_made(
    owner, demo_case, behind, quick, monkeypatch
):
    """The place is named, the number is not, and there is no file."""
    monkeypatch.setattr(
        "witnessmark.report.mask.copied._serials_left",
        lambda _outline, _mask: (SerialLeft(NOWHERE, "What was found"),),
    )
    case = demo_case("no-papers")
    path = f"/cases/{case}/documents/masked-copy"
    owner.get(path)
    behind.make()
    told = owner.get(path).content.decode()
    assert "What was found" in told
    assert "It is not made" in owner.get(f"{path}/a4").content.decode()


def test_a_mistake_of_the_program_is_told_and_asked_for_no_more(monkeypatch):
    """The lane goes on with what comes next; the terminal is told, whoever else may listen."""
    lane, done, told = Lane(), [], list[str]()
    monkeypatch.setattr(worker._LOG, "exception", lambda words, key: told.append(words % key))
    lane.make("first", lambda: 1 / 0)
    assert lane.has_failed("first")
    assert told == ["first could not be made"]
    lane.make("second", lambda: done.append(1))
    assert done == [1]
    assert not lane.has_failed("second")


def test_what_is_missing_is_told_before_the_report_is_issued(owner, demo_case):
    """As `case check` tells it, each with the page where it is entered; issued all the same."""
    case = demo_case("no-papers")
    page = owner.get(f"/cases/{case}/report").content.decode()
    assert "No photograph shows the whole car." in page
    assert page.index("No photograph shows") < page.index(">Issue it</button>")
    assert "what was agreed to be examined" not in page
    owner.post(f"/cases/{case}/claim/assignment", {"scope": ""})
    page = owner.get(f"/cases/{case}/report").content.decode()
    assert "It is not said what was agreed to be examined." in page
    assert f'href="/cases/{case}/claim#part-assignment"' in page


@pytest.fixture
def issued(owner, demo_case, behind, quick) -> str:
    """A case whose report was issued; gives its id."""
    case = demo_case("no-papers")
    form = {"number": "2026-001", "date": "2026-10-26", "size": "a4", "base": "1"}
    assert owner.post(f"/cases/{case}/report/issue", form).status_code == 302
    assert b"is being made" in owner.get(f"/cases/{case}/report").content
    behind.waiting = {k: job for k, job in behind.waiting.items() if k.startswith("issue")}
    assert behind.make() == 1
    return case


def test_an_issue_is_kept_byte_for_byte_and_a_supplement_follows_it(owner, issued, behind, home):
    """Its number goes into the case; a later revision changes none of its files."""
    (report,) = store.reports(issued)
    assert (report.number, report.issue, report.by, report.revision) == (
        "2026-001",
        1,
        "the owner",
        2,
    )
    case = json.loads(store.head(issued).text)
    assert case["report"] == {"number": "2026-001", "issue": 1, "date": "2026-10-26"}
    assert [name.rpartition("no-papers")[2] for name in report.files] == [
        ".pdf",
        "-annex.pdf",
        "-annex.html",
        "-opinion.json",
    ]
    assert proposed_number(date(2026, 11, 20)) == "2026-002"
    page = owner.get(f"/cases/{issued}/report").content.decode()
    assert "Report 2026-001, issue 1" in page
    assert "Nothing in the case has changed since" in page
    path = f"/cases/{issued}/report/supplement"
    refused = owner.post(path, {"because": " ", "date": "2026-11-20", "base": "2"})
    assert refused.status_code == 422
    assert b"gives no reason" in refused.content
    behind.waiting.clear()
    owner.post(path, {"because": "The ledger was found.", "date": "2026-11-20", "base": "2"})
    behind.make()
    first, second = store.reports(issued)
    assert (second.number, second.issue, second.kind) == ("2026-001", 2, "supplement")
    name = next(iter(first.files))
    file = owner.get(f"/cases/{issued}/report/issues/{first.id}/{name}")
    assert b"".join(file.streaming_content).startswith(PDF)
    store.report_path(first, name).write_bytes(b"spoilt")
    spoilt = owner.get(f"/cases/{issued}/report/issues/{first.id}/{name}")
    assert spoilt.status_code == 500
    assert b"is not what was issued" in spoilt.content


def test_an_issue_needs_a_number_and_a_day(owner, demo_case, quick):
    """One after the visit; each is told with its place, and nothing is saved."""
    case = demo_case("no-papers")
    path = f"/cases/{case}/report/issue"
    for number, day in ((" ", "2026-10-26"), ("7", "in spring"), ("7", "2026-03-14")):
        form = {"number": number, "date": day}
        told = owner.post(path, {**form, "base": "1"})
        assert told.status_code == 422
        assert b"Expected" in told.content
    assert store.head(case).number == 1


def test_a_downloaded_case_is_what_the_command_line_opens(owner, demo_case, tmp_path):
    """With its photographs and every revision."""
    case = demo_case("no-papers", exhibits=True)
    text = store.head(case).text.replace('"purpose": "', '"purpose": "Changed. ')
    store.revise(case, 1, text, who="Ben", did="changed", at=store.head(case).at)
    packed = b"".join(owner.get(f"/cases/{case}/folder.zip").streaming_content)
    zipfile.ZipFile(io.BytesIO(packed)).extractall(tmp_path / "out")
    opened = open_case(tmp_path / "out" / case)
    assert opened.problems == ()
    found = tuple(Revisions(tmp_path / "out" / case / "case.json").all())
    assert [each.did for each in found if isinstance(each, Revision)] == ["opened", "changed"]
