"""What somebody of ill will would try first."""

import pytest
from django.test import Client

from witnessmark.store import people

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
