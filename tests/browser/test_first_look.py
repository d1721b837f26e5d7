"""A first look: two marks set beside each other by somebody without an account."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE

pytestmark = pytest.mark.browser

LOOK = "/look?book=tarvane-1952-1961"


@pytest.fixture
def stranger(workshop, watched, owner_state):
    """A page of somebody without an account, whom the owner lets have a first look."""
    owner = watched.page(storage_state=owner_state)
    _let(owner, workshop("/people"), "allowed")
    yield watched.page(viewport=PHONE, has_touch=True)
    _let(owner, workshop("/people"), "not allowed")


def _let(page: Page, address: str, answer: str) -> None:
    page.goto(address)
    page.get_by_label(answer, exact=True).check()
    page.get_by_role("button", name="Keep this").click()
    page.wait_for_load_state()


@pytest.mark.parametrize(
    ("frame", "word"), [("2 582063", "fits"), ("2 582068", "misfit")], ids=["agree", "differ"]
)
def test_two_marks_of_one_car_or_not(workshop, stranger, owner_state, watched, frame, word):
    """The answer stands above all else, and nothing of it is kept anywhere."""
    held = _held(workshop)
    stranger.goto(workshop(LOOK))
    _type(stranger, 1, "aluminium car plate", "582063|20|58|E|14029|C|15|L3|HW")
    _type(stranger, 2, "frame stamping", frame)
    stranger.get_by_role("button", name="Compare").click()
    answer = stranger.locator("section.looked")
    expect(answer.locator("div").first).to_have_class(word)
    assert "582063" not in stranger.url
    assert _held(workshop) == held
    assert stranger.context.cookies() == [] or all(
        each["name"] == "csrftoken" for each in stranger.context.cookies()
    )


def test_nobody_looks_where_the_owner_lets_nobody(workshop, watched):
    page = watched.page()
    page.goto(workshop(LOOK))
    assert page.title() == "Sign in"


def _type(page: Page, number: int, mark: str, text: str) -> None:
    page.locator(f"#mark-{number}").select_option(value=mark)
    page.locator(f"#text-{number}").fill(text)


def _held(workshop) -> set[tuple[str, int]]:
    """The files of the workshop but for the journal of its database, with their sizes."""
    files = (each for each in workshop.home.rglob("*") if each.is_file())
    return {(each.name, each.stat().st_size) for each in files if "sqlite" not in each.name}
