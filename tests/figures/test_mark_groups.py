"""Which marks speak of one car: every mark once, in its box, with its most probable source."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.figures.laid_out import (
    SVG,
    assert_apart,
    assert_well_laid_out,
    flowing,
    lines_of,
    root_of,
)
from tests.worked.opened import CARS, opinion_of
from witnessmark.figures import mark_groups, mark_groups_sheets
from witnessmark.figures.drawing import FIRST, PAGE_HEIGHT
from witnessmark.weighing.records import MarkGroup, MarkState, StateShare
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital

CARS_MEANT = (
    "claimed car",
    "donor of the body",
    "a third car",
    "undecided",
    "made later",
    "never numbered",
)


def drawn(opinion):
    figure = mark_groups(opinion)
    assert figure is not None
    return figure


def grouped(opinion, groups, states):
    weighing = replace(opinion.weighing, groups=tuple(groups), mark_states=tuple(states))
    return replace(opinion, weighing=weighing)


def filled(figure):
    """The lengths of the filled bars, in order."""
    return [
        float(each.get("width", ""))
        for each in root_of(figure).iter(f"{SVG}rect")
        if each.get("fill") == FIRST
    ]


@pytest.mark.parametrize("car", CARS)
def test_every_mark_of_a_demonstration_car_stands_there_once(car):
    opinion = opinion_of(car)
    figure = drawn(opinion)
    assert_well_laid_out(figure)
    names = Names(opinion.names)
    lines = lines_of(figure)
    placed = {mark for group in opinion.weighing.groups for mark in group.marks}
    for mark in placed:
        assert lines.count(capital(names.mark(mark))) == 1
    aside = flowing(figure).lower().split("read, and not placed")[-1]
    apart = {d.mark for d in opinion.decodings} - placed
    apart |= {m for s in opinion.sites for m in s.marks if m not in placed}
    for mark in apart:
        assert names.mark(mark).lower() in aside


def test_what_is_most_probable_is_said_with_its_share_and_what_comes_next():
    lines = lines_of(drawn(opinion_of("altered")))
    at = lines.index("Brass chassis plate")
    assert lines[at + 1] == "80.8 %"
    read = " ".join(lines[at + 2 : at + 4])
    assert read.startswith("struck or made later; next most probable: made at the factory for the")
    assert "Speaking of another car, from which the body came" in lines
    assert "Most consistent with having been struck or made later" in lines


def test_a_box_holds_its_own_marks(opinion):
    """Title and marks of a group lie inside its rectangle, and the boxes lie below each other."""
    figure = drawn(opinion)
    root = root_of(figure)
    edges = []
    for each in root.iter(f"{SVG}g"):
        edge = each.find(f"{SVG}rect")
        assert edge is not None
        top = float(edge.get("y", ""))
        bottom = top + float(edge.get("height", ""))
        edges.append((top, bottom))
        for text in each.iter(f"{SVG}text"):
            assert top < float(text.get("y", "")) < bottom
    assert len(edges) == len(opinion.weighing.groups)
    assert all(one[1] < two[0] for one, two in pairwise(edges))


def test_a_larger_share_has_a_longer_bar(opinion):
    shares = (0.99, 0.6, 0.3)
    states = [
        MarkState(f"m{at}", (StateShare("own", share), StateShare("made", 1 - share)), ())
        for at, share in enumerate(shares)
    ]
    groups = [MarkGroup("claimed car", tuple(state.mark for state in states))]
    lengths = filled(drawn(grouped(opinion, groups, states)))
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[1] == pytest.approx(2 * lengths[2], abs=0.02)


def test_marks_not_read_are_named_apart_with_the_reason(opinion):
    lines = lines_of(drawn(opinion))
    at = lines.index("Not read, since it could not be reached")
    assert lines[at + 1] == "Body number on the bulkhead."
    at = lines.index("Not read, since it was not looked for")
    assert lines[at + 1] == "Axle stamp."


def test_without_groups_there_is_no_figure(opinion):
    assert mark_groups(grouped(opinion, (), ())) is None


@given(
    sizes=st.lists(st.integers(1, 8), min_size=1, max_size=6),
    share=st.floats(0, 1),
    name=st.text(st.characters(codec="utf-8"), min_size=1, max_size=60),
)
def test_whatever_the_groups_and_names_nothing_covers_anything(sizes, share, name):
    groups, states = [], []
    for at, size in enumerate(sizes):
        marks = tuple(f"{name} {at} {n}" for n in range(size))
        groups.append(MarkGroup(CARS_MEANT[at], marks))
        states.extend(
            MarkState(mark, (StateShare("donor", share), StateShare("other", 1 - share)), ())
            for mark in marks[1:]
        )
    figure = drawn(grouped(opinion_of("clean"), groups, states))
    assert_apart(figure)
    assert len(filled(figure)) == sum(sizes) - len(sizes)
    assert flowing(figure).count("no share was worked out") == len(sizes)


@given(sizes=st.lists(st.integers(1, 40), min_size=1, max_size=6))
def test_however_many_marks_there_are_each_stands_once_and_no_drawing_leaves_its_page(sizes):
    groups = [
        MarkGroup(CARS_MEANT[at], tuple(f"mark {at} {n}" for n in range(size)))
        for at, size in enumerate(sizes)
    ]
    many = grouped(opinion_of("clean"), groups, ())
    sheets = mark_groups_sheets(many)
    said = [line for sheet in sheets for line in lines_of(sheet)]
    for group in groups:
        assert [said.count(capital(mark)) for mark in group.marks] == [1] * len(group.marks)
    for at, sheet in enumerate(sheets):
        assert_apart(sheet)
        assert float(root_of(sheet).get("viewBox", "").split()[3]) <= PAGE_HEIGHT + 9
        assert sheet.title.endswith("(continued)") == (at > 0)
