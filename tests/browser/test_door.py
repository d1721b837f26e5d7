"""The door in a real browser."""

import pytest

from tests.browser.conftest import NAME, PASSWORD

pytestmark = pytest.mark.browser


def test_somebody_signs_in_and_leaves(workshop, owner_state, watched):
    """To the board and out again, without a fault of the page."""
    page = watched.page()
    page.goto(workshop("/"))
    page.get_by_label("Name").fill(NAME)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    assert page.title() == "Board"
    page.get_by_role("button", name="Leave").click()
    assert page.title() == "Sign in"
