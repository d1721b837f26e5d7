"""The plots: the same bytes twice, their titles inside, and sentences that say their numbers."""

import math
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from benchmarks.proving.measures import Bin, Interval, Scored
from benchmarks.proving.plots import cost_plot, reliability_plot, tippett_plot

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"

CURVES = {
    "the tool": Scored([2.0, 1.0, -0.5, 0.5, -1.0, -2.0, -3.0], [True] * 3 + [False] * 4),
    "the limit": Scored([3.0, 2.0, math.inf, -0.5, -1.0, -2.0, -9.0], [True] * 3 + [False] * 4),
}
BINS = [
    Bin(-3.0, -1.0, -2.0, Interval(-math.inf, -math.inf, -1.2), 0, 40),
    Bin(-1.0, 0.0, -0.5, Interval(-0.7, -0.4, -0.1), 12, 30),
    Bin(0.0, 1.0, 0.5, Interval(-0.2, 0.1, 0.4), 30, 24),
    Bin(1.0, 2.0, 1.5, Interval(0.9, 1.6, math.inf), 40, 3),
    Bin(2.0, 3.0, math.nan, Interval(-math.inf, math.nan, math.inf), 0, 0),
]
COSTS = {
    "the tool": {"plain": Interval(0.2, 0.25, 0.3), "hard": Interval(0.5, 0.61, 0.8)},
    "the limit": {"plain": Interval(0.1, 0.12, 0.2), "hard": Interval(0.3, math.inf, math.inf)},
    "a rule": {"plain": Interval(math.nan, math.nan, math.nan)},
}
DRAWN = [(tippett_plot, CURVES), (reliability_plot, BINS), (cost_plot, COSTS)]


@pytest.mark.parametrize(("plot", "shown"), DRAWN)
def test_the_same_numbers_give_the_same_bytes(plot, shown, tmp_path):
    sentences = [plot(shown, "Identity", tmp_path / name) for name in ("a.svg", "b.svg")]
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()
    assert sentences[0] == sentences[1]


@pytest.mark.parametrize(("plot", "shown"), DRAWN)
def test_a_plot_is_as_wide_as_a_page_and_holds_its_title(plot, shown, tmp_path):
    sentence = plot(shown, "Identity & engine", tmp_path / "a.svg")
    root = ET.parse(tmp_path / "a.svg").getroot()
    assert root.findtext(f"{SVG}title") == "Identity & engine"
    assert root.get("width") == "525pt"
    assert "<dc:date>" not in (tmp_path / "a.svg").read_text("utf-8")
    assert sentence.endswith(".")
    assert sentence.count("\n") == 0


def test_text_is_drawn_so_that_no_font_is_needed(tmp_path):
    tippett_plot(CURVES, "Identity", tmp_path / "a.svg")
    root = ET.parse(tmp_path / "a.svg").getroot()
    assert list(root.iter(f"{SVG}text")) == []
    assert "log10 LR" in (tmp_path / "a.svg").read_text("utf-8")


def test_other_numbers_give_another_picture(tmp_path):
    tippett_plot(CURVES, "Identity", tmp_path / "a.svg")
    tippett_plot({"the tool": CURVES["the limit"]}, "Identity", tmp_path / "b.svg")
    assert (tmp_path / "a.svg").read_bytes() != (tmp_path / "b.svg").read_bytes()


def test_systems_differ_in_more_than_colour(tmp_path):
    """Marks and dashes of the legend, colours left out: no two lines of it look alike."""
    tippett_plot(CURVES, "Identity", tmp_path / "a.svg")
    root = ET.parse(tmp_path / "a.svg").getroot()
    shapes = {path.get("id"): path.get("d") for path in root.iter(f"{SVG}path") if path.get("id")}
    legend = next(g for g in root.iter(f"{SVG}g") if g.get("id", "").startswith("legend"))
    dashes = ["dasharray" in p.get("style", "") for p in legend.iter(f"{SVG}path") if is_line(p)]
    marks = [
        shapes[use.get(HREF, "")[1:]]
        for use in legend.iter(f"{SVG}use")
        if use.get("style") is not None
    ]
    assert len(marks) == len(dashes) == 2 * len(CURVES)
    assert len(set(zip(marks, dashes, strict=True))) == 2 * len(CURVES)


def is_line(path: ET.Element) -> bool:
    """Is it a line drawn, not a letter or the shape of a mark?"""
    return path.get("id") is None and "fill: none" in path.get("style", "")


def test_the_sentence_of_a_tippett_plot_says_the_shares_above_one(tmp_path):
    assert tippett_plot(CURVES, "Identity", tmp_path / "a.svg") == (
        "An LR above 1: the tool gives it to 66.7 % of true and 25 % of false cases; "
        "the limit gives it to 100 % of true and 0 % of false cases."
    )


def test_a_small_share_is_not_rounded_to_none(tmp_path):
    ratios = np.where(np.arange(4000) == 0, 1.0, -1.0)
    scored = Scored([*ratios, *-ratios], [False] * 4000 + [True] * 4000)
    said = tippett_plot({"it": scored}, "Identity", tmp_path / "a.svg")
    assert said.endswith("it gives it to over 99.9 % of true and under 0.1 % of false cases.")


def test_the_sentence_of_a_reliability_plot_counts_the_bins(tmp_path):
    assert reliability_plot(BINS, "Identity", tmp_path / "a.svg") == (
        "In 1 of 2 bins with enough cases of both classes the stated log10 LR lies in the "
        "interval of the observed one; furthest apart are +0.50 stated and +0.10 observed "
        "(other bins: 2 with few cases of a class, 1 empty)."
    )
    assert reliability_plot(BINS[-1:], "Identity", tmp_path / "a.svg") == (
        "None of 1 bins has enough cases of both classes to compare."
    )


def test_the_sentence_of_a_cost_plot_names_the_best_and_the_worst_world(tmp_path):
    assert cost_plot(COSTS, "Identity", tmp_path / "a.svg") == (
        "Cllr is 0.25 (plain) to 0.61 (hard) for the tool; 0.12 (plain) to ∞ (hard) for the "
        "limit; not known for a rule; 1 is the cost of always saying LR = 1."
    )
