"""The planned contraction is the plain sum over all states, and its slopes are true slopes."""

from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from tests.examples import tried_on
from witnessmark.weighing.contraction import plan, total, total_and_slopes

Array = NDArray[np.float64]

LETTERS = "abcdefg"


@dataclass(frozen=True)
class Graph:
    """A factor graph: subscript and array of every factor, the states of each letter."""

    subscripts: tuple[str, ...]
    factors: tuple[Array, ...]
    sizes: dict[str, int]
    batch: int

    def of_case(self, case: int) -> list[Array]:
        """The factors of one case of the batch, without the batch axis."""
        return [f[case if f.shape[0] > 1 else 0] for f in self.factors]


@st.composite
def graphs(draw: st.DrawFn) -> Graph:
    """Up to 7 variables of 1 to 3 states and up to 8 factors over at most 4 of them.

    A factor has a batch axis of its own or one that is broadcast; every letter
    stands in some factor.
    """
    letters = LETTERS[: draw(st.integers(1, 7))]
    sizes = {letter: draw(st.integers(1, 3)) for letter in letters}
    scopes = draw(
        st.lists(
            st.lists(st.sampled_from(letters), max_size=4, unique=True), min_size=1, max_size=8
        )
    )
    missing = [letter for letter in letters if not any(letter in scope for scope in scopes)]
    scopes += [[letter] for letter in missing]
    batch = draw(st.integers(1, 3))
    rng = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    factors = []
    for scope in scopes:
        lead = batch if draw(st.booleans()) else 1
        values = rng.uniform(0.05, 1.0, (lead, *(sizes[letter] for letter in scope)))
        # Tables have zeros: states that cannot be together.
        factors.append(values * (rng.uniform(size=values.shape) > 0.1))
    return Graph(tuple("".join(scope) for scope in scopes), tuple(factors), sizes, batch)


def planned(graph: Graph):
    used = {letter for term in graph.subscripts for letter in term}
    return plan(graph.subscripts, tuple(sorted((k, graph.sizes[k]) for k in used)))


def summed(graph: Graph, factors: list[Array]) -> float:
    """The sum over all states, one state after the other."""
    letters = list(graph.sizes)
    found = 0.0
    for states in product(*(range(graph.sizes[letter]) for letter in letters)):
        at = dict(zip(letters, states, strict=True))
        found += prod(
            float(factor[tuple(at[letter] for letter in term)])
            for term, factor in zip(graph.subscripts, factors, strict=True)
        )
    return found


@given(graphs())
@tried_on(60)
def test_the_total_is_the_sum_over_all_states(graph):
    """Against plain enumeration, for every case of a batch whose factors are broadcast."""
    found = np.broadcast_to(total(planned(graph), list(graph.factors)), (graph.batch,))
    wanted = [summed(graph, graph.of_case(case)) for case in range(graph.batch)]
    assert found == pytest.approx(wanted, rel=1e-12, abs=1e-300)


@given(graphs())
@tried_on(60)
def test_the_total_is_what_einsum_gives(graph):
    """Against one einsum over all factors at once."""
    for case in range(graph.batch):
        wanted = np.einsum(",".join(graph.subscripts) + "->", *graph.of_case(case))
        found = total(planned(graph), list(graph.factors))
        assert float(found[min(case, found.size - 1)]) == pytest.approx(float(wanted), rel=1e-12)


@given(graphs())
@tried_on(60)
def test_factor_times_slope_is_the_joint_of_its_variables(graph):
    """Every entry against enumeration with all other states of that factor taken away."""
    found, slopes = total_and_slopes(planned(graph), list(graph.factors))
    for k, (factor, slope) in enumerate(zip(graph.factors, slopes, strict=True)):
        joint = np.broadcast_to(factor * slope, (graph.batch, *factor.shape[1:]))
        assert joint.reshape(graph.batch, -1).sum(axis=1) == pytest.approx(
            np.broadcast_to(found, (graph.batch,)), rel=1e-12, abs=1e-300
        )
        for case in range(graph.batch):
            factors = graph.of_case(case)
            for state in np.ndindex(*factor.shape[1:]):
                only = np.zeros(factor.shape[1:])
                only[state] = factors[k][state]
                wanted = summed(graph, [*factors[:k], only, *factors[k + 1 :]])
                assert joint[(case, *state)] == pytest.approx(wanted, rel=1e-11, abs=1e-300)


@given(graphs(), st.data())
@tried_on(60)
def test_slopes_are_finite_differences(graph, data):
    """The sum is linear in every entry, so a difference of any width gives its slope."""
    k = data.draw(st.integers(0, len(graph.factors) - 1))
    shape = graph.factors[k].shape
    entry = tuple(data.draw(st.integers(0, size - 1)) for size in shape)
    steps = planned(graph)
    _, slopes = total_and_slopes(steps, list(graph.factors))
    moved = [f.copy() for f in graph.factors]
    moved[k][entry] += 0.5
    ends = [
        np.broadcast_to(total(steps, list(factors)), (graph.batch,))
        for factors in (graph.factors, moved)
    ]
    difference = (ends[1] - ends[0]) / 0.5
    slope = np.broadcast_to(slopes[k], (graph.batch, *shape[1:]))
    for case in range(graph.batch):
        if shape[0] == 1 or case == entry[0]:
            assert slope[(case, *entry[1:])] == pytest.approx(
                difference[case], rel=1e-9, abs=1e-9 * max(1.0, float(ends[0][case]))
            )
        else:
            assert difference[case] == pytest.approx(0.0, abs=1e-12)


def test_a_letter_that_only_one_factor_has_gives_every_state_the_same_slope():
    """Summed away at once, it still gets its share on the way back."""
    steps = plan(("ab", "b"), (("a", 3), ("b", 2)))
    lone, other = np.arange(1.0, 7.0).reshape(1, 3, 2), np.array([[2.0, 5.0]])
    found, slopes = total_and_slopes(steps, [lone, other])
    assert found == pytest.approx([(1 + 3 + 5) * 2.0 + (2 + 4 + 6) * 5.0])
    assert slopes[0].tolist() == [[[2.0, 5.0]] * 3]
    assert slopes[1].tolist() == [[9.0, 12.0]]
