"""Every sketch of the vocabulary is drawn, unlike any other, with nothing that is a number."""

import re
from itertools import combinations, pairwise, permutations
from math import dist

import pytest

from tests.figures.drawn_texts import SVG, tree, written
from witnessmark.codebook import sketches
from witnessmark.figures.drawing import INK, SOFT
from witnessmark.figures.sketch import FOLDER, PAPER, drawing, heard, sketch

SKETCHES = tuple(sketches().values())
METAL, PAINT = "#dadfe3", "#b3bcc5"
LUMINOUS = 0.12
"""Parts of full brightness by which two tones must differ to be told apart in print."""

STROKE = re.compile(r"M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) ?")
Point = tuple[float, float]


def bare(svg: str) -> str:
    """A sketch without its names."""
    return re.sub(r"<(title|desc)[^>]*>[^<]*</\1>|[\w-]+=\"sketch-[^\"]*\"|<!--.*?-->", "", svg)


def brightness(colour: str) -> float:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def strokes(commands: str) -> list[tuple[Point, Point]]:
    """Both ends of each straight stroke; nothing else may stand in the commands."""
    assert STROKE.sub("", commands) == ""
    found = (tuple(map(float, each)) for each in STROKE.findall(commands))
    return [((x1, y1), (x2, y2)) for x1, y1, x2, y2 in found]


def middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def test_every_name_is_drawn_and_nothing_else():
    assert set(FOLDER.glob("*.svg")) == {drawing(which) for which in SKETCHES}


@pytest.mark.parametrize("which", SKETCHES, ids=lambda which: which.name)
def test_a_sketch_is_well_formed_and_says_what_it_is(which):
    root = tree(sketch(which))
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == which.title
    assert which.title in heard(which)
    assert which.view in heard(which)


@pytest.mark.parametrize("which", SKETCHES, ids=lambda which: which.name)
def test_a_sketch_holds_shapes_alone(which):
    """No text at all, so neither a number nor a small letter; nothing that runs or is fetched."""
    kinds = {each.tag.removeprefix(SVG) for each in tree(sketch(which)).iter()}
    assert kinds <= {"svg", "title", "desc", "g", "path", "rect", "circle"}
    assert written(sketch(which)) == []
    assert not re.search(r"\d", heard(which))


def test_no_two_sketches_are_drawn_or_called_alike():
    drawings = {which: bare(sketch(which).svg) for which in SKETCHES}
    assert [p for p in combinations(SKETCHES, 2) if drawings[p[0]] == drawings[p[1]]] == []
    titles = [heard(which) for which in SKETCHES]
    assert len(set(titles)) == len(titles)


def test_all_have_one_size_one_frame_and_the_same_tones():
    """So that none stands out among the outcomes of a feature."""
    sizes = {
        each.get("viewBox") for which in SKETCHES for each in tree(sketch(which)).iter(f"{SVG}svg")
    }
    assert sizes == {"0 0 60 40"}
    frames = {sketch(which).svg.rsplit("<rect", 1)[1] for which in SKETCHES}
    assert len(frames) == 1
    tones = {tone for which in SKETCHES for tone in re.findall(r"#[0-9a-f]+", sketch(which).svg)}
    assert tones == {INK, SOFT, METAL, PAINT, PAPER}


def test_the_tones_can_be_told_apart_in_black_and_white():
    tones = sorted(map(brightness, (INK, SOFT, PAINT, METAL, PAPER)))
    assert all(b - a >= LUMINOUS for a, b in pairwise(tones))


@pytest.mark.parametrize("which", SKETCHES, ids=lambda which: which.name)
def test_a_character_is_of_straight_strokes_that_meet_in_their_middle(which):
    """T, X or H, never 1, 4 or 7: a curve, or strokes that meet at their ends, could be taken
    for part of a figure."""
    groups = tree(sketch(which)).iterfind(f".//{SVG}g[@class='characters']")
    for letter in (each for group in groups for each in group):
        drawn_strokes = strokes(letter.get("d"))
        assert len(drawn_strokes) in (2, 3)
        assert any(
            dist(middle(*one), point) < 0.02
            for one, other in permutations(drawn_strokes, 2)
            for point in (*other, middle(*other))
        )


def test_most_sketches_of_characters_name_them_so():
    """What the test above looks at is there to be looked at."""
    assert sum('class="characters"' in sketch(which).svg for which in SKETCHES) >= 15
