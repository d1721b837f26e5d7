"""Every sketch of the vocabulary is drawn, unlike any other, with nothing that is a number."""

import re
from itertools import combinations, pairwise

import pytest

from tests.figures.drawn_texts import SVG, tree, written
from witnessmark.codebook.sketches import Sketch
from witnessmark.figures.drawing import INK, SOFT
from witnessmark.figures.sketches import DRAWN, heard, sketch
from witnessmark.figures.sketches_strokes import DARK, LETTERS, METAL, PAINT, PAPER, letter

LUMINOUS = 0.12
"""Parts of full brightness by which two tones must differ to be told apart in print."""


def bare(svg: str) -> str:
    """A sketch without its names."""
    return re.sub(r"<(title|desc)[^>]*>[^<]*</\1>|[\w-]+=\"sketch-[^\"]*\"", "", svg)


def brightness(colour: str) -> float:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_every_name_is_drawn_and_nothing_else():
    assert set(DRAWN) == set(Sketch)


@pytest.mark.parametrize("which", Sketch)
def test_a_sketch_is_well_formed_and_says_what_it_is(which):
    root = tree(sketch(which))
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == DRAWN[which].title
    assert DRAWN[which].title in heard(which)
    assert DRAWN[which].view in heard(which)


@pytest.mark.parametrize("which", Sketch)
def test_nothing_is_written_in_a_sketch(which):
    """No text at all, so neither a number nor a small letter; no figure in what is heard."""
    assert written(sketch(which)) == []
    assert not re.search(r"\d", heard(which))


def test_no_two_sketches_are_drawn_or_called_alike():
    drawn = {which: bare(sketch(which).svg) for which in Sketch}
    assert [pair for pair in combinations(Sketch, 2) if drawn[pair[0]] == drawn[pair[1]]] == []
    titles = [heard(which) for which in Sketch]
    assert len(set(titles)) == len(titles)


def test_all_have_one_size_one_frame_and_the_same_tones():
    """So that none stands out among the outcomes of a feature."""
    sizes = {tree(sketch(which)).get("viewBox") for which in Sketch}
    assert sizes == {"0 0 60 40"}
    frames = {sketch(which).svg.rsplit("<rect", 1)[1] for which in Sketch}
    assert len(frames) == 1
    tones = {tone for which in Sketch for tone in re.findall(r"#[0-9a-f]{6}", sketch(which).svg)}
    assert tones <= {INK, SOFT, DARK, METAL, PAINT, PAPER}


def test_the_tones_can_be_told_apart_in_black_and_white():
    tones = sorted(map(brightness, (INK, DARK, PAINT, METAL, PAPER)))
    assert all(b - a >= LUMINOUS for a, b in pairwise(tones))


@pytest.mark.parametrize("which", range(len(LETTERS)))
@pytest.mark.parametrize("turn", [-10, 0, 9])
def test_a_letter_is_drawn_in_straight_strokes(which, turn):
    """A curve could be taken for part of a figure."""
    commands = re.search(r' d="([^"]*)"', letter(which, 6, 8, turn=turn))
    assert commands is not None
    assert set(re.findall(r"[A-Za-z]", commands[1])) == {"M", "L"}


def test_no_letter_is_a_single_upright_or_a_bent_stroke():
    """Neither 1, 4 nor 7: each letter has a stroke that ends on, or crosses, the middle."""
    assert len(LETTERS) == 3
    for strokes in LETTERS:
        middle = [
            stroke
            for stroke in strokes
            if 0.5 in stroke or (stroke[0] + stroke[2], stroke[1] + stroke[3]) == (1, 1)
        ]
        assert len(strokes) >= 2
        assert middle
