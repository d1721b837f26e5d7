"""Makers whose parts bear the car's number: tables that add up, an exact answer that is exact."""

from dataclasses import replace

import numpy as np
import pytest

from benchmarks.proving.numbered.exact import Exact
from benchmarks.proving.numbered.maker import MAKERS
from benchmarks.proving.numbered.records import draw_car, pieces_of
from benchmarks.proving.numbered.stories import STORIES, paper_shares, stories_of
from benchmarks.proving.numbered.visit import Sighting, visit
from benchmarks.proving.visit import SeenField, SeenMark
from benchmarks.proving.world import world_named

NOTHING = Sighting({}, frozenset(), frozenset(), {}, {}, {})
CLEAR = (0.01, 0.02, 0.03)
ALL = pytest.mark.parametrize("name", MAKERS)


def car_of(name, number=3):
    """A car of the plain world of a maker."""
    return draw_car(MAKERS[name], world_named(name), 5, np.random.default_rng([5, number]))


def exact(name, seen):
    """The exact answers to one sighting of the car."""
    return Exact(MAKERS[name], world_named(name), car_of(name).claim, seen, 5)


def read(name, mark, text):
    """One mark read by one examiner, fields in their order."""
    spec = MAKERS[name].marks[mark]
    fields = tuple(
        SeenField(field.says, field.alphabet, tuple((c,) for c in part))
        for field, part in zip(spec.fields, text.split(), strict=True)
    )
    return replace(NOTHING, marks={mark: SeenMark(fields, CLEAR, False, "clear", False, 1)})


@ALL
def test_the_ways_of_every_piece_add_up_in_every_story(name):
    world = world_named(name)
    assert sum(stories_of(world).values()) == pytest.approx(1.0)
    for story in stories_of(world):
        for piece, ways in pieces_of(story, MAKERS[name]).items():
            assert sum(ways.values()) == pytest.approx(1.0), (story, piece)
            assert min(ways.values()) >= 0.0
        for paper in MAKERS[name].papers:
            assert sum(paper_shares(story, world, paper).values()) == pytest.approx(1.0)


@ALL
def test_every_story_is_drawn(name):
    kinds = {car_of(name, number).story.kind for number in range(120)}
    assert kinds == set(range(len(STORIES)))


@ALL
def test_no_outcome_of_a_place_is_forgotten(name):
    """Over all that can be noted of a place, and of how it looks, P(noted) adds up to 1."""
    places = {"absent": frozenset({"engine"})}, {"ground": frozenset({"engine"})}
    worn = [replace(NOTHING, **each) for each in places]
    struck = " ".join("?" * field.width for field in MAKERS[name].marks["engine"].fields)
    short = " ".join(
        ("?" if field.says in ("number", "serial") else "_") * field.width
        for field in MAKERS[name].marks["engine"].fields
    )
    marks = [read(name, "engine", text) for text in dict.fromkeys((struck, short))]
    if MAKERS[name].exchanged:
        marks.append(read(name, "exchange", "X ?????"))
    looks = [replace(NOTHING, looks={"engine": (kind, False)}) for kind in range(3)]
    whole, *found = (exact(name, seen).likelihoods() for seen in (NOTHING, *worn, *marks, *looks))
    # A mark that is there was read in some way: its characters' shares are put back.
    lost = [1.0, 1.0, *(_lost(name, mark) for mark in marks)]
    for question in ("identity", "engine"):
        before = np.array(whole[question])
        by_state = zip(found, lost, strict=False)
        assert sum(np.array(p[question]) / each for p, each in by_state) == pytest.approx(
            before, rel=0.02
        )
        assert np.sum([p[question] for p in found[-3:]], axis=0) == pytest.approx(before)


def _lost(name, seen):
    """P(that all characters of a mark were lost, those never struck apart); of an exchange
    engine it is only told that it is one."""
    [mark] = seen.marks.values()
    if "exchange" in seen.marks:
        return 1.0
    return CLEAR[1] ** sum(cells == ("?",) for field in mark.fields for cells in field.cells)


@ALL
def test_where_nothing_was_seen_every_ratio_is_one(name):
    """Where nobody makes papers; else that none came with the car says something too."""
    world = replace(world_named(name), made_paper=(0.0,) * 4)
    ratios = Exact(MAKERS[name], world, car_of(name).claim, NOTHING, 5).log10_ratios()
    assert {"identity", "paint", *MAKERS[name].cores} <= ratios.keys()
    assert list(ratios.values()) == pytest.approx([0.0] * len(ratios), abs=1e-9)


@ALL
def test_a_number_that_agrees_speaks_for_and_another_against(name):
    claim = car_of(name).claim
    mark = MAKERS[name].structure[0]
    width = MAKERS[name].marks[mark].fields[-1].width
    before = "E " if name == "saloon" else ""
    own = f"{claim.number:06}"[-width:]
    numbers = MAKERS[name].numbers
    other = f"{numbers[(np.searchsorted(numbers, claim.number) + 700) % len(numbers)]:06}"[-width:]
    for_it = exact(name, read(name, mark, before + own)).log10_ratios()
    against = exact(name, read(name, mark, before + other)).log10_ratios()
    assert for_it["identity"] > 0.2
    assert against["identity"] < -0.6
    assert abs(against["gearbox"]) < 1.0


@ALL
def test_what_was_drawn_is_possible(name):
    """No car of the world is impossible to whoever knows the world."""
    maker, world = MAKERS[name], world_named(name)
    for number in range(4):
        rng = np.random.default_rng([6, number])
        car = draw_car(maker, world, 5, rng)
        seen = visit(world, car, rng)
        assert max(Exact(maker, world, car.claim, seen, 5).likelihoods()["identity"]) > 0.0
