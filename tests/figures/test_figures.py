"""Figures say in shape and word what the Opinion says, and hold nothing but text."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from witnessmark.figures.weight_axis import WeightAxis

from tests.weighed import with_conclusions, with_lr, with_more
from witnessmark.figures import (
    assumption_curve,
    weight_strips,
)
from witnessmark.figures.drawing import PAGE_HEIGHT, wrapped
from witnessmark.weighing import Asked
from witnessmark.wording import Names

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '</text><script>alert(1)</script> &amp; "x" \' ]]> #import "a" \x00 \u202e'


def drawn(figure):
    """The figure as a tree: it must be well-formed XML."""
    return ElementTree.fromstring(figure.svg)


def texts(figure):
    """Every line of text that is drawn, in order."""
    return [each.text for each in drawn(figure).iter(f"{SVG}text")]


def strips(opinion):
    """The one drawing of all strips."""
    (figure,) = weight_strips(opinion)
    return figure


def strip(opinion, conclusion):
    """The strip of one conclusion."""
    return strips(replace(with_conclusions(opinion, conclusion), names=()))


def all_figures(opinion):
    names = Names(opinion.names)
    yield strips(opinion)
    for conclusion in opinion.weighed:
        curve = assumption_curve(conclusion, names)
        if conclusion.steady is not None:
            assert curve is not None
            yield curve


def test_every_figure_has_a_title_and_says_what_it_shows(opinion):
    for figure in all_figures(opinion):
        root = drawn(figure)
        title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
        assert title is not None
        assert desc is not None
        assert title.text == figure.title
        assert desc.text == figure.caption
        named = (root.get("aria-labelledby") or "").split()
        assert named == [title.get("id"), desc.get("id")]
        assert root.get("role") == "img"


def test_nothing_is_drawn_outside_the_figure(opinion):
    for figure in all_figures(opinion):
        root = drawn(figure)
        width, height = (float(n) for n in (root.get("viewBox") or "").split()[2:])
        for each in root.iter(f"{SVG}text"):
            assert 0 <= float(each.get("x", "-1")) <= width
            assert 0 < float(each.get("y", "-1")) <= height
        for each in root.iter(f"{SVG}rect"):
            assert float(each.get("x", "-1")) + float(each.get("width", "9e9")) <= width + 0.1


def test_a_hostile_value_is_shown_as_text_and_is_nothing_else(opinion):
    names = tuple(replace(each, name=HOSTILE) for each in opinion.names)
    claim = replace(opinion.casefile.claim, items={"chassis_number": HOSTILE})
    hostile = replace(opinion, names=names, casefile=replace(opinion.casefile, claim=claim))
    for figure in all_figures(hostile):
        kinds = {each.tag.removeprefix(SVG) for each in drawn(figure).iter()}
        assert kinds <= {"svg", "g", "title", "desc", "text", "rect", "line", "path", "circle"}
        assert "<script" not in figure.svg
    assert "&lt;script&gt;" in strips(hostile).svg
    assert "‹U+202E›" in strips(hostile).svg


@given(st.text(min_size=1, max_size=200), st.floats(5, 300))
def test_wrapped_text_loses_no_character_but_spaces(text, width):
    lines = wrapped(text, width, 10)
    assert "".join("".join(lines).split()) == "".join("".join(wrapped(text, 9e9, 10)).split())


def test_a_strip_shows_ratio_words_and_band(opinion):
    said = texts(strips(opinion))
    assert "Identity: the frame" in said
    assert "LR 21: weak support for the first" in said
    assert "LR 1/150: weak support for the second" in said
    assert "LR 1.2: supports neither" in said
    assert not [text for text in said if text.startswith("Configuration: paint")]
    assert "band 4 to 140" in strips(opinion).caption


def test_many_conclusions_are_drawn_on_several_pages(opinion):
    one = opinion.weighed[0]
    parts = (with_more(one, question=Asked.CORE, about=f"part_{n}") for n in range(25))
    long = with_conclusions(opinion, *parts)
    sheets = weight_strips(long)
    said = [text for sheet in sheets for text in texts(sheet)]
    assert [said.count(f"Assembly: part {n}") for n in range(25)] == [1] * 25
    for sheet in sheets:
        assert float((drawn(sheet).get("viewBox") or "").split()[3]) <= PAGE_HEIGHT


def test_the_point_lies_at_its_ratio_and_within_its_band(opinion):
    conclusion = opinion.weighed[0]
    row = next(drawn(strip(opinion, conclusion)).iter(f"{SVG}g"))
    point = row.find(f"{SVG}circle")
    bar = next(each for each in row.iter(f"{SVG}rect") if each.get("stroke") == "#1c2430")
    assert point is not None
    x, left = float(point.get("cx", "")), float(bar.get("x", ""))
    axis = WeightAxis(24, 458)
    assert x == pytest.approx(axis.x(conclusion.log10_lr), abs=0.01)
    assert left < x < left + float(bar.get("width", ""))


@pytest.mark.parametrize(("log10_lr", "shape"), [(1.0, "circle"), (-1.0, "path"), (0.1, "circle")])
def test_the_three_answers_have_three_shapes(opinion, log10_lr, shape):
    """Disc filled, wedge, ring: told apart in black and white."""
    conclusion = with_lr(opinion.weighed[0], log10_lr)
    row = next(drawn(strip(opinion, conclusion)).iter(f"{SVG}g"))
    point = row.find(f"{SVG}{shape}")
    assert point is not None
    assert (point.get("fill") == "#ffffff") == (log10_lr == 0.1)


def test_a_capped_ratio_says_so(opinion):
    one = opinion.weighed[0]
    for log10_lr, is_capped in ((5.2, True), (3.9, False)):
        caption = strip(opinion, with_lr(one, log10_lr)).caption
        assert ("(no ratio is given beyond it), band" in caption) == is_capped


@pytest.mark.parametrize(
    ("low", "high", "arrows"), [(-3.9, 3.9, 0), (-4.0, 3.9, 1), (-3.9, 4.0, 1), (-4.0, 4.0, 2)]
)
def test_a_band_that_was_stopped_by_the_cap_has_an_arrow(opinion, low, high, arrows):
    """One that is not has a plain end; the legend shows one arrow more."""
    conclusion = with_lr(opinion.weighed[0], 1.0, (low, high))
    plain = with_lr(conclusion, 1.0, (-1.0, 2.0))
    drawn_more = strip(opinion, conclusion).svg.count("<path")
    assert drawn_more == strip(opinion, plain).svg.count("<path") + arrows


def test_the_curve_marks_the_value_that_was_used(opinion):
    conclusion = opinion.weighed[0]
    curve = assumption_curve(conclusion, Names())
    assert curve is not None
    assert "used: 3 %, LR 29" in texts(curve)
    assert "31 at 0.1 %" in curve.caption
    assert "assumed: struck-again marks by a careful hand" in texts(curve)
    assert "Wrong by a factor of 9 in odds, this alone would turn the answer." in curve.caption


def test_a_conclusion_without_a_leading_rate_has_no_curve(opinion):
    one = opinion.weighed[0]
    assert assumption_curve(replace(one, steady=replace(one.steady, leading=())), Names()) is None
    assert assumption_curve(replace(one, steady=None), Names()) is None


def test_no_colour_is_needed_to_read_a_figure(opinion):
    """Every tinted shape stands beside a word: printed in grey, the words are the same."""
    figure = strips(opinion)
    grey = replace(figure, svg=re.sub(r"#(1f5c66|8a3d14)", "#444444", figure.svg))
    assert texts(grey) == texts(figure)
