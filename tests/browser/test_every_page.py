"""Every page there is: nothing serious for those who hear it or see it badly, nothing wider than
its window, targets that a thumb finds, and all of it without a script.

`PAGES` says what stands in the address of each page; a route with no line fails the first test.
"""

import io
import json
import zipfile
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import FilePayload, Page

from tests.browser.conftest import AXE, DESK, PHONE
from witnessmark.codebook import shipped_books
from witnessmark.web.routes import ROUTES

pytestmark = pytest.mark.browser

CASE, BOOK = "/cases/{case}", "/books/of/tarvane-1952-1961"
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
    "second": f"{CASE}/second",
    "second_in": "{second}",
    "second_place": "{second}/places/scuttle",
    "story": f"{CASE}/story",
    "weight": f"{CASE}/weight",
    "weight_trial": f"{CASE}/weight/trial?row=struck_in_service",
    "report": f"{CASE}/report",
    "document_pages": f"{CASE}/documents/report",
    "history": f"{CASE}/history",
    "compared": f"{CASE}/history/compared?one=1&other=1",
    "back_to": f"{CASE}/history/back?number=1",
    "beside": f"{CASE}/beside",
    "first_look": "/look?book=tarvane-1952-1961",
    "what_to_do": "/look/what-to-do",
    "books": "/books",
    "book_search": "/books/search?q=blue",
    "book_bring": "/books/bring",
    "book_aside": "/books/aside/unsound",
    "book": BOOK,
    "book_coverage": f"{BOOK}/coverage",
    "book_whole": f"{BOOK}/whole",
    "book_mark": f"{BOOK}/marks/plate_aluminium",
    "book_item": f"{BOOK}/items/paint",
    "book_table": f"{BOOK}/tables/lags",
    "book_propose": f"{BOOK}/propose/codes-paint",
    "book_import": "/books/of/own-1952-1961/import",
    "read_later": "{later}",
    "people": "/people",
    "phones": "/phones",
    "trust": "/trust",
}
"""The path of each page, with `{case}` for a case, `{second}` and `{later}` for links to it."""
NO_PAGES = {
    **dict.fromkeys(
        ("sign_out", "put_away", "reading", "looked", "photos", "second_done"), "a deed"
    ),
    **dict.fromkeys(("claim_book", "claim_items", "claim_new", "claim_entry"), "a deed"),
    **dict.fromkeys(("claim_part", "person", "end_pass", "workshop_settings"), "a deed"),
    **dict.fromkeys(("issue", "supplement", "make_later", "end_later"), "a deed"),
    **dict.fromkeys(("second_reading", "second_look"), "a deed"),
    **dict.fromkeys(
        ("board_worked_out", "models_offered", "place_worth", "reading_live", "evidence_follows"),
        "a part",
    ),
    **dict.fromkeys(("second_live", "weight_steady", "issues", "document_card"), "a part"),
    **dict.fromkeys(("photo_shown", "photo_crop", "second_photo", "document_page"), "a picture"),
    **dict.fromkeys(("photo_original", "cases_csv", "case_folder", "document"), "a file"),
    "issued_file": "a file",
    "authority": "a file",
    **dict.fromkeys(("phone_gone", "phone_jottings", "phone_picture"), "a deed"),
    **dict.fromkeys(("phone_hello", "phone_visit", "phone_end"), "a file"),
    **dict.fromkeys(("join", "phone"), "seen by a phone alone: tests/browser/test_at_the_car.py"),
    "first_owner": "seen by nobody once a workshop has an owner",
}
READY = {
    "weight": "#working:not([hx-get])",
    "report": "a.leaf img",
    "document_pages": ".leaves img",
    "read_later": "main h2",
}
"""What has to be there before a page is looked at, where a part of it comes later."""
DOOR = ("sign_in", "second_in", "second_place", "read_later")
"""Pages that are there without an account."""
LOOKED: dict[str, Any] = {
    "color_scheme": "light",
    "reduced_motion": "reduce",
    "has_touch": True,
}
"""Without motion, since a colour on its way to another is none that anybody reads."""
FIELDS = "input:not([type=hidden]), textarea, select"
SEEN = Path(__file__).parent / "seen.js"
UNSOUND: FilePayload = {
    "name": "book.toml",
    "mimeType": "text/plain",
    "buffer": b'format = "witnessmark-book"\nid = "unsound"\nfirst_year = "early"\n',
}


