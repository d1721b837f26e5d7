"""Exact sums over a network: a planned contraction and its backward pass.

The plan is found once for each structure with opt_einsum and kept. The forward
pass gives the sum over all states of the product of all factors; the backward
pass gives its derivative with respect to every factor, and factor times
derivative is the joint probability of that factor's variables with the
evidence. Every factor has a leading batch axis of size 1 or `batch`.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import opt_einsum
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Step:
    """One pairwise product: the places of its operands in the growing list, and subscripts."""

    operands: tuple[int, ...]
    inputs: tuple[str, ...]
    output: str


@dataclass(frozen=True, slots=True)
class Plan:
    """The order in which factors are multiplied and summed."""

    subscripts: tuple[str, ...]
    steps: tuple[_Step, ...]


@lru_cache(maxsize=256)
def plan(subscripts: tuple[str, ...], sizes: tuple[tuple[str, int], ...]) -> Plan:
    """Find the order for factors with these subscripts; `sizes` gives each letter's states."""
    size_of = dict(sizes)
    shapes = [tuple(size_of[letter] for letter in term) for term in subscripts]
    path, _ = opt_einsum.contract_path(
        ",".join(subscripts) + "->", *shapes, shapes=True, optimize="greedy"
    )
    # `live` holds places in the growing list of tensors, in opt_einsum's order.
    live = list(range(len(subscripts)))
    terms = list(subscripts)
    steps = []
    for contracted in path:
        places = tuple(live[i] for i in sorted(contracted, reverse=True))
        for i in sorted(contracted, reverse=True):
            del live[i]
        kept = {letter for place in live for letter in terms[place]}
        inputs = tuple(terms[place] for place in places)
        output = "".join(sorted({c for term in inputs for c in term} & kept))
        steps.append(_Step(places, inputs, output))
        live.append(len(terms))
        terms.append(output)
    return Plan(subscripts, tuple(steps))


def total(contraction: Plan, factors: list[Array]) -> Array:
    """The sum over all states of the product of all factors, shape `(batch,)`."""
    tensors = _forward(contraction, factors)
    return tensors[-1].reshape(-1)


def total_and_slopes(contraction: Plan, factors: list[Array]) -> tuple[Array, list[Array]]:
    """The sum, and its derivative with respect to every factor: shape `(batch, *states)`.

    A factor times its derivative is the joint of its variables and sums to the total.
    """
    tensors = _forward(contraction, factors)
    gradients: list[Array | None] = [None] * len(tensors)
    gradients[-1] = np.ones_like(tensors[-1])
    for number in range(len(contraction.steps) - 1, -1, -1):
        step = contraction.steps[number]
        upper = gradients[len(factors) + number]
        assert upper is not None
        for k, place in enumerate(step.operands):
            others = [(step.inputs[j], tensors[p]) for j, p in enumerate(step.operands) if j != k]
            gradients[place] = _derivative(step, k, upper, others, tensors[place])
        gradients[len(factors) + number] = None
    slopes = [gradient for gradient in gradients[: len(factors)] if gradient is not None]
    return tensors[-1].reshape(-1), slopes


def _forward(contraction: Plan, factors: list[Array]) -> list[Array]:
    tensors = list(factors)
    for step in contraction.steps:
        left = ",".join("..." + term for term in step.inputs)
        operands = [tensors[place] for place in step.operands]
        tensors.append(np.einsum(f"{left}->...{step.output}", *operands))
    return tensors


def _derivative(
    step: _Step, k: int, upper: Array, others: list[tuple[str, Array]], own: Array
) -> Array:
    """The derivative of the sum with respect to operand `k` of one step."""
    target = step.inputs[k]
    known = set(step.output).union(*(term for term, _ in others)) if others else set(step.output)
    inside = "".join(letter for letter in target if letter in known)
    terms = ["..." + step.output, *("..." + term for term, _ in others)]
    gradient: Array = np.einsum(",".join(terms) + "->..." + inside, upper, *(t for _, t in others))
    if inside == target:
        return gradient
    # A variable that only this operand had: its derivative is the same in every state.
    shape = [gradient.shape[0]] + [
        own.shape[1 + i] if letter in known else 1 for i, letter in enumerate(target)
    ]
    return np.broadcast_to(gradient.reshape(shape), (gradient.shape[0], *own.shape[1:]))
