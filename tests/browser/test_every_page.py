"""Every page there is: nothing serious for those who hear it or see it badly, nothing wider than
its window, targets that a thumb finds, and all of it without a script.

`PAGES` says what stands in the address of each page; a route with no line fails the first test.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import AXE, DESK, PHONE
from witnessmark.web.routes import ROUTES

pytestmark = pytest.mark.browser

CASE = "/cases/{case}"
PAGES = {
    "sign_in": "/sign-in",
    "board": "/",
    "day": "/days/2026-08-20",
    "new_case": "/new?number=582063",
    "bring_in": "/bring-in",
    "triage": f"{CASE}/triage",
    "claim": f"{CASE}/claim",
    "profile": "/profile",
    "plan": f"{CASE}/plan",
    "expectations": f"{CASE}/plan/expectations",
    "picture_request": f"{CASE}/plan/picture-request",
    "questions": f"{CASE}/plan/questions",
    "letter": f"{CASE}/plan/letters/archive",
    "evidence": f"{CASE}/evidence",
    "title_paper": f"{CASE}/title-paper",
    "other_papers": f"{CASE}/papers",
    "paper": f"{CASE}/papers/despatch_ledger",
    "place": f"{CASE}/evidence/scuttle",
    "photo": f"{CASE}/photographs/plate",
    "story": f"{CASE}/story",
    "weight": f"{CASE}/weight",
    "weight_trial": f"{CASE}/weight/trial?row=struck_in_service",
    "second": f"{CASE}/second",
    "report": f"{CASE}/report",
    "history": f"{CASE}/history",
    "compared": f"{CASE}/history/compared?one=1&other=2",
    "back_to": f"{CASE}/history/back?number=1",
    "beside": f"{CASE}/beside",
    "first_look": "/look",
    "what_to_do": "/look/what-to-do",
    "people": "/people",
}
NO_PAGES = {
    "sign_out": "a deed",
    "first_owner": "seen only before anybody is there: test_whole_job.py",
    "board_worked_out": "a part of the board",
    "cases_csv": "a file",
    "put_away": "a deed",
    "models_offered": "a part of a new case",
    **dict.fromkeys(("claim_book", "claim_items", "claim_new", "claim_entry"), "a deed"),
    "claim_part": "a deed",
    "place_worth": "a part of a place",
    "reading": "a deed",
    "reading_live": "a part of a place",
    "looked": "a deed",
    "photos": "a deed",
    **dict.fromkeys(("photo_shown", "photo_crop", "photo_original"), "a picture"),
    "weight_steady": "a part of the weight",
    **dict.fromkeys(("person", "end_pass", "workshop_settings"), "a deed"),
}
READY = {"weight": "#working:not([hx-get])"}
"""What has to be there before a page is looked at, where a part of it comes later."""
SEEN = Path(__file__).parent / "seen.js"


@pytest.fixture(scope="session")
def case(new_case: Callable[[str], str]) -> str:
    """A car of which something does not fit, with photographs; nobody writes into it."""
    return new_case("dressed")


def test_every_route_is_in_the_table():
    """A new page gets its line in `PAGES`, or in `NO_PAGES` with what it is instead."""
    assert {each.name for each in ROUTES} == PAGES.keys() | NO_PAGES.keys()


def _opened(page: Page, address: str) -> None:
    answer = page.goto(address)
    assert answer is not None
    assert answer.status == 200


@pytest.mark.parametrize("name", PAGES)
def test_page_is_read_by_everybody(name, workshop, owner_state, case, watched):
    """Light at a desk, dark on a phone; at a desk also enlarged twice."""
    state = None if name == "sign_in" else owner_state
    page = watched.page(storage_state=state, viewport=DESK, color_scheme="light", has_touch=True)
    for each in (AXE, SEEN):
        page.context.add_init_script(path=each)
    _opened(page, workshop(PAGES[name].format(case=case)))
    if name in READY:
        page.locator(READY[name]).wait_for(state="attached", timeout=60_000)
    wider = {"wider than 1280": page.evaluate("seen.wider()")}
    grave = {"desk, light": page.evaluate("seen.grave()")}
    page.set_viewport_size({"width": DESK["width"] // 2, "height": DESK["height"] // 2})
    wider["wider when enlarged twice"] = page.evaluate("seen.wider()")
    page.set_viewport_size(PHONE)
    page.emulate_media(color_scheme="dark")
    wider["wider than 390"] = page.evaluate("seen.wider()")
    small = {"under 44 px": page.evaluate("seen.small()")}
    grave["phone, dark"] = page.evaluate("seen.grave()")
    found = {where: each for where, each in (grave | wider | small).items() if each}
    assert found == {}


@pytest.mark.parametrize("name", PAGES)
def test_page_stands_without_script(name, workshop, owner_state, case, watched):
    """What it is about is there, and each form has its button."""
    state = None if name == "sign_in" else owner_state
    page = watched.page(storage_state=state, viewport=PHONE, java_script_enabled=False)
    _opened(page, workshop(PAGES[name].format(case=case)))
    assert page.locator("main h1").first.inner_text()
    assert len(page.locator("main").inner_text()) > 60
    forms = page.locator("main form")
    unsent = forms.filter(has_not=page.locator("button:not([type=button])"))
    assert [each.get_attribute("action") for each in unsent.all()] == []
