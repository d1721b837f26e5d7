"""What somebody of ill will would try first."""

import errno
import tempfile

import pytest
from django.test import Client

from witnessmark import store
from witnessmark.store import people
from witnessmark.web.shared.saving import now
from witnessmark.web.sign_in.attempts import Attempts

POLICY = "default-src 'none'; script-src 'self'; style-src 'self';"


def test_a_page_says_what_a_browser_may_do_and_is_kept_by_none(owner):
    """The policy allows no script or style but our files; what is about a car is not cached."""
    found = owner.get("/")
    assert found.headers["Content-Security-Policy"].startswith(POLICY)
    assert "unsafe" not in found.headers["Content-Security-Policy"]
    assert found.headers["Cache-Control"] == "no-store"
    assert found.headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example"])
def test_another_name_than_ours_is_not_answered(owner, host):
    """A page elsewhere cannot call the workshop by a name that leads here."""
    assert owner.get("/", headers={"host": host}).status_code == 400


def test_a_form_of_another_page_changes_nothing(signed_in, demo_case):
    """Without its token a form is refused, also one of somebody who is signed in."""
    browser = signed_in("owner")
    browser.handler.enforce_csrf_checks = True
    refused = browser.post("/people/settings", {"first_look": "yes"})
    assert refused.status_code == 403
    assert b"grown old" in refused.content
    assert not people.is_first_look_open()


def test_a_session_from_before_signing_in_is_worth_nothing_after_it(signed_in):
    """Whoever knew the cookie before does not know it afterwards."""
    signed_in("owner", "Ada")
    browser = Client()
    browser.get("/sign-in")
    session = browser.session
    session["planted"] = True
    session.save()
    before = session.session_key
    browser.cookies["sessionid"] = before
    browser.post("/sign-in", {"name": "Ada", "password": "a long password"})
    assert browser.cookies["sessionid"].value != before
    assert Client(headers={"cookie": f"sessionid={before}"}).get("/").status_code == 302


@pytest.mark.parametrize(
    "path",
    [
        "/static/../settings.py",
        "/static/%2e%2e/%2e%2e/settings.py",
        "/cases/..%2f..%2fetc/claim",
        "/cases/%00/claim",
        "/static/faces/../../../../store/models.py",
    ],
)
def test_no_address_leads_out_of_its_folder(owner, path):
    """Files of the program and of the machine are not served."""
    assert owner.get(path).status_code in (400, 404)


def test_a_cookie_is_hidden_from_scripts(signed_in):
    """And not sent along by other pages."""
    signed_in("owner", "Ada")
    browser = Client()
    browser.post("/sign-in", {"name": "Ada", "password": "a long password"})
    kept = browser.cookies["sessionid"]
    assert kept["httponly"]
    assert kept["samesite"] == "Lax"


def test_an_address_alone_changes_nothing(owner):
    """A link that somebody follows ends no pass and lets nobody in or out."""
    people.put_setting(people.FIRST_LOOK, True)
    assert owner.get("/people/settings").status_code == 405
    assert owner.get("/people/passes/1").status_code == 405
    assert people.is_first_look_open()


ENDLESS = "9" * 5000


@pytest.mark.parametrize(
    ("path", "form"),
    [
        ("claim/title", {"base": ENDLESS, "title": "Sprint"}),
        ("evidence/inner_wing/looks/surface", {"base": ENDLESS, "was": "{}"}),
        ("evidence/inner_wing/looks/surface", {"was": "[" * 100_000}),
        ("photographs", {"back": "nowhere"}),
    ],
)
def test_a_form_that_no_page_sends_is_no_mistake_of_the_program(owner, demo_case, path, form):
    """Endless figures, lists in lists without end, an address that is none."""
    assert owner.post(f"/cases/{demo_case()}/{path}", form).status_code < 500


def test_endless_figures_in_an_address_are_no_number(owner):
    """The page is there as if they were not."""
    asked = {"book": "tarvane-1952-1961", "model_year": ENDLESS}
    assert owner.get("/new/models", asked).status_code == 200


def test_whoever_signs_in_goes_nowhere_else(signed_in):
    """What is asked for next is an address of this workshop, or the board."""
    signed_in("owner", "Ada")
    for asked in ("nowhere", "//elsewhere.example/", "https://elsewhere.example/"):
        form = {"name": "Ada", "password": "a long password", "next": asked}
        assert Client().post("/sign-in", form).headers["Location"] == "/"


def test_however_often_somebody_guessed_there_is_an_end_of_waiting():
    """After days of guesses the door is still a door."""
    attempts = Attempts()
    for _ in range(2000):
        attempts.note("Ada", "192.0.2.7")
    assert 0 < attempts.seconds_to_wait("Ada", "192.0.2.7") <= 300


def test_a_disk_that_takes_nothing_more_is_told_as_that(owner, demo_case, monkeypatch):
    """And not as a mistake of the program; what the system says stands there."""

    def full(*_given: object, **_more: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    case = demo_case()
    monkeypatch.setattr(store, "revise", full)
    owner.raise_request_exception = False
    refused = owner.post(f"/cases/{case}/claim/title", {"title": "Sprint"})
    assert refused.status_code == 507
    assert b"No space left on device" in refused.content


def test_a_revision_that_is_no_case_is_told_as_that(owner, demo_case):
    """One that somebody wrote by hand stays in the history, which can be looked at."""
    case = demo_case()
    whole = store.head(case).text
    at = {"who": "Ada", "did": "by hand", "at": now()}
    store.revise(case, 1, f'{{"id": "{case}", "readings": 5}}', **at)
    store.revise(case, 2, whole, **at)
    assert owner.get(f"/cases/{case}/history").status_code == 200
    found = owner.get(f"/cases/{case}/history/compared", {"one": 2, "other": 3})
    assert found.status_code == 422
    assert b"cannot be read as a case" in found.content
    typed = {"was": '{"outcome": "never"}', "base": "3", "outcome": "", "by": "Ada"}
    assert owner.post(f"/cases/{case}/evidence/inner_wing/looks/surface", typed).status_code < 500


def test_a_host_that_is_none_is_no_trace_on_the_terminal(home, capfd):
    """Any machine of the network can send one."""
    answer = Client(SERVER_NAME="elsewhere.example").get("/sign-in")
    assert answer.status_code == 400
    assert capfd.readouterr().err == ""


def test_a_case_that_cannot_be_handed_out_leaves_no_folder(owner, demo_case, monkeypatch, tmp_path):
    """Nor does a download that nobody reads."""
    case = demo_case("clean")
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    owner.get(f"/cases/{case}/folder.zip").close()
    assert list(tmp_path.iterdir()) == []

    def refused(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store, "folder_out", refused)
    monkeypatch.setattr(owner, "raise_request_exception", False)
    assert owner.get(f"/cases/{case}/folder.zip").status_code == 507
    assert list(tmp_path.iterdir()) == []
