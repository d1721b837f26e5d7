"""The car with its sites: each state by shape and word, none lost, none over another."""

import re
import sys
from dataclasses import replace
from itertools import combinations, cycle
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from tests.published.books import CHEVROLET, FORD, JAGUAR, VOLKSWAGEN
from witnessmark.casefile import SiteState
from witnessmark.codebook import CarContext, find_book, open_book
from witnessmark.examination import SiteOutcome
from witnessmark.figures import SitePlace, car_sites, site_map
from witnessmark.figures.car_outline import (
    LENGTH,
    BodyShape,
    Frame,
    body_shape,
    outline_from_above,
    outline_from_the_left,
    shape_named,
)
from witnessmark.figures.place_markers import APART, RADIUS, Box, Pin, draw_marker, set_apart

sys.path.insert(0, str(Path(__file__).parent))
from drawn_texts import assert_clean, tree, written

TARVANE = open_book(find_book("tarvane-1952-1961")).book
MARRICK_1955 = CarContext(1955, "solent-sprint", frozenset({"tarvane", "marrick"}))


def with_sites(opinion, book, context, states=tuple(SiteState)):
    """The opinion with all sites of the book for this car, their states in turn."""
    ids = dict.fromkeys(mark.site for mark in book.marks_for(context) if mark.site)
    turn = cycle(states)
    outcomes = tuple(
        SiteOutcome(
            site=each.id,
            name=each.name,
            where=each.where,
            state=next(turn),
            reason="",
            marks=(),
            is_noted=True,
        )
        for each in (book.site(site, context) for site in ids)
        if each is not None
    )
    return replace(opinion, sites=outcomes, context=context)


def told(figure):
    return " ".join(each.text for each in written(figure))


def numbers(figure):
    return [each.text for each in written(figure) if each.anchor == "middle"]


def test_a_site_stands_in_both_views(opinion):
    figure = car_sites(with_sites(opinion, TARVANE, MARRICK_1955), TARVANE)
    assert_clean(figure)
    found = numbers(figure)
    rail = TARVANE.site("frame_rail", MARRICK_1955)
    assert None not in (rail.along, rail.across, rail.up)
    assert found.count("2") == 2


def test_a_site_whose_side_is_not_in_the_book_stands_in_the_side_view_only(opinion):
    examined = with_sites(opinion, TARVANE, MARRICK_1955)
    number = [site.site for site in examined.sites].index("bulkhead") + 1
    assert TARVANE.site("bulkhead", MARRICK_1955).across is None
    figure = car_sites(examined, TARVANE)
    assert numbers(figure).count(str(number)) == 1
    assert "are shown in the side view only" in told(figure)


def test_the_place_is_that_of_this_works(opinion):
    drawn = []
    for works, across in (("marrick", 18), ("ellery", 85)):
        context = CarContext(1955, "solent-sprint", frozenset({"tarvane", works}))
        assert TARVANE.site("inner_wing", context).across == across
        examined = with_sites(opinion, TARVANE, context)
        number = [site.site for site in examined.sites].index("inner_wing") + 1
        shown = written(car_sites(examined, TARVANE))
        drawn.append(next(each.y for each in shown if each.text == str(number)))
    assert drawn[0] > drawn[1] + 50


def test_where_the_book_tells_no_place_there_is_no_drawing(opinion):
    examined = with_sites(opinion, TARVANE, MARRICK_1955)
    unplaced = (replace(each, site="elsewhere") for each in examined.sites)
    assert car_sites(replace(examined, sites=tuple(unplaced)), TARVANE) is None


def test_each_state_has_its_words_and_a_shape_of_its_own(opinion):
    figure = car_sites(with_sites(opinion, TARVANE, MARRICK_1955), TARVANE)
    shown = told(figure)
    for words in (
        "read",
        "found and illegible",
        "absent: nothing there",
        "not accessible",
        "not looked for",
    ):
        assert words in shown
    shapes = {"".join(draw_marker(20, 20, state, "")) for state in (None, *SiteState)}
    assert len(shapes) == 6


def test_the_legend_has_only_the_shapes_that_occur(opinion):
    figure = car_sites(with_sites(opinion, TARVANE, MARRICK_1955, (SiteState.READ,)), TARVANE)
    assert "absent" not in told(figure)
    assert "not looked for" not in told(figure)


def test_the_caption_counts_the_states(opinion):
    states = (SiteState.READ, SiteState.READ, SiteState.ABSENT)
    examined = with_sites(opinion, TARVANE, MARRICK_1955, states)
    figure = car_sites(examined, TARVANE)
    absent = sum(site.state is SiteState.ABSENT for site in examined.sites)
    read = len(examined.sites) - absent
    assert figure.caption == (
        f"The {len(examined.sites)} places where such a car bears marks: {read} read, "
        f"0 found and illegible, {absent} absent, 0 not accessible, 0 not looked for."
    )


def test_no_sites_no_figure(opinion):
    assert car_sites(replace(opinion, sites=()), TARVANE) is None


