"""Where the books speak of a text: the code itself first, then ranges, then words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.published.books import opened
from witnessmark.codebook import shipped_books
from witnessmark.codebook.search import Closeness, search_books

BOOKS = [opened(folder.name) for folder in shipped_books()]
ROWS = [(book, row) for book in BOOKS for row in book.codes]


@tried_on(300, 10)
@given(st.sampled_from(range(len(ROWS))))
def test_every_code_is_found_by_its_code_and_by_its_meaning(place):
    book, code = ROWS[place]
    by_code = search_books([book], code.code)
    assert (code.code, code.meaning) in {
        (hit.label, hit.text) for hit in by_code if hit.closeness is Closeness.ITSELF
    }
    assert code.meaning in {hit.text for hit in search_books([book], code.meaning)}


@tried_on(200, 10)
@given(st.text(max_size=30))
def test_any_text_can_be_sought_and_hits_come_the_closest_first(text):
    hits = search_books(BOOKS[:1], text)
    assert [hit.closeness for hit in hits] == sorted(hit.closeness for hit in hits)


@pytest.mark.parametrize(
    ("text", "table", "label"),
    [
        ("brass plate", "marks", "brass chassis plate"),
        ("month letter", "date_forms", "casting_day"),
        ("23117", "series", "22563 to 23297"),
    ],
)
def test_marks_forms_of_date_and_ranges_are_found(text, table, label):
    hits = search_books([opened("tarvane-1952-1961")], text)
    assert (table, label) in {(hit.table, hit.label) for hit in hits}


def test_a_hit_says_where_it_is_read_and_on_what_it_rests():
    hit = search_books(BOOKS, "fathom green")[0]
    assert hit.fields == ("lower paint", "upper paint")
    assert "body data plate, style of 1969" in hit.marks
    assert hit.citation is not None
    assert hit.citation.basis.value == "published"


@pytest.mark.parametrize(
    ("text", "label", "years", "basis"),
    [
        ("Hugger Orange", "72", (1969, 1969), "published"),
        ("Hugger Orange", "65", (1970, 1970), "published"),
        ("Canada Pacific", "A7", (1970, 1970), "published"),
        ("916", "916", (1964, 1964), "published"),
        ("CRT", "CRT", (1970, 1970), "memory"),
        ("CRT", "CRT", (1970, 1970), "published"),
    ],
)
def test_what_an_inspector_would_look_up_is_there(text, label, years, basis):
    """A name that two years have under two codes, a meaning, a number that is no casting, and
    a disputed code with both its sides."""
    found = {
        (hit.label, (hit.applies.first_year, hit.applies.last_year), hit.citation.basis.value)
        for hit in search_books(BOOKS, text)
        if hit.applies is not None and hit.citation is not None
    }
    assert (label, years, basis) in found


@pytest.mark.parametrize("text", ["", " ", "--", "()"])
def test_without_a_letter_or_figure_nothing_is_found(text):
    assert search_books(BOOKS, text) == ()
