"""The page for later: for whoever has its link, in plain words, with no number in full."""

from datetime import timedelta

import pytest
from django.test import Client

from witnessmark.store import people
from witnessmark.web.shared.saving import now

PO = """msgid ""
msgstr ""
"Language: de\\n"
"Content-Type: text/plain; charset=UTF-8\\n"

msgid "What to keep safe"
msgstr "Was gut aufzuheben ist"
"""


@pytest.fixture
def later(owner, demo_case, behind, quick):
    """The path of a case's page for later, as its owner is told it."""

    def later(name: str) -> str:
        case = demo_case(name)
        form = {"for_whom": "my executor", "years": "20"}
        told = owner.post(f"/cases/{case}/later", form).content.decode()
        return f"/read/{told.partition('/read/')[2].partition('<')[0]}"

    return later


def test_who_has_the_link_reads_what_was_found_without_an_account(later, behind):
    """In plain words, without a ratio or a number; made behind the page."""
    path, browser = later("no-papers"), Client()
    assert browser.get(path).headers["Refresh"] == "3"
    behind.make()
    page = browser.get(path).content.decode()
    for each in ("What was found", "What to keep safe", "Whom to write to", "What to leave alone"):
        assert each in page
    assert "700157" not in page
    assert "LR" not in page
    assert "licensed appraiser" in page
    assert "<script" not in page
    papers = page.partition("<dt>Papers</dt>")[2].partition("</dd>")[0]
    assert "title or registration paper" in papers
    assert "ngine number" not in papers


def test_a_link_that_was_ended_or_is_too_old_opens_nothing(later, owner):
    """Nor does one that was never given, or one for a second examiner."""
    path = later("no-papers")
    assert Client().get("/read/guessed").status_code == 404
    (given,) = people.passes("no-papers")
    assert owner.post(f"/cases/no-papers/later/{given.id}").status_code == 302
    assert Client().get(path).status_code == 404
    at = now()
    old = people.PassSpan(at - timedelta(days=9), at - timedelta(days=1))
    second = people.PassSpan(at, at + timedelta(days=1))
    for kind, span in (("executor", old), ("second", second)):
        token = people.make_pass("no-papers", kind, "somebody", "Ada", span)
        assert Client().get(f"/read/{token}").status_code == 404


def test_it_is_read_in_every_language_that_has_a_catalogue(later, behind, home):
    """What is not translated stays English; a file that is no catalogue is not offered."""
    folder = home / "languages"
    folder.mkdir()
    (folder / "de.po").write_text(PO, "utf-8")
    (folder / "broken.po").write_text("nothing", "utf-8")
    path, browser = f"{later('no-papers')}?language=de", Client()
    browser.get(path)
    behind.make()
    page = browser.get(path).content.decode()
    assert '<html lang="de">' in page
    assert "Was gut aufzuheben ist" in page
    assert page.count("hreflang") == 1


def test_a_link_is_for_somebody(owner, demo_case):
    """Without a name there is none."""
    assert owner.post(f"/cases/{demo_case('no-papers')}/later", {"years": "20"}).status_code == 422
    assert people.passes("no-papers") == ()
