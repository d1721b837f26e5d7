"""Nothing that was typed is lost: not when the workshop dies, the session ends or the page goes."""

import signal

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, NAME, PASSWORD, Watched, begun, brought, opened
from tests.browser.desk import choose, reading_form, saved

pytestmark = pytest.mark.browser

PLACE = "/cases/{case}/evidence/engine_deck"
TYPED = "S 0[38]412"
SESSION = "sessionid"


@pytest.fixture
def page(watched: Watched, owner_state) -> Page:
    """The owner's page at a desk."""
    return watched.page(storage_state=owner_state, viewport=DESK)


def _field(page: Page):
    form = reading_form(page, "engine_number")
    choose(form, "legibility", "worn")
    return form.locator('[name="text"]')


def test_the_workshop_is_killed_while_somebody_types(browser, tmp_path):
    """It is opened again in the same folder at the same port: what was typed arrives by itself."""
    killed = opened(tmp_path)
    port = int(killed.address.rpartition(":")[2])
    context = browser.new_context(viewport=DESK)
    page = context.new_page()
    begun(page, killed)
    case = brought(page, killed, "no-papers", "dropped")
    page.goto(killed(PLACE.format(case=case)))
    field = _field(page)
    field.press_sequentially(TYPED[:4], delay=20)
    killed.process.send_signal(signal.SIGKILL)
    killed.process.wait(20)
    field.press_sequentially(TYPED[4:], delay=20)
    expect(page.locator("#saved")).to_have_attribute("data-state", "unsent")
    again = opened(tmp_path, port)
    try:
        saved(page)
        page.reload()
        expect(_field(page)).to_have_value(field.input_value())
        assert field.input_value().endswith(TYPED)
    finally:
        context.close()
        again.process.terminate()
        again.process.wait(20)


def test_the_session_ends_while_somebody_types(workshop, page, new_case):
    """After signing in again they are where they were, and what they typed is sent."""
    case = new_case("no-papers")
    page.goto(workshop(PLACE.format(case=case)))
    field = _field(page)
    field.click()
    page.wait_for_load_state("networkidle")  # what the page asks behind itself has come
    page.context.clear_cookies(name=SESSION)
    field.fill(TYPED)
    page.get_by_label("Name").fill(NAME)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda address: "sign-in" not in address)
    page.goto(workshop(PLACE.format(case=case)))
    expect(_field(page)).to_have_value(TYPED)
    saved(page)


def test_the_page_is_loaded_again_before_the_answer(workshop, page, new_case):
    """What was under way is filled in again, and saved."""
    case = new_case("no-papers")
    page.goto(workshop(PLACE.format(case=case)))
    _field(page).fill(TYPED)
    page.reload()
    expect(_field(page)).to_have_value(TYPED)
    page.goto(workshop(f"/cases/{case}/history"))
    expect(page.locator("table.revisions")).to_contain_text(TYPED)


def test_what_is_refused_is_named_with_its_page_its_field_and_the_reason(workshop, page, new_case):
    """Marked where it was typed, whatever holds it opened; on another page told with the way
    back, and no page says meanwhile that all is saved."""
    case = new_case("no-papers")
    page.goto(workshop(f"/cases/{case}/claim"))
    field, line = page.locator('[name="minutes_available"]'), page.locator("#saved")
    folded = page.locator("details", has=field)
    if folded.count():
        folded.locator("> summary").click()
    field.fill("many")
    if folded.count():
        folded.locator("> summary").click()
    expect(line).to_have_attribute("data-state", "refused")
    expect(line).to_contain_text("Minutes there are: ")
    expect(line).to_contain_text("a whole number")
    expect(field).to_be_visible()
    expect(field).to_have_attribute("aria-invalid", "true")
    page.goto(workshop(f"/cases/{case}/plan"))
    expect(line).to_have_attribute("data-state", "unsent")
    told = page.locator(".left-behind")
    expect(told).to_contain_text("Claim: ")
    expect(told).to_contain_text("Minutes there are")
    expect(told).to_contain_text("a whole number")
    told.get_by_role("link").click()
    expect(field).to_have_value("many")
    expect(field).to_be_focused()
    field.fill("90")
    saved(page)
