"""How numbers are spread: p(t) of a number, as a mixture of blocks.

In a block every place has shares of its own, apart from the others. A run of numbers
is a few blocks with fixed leading figures, so that sums over all numbers of a series
are exact, whatever places are worn.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from witnessmark.weighing.arrays import Array

FIGURES = "0123456789"


@dataclass(frozen=True, slots=True)
class Spread:
    """p(t): `weights` (blocks,) add up to 1, `shares` (blocks, places, alphabet) do for
    every block and place."""

    weights: Array
    shares: Array

    def summed(self, likelihoods: Array) -> Array:
        """sum over t of p(t) times the likelihoods (any, places, alphabet), shape (any,)."""
        places: Array = np.einsum("bpt,spt->sbp", self.shares, likelihoods)
        return places.prod(axis=2) @ self.weights


def of_places(chance: Array) -> Spread:
    """One block: every place apart from the others, from its shares (places, alphabet)."""
    return Spread(np.ones(1), chance[None])


def even(length: int, alphabet: str) -> Spread:
    """Every number alike."""
    return of_places(np.full((length, len(alphabet)), 1.0 / len(alphabet)))


def mixed(parts: list[tuple[float, Spread]]) -> Spread:
    """Several spreads together, each with its weight; the weights add up to 1. Blocks that
    are the same become one."""
    weights = np.concatenate([weight * spread.weights for weight, spread in parts])
    shares = np.concatenate([spread.shares for _, spread in parts])
    places: dict[bytes, int] = {}
    kept = [places.setdefault(block.tobytes(), len(places)) for block in shares]
    first = [kept.index(k) for k in range(len(places))]
    return Spread(np.bincount(kept, weights=weights), shares[first])


def of_run(first: str, last: str, length: int, alphabet: str) -> Spread | None:
    """All numbers from first to last, alike; None where they are no numbers of this kind."""
    low, high = int(first), int(last)
    if low > high or high >= 10**length or any(figure not in alphabet for figure in FIGURES):
        return None
    blocks = list(_blocks(low, high, length))
    shares = np.zeros((len(blocks), length, len(alphabet)))
    for k, (_, ranges) in enumerate(blocks):
        for place, (least, most) in enumerate(ranges):
            figures = [alphabet.index(FIGURES[f]) for f in range(least, most + 1)]
            shares[k, place, figures] = 1.0 / len(figures)
    counts = np.array([count for count, _ in blocks], dtype=np.float64)
    return Spread(counts / counts.sum(), shares)


def _blocks(low: int, high: int, length: int) -> Iterator[tuple[int, list[tuple[int, int]]]]:
    """The run cut into blocks: how many numbers, and each place's least and most figure."""
    while low <= high:
        # The most trailing places that can run freely from here, then the figure before them.
        free = 0
        while free < length and low % 10 ** (free + 1) == 0 and low + 10 ** (free + 1) - 1 <= high:
            free += 1
        unit = 10**free
        figure = low // unit % 10
        steps = min(9 - figure, (high - low + 1) // unit - 1) if free < length else 0
        fixed = f"{low:0{length}d}"
        ranges = [(int(f), int(f)) for f in fixed[: length - free]] + [(0, 9)] * free
        if free < length:
            ranges[length - free - 1] = (figure, figure + steps)
        count = unit * (steps + 1)
        yield count, ranges
        low += count
