"""A network in which only a few assumed rows may move, so that every vertex can be tried."""

from dataclasses import replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from tests.weighing.tiny import Prepared
from witnessmark.reading import MOVABLE_ROWS
from witnessmark.weighing.bounds import Bounded, bounds_of
from witnessmark.weighing.calculator import Calculator, ClampPair
from witnessmark.weighing.conclude import clamp_pairs
from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.questions import Asked, log10_ratio, log10_ratio_against
from witnessmark.weighing.rows import FACTOR, RowValues, Table

Array = NDArray[np.float64]


def with_rows(ready: Prepared, free: tuple[str, ...]) -> Prepared:
    """The same car with every row but these held still. Its tables are its own: `ready` is
    not to be used again."""
    network = ready.calculator.network
    index = network.values.index()
    kept = [index[row] for row in free]
    for table in network.tables:
        hold_still(table, kept)
    # Rates of reading stand last and in no table: those not free are left out of the values.
    rows = tuple(r for r in network.values.rows if r.id not in MOVABLE_ROWS or r.id in free)
    held = replace(network, values=RowValues(rows, network.values.overridden), letters={})
    return replace(ready, calculator=Calculator(held, ready.calculator.rates))


def hold_still(table: Table, kept: list[int]) -> None:
    """Take every row but these out of a table: its probabilities stay as they are."""
    table.row_index[~np.isin(table.row_index, kept)] = -1


def measured(ready: Prepared):
    """ln LR of every pair from joints: the questions, then the splits, as in conclude.py."""
    network = ready.calculator.network

    def measure(evidence: Joints, prior: Joints) -> Array:
        found = [log10_ratio(evidence, prior, asked) for asked in ready.asked]
        for asked in split_of(ready):
            for made in (False, True):
                found.append(log10_ratio_against(evidence, prior, asked, network, made))
        stacked: Array = np.stack(found, axis=1) * np.log(10.0)
        return stacked

    return measure


def split_of(ready: Prepared) -> list[Asked]:
    """The questions about assemblies that have a split."""
    return [asked for asked in ready.asked if asked.split_node is not None]


def pairs_of(ready: Prepared) -> list[ClampPair]:
    """The pairs of propositions of every question and split."""
    return clamp_pairs(ready.asked, ready.calculator)


def bounded(ready: Prepared) -> Bounded:
    """What the weighing says of the bounds."""
    return bounds_of(ready.calculator, pairs_of(ready), measured(ready))


def ln_lrs(ready: Prepared, scale: Array) -> Array:
    """ln LR of every pair under every scale, shape (batch, pairs), plainly evaluated."""
    measure = measured(ready)
    parts = [
        measure(ready.calculator.run(part), ready.calculator.prior(part))
        for part in np.array_split(scale, max(1, len(scale) // 500))
    ]
    return np.concatenate(parts)


def corners(ready: Prepared, free: tuple[str, ...], levels: tuple[float, ...]) -> Array:
    """Every combination of levels (powers of the factor) of the free rows, as scales."""
    index = ready.calculator.network.values.index()
    columns = [index[row] for row in free]
    every = np.array(list(product(levels, repeat=len(free))))
    scale = ready.calculator.ones(len(every))
    scale[:, columns] = FACTOR**every
    return scale
