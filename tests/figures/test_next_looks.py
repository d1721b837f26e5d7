"""The next looks: more bits are higher, more minutes are farther right, each number named."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.figures.laid_out import SVG, assert_well_laid_out, flowing, lines_of, root_of
from tests.worked.opened import CARS, opinion_of
from witnessmark.figures import next_looks
from witnessmark.figures.drawing import width_of
from witnessmark.figures.look_rows import look_rows
from witnessmark.figures.number_places import number_places
from witnessmark.weighing.records import NextLook

FRAME = (52.0, 50.0, 466.0, 200.0)


def look(target, bits, minutes, *, access=0, reachable=True):
    """A look with this name, worth and cost."""
    return NextLook(
        target, "look", f"Look at {target}", bits, minutes, "lift", access, "none", reachable, ()
    )


def with_looks(opinion, looks, beyond=()):
    """The opinion with these looks for its first question, and none for the others."""
    conclusions = [
        replace(
            each,
            next_looks=tuple(looks) if not at else (),
            settled_by=tuple(beyond) if not at else (),
        )
        for at, each in enumerate(opinion.weighing.conclusions)
    ]
    return replace(opinion, weighing=replace(opinion.weighing, conclusions=tuple(conclusions)))


def drawn(opinion):
    figure = next_looks(opinion)
    assert figure is not None
    return figure


def dots(figure):
    """(label, x, y) of every dot."""
    return [
        (
            "".join(each.findtext(f"{SVG}text") or ""),
            float(disc.get("cx", "")),
            float(disc.get("cy", "")),
        )
        for each in root_of(figure).iter(f"{SVG}g")
        if (disc := each.find(f"{SVG}circle")) is not None
    ]


@pytest.mark.parametrize("car", CARS)
def test_the_figure_of_a_demonstration_car_is_well_laid_out_or_not_needed(car):
    opinion = opinion_of(car)
    figure = next_looks(opinion)
    anything = any(c.next_looks or c.settled_by for c in opinion.weighing.conclusions)
    assert (figure is not None) == anything
    if figure is not None:
        assert_well_laid_out(figure)
        assert float(root_of(figure).get("viewBox", "").split()[3]) <= 660


def test_more_bits_are_higher_and_more_minutes_farther_right(opinion):
    looks = [look("a", 0.4, 10), look("b", 0.2, 40), look("c", 0.1, 20, access=40)]
    figure = drawn(with_looks(opinion, looks))
    (one, ax, ay), (two, bx, by), (three, cx, cy) = dots(figure)
    assert (one, two, three) == ("1", "2", "3")
    assert ax < bx < cx
    assert ay < by < cy


def test_numbers_go_by_bits_a_minute_and_access_counts(opinion):
    looks = [look("slow", 0.3, 10, access=50), look("quick", 0.1, 5)]
    figure = drawn(with_looks(opinion, looks))
    read = flowing(figure)
    assert read.index("Look at quick.") < read.index("Look at slow.")
    assert "0.3 bits in 60 minutes, 50 of them for access. Identity: the frame" in read
    assert "dashed: most for its time, look 1" in read


def test_no_dot_lies_above_the_line_of_the_most_for_its_time(opinion):
    looks = [look("a", 0.4, 30), look("b", 0.3, 12), look("c", 0.05, 3)]
    figure = drawn(with_looks(opinion, looks))
    (dashed,) = (e for e in root_of(figure).iter(f"{SVG}line") if e.get("stroke-dasharray"))
    x1, y1, x2, y2 = (float(dashed.get(key, "")) for key in ("x1", "y1", "x2", "y2"))
    slope = (y2 - y1) / (x2 - x1)
    above = [y - (y1 + slope * (x - x1)) for _, x, y in dots(figure)]
    assert min(above) == pytest.approx(0, abs=0.05)
    assert all(each > -0.05 for each in above)


def test_a_look_of_several_questions_stands_once_with_the_one_it_tells_most_about():
    within, beyond, _ = look_rows(opinion_of("no-papers"))
    rails = [row for row in within if "frame rail" in row.prompt]
    assert [(row.question, row.bits) for row in rails] == [
        ("Identity: the frame", pytest.approx(0.0281, abs=0.0005))
    ]
    assert len({row.prompt for row in (*within, *beyond)}) == len(within) + len(beyond)


def test_looks_out_of_reach_are_listed_and_not_drawn(opinion):
    figure = drawn(
        with_looks(opinion, [look("near", 0.2, 5)], [look("far", 0.9, 90, reachable=False)])
    )
    lines = lines_of(figure)
    assert len(dots(figure)) == 1
    assert lines.index("Out of reach on this car, so not drawn") < lines.index("Look at far.")


def test_looks_that_tell_next_to_nothing_are_named_and_not_drawn(opinion):
    figure = drawn(with_looks(opinion, [look("idle", 0.0, 5)]))
    assert dots(figure) == []
    assert "1 look within reach would tell next to nothing: Look at idle." in flowing(figure)


def test_without_looks_there_is_no_figure(opinion):
    assert next_looks(with_looks(opinion, ())) is None


def test_bits_and_minutes_are_explained(opinion):
    read = flowing(drawn(with_looks(opinion, [look("a", 0.2, 5)])))
    assert "One bit is what the answer to an even yes-or-no question tells" in read
    assert "bits it would tell" in read
    assert "minutes, access included" in read


@given(
    looks=st.lists(
        st.tuples(st.floats(0, 1), st.integers(0, 600), st.integers(0, 90), st.booleans()),
        min_size=1,
        max_size=25,
    )
)
def test_whatever_the_looks_numbers_and_words_stay_apart_and_inside(looks):
    made = [
        look(f"place x{at}x", bits, minutes, access=access, reachable=near)
        for at, (bits, minutes, access, near) in enumerate(looks)
    ]
    figure = drawn(with_looks(opinion_of("clean"), made))
    assert_well_laid_out(figure)
    labels = [int(n) for label, _, _ in dots(figure) for n in label.split(", ")]
    assert sorted(labels) == list(range(1, len(labels) + 1))
    listed = [line for line in lines_of(figure) if line.startswith("Look at place")]
    assert len(listed) == len(set(listed))


@given(points=st.lists(st.tuples(st.floats(60, 460), st.floats(60, 198)), min_size=1, max_size=10))
def test_every_number_has_a_place_and_the_nearest_dot_is_its_own_or_it_is_joined_to_it(points):
    places = number_places(points, FRAME)
    numbers = [int(n) for place in places for n in place.label.split(", ")]
    assert sorted(numbers) == list(range(1, len(points) + 1))
    for place in places:
        x = place.label_x + width_of(place.label, 10, 0.6) / 2
        near = min(places, key=lambda dot: (dot.x - x) ** 2 + (dot.y - place.label_y + 3) ** 2)
        assert place.is_apart or near is place
