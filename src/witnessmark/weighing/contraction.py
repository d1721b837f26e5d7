"""Exact sums over a network: a planned contraction and its backward pass.

The plan is found once for each structure with opt_einsum and kept. The forward
pass gives the sum over all states of the product of all factors; the backward
pass gives its derivative with respect to every factor, and factor times
derivative is the joint probability of that factor's variables with the
evidence. Every factor has a leading batch axis of size 1 or `batch`.

Inside, the batch axis stands last: the innermost loop then runs over the cases
and not over the two to seven states of a variable, which is about ten times
faster. Factors that lie so in memory are not copied.
"""

import random
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import prod
from string import ascii_letters
from typing import Any

import numpy as np
import opt_einsum
from numpy.typing import NDArray

Array = NDArray[np.float64]
Pair = tuple[int, ...]

DEAR = 30_000
"""Operations for one case from which on it pays to look for a better order."""
TRIALS = 6


def _plain(subscripts: str) -> str:
    """The same subscripts in a to z and A to Z: a network may have more variables than
    there are such letters, one product has few, and NumPy knows no others."""
    names: dict[str, str] = {}
    return "".join(
        sign if sign in ",.->" else names.setdefault(sign, ascii_letters[len(names)])
        for sign in subscripts
    )


@dataclass(frozen=True)
class _Step:
    """One product: the places of its operands in the growing list, and subscripts."""

    operands: tuple[int, ...]
    inputs: tuple[str, ...]
    output: str

    @cached_property
    def product(self) -> str:
        """The subscripts of the product, the batch axis last."""
        return _plain(",".join(term + "..." for term in self.inputs) + f"->{self.output}...")

    @cached_property
    def derivatives(self) -> tuple["_Derivative", ...]:
        """How the derivative comes back to each operand."""
        found = []
        for k, target in enumerate(self.inputs):
            others = tuple(j for j in range(len(self.inputs)) if j != k)
            terms = (self.output, *(self.inputs[j] for j in others))
            known = set("".join(terms))
            inside = "".join(letter for letter in target if letter in known)
            subscripts = _plain(",".join(term + "..." for term in terms) + f"->{inside}...")
            spread = tuple(letter in known for letter in target)
            places = tuple(self.operands[j] for j in others)
            found.append(_Derivative(self.operands[k], places, subscripts, spread))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class _Derivative:
    """The derivative with respect to the operand at `place`, from the step's own and `others`.

    `spread` tells for every axis of the operand whether the product knows it; a
    variable that only this operand has gives the same derivative in every state.
    """

    place: int
    others: tuple[int, ...]
    subscripts: str
    spread: tuple[bool, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """The order in which factors are multiplied and summed; `cost` in products of one case,
    `widest` the most numbers that one tensor of one case holds."""

    subscripts: tuple[str, ...]
    steps: tuple[_Step, ...]
    cost: int = 0
    widest: int = 1


@lru_cache(maxsize=256)
def plan(subscripts: tuple[str, ...], sizes: tuple[tuple[str, int], ...]) -> Plan:
    """Find the order for factors with these subscripts; `sizes` gives each letter's states."""
    size_of = dict(sizes)
    shapes = [tuple(size_of[letter] for letter in term) for term in subscripts]
    path = _order(",".join(subscripts) + "->", shapes)
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
    cost = sum(prod(size_of[c] for c in set("".join(step.inputs))) for step in steps)
    widest = max((prod(size_of[c] for c in term) for term in terms), default=1)
    return Plan(subscripts, tuple(steps), cost, widest)


def _order(subscripts: str, shapes: list[tuple[int, ...]]) -> list[Pair]:
    """The pairs to multiply, in order; where the plain greedy order is dear, the best of a few.

    The search sees numbers for letters: sets of letters have another order in every
    interpreter, and with it ties would break, and sums round, in another way.
    """
    terms = subscripts.removesuffix("->").split(",")
    inputs = [frozenset(map(ord, term)) for term in terms]
    sizes = {
        ord(c): n
        for t, shape in zip(terms, shapes, strict=True)
        for c, n in zip(t, shape, strict=True)
    }
    path = _found(opt_einsum.paths.greedy, inputs, sizes)
    cost = _cost_of(path, subscripts, shapes)
    if cost > DEAR:
        # Its trials seed Python's generator by their number: the same order every time.
        state = random.getstate()
        trials = opt_einsum.RandomGreedy(max_repeats=TRIALS, temperature=0.3)
        other = _found(trials, inputs, sizes)
        random.setstate(state)
        path = other if _cost_of(other, subscripts, shapes) < cost else path
    return path


def _found(search: Any, inputs: list[frozenset[int]], sizes: dict[int, int]) -> list[Pair]:
    """The order that a search of opt_einsum finds; it takes any names for the axes."""
    return [tuple(pair) for pair in search(inputs, frozenset(), sizes)]


def _cost_of(path: list[Pair], subscripts: str, shapes: list[tuple[int, ...]]) -> float:
    _, found = opt_einsum.contract_path(subscripts, *shapes, shapes=True, optimize=path)
    return float(found.opt_cost)


def batch_last(array: Array) -> Array:
    """The same array seen with its first axis, the batch, last."""
    return array.transpose(*range(1, array.ndim), 0)


def batch_first(array: Array) -> Array:
    """The same array seen with its last axis, the batch, first."""
    return array.transpose(array.ndim - 1, *range(array.ndim - 1))


def total(contraction: Plan, factors: list[Array]) -> Array:
    """The sum over all states of the product of all factors, shape `(batch,)`."""
    return _forward(contraction, factors)[-1].reshape(-1)


def total_and_slopes(
    contraction: Plan, factors: list[Array], wanted: int | None = None
) -> tuple[Array, list[Array]]:
    """The sum, and its derivative with respect to every factor: shape `(batch, *states)`.

    A factor times its derivative is the joint of its variables and sums to the
    total. With `wanted` only the first so many derivatives are found.
    """
    count = len(factors) if wanted is None else wanted
    tensors = _forward(contraction, factors)
    gradients: list[Array | None] = [None] * len(tensors)
    gradients[-1] = np.ones_like(tensors[-1])
    leads = _leading_to(contraction, count)
    for number in range(len(contraction.steps) - 1, -1, -1):
        upper = gradients[len(factors) + number]
        gradients[len(factors) + number] = None
        if upper is None:
            continue
        for each in contraction.steps[number].derivatives:
            if each.place in leads:
                gradients[each.place] = _derivative(each, upper, tensors)
    slopes = [gradient for gradient in gradients[:count] if gradient is not None]
    return tensors[-1].reshape(-1), [batch_first(slope) for slope in slopes]


def _forward(contraction: Plan, factors: list[Array]) -> list[Array]:
    tensors = [np.ascontiguousarray(batch_last(factor)) for factor in factors]
    for step in contraction.steps:
        tensors.append(np.einsum(step.product, *(tensors[place] for place in step.operands)))
    return tensors


@lru_cache(maxsize=256)
def _leading_to(contraction: Plan, count: int) -> frozenset[int]:
    """The places of the tensors that any of the first `count` factors is part of."""
    found = set(range(count))
    for number, step in enumerate(contraction.steps):
        if found.intersection(step.operands):
            found.add(len(contraction.subscripts) + number)
    return frozenset(found)


def _derivative(each: _Derivative, upper: Array, tensors: list[Array]) -> Array:
    """The derivative of the sum with respect to one operand of one step."""
    gradient: Array = np.einsum(each.subscripts, upper, *(tensors[p] for p in each.others))
    if all(each.spread):
        return gradient
    own = tensors[each.place]
    sizes = [own.shape[i] if known else 1 for i, known in enumerate(each.spread)]
    shaped = gradient.reshape(*sizes, gradient.shape[-1])
    return np.broadcast_to(shaped, (*own.shape[:-1], gradient.shape[-1]))
