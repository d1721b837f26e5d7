"""The door in a real browser."""

import pytest

pytestmark = pytest.mark.browser


def test_the_owner_comes_to_the_board(workshop, page):
    """At the width of a desk and of a phone, without a fault of the page."""
    page.goto(workshop("/"))
    assert page.title() == "Board"
    page.get_by_role("button", name="Leave").click()
    assert page.title() == "Sign in"
