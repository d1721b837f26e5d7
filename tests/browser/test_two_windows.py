"""Two windows write into one case at once: what is apart is put together, what is not is shown."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK
from tests.browser.desk import read, reading_form, saved

pytestmark = pytest.mark.browser

PLACE = "/cases/{case}/evidence/{site}"


@pytest.fixture
def windows(watched, owner_state) -> tuple[Page, Page]:
    """Two windows of one person."""
    one, other = (watched.page(storage_state=owner_state, viewport=DESK) for _ in range(2))
    return one, other


def test_what_is_apart_is_put_together(workshop, windows, new_case):
    """Both pages were opened before either was saved, and each still shows the other's places."""
    one, other = windows
    case = new_case("no-papers")
    for each, site in ((one, "engine_deck"), (other, "gearbox_case")):
        each.goto(workshop(PLACE.format(case=case, site=site)))
    _note(one, "seen from above")
    _note(other, "seen from below")
    for site, note in (("engine_deck", "seen from above"), ("gearbox_case", "seen from below")):
        one.goto(workshop(PLACE.format(case=case, site=site)))
        expect(one.locator('form.state [name="reason"]').first).to_have_value(note)


def test_what_is_not_apart_is_shown_and_kept(workshop, windows, new_case):
    """One mark, two readings typed over each other: both are there until one is chosen."""
    one, other = windows
    case = new_case("no-papers")
    for each in windows:
        each.goto(workshop(PLACE.format(case=case, site="engine_deck")))
        reading_form(each, "engine_number").locator('[name="text"]').click()
    read(one, "engine_number", "S 11111")
    read(other, "engine_number", "S 22222")
    other.get_by_role("link", name="both are kept").click()
    kept = other.locator("section.two-texts").filter(has_text="S 11111")
    expect(kept).to_contain_text("S 22222")
    kept.get_by_role("button", name="Put this there").click()
    expect(kept).to_have_count(0)
    other.goto(workshop(PLACE.format(case=case, site="engine_deck")))
    expect(reading_form(other, "engine_number").locator('[name="text"]')).to_have_value("S 22222")


def _note(page: Page, text: str) -> None:
    page.locator('form.state [name="reason"]').first.fill(text)
    saved(page)
