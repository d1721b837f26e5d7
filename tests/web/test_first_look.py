"""A first look: two or three marks, for anybody whom the owner lets, and nothing is kept."""

import pytest
from django.test import Client

from witnessmark.store import people

TARVANE = "tarvane-1952-1961"


@pytest.fixture
def anybody(home) -> Client:
    """Somebody without an account, in a workshop whose owner lets anybody have a first look."""
    people.put_setting(people.FIRST_LOOK, True)
    return Client()


def look(browser: Client, book: str, *marks: tuple[str, str], **more: str):
    """Send these marks for a comparison."""
    names, texts = [each[0] for each in marks], [each[1] for each in marks]
    form = {"book": book, "mark": names, "text": texts, "compare": "yes", **more}
    return browser.post("/look", form)


def test_marks_that_agree_and_marks_that_do_not_are_told_apart(anybody):
    found = look(anybody, TARVANE, ("frame stamping", "4 700143"), ("brass chassis plate", "SP | 700143"))
    assert "Consistent with one car" in found.content.decode()
