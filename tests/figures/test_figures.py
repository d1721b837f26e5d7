"""Figures say in shape and word what the Opinion says, and hold nothing but text."""

import math
import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.figures.conftest import invented
from tests.figures.laid_out import assert_well_laid_out
from tests.weighed import with_lr
from witnessmark.figures import assumption_curve, strip_axis, weight_strip
from witnessmark.figures.drawing import wrapped
from witnessmark.figures.weight_strip import AXIS
from witnessmark.weighing import FEWEST_TURNED
from witnessmark.wording import Names

SVG = "{http://www.w3.org/2000/svg}"
INVENTED = invented.opinion()
HOSTILE = '</text><script>alert(1)</script> &amp; "x" \' ]]> #import "a" \x00 \u202e'


def drawn(figure):
    """The figure as a tree: it must be well-formed XML."""
    return ElementTree.fromstring(figure.svg)


def texts(figure):
    """Every line of text that is drawn, in order."""
    return [each.text for each in drawn(figure).iter(f"{SVG}text")]


def strip(conclusion):
    """The strip of one conclusion, whose names are its ids."""
    return weight_strip(conclusion, Names())


def turned(conclusion, trials):
    """The conclusion with so many trials that turned it."""
    return replace(conclusion, steady=replace(conclusion.steady, turned=trials))


def all_figures(opinion):
    names = Names(opinion.names)
    yield strip_axis()
    for conclusion in opinion.weighed:
        yield weight_strip(conclusion, names)
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
    shown = weight_strip(hostile.weighed[0], Names(names)).svg
    assert "&lt;script&gt;" in shown
    assert "‹U+202E›" in shown


@given(st.text(min_size=1, max_size=200), st.floats(5, 300))
def test_wrapped_text_loses_no_character_but_spaces(text, width):
    lines = wrapped(text, width, 10)
    assert "".join("".join(lines).split()) == "".join("".join(wrapped(text, 9e9, 10)).split())


def test_a_strip_says_all_that_it_draws(opinion):
    conclusion = turned(opinion.weighed[0], 33)
    figure = strip(conclusion)
    assert "LR 21, band 4 to 140, weak support for the first proposition" in figure.caption
    assert figure.caption.endswith("it pointed the other way in 33 trials")
    assert not texts(figure)


def test_the_axis_of_the_strips_has_its_words_inside_and_apart():
    assert_well_laid_out(strip_axis())
    assert texts(strip_axis()) == ["against", "for", "1/10,000", "1", "10,000"]


@given(st.floats(-6, 6), st.floats(0, 3), st.floats(0, 3), st.sampled_from((0, 4, 5, 500)))
def test_whatever_the_ratio_point_and_band_lie_in_the_strip(log10_lr, below, above, trials):
    one = turned(INVENTED.weighed[0], trials)
    figure = strip(with_lr(one, log10_lr, (log10_lr - below, log10_lr + above)))
    width, height = (float(n) for n in (drawn(figure).get("viewBox") or "").split()[2:])
    for each in drawn(figure).iter(f"{SVG}path"):
        places = [float(n) for n in re.findall(r"-?[\d.]+", each.get("d", ""))]
        assert all(0 <= x <= width for x in places[::2])
        assert all(0 <= y <= height for y in places[1::2])
    for each in drawn(figure).iter(f"{SVG}rect"):
        left, wide = float(each.get("x", "-1")), float(each.get("width", ""))
        assert AXIS.left - 0.01 <= left
        assert left + wide <= AXIS.right + 0.9


def test_the_point_lies_at_its_ratio_and_within_its_band(opinion):
    conclusion = opinion.weighed[0]
    root = drawn(strip(conclusion))
    point, bar = root.find(f"{SVG}circle"), root.find(f"{SVG}rect")
    assert point is not None
    assert bar is not None
    x, left = float(point.get("cx", "")), float(bar.get("x", ""))
    assert x == pytest.approx(AXIS.x(conclusion.log10_lr), abs=0.01)
    assert left < x < left + float(bar.get("width", ""))


