"""Sums of products of factors, inward and outward, against one plain sum over everything."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tests.examples import tried_on
from witnessmark.weighing.network.factors import Factor
from witnessmark.weighing.network.messages import DRAW, Tree, contracted, joined

SIZES = {"a": 2, "b": 3, "c": 2, "e": 3, "f": 2, DRAW: 3}
AXES = tuple(axis for axis in SIZES if axis != DRAW)


@st.composite
def graphs(draw: st.DrawFn) -> list[Factor]:
    """Two to five factors over a few axes, with or without draws."""
    random = np.random.default_rng(draw(st.integers(0, 10_000)))
    found = []
    for _ in range(draw(st.integers(2, 5))):
        axes = tuple(draw(st.lists(st.sampled_from(AXES), min_size=1, max_size=3, unique=True)))
        axes = (*axes, DRAW) if draw(st.booleans()) else axes
        found.append(Factor(random.uniform(0.1, 1.0, [SIZES[axis] for axis in axes]), axes))
    return found


def plainly(factors: list[Factor], wanted: tuple[str, ...]) -> np.ndarray:
    """One einsum over all factors at once."""
    parts = ",".join("".join(factor.axes) for factor in factors)
    tables = [factor.table for factor in factors]
    return np.einsum(f"{parts}->{''.join(wanted)}", *tables)


def axes_of(factors: list[Factor], kept: tuple[str, ...]) -> tuple[str, ...]:
    """Those of the kept axes that some factor has."""
    return tuple(axis for axis in kept if any(axis in factor.axes for factor in factors))


@given(graphs(), st.sets(st.sampled_from(AXES), max_size=2))
@tried_on(300, few=25)
def test_the_total_is_that_of_one_plain_sum(factors: list[Factor], kept: set[str]) -> None:
    """Over every axis but the wanted ones; the draws are never summed."""
    wanted = axes_of(factors, (DRAW, *sorted(kept)))
    found = contracted(factors, wanted)
    assert found.axes == wanted
    assert np.allclose(found.table, plainly(factors, wanted), rtol=1e-12)


@given(graphs())
@tried_on(300, few=25)
def test_a_factor_times_all_outside_of_it_is_the_joint_of_its_axes(factors: list[Factor]) -> None:
    """For every factor, from the messages of one tree."""
    tree = Tree(factors)
    for place, factor in enumerate(factors):
        wanted = axes_of(factors, (DRAW, *(axis for axis in factor.axes if axis != DRAW)))
        found = joined(factor, tree.outside(place), set(wanted))
        order = [found.axes.index(axis) for axis in wanted]
        assert np.allclose(found.table.transpose(order), plainly(factors, wanted), rtol=1e-12)
