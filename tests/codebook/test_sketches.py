# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""The column that says which sketch an outcome has: all outcomes of a row, or none."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.bookmaking.new_book import EXAMPLE
from witnessmark.codebook import open_book, shipped_books, sketches
from witnessmark.problem import render_all

DOCS = Path(__file__).resolve().parents[2] / "docs"
HEADER = "id,site,prompt,outcomes,sketches,first_year,last_year,works,models,basis,source\n"


def drawn(tiny, sketches):
    """The tiny book with one feature and this cell of sketches."""
    row = f"dab,rail,Which dab?,white=factory; none=doubtful,{sketches},,,,,invented,demo\n"
    return tiny.table("features", HEADER + row)


def test_each_outcome_has_its_sketch(tiny):
    book = drawn(tiny, "none=no dab; white = three-cornered dab").book()
    outcomes = book.features[0].outcomes
    assert [(each.id, each.look, each.sketch) for each in outcomes] == [
        ("white", "factory", sketches()["three-cornered dab"]),
        ("none", "doubtful", sketches()["no dab"]),
    ]


def test_without_the_column_or_with_an_empty_cell_nothing_is_drawn(tiny):
    for book in (tiny.book(), drawn(tiny, "").book()):
        assert {each.sketch for each in book.features[0].outcomes} == {None}


def test_a_sketch_that_there_is_not_is_named_with_the_nearest(tiny):
    told = """\
tables/features.csv:2:56: there is no sketch 'rund dab'
    dab,rail,Which dab?,white=factory; none=doubtful,white=rund dab; none=no dab,,,,,invented,demo
                                                           ^^^^^^^^
expected 'round dab', which is the nearest"""
    assert drawn(tiny, "white=rund dab; none=no dab").told() == told


def test_a_sketch_unlike_any_points_at_the_list(tiny):
    told = drawn(tiny, "white=~; none=no dab").told()
    assert "there is no sketch '~'" in told
    assert told.endswith("expected a name of the list in docs/codebook.md")


def test_an_outcome_that_the_row_does_not_have_is_named(tiny):
    told = """\
tables/features.csv:2:50: 'whit' is not an outcome of this row
    dab,rail,Which dab?,white=factory; none=doubtful,whit=round dab; none=no dab,,,,,invented,demo
                                                     ^^^^
expected 'white', which is the nearest"""
    faults = drawn(tiny, "whit=round dab; none=no dab").told()
    assert faults.startswith(told)
    assert "no sketch for 'white'" in faults


def test_an_outcome_is_drawn_once(tiny):
    """The second is shown, though it is written as the first."""
    told = """\
tables/features.csv:2:80: the outcome 'none' is here a second time
    dab,rail,Which dab?,white=factory; none=doubtful,white=round dab; none=no dab; none=no dab,,,,,invented,demo
                                                                                   ^^^^^^^^^^^
expected each outcome once"""
    assert drawn(tiny, "white=round dab; none=no dab; none=no dab").told() == told


def test_a_part_needs_both_its_sides(tiny):
    told = """\
tables/features.csv:2:67: 'none' is not an outcome with its sketch
    dab,rail,Which dab?,white=factory; none=doubtful,white=round dab; none,,,,,invented,demo
                                                                      ^^^^
expected such as 'screws=screws; glue=glue'"""
    assert drawn(tiny, "white=round dab; none").told() == told


def test_one_outcome_drawn_alone_would_lead_the_eye(tiny):
    told = """\
tables/features.csv:2:50: no sketch for 'none'
    dab,rail,Which dab?,white=factory; none=doubtful,white=round dab,,,,,invented,demo
                                                     ^^^^^^^^^^^^^^^
expected a sketch for each outcome of the row, or an empty cell"""
    assert drawn(tiny, "white=round dab").told() == told


@tried_on(300)
@given(
    st.lists(
        st.sampled_from(
            ["white", "none", "=", ";", " ", "round dab", "no dab", "x", "\t", "é", "'"]
        ),
        max_size=12,
    ).map("".join)
    | st.text(st.characters(exclude_characters=',"\r\n'), max_size=60)
)
def test_any_cell_gives_a_book_or_problems_with_their_places(tiny, cell):
    """All outcomes are drawn or none, or the book has a problem that stands in its line."""
    parsed = drawn(tiny, cell).parsed()
    told = render_all(parsed.problems)
    assert told.encode("utf-8", "strict").decode("utf-8") == told
    assert bool(told) == bool(parsed.problems)
    assert all(each.source.name == "tables/features.csv" for each in parsed.problems)
    if not parsed.problems:
        assert parsed.book is not None
        assert len({each.sketch is None for each in parsed.book.features[0].outcomes}) == 1


def test_the_list_of_the_page_is_the_vocabulary():
    """docs/codebook.md lists each name once, in the order of the vocabulary."""
    page = (DOCS / "codebook.md").read_text("utf-8").split("**Sketches.**", 1)[1]
    table = page.split("\n\n| drawn |", 1)[1].split("\n\n", 1)[0]
    assert tuple(re.findall(r"`([^`]+)`", table)) == tuple(sketches())


@pytest.mark.parametrize("folder", [EXAMPLE, *shipped_books()], ids=lambda folder: folder.name)
def test_a_feature_of_one_name_is_drawn_by_all_its_rows_or_by_none(folder):
    """So that no outcome is left without a sketch where the year of a car is open."""
    book = open_book(folder).book
    assert book is not None
    ways = {}
    for feature in book.features:
        drawn_or_not = {each.sketch is not None for each in feature.outcomes}
        ways.setdefault((feature.site, feature.id), set()).update(drawn_or_not)
    assert {name: way for name, way in ways.items() if len(way) > 1} == {}


def test_every_sketch_is_used_by_a_shipped_book():
    """What no book draws would be drawn for nobody."""
    used = {
        each.sketch
        for folder in (EXAMPLE, *shipped_books())
        if (book := open_book(folder).book)
        for feature in book.features
        for each in feature.outcomes
    }
    assert used - {None} == set(sketches().values())


def test_more_outcomes_than_a_sheet_has_room_for_are_a_problem(tiny):
    many = "; ".join(f"kind {n}=doubtful" for n in range(13))
    row = f"dab,rail,Which dab?,{many},,,,,,invented,demo\n"
    assert "a feature has 13 outcomes" in tiny.table("features", HEADER + row).told()


def test_an_outcome_that_does_not_fit_beside_its_box_is_a_problem(tiny):
    row = f"dab,rail,Which dab?,{'word ' * 17}end=factory; none=doubtful,,,,,,invented,demo\n"
    told = tiny.table("features", HEADER + row).told()
    assert "has 88 letters" in told
    assert told.endswith("expected at most 80")
