"""All by keyboard: from the board to a reading that is typed and saved."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK
from tests.browser.desk import saved

pytestmark = pytest.mark.browser

MOST_STEPS = 120
TYPED = "S 0[38]412"
AT = """() => {
  const at = document.activeElement;
  return [at.getAttribute("href") ?? "", at.closest("form")?.dataset.of ?? "", at.name ?? ""];
}"""
SHOWN = """() => getComputedStyle(document.activeElement).outlineStyle"""


def test_a_reading_without_a_pointer(workshop, owner_state, watched, new_case):
    """Tab and Enter alone lead there; where the focus is can be seen on the way."""
    case = new_case("no-papers")
    page = watched.page(storage_state=owner_state, viewport=DESK)
    page.goto(workshop("/"))
    _follow(page, f"/cases/{case}/claim")
    _follow(page, f"/cases/{case}/evidence")
    _follow(page, "/evidence/engine_deck")
    _tab(page, lambda at: at[1:] == ["engine_number", "text"])
    page.keyboard.press("Control+a")
    page.keyboard.type(TYPED)
    _tab(page, lambda at: at[1:] == ["engine_number", "legibility"])
    page.keyboard.press("Space")
    saved(page)
    page.reload()
    form = page.locator('form[data-of="engine_number"]').first
    expect(form.locator('[name="text"]')).to_have_value(TYPED)


def _follow(page: Page, address: str) -> None:
    """Tab to a link, and press Enter."""
    _tab(page, lambda at: at[0].endswith(address))
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{address}**")


def _tab(page: Page, is_there) -> None:
    for _ in range(MOST_STEPS):
        page.keyboard.press("Tab")
        assert page.evaluate(SHOWN) != "none", page.evaluate(AT)
        if is_there(page.evaluate(AT)):
            return
    raise AssertionError("it is not reached")
