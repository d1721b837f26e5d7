"""The factor over the numbers: how probable the readings of one item are for
every allocation of its marks to cars.

The marks that show the claimed car's record form one group, those that show one
donor's record another, the rest stand alone. For every place of a group

    sum over t of  p(t) * product over marks of P(read at this place | t)

with p(t) clamped to the claimed number, or from the book's series, or uniform.
Everything is divided by the probability of each mark standing alone, so that a
mark that says nothing gives exactly 1.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

CLAIMED = "claimed car"
ALONE = "alone"
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

    `chance[place, t]` is p(t); `claimed[place]` the place of the claimed
    character in the alphabet, or None where the claim does not state the item.
    """

    id: str
    showings: tuple[Showing, ...]
    chance: Array
    claimed: NDArray[np.intp] | None


def number_tensor(item: NumberItem, likelihoods: list[Array], is_hypothetical: list[bool]) -> Array:
    """The factor, one axis for each showing over its groups.

    `likelihoods[m][place, t]` is P(read | t) of showing m, all ones where it does
    not reach. A hypothetical showing is not divided by its standing alone, so
    that the tensors of all its outcomes add up.
    """
    count = len(item.showings)
    stack = np.stack(likelihoods)
    log_alone = _log_alone(item.chance, stack)
    log_open = _log_subsets(item.chance, stack)
    log_claimed = log_open if item.claimed is None else _log_clamped(item.claimed, stack)
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
        exponent += (log_claimed if group == CLAIMED else log_open)[mask]
    tensor: Array = np.exp(exponent).reshape(sizes)
    return tensor


def _log_alone(chance: Array, stack: Array) -> Array:
    """log P(reading of one mark | a number nobody else shows), shape (marks,)."""
    logs: Array = np.log((chance[None] * stack).sum(axis=2)).sum(axis=1)
    return logs


def _log_subsets(chance: Array, stack: Array) -> Array:
    """log P(readings of a group | one open number) for every subset, shape (2**marks,)."""
    products = chance[None]
    for likelihood in stack:
        products = np.concatenate([products, products * likelihood[None]])
    logs: Array = np.log(products.sum(axis=2)).sum(axis=1)
    # Subsets were appended with the newest mark as the highest bit.
    return logs


def _log_clamped(claimed: NDArray[np.intp], stack: Array) -> Array:
    """log P(readings of a group | the claimed number) for every subset, shape (2**marks,)."""
    single = np.log(stack[:, np.arange(claimed.size), claimed]).sum(axis=1)
    logs = np.zeros(1)
    for value in single:
        logs = np.concatenate([logs, logs + value])
    return logs
