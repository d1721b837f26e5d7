"""The factor over the numbers: how probable the readings of one item are for
every allocation of its marks to cars.

The marks that show the claimed car's record form one group, those that show one
donor's record another, the rest stand alone. For every place of a group

    sum over t of  p(t) * product over marks of P(read at this place | t)

with p(t) clamped to the claimed number, or spread over the book's series, or even.
The claimed car's own record follows the series of its year and model, unless it is
out of them: that is one variable for each item. Everything is divided by the
probability of each mark standing alone, so that a mark that says nothing gives exactly 1.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.weighing.spread import Spread

Array = NDArray[np.float64]

CLAIMED = "claimed car"
ALONE = "alone"
TINY = 1e-300
MARKS_PER_ITEM = 12
"""Most marks bearing one item that are summed exactly."""


@dataclass(frozen=True, slots=True)
class Showing:
    """One node that shows an item; `groups` are the cars it may show, in state order."""

    node: int
    groups: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NumberItem:
    """An item borne by several nodes.

    `spread` is p(t) of any car's number; `own` that of the claimed car's where its year
    and model have series of their own, else None. `claimed[place]` is the place of the
    claimed character in the alphabet, or None where the claim does not state the item.
    """

    id: str
    showings: tuple[Showing, ...]
    spread: Spread
    claimed: NDArray[np.intp] | None
    own: Spread | None = None

    @property
    def follows_series(self) -> bool:
        """Has the factor a last axis: the car's own number in its series, or out of them?"""
        return self.own is not None and self.claimed is None

    @property
    def shape(self) -> tuple[int, int]:
        """Places and characters of the number."""
        return self.spread.shares.shape[1], self.spread.shares.shape[2]


def number_tensor(item: NumberItem, likelihoods: list[Array], is_hypothetical: list[bool]) -> Array:
    """The factor, one axis for each showing over its groups; of an item that follows the
    series of its car a last axis more, in them and out of them.

    `likelihoods[m][place, t]` is P(read | t) of showing m, all ones where it does
    not reach. A hypothetical showing is not divided by its standing alone, so
    that the tensors of all its outcomes add up.
    """
    stack = np.stack(likelihoods)
    log_alone = np.log(np.maximum(item.spread.summed(stack), TINY))
    products = _products(stack)
    log_open = np.log(np.maximum(item.spread.summed(products), TINY))
    if item.claimed is not None:
        return _allocated(
            item, is_hypothetical, log_alone, log_open, _log_clamped(item.claimed, stack)
        )
    out_of_series = _allocated(item, is_hypothetical, log_alone, log_open, log_open)
    if item.own is None:
        return out_of_series
    log_own = np.log(np.maximum(item.own.summed(products), TINY))
    in_series = _allocated(item, is_hypothetical, log_alone, log_open, log_own)
    return np.stack([in_series, out_of_series], axis=-1)


def _allocated(
    item: NumberItem, is_hypothetical: list[bool], log_alone: Array, log_open: Array, log_car: Array
) -> Array:
    """The factor for every allocation, from the logarithms of every subset of marks."""
    count = len(item.showings)
    sizes = tuple(len(showing.groups) for showing in item.showings)
    choice = np.indices(sizes).reshape(count, -1)
    exponent = np.zeros(choice.shape[1])
    masks: dict[str, NDArray[np.intp]] = {}
    for m, showing in enumerate(item.showings):
        if not is_hypothetical[m]:
            exponent -= log_alone[m]
        for g, group in enumerate(showing.groups):
            here = choice[m] == g
            if group == ALONE:
                exponent[here] += log_alone[m]
            else:
                mask = masks.setdefault(group, np.zeros(choice.shape[1], dtype=np.intp))
                mask[here] |= 1 << m
    for group, mask in masks.items():
        exponent += (log_car if group == CLAIMED else log_open)[mask]
    tensor: Array = np.exp(exponent).reshape(sizes)
    return tensor


def _products(stack: Array) -> Array:
    """The product over the marks of every subset, shape (2**marks, places, alphabet)."""
    products = np.ones((1, *stack.shape[1:]))
    for likelihood in stack:
        # Subsets are appended with the newest mark as the highest bit.
        products = np.concatenate([products, products * likelihood[None]])
    return products


def _log_clamped(claimed: NDArray[np.intp], stack: Array) -> Array:
    """log P(readings of a group | the claimed number) for every subset, shape (2**marks,)."""
    single = np.log(stack[:, np.arange(claimed.size), claimed]).sum(axis=1)
    logs = np.zeros(1)
    for value in single:
        logs = np.concatenate([logs, logs + value])
    return logs
