"""A first look: two or three marks, for anybody whom the owner lets, and nothing is kept."""

import logging
from threading import BoundedSemaphore

import pytest
from django.test import Client

from witnessmark.store import people
from witnessmark.web.first_look import view

TARVANE = "tarvane-1952-1961"
FRAME, PLATE = "frame stamping", "brass chassis plate"
SEVENTEEN = "seventeen-character number of a car or light vehicle"
CARS = {
    "chevrolet-1964-1972": (
        ("number plate", "124379N506070"),
        ("partial number on the engine pad", "19N506070"),
        "19N506071",
    ),
    "ford-1964-1973": (
        ("number on the left inner-fender apron", "8R01J123456"),
        ("car's number on the engine", "8R123456"),
        "8R123465",
    ),
    "jaguar-1948-1974": (
        ("number on the frame", "S812345DN"),
        ("data plate", "S812345DN"),
        "S812346DN | G1234-8S",
    ),
    "volkswagen-1950-1979": (
        ("number on the floor pan", "117 345 678"),
        ("type plate", "117 345 678"),
        "117 354 678",
    ),
    TARVANE: ((FRAME, "4 700143"), (PLATE, "SP | 700143"), "SP | 700149"),
    "seventeen-characters": (
        (SEVENTEEN, "1M8GDM9AXKP042788"),
        ("title", "1M8GDM9AXKP042788"),
        "1M8GDM9AXKP042789",
    ),
}
"""An invented car of each shipped book: two marks, and what the second might say on another."""


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


@pytest.mark.parametrize("book", CARS)
def test_what_belongs_together_and_what_does_not_are_told_apart_by_every_book(anybody, book):
    one, other, otherwise = CARS[book]
    alike = look(anybody, book, one, other).content.decode()
    assert "Consistent with one car" in alike
    assert "When to call somebody" in alike
    differing = look(anybody, book, one, (other[0], otherwise)).content.decode()
    assert "Not consistent with one car left as it was built" in differing


def test_a_doubt_stays_open_and_is_not_taken_for_a_difference(anybody):
    page = look(anybody, TARVANE, (FRAME, "4 7001?3"), (PLATE, "SP | 70014[38]")).content.decode()
    assert "left open: chassis number" in page
    assert "Not consistent" not in page


def test_nothing_is_kept_of_what_was_typed(anybody, home, caplog):
    """No session, no file, no line in a log, nothing in the address or a browser's memory."""
    before = {each.name for each in home.rglob("*")}
    with caplog.at_level(logging.DEBUG):
        found = look(anybody, TARVANE, (FRAME, "4 700143"), (PLATE, "SP | 700149"))
    assert found["Cache-Control"] == "no-store"
    assert "sessionid" not in anybody.cookies
    assert {each.name for each in home.rglob("*")} == before
    assert not [each for each in caplog.records if "700143" in each.getMessage()]
    assert 'method="post"' in found.content.decode()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("4 70[0143", "This [ is never closed. Expected: two or more characters such as [38]"),
        ("7" * 10_000, "This is 10000 characters long"),
        ("4 7001\u00003", "cannot be on a mark"),
    ],
)
def test_what_cannot_be_read_is_told_beside_its_field_and_kept_there(anybody, text, told):
    found = look(anybody, TARVANE, (FRAME, text), (PLATE, "SP | 700143"))
    assert found.status_code == 422
    page = found.content.decode()
    assert told in page.replace("&#x27;", "'")
    assert page.count('aria-invalid="true"') == 1
    assert "SP | 700143</textarea>" in page


def test_the_place_of_what_is_wrong_has_a_sign_under_it(anybody):
    page = look(anybody, TARVANE, (FRAME, "4 70[0143"), (PLATE, "SP")).content.decode()
    assert '4 70[0143<span aria-hidden="true">\n    ^</span>' in page


def test_what_is_no_mark_at_all_is_shown_as_typed_and_harms_nothing(anybody):
    typed = "<script>alert(1)</script>"
    page = look(anybody, TARVANE, (FRAME, typed), (PLATE, "}{%% '\"")).content.decode()
    assert typed not in page
    assert "&lt;script&gt;" in page


@pytest.mark.parametrize(
    ("marks", "more", "told"),
    [
        (((FRAME, "4 700143"),), {}, "Two marks are needed"),
        (((FRAME, "4 700143"), ("", "SP")), {}, "It is not said on which mark this stands"),
        (((FRAME, "4 700143"), ("hood ornament", "SP")), {}, "is not a mark"),
        (((FRAME, "4 700143"), (PLATE, "SP")), {"year": "1890"}, "a year from 1952 to 1961"),
        (((FRAME, "4 700143"), (PLATE, "SP")), {"model": "zeppelin"}, "is not a model"),
    ],
)
def test_a_form_that_says_too_little_or_something_else_says_what_was_expected(
    anybody, marks, more, told
):
    found = look(anybody, TARVANE, *marks, **more)
    assert found.status_code == 422
    assert told in found.content.decode()


def test_a_text_alone_is_guessed_and_taken_into_the_form_of_its_book(anybody):
    page = anybody.post("/look", {"text": "124379N506070"}).content.decode()
    assert "One answer stands out: Chevrolet, 1964 to 1972." in page
    form = {"book": "chevrolet-1964-1972", "mark": "number plate", "text": "124379N506070"}
    filled = anybody.post("/look", form).content.decode()
    assert '<option value="number plate" selected>' in filled
    assert "124379N506070</textarea>" in filled
    assert anybody.post("/look", {"text": "7" * 10_000}).status_code == 422


def test_who_has_no_account_waits_while_others_look(anybody, signed_in, monkeypatch):
    """And whoever has one does not."""
    monkeypatch.setattr(view, "_TURNS", BoundedSemaphore(1))
    monkeypatch.setattr(view, "SECONDS_WAITED", 0)
    form = {"text": "?"}
    assert anybody.post("/look", form).status_code == 200
    with view._TURNS:
        assert anybody.post("/look", form).status_code == 503
        assert signed_in("reader").post("/look", form).status_code == 200
    assert anybody.post("/look", form).status_code == 200


def test_without_an_account_it_is_open_only_where_the_owner_said_so(home, signed_in):
    signed_in("owner")
    assert Client().get("/look").headers["Location"].startswith("/sign-in")
    assert signed_in("reader").get("/look").status_code == 200


def test_where_something_looks_altered_the_page_says_calmly_what_to_do(anybody):
    page = anybody.get("/look/what-to-do").content.decode()
    for said in ("Accuse nobody", "The title or registration authority", "A licensed appraiser"):
        assert said in page
    assert "in most places it is an offence" in page.lower()
    assert "this report" not in page.lower()