@pytest.fixture(scope="session")
def stands(workshop, owner_state, new_case, browser) -> dict[str, str]:
    """A car of which something does not fit, with two links to it; two books of one's own, of
    which one is not sound."""
    case = new_case("dressed")
    context = browser.new_context(storage_state=owner_state)
    page = context.new_page()
    page.goto(workshop(f"/cases/{case}/second"))
    page.get_by_label("Who reads a second time").fill("Jo Farr")
    page.get_by_role("button", name="Make a link").click()
    second = page.get_by_label("The link").input_value()
    page.goto(workshop(f"/cases/{case}/report"))
    page.get_by_label("For", exact=True).fill("the executor")
    page.get_by_role("button", name="Make the link").click()
    later = page.locator(".link-shown").inner_text()
    for book, path in ((UNSOUND, "/books/aside/unsound"), (_own(), "/books/of/own-1952-1961")):
        page.goto(workshop("/books/bring"))
        page.get_by_label("Zip, or files").set_input_files(files=[book])
        page.get_by_role("button", name="Check it").click()
        page.wait_for_url(lambda at, wanted=path: urlsplit(at).path == wanted)
    context.close()
    paths = {"second": second, "later": later}
    return {"case": case} | {name: urlsplit(each).path for name, each in paths.items()}


def _own() -> FilePayload:
    """The demonstration book under a name of one's own, as a zip."""
    stream, shipped = io.BytesIO(), "tarvane-1952-1961"
    folder = next(each for each in shipped_books() if each.name == shipped)
    with zipfile.ZipFile(stream, "w") as out:
        for each in folder.rglob("*.[tcm]*"):
            text = each.read_text("utf-8").replace(f'id = "{shipped}"', 'id = "own-1952-1961"')
            out.writestr(f"own-1952-1961/{each.relative_to(folder)}", text)
    return {"name": "own.zip", "mimeType": "application/zip", "buffer": stream.getvalue()}


def test_every_route_is_in_the_table():
    """A new page gets its line in `PAGES`, or in `NO_PAGES` with what it is instead."""
    assert {each.name for each in ROUTES} == PAGES.keys() | NO_PAGES.keys()


def _opened(page: Page, address: str) -> None:
    answer = page.goto(address)
    assert answer is not None
    assert answer.status == 200


@pytest.mark.parametrize("name", PAGES)
def test_page_is_read_by_everybody(name, workshop, owner_state, stands, watched):
    """Light at a desk, dark on a phone; at a desk also enlarged twice."""
    state = None if name in DOOR else owner_state
    page = watched.page(storage_state=state, viewport=DESK, **LOOKED)
    page.context.add_init_script(AXE)
    page.context.add_init_script(path=SEEN)
    _opened(page, workshop(PAGES[name].format(**stands)))
    if name in READY:
        page.locator(READY[name]).first.wait_for(state="attached", timeout=60_000)
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
    assert not found, json.dumps(found, indent=1, ensure_ascii=False)


@pytest.mark.parametrize("name", PAGES)
def test_page_stands_without_script(name, workshop, owner_state, stands, watched):
    """What it is about is there, and each form that is filled in has its button."""
    state = None if name in DOOR else owner_state
    page = watched.page(storage_state=state, viewport=PHONE, java_script_enabled=False)
    _opened(page, workshop(PAGES[name].format(**stands)))
    assert page.locator("main h1").first.inner_text()
    assert len(page.locator("main").inner_text()) > 40
    forms = page.locator("main form").filter(has=page.locator(FIELDS))
    unsent = forms.filter(has_not=page.locator("button:not([type=button])"))
    assert [each.get_attribute("action") for each in unsent.all()] == []