@pytest.mark.parametrize(("log10_lr", "shape"), [(1.0, "circle"), (-1.0, "path"), (0.1, "circle")])
def test_the_three_answers_have_three_shapes(opinion, log10_lr, shape):
    """Disc filled, wedge, ring: told apart in black and white."""
    point = drawn(strip(turned(with_lr(opinion.weighed[0], log10_lr), 0))).find(f"{SVG}{shape}")
    assert point is not None
    assert (point.get("fill") == "#ffffff") == (log10_lr == 0.1)


def test_a_capped_ratio_says_so(opinion):
    for log10_lr, is_capped in ((5.2, True), (3.9, False)):
        caption = strip(with_lr(opinion.weighed[0], log10_lr)).caption
        assert ("(no ratio is given beyond it), band" in caption) == is_capped


@pytest.mark.parametrize(
    ("low", "high", "arrows"), [(-3.9, 3.9, 0), (-4.0, 3.9, 1), (-3.9, 4.0, 1), (-4.0, 4.0, 2)]
)
def test_a_band_that_was_stopped_by_the_cap_has_an_arrow(opinion, low, high, arrows):
    conclusion = turned(with_lr(opinion.weighed[0], 1.0, (low, high)), 0)
    assert strip(conclusion).svg.count("<path") == arrows


@pytest.mark.parametrize("trials", [0, FEWEST_TURNED - 1, FEWEST_TURNED, 500])
def test_a_band_is_hatched_where_trials_turned_the_answer(opinion, trials):
    """Hatching and outline, not a colour: a bar printed in grey is still told from another."""
    conclusion = turned(with_lr(opinion.weighed[0], 1.0, (-1.0, 2.0)), trials)
    bar = drawn(strip(conclusion)).find(f"{SVG}rect")
    assert bar is not None
    is_hatched = strip(conclusion).svg.count("<path") == 1
    assert is_hatched == (bar.get("fill") == "#ffffff") == (trials >= FEWEST_TURNED)


def test_the_curve_marks_the_value_that_was_used(opinion):
    conclusion = opinion.weighed[0]
    curve = assumption_curve(conclusion, Names())
    assert curve is not None
    assert "used: 3 %, LR 29" in texts(curve)
    assert "31 at 0.1 %" in curve.caption
    assert "assumed: struck-again marks by a careful hand" in texts(curve)
    assert "Wrong by a factor of 9 in odds, this alone would turn the answer." in curve.caption


def test_a_curve_that_reads_another_figure_than_its_conclusion_says_why(opinion):
    """The curve holds all other rates as assumed; the conclusion is taken over all together."""
    conclusion = with_lr(opinion.weighed[0], math.log10(9.4), (0.1, 2.0))
    curve = assumption_curve(conclusion, Names())
    assert curve is not None
    assert "so that it reads 29 there; the conclusion’s 9.4 is taken over all" in curve.caption
    used = conclusion.leading[0].curve[len(conclusion.leading[0].curve) // 2]
    same = assumption_curve(with_lr(conclusion, used.log10_lr, (0.1, 2.0)), Names())
    assert same is not None
    assert "the conclusion’s" not in same.caption


def test_a_conclusion_without_a_leading_rate_has_no_curve(opinion):
    one = opinion.weighed[0]
    assert assumption_curve(replace(one, steady=replace(one.steady, leading=())), Names()) is None
    assert assumption_curve(replace(one, steady=None), Names()) is None


def test_a_curve_has_one_unit_along_its_foot(opinion):
    """What multiplies odds is never told as a share, below 1 either."""
    conclusion = opinion.weighed[0]
    leading = conclusion.steady.leading[0]
    points = tuple(
        replace(each, value=each.value * 1000 / leading.curve[0].value) for each in leading.curve
    )
    steady = replace(conclusion.steady, leading=(replace(leading, curve=points),))
    for one, unit, other in (
        (conclusion, "%", "×"),
        (replace(conclusion, steady=steady), "×", "%"),
    ):
        curve = assumption_curve(one, Names())
        assert curve is not None
        drawn_text = " ".join(texts(curve)) + curve.caption
        assert unit in drawn_text
        assert other not in drawn_text
        assert "e+" not in drawn_text
    assert "at × 1,000" in drawn_text