@pytest.mark.parametrize(
    ("book_id", "context"),
    [
        (CHEVROLET, CarContext(1969, "camaro", frozenset({"norwood"}))),
        (CHEVROLET, CarContext(1967, "camaro")),
        (FORD, CarContext(1968, None, frozenset({"metuchen"}))),
        (FORD, CarContext(1966)),
        (VOLKSWAGEN, CarContext(1967, "beetle")),
        (VOLKSWAGEN, CarContext(1972, "kombi")),
        (JAGUAR, CarContext(1962, "e-type-38-open")),
        (JAGUAR, CarContext(1955, "xk140-open")),
        ("dated-parts", CarContext()),
        ("seventeen-characters", CarContext()),
    ],
)
def test_every_shipped_book_can_be_drawn(opinion, book_id, context):
    book = open_book(find_book(book_id)).book
    examined = with_sites(opinion, book, context)
    figure = car_sites(examined, book)
    places = [book.site(each.site, context) for each in examined.sites]
    shown = [at for at, each in enumerate(places, 1) if each.along is not None]
    assert (figure is not None) == bool(shown)
    if figure is not None:
        assert_clean(figure)
        assert set(numbers(figure)) == {str(at) for at in shown}
        assert float(tree(figure).get("viewBox").split()[3]) <= 400


def test_a_sheet_to_fill_in_has_open_squares_and_no_state():
    places = (
        SitePlace(1, 36, 30, 66, None),
        SitePlace(2, None, None, None, None),
    )
    figure = site_map(places, "Where to look", "Two places.")
    assert (figure.title, figure.caption) == ("Where to look", "Two places.")
    assert numbers(figure) == ["1", "1"]
    shown = told(figure)
    assert "not looked for" not in shown


PER_CENT = st.none() | st.integers(0, 100)
PLACES = st.lists(
    st.builds(
        SitePlace,
        st.just(0),
        PER_CENT,
        PER_CENT,
        PER_CENT,
        st.none() | st.sampled_from(SiteState),
    ),
    min_size=1,
    max_size=24,
).map(lambda found: tuple(replace(each, number=at) for at, each in enumerate(found, 1)))


@tried_on(60)
@given(PLACES)
def test_any_places_are_drawn_once_and_clean(places):
    figure = site_map(places, "Places", "Some places.")
    views = {each.number: each.is_above + each.is_beside for each in places}
    assert (figure is not None) == any(views.values())
    if figure is not None:
        assert_clean(figure)
        found = numbers(figure)
        assert all(found.count(str(number)) == count for number, count in views.items())


POINTS = st.lists(st.tuples(st.integers(95, 385), st.integers(25, 125)), max_size=24)


@given(POINTS)
def test_markers_are_pushed_apart_and_stay_near(points):
    area = Box(0, 0, 482, 150)
    pins = [Pin(at, SiteState.READ, x, y) for at, (x, y) in enumerate(points)]
    markers = set_apart(pins, area, ())
    assert [each.pin for each in markers] == pins
    for each in markers:
        assert area.holds(each.x, each.y, RADIUS)
    for one, other in combinations(markers, 2):
        assert max(abs(one.x - other.x), abs(one.y - other.y)) >= APART


def test_a_lone_marker_stands_at_its_place_and_crowded_ones_have_leaders():
    area = Box(0, 0, 482, 150)
    (alone,) = set_apart([Pin(1, None, 200, 70)], area, ())
    assert (alone.x, alone.y, alone.is_moved) == (200, 70, False)
    crowd = set_apart([Pin(at, None, 200 + at, 70) for at in range(4)], area, ())
    assert all(each.is_moved for each in crowd)


def test_a_marker_never_covers_words_that_are_kept_free():
    kept = Box(180, 60, 230, 80)
    (marker,) = set_apart([Pin(1, None, 200, 70)], Box(0, 0, 482, 150), (kept,))
    assert not kept.holds(marker.x, marker.y, -RADIUS)


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("convertible", BodyShape.OPEN),
        ("open two-seater", BodyShape.OPEN),
        ("XK120 drophead coupe", BodyShape.OPEN),
        ("E-type 3.8 fixed head coupe", BodyShape.CLOSED),
        ("panel van", BodyShape.COACH),
        ("fixed head or drophead body on a separate frame", None),
        ("Vanguard opened", None),
        ("", None),
    ],
)
def test_a_body_is_known_by_whole_words_and_only_where_they_name_one_kind(text, shape):
    assert shape_named(text) is shape


@pytest.mark.parametrize(
    ("book", "model", "body", "shape"),
    [
        (CHEVROLET, "camaro", "convertible", BodyShape.OPEN),
        (CHEVROLET, "camaro", "", BodyShape.CLOSED),
        (JAGUAR, "e-type-38-open", "", BodyShape.OPEN),
        (VOLKSWAGEN, "kombi", "", BodyShape.COACH),
        (TARVANE, "solent-drophead", "", BodyShape.OPEN),
        (TARVANE, None, "", BodyShape.CLOSED),
    ],
)
def test_the_outline_is_that_of_the_claimed_body_else_of_the_model_or_its_family(
    book, model, body, shape
):
    opened = TARVANE if book is TARVANE else open_book(find_book(book)).book
    assert body_shape(CarContext(model=model), opened, body) is shape


@pytest.mark.parametrize("shape", BodyShape)
def test_every_kind_of_body_is_drawn_within_its_frame_and_unlike_the_others(shape):
    for view in (outline_from_above, outline_from_the_left):
        drawn = "".join(view(Frame(0, 0, 100), shape))
        places = [
            float(n) for d in re.findall(r' d="([^"]+)"', drawn) for n in re.findall(r"-?[\d.]+", d)
        ]
        assert all(-1 <= x <= LENGTH + 1 for x in places[::2])
        assert all(-1 <= y <= 101 for y in places[1::2])
        others = ("".join(view(Frame(0, 0, 100), each)) for each in BodyShape if each is not shape)
        assert drawn not in others
