"""Evaluates a network for a batch of row values, evidence variants and clamps.

Gives joint probabilities of every variable asked about together with the
evidence, and, where wanted, how the logarithm of the total moves with each row.
Inside this module every array has the batch axis last, of size 1 where all
cases are alike: see contraction.py.
"""

from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from witnessmark.reading import ReadingRates
from witnessmark.weighing.contraction import batch_first, batch_last, total_and_slopes
from witnessmark.weighing.evidence import SEEN, SILENT
from witnessmark.weighing.network import FIXED_TABLES, Network
from witnessmark.weighing.stack import TableStack

Array = NDArray[np.float64]
Index = NDArray[np.intp]


MOST_NUMBERS = 4_000_000
"""Numbers of eight bytes that one tensor of a batch may hold."""


@dataclass(frozen=True, slots=True)
class Batch:
    """What varies: `scale` (batch, rows) multiplies weights, `variants` gives for a
    slot its variant per case of the batch (1, or 0 for a slot not seen, where not
    given), `clamps` for a variable a factor (batch, states), `rates` the reading
    rates per case."""

    scale: Array
    rates: tuple[ReadingRates, ...]
    variants: dict[str, Index] = field(default_factory=dict)
    clamps: dict[str, Array] = field(default_factory=dict)
    rates_index: Index | None = None

    @property
    def size(self) -> int:
        """Number of cases in the batch."""
        return int(self.scale.shape[0])

    def part(self, first: int, after: int) -> "Batch":
        """The cases from `first` to before `after`; what is alike for all stays whole."""
        here = slice(first, after)

        def cut(values: dict[str, Array] | dict[str, Index]) -> dict[str, Any]:
            return {k: v if v.shape[0] == 1 else v[here] for k, v in values.items()}

        index = None if self.rates_index is None else self.rates_index[here]
        return Batch(self.scale[here], self.rates, cut(self.variants), cut(self.clamps), index)

    @property
    def distinct_scale(self) -> Array:
        """The scale, or its first row alone where all rows are the same."""
        is_same = bool((self.scale == self.scale[:1]).all())
        return self.scale[:1] if is_same else self.scale


@dataclass(frozen=True, slots=True)
class Joints:
    """Joint probabilities with the evidence, per case of the batch.

    `total` (batch,); `variables[name]` (batch, states); `nodes[place]` the whole
    factor's joint (batch, *axes); `row_slope` d ln total / d ln weight (batch, rows).
    """

    total: Array
    variables: dict[str, Array]
    nodes: list[Array]
    row_slope: Array | None


@dataclass(frozen=True, slots=True)
class _Channelled:
    """Evidence at work: outcome distribution, likelihood and their sum over outcomes."""

    prior: Array
    likelihood: Array
    total: Array


@dataclass(frozen=True, slots=True)
class _Parts:
    """What a batch is made of.

    `values` are all distributions of `stack`, `factors` what is contracted, `whole`
    the factors of the nodes over their states and not only their classes.
    """

    stack: TableStack
    values: Array
    factors: list[Array]
    whole: list[Array]
    channels: list[_Channelled]
    pairs: list[_Channelled]


def evaluate(
    network: Network, batch: Batch, *, with_evidence: bool, slopes: bool = False
) -> Joints:
    """Sum the network for every case of the batch; of a wide network not all cases at once."""
    widest = (network.full_plan if with_evidence else network.prior_plan).widest
    at_once = max(1, MOST_NUMBERS // widest)
    if batch.size <= at_once:
        return _evaluate(network, batch, with_evidence=with_evidence, slopes=slopes)
    summed = [
        _evaluate(
            network,
            batch.part(first, first + at_once),
            with_evidence=with_evidence,
            slopes=slopes,
        )
        for first in range(0, batch.size, at_once)
    ]
    return _joined(summed)


def _joined(summed: list[Joints]) -> Joints:
    """The joints of the parts of a batch, one after the other."""
    slopes = [each.row_slope for each in summed if each.row_slope is not None]
    return Joints(
        np.concatenate([each.total for each in summed]),
        {
            name: np.concatenate([each.variables[name] for each in summed])
            for name in summed[0].variables
        },
        [np.concatenate(nodes) for nodes in zip(*(each.nodes for each in summed), strict=True)],
        np.concatenate(slopes) if slopes else None,
    )


def _evaluate(network: Network, batch: Batch, *, with_evidence: bool, slopes: bool) -> Joints:
    """Sum the network for all cases of the batch at once."""
    parts = _parts_with_evidence(network, batch) if with_evidence else _parts(network, batch)
    chosen = network.full_plan if with_evidence else network.prior_plan
    # Without slopes nobody asks for the joints of the evidence.
    wanted = None if slopes else network.n_priors
    factors = [batch_first(factor) for factor in parts.factors]
    summed, derivatives = total_and_slopes(chosen, factors, wanted)
    total = np.broadcast_to(summed, (batch.size,))
    found = [batch_last(derivative) for derivative in derivatives]
    joints = [f * d for f, d in zip(parts.factors, found, strict=False)]
    for place, whole in enumerate(parts.whole):
        # Back from classes to states: the derivative is the same for all states of a class.
        by_state = found[network.first_node + place].take(network.nodes[place].classes, axis=-2)
        joints[network.first_node + place] = whole * by_state
    row_slope = _row_slopes(network, batch, parts, joints, total) if slopes else None
    nodes = joints[network.first_node : network.n_priors]
    variables = _variables(network, joints)
    return Joints(
        total,
        {name: _per_case(joint, batch) for name, joint in variables.items()},
        [_per_case(joint, batch) for joint in nodes],
        row_slope,
    )


def _per_case(joint: Array, batch: Batch) -> Array:
    """The joint for every case, the batch axis first."""
    if joint.shape[-1] == batch.size:
        return batch_first(joint)
    return batch_first(np.broadcast_to(joint, (*joint.shape[:-1], batch.size)))


def _variables(network: Network, joints: list[Array]) -> dict[str, Array]:
    """The joint of every variable asked about, shape (states, batch)."""
    found = {"B": joints[0], "D": joints[1].sum(axis=0), "K": joints[2].sum(axis=(0, 1))}
    for k, assembly in enumerate(network.assemblies):
        found[f"A:{assembly.id}"] = joints[FIXED_TABLES + k].sum(axis=(0, 1))
    for place in range(len(network.nodes)):
        joint = joints[network.first_node + place]
        found[f"S:{place}"] = joint.sum(axis=tuple(range(joint.ndim - 2)))
    return found


def _parts(network: Network, batch: Batch) -> _Parts:
    """The factors without evidence."""
    stack = network.prior_stack
    values = stack.values(batch.distinct_scale)
    tables = stack.split(values)
    factors = _clamped(network, batch, tables)
    whole = [
        _node_factor(network, batch, place, tables[network.first_node + place], [])
        for place in range(len(network.nodes))
    ]
    return _Parts(stack, values, factors + _in_classes(network, whole), whole, [], [])


def _parts_with_evidence(network: Network, batch: Batch) -> _Parts:
    """The factors with evidence: priors and nodes, groups, number tensors, pairs of nodes."""
    evidence, stack = network.evidence, network.stack
    values = stack.values(batch.distinct_scale)
    tables = stack.split(values)
    after_groups = network.n_priors + len(network.group_factors) + len(network.series_tables)
    after_channels = after_groups + len(evidence.channels)
    channels = [
        _channelled(table, options[..., _variant(network, channel.slot, batch)])
        for channel, table, options in zip(
            evidence.channels,
            tables[after_groups:after_channels],
            network.channel_options,
            strict=True,
        )
    ]
    pairs = [
        _channelled(table, options[:, _variant(network, pair.slot, batch)])
        for pair, table, options in zip(
            evidence.pairs, tables[after_channels:], network.pair_options, strict=True
        )
    ]
    whole = []
    for place in range(len(network.nodes)):
        spread = [
            _spread(each.total, channel.axes, network.node_factors[place].axes)
            for channel, each in zip(evidence.channels, channels, strict=True)
            if channel.node == place
        ]
        spread += _beyond_characters(network, batch, place)
        prior = tables[network.first_node + place]
        whole.append(_node_factor(network, batch, place, prior, spread))
    factors = [
        *_clamped(network, batch, tables),
        *_in_classes(network, whole),
        *tables[network.n_priors : after_groups],
        *(_numbers(network, batch, k) for k in range(len(evidence.items))),
        *(pair.total for pair in pairs),
    ]
    return _Parts(stack, values, factors, whole, channels, pairs)


def _clamped(network: Network, batch: Batch, tables: list[Array]) -> list[Array]:
    """The tables before those of the nodes, each times the clamp of its variable."""
    names = ["B", "D", "K", "C", "R", "W", *(f"A:{a.id}" for a in network.assemblies)]
    clamps = [batch.clamps.get(name) for name in names]
    return [
        prior if clamp is None else prior * clamp.T
        for prior, clamp in zip(tables[: len(names)], clamps, strict=True)
    ]


def _channelled(prior: Array, likelihood: Array) -> _Channelled:
    return _Channelled(prior, likelihood, (prior * likelihood).sum(axis=-2))


def _variant(network: Network, slot: str, batch: Batch) -> Index:
    given = batch.variants.get(slot)
    if given is not None:
        return given
    return np.array([SEEN if network.evidence.slots[slot].is_seen else SILENT])


@lru_cache(maxsize=256)
def _inserting(part_axes: str, axes: str) -> tuple[slice | None, ...]:
    """The index that inserts the axes that a part lacks, as size 1; the batch axis stays last."""
    return (*(slice(None) if axis in part_axes else None for axis in axes), slice(None))


def _spread(part: Array, part_axes: str, axes: str) -> Array:
    return part[_inserting(part_axes, axes)]


def _node_factor(
    network: Network, batch: Batch, place: int, prior: Array, spread: list[Array]
) -> Array:
    """One node's table times what was seen of it, over all its axes."""
    factor = network.node_factors[place]
    whole = _spread(prior, factor.table_axes, factor.axes)
    for part in spread:
        whole = whole * part
    clamp = batch.clamps.get(f"S:{place}")
    if clamp is not None:
        whole = whole * _spread(clamp.T, "S", factor.axes)
    sizes = {**network.axis_states, "S": len(network.nodes[place].states)}
    shape = (*(sizes[axis] for axis in factor.axes), whole.shape[-1])
    return whole if whole.shape == shape else np.broadcast_to(whole, shape)


def _in_classes(network: Network, whole: list[Array]) -> list[Array]:
    """The factors of the nodes with their states summed into classes."""
    return [sums @ each for sums, each in zip(network.class_sums, whole, strict=True)]


def _beyond_characters(network: Network, batch: Batch, place: int) -> list[Array]:
    """What a reading says beyond its characters: of a part never numbered."""
    options = network.blank_options.get(place)
    if options is None:
        return []
    slot = network.evidence.readings[place].slot
    chosen = options[:, _variant(network, slot, batch)]
    return [_spread(chosen, "S", network.node_factors[place].axes)]


def _numbers(network: Network, batch: Batch, k: int) -> Array:
    """The number tensor of one item."""
    variants = []
    for showing in network.evidence.items[k].showings:
        reading = network.evidence.readings.get(showing.node)
        variants.append(_variant(network, reading.slot, batch) if reading else np.array([SILENT]))
    return network.number_factors.factor(k, variants, batch.rates, batch.rates_index)


def _row_slopes(
    network: Network, batch: Batch, parts: _Parts, joints: list[Array], total: Array
) -> Array:
    """d ln total / d ln weight of every row, shape (batch, rows), by expected counts."""
    first, after = network.first_node, network.n_priors
    counts = [joint / total for joint in joints]
    expected = counts[:first]
    for place, factor in enumerate(network.node_factors):
        expected.append(_folded(counts[first + place], factor.axes, factor.table_axes))
    if parts.stack is network.prior_stack:
        return parts.stack.row_slopes(parts.values, expected, batch.scale)
    expected += counts[after : after + len(network.group_factors) + len(network.series_tables)]
    for channel, each in zip(network.evidence.channels, parts.channels, strict=True):
        axes = network.node_factors[channel.node].axes
        weight = _folded(counts[first + channel.node], axes, channel.axes)
        expected.append(_over_outcomes(each, weight))
    # The factors over two nodes stand last, after the number tensors.
    for each, weight in zip(parts.pairs, counts[len(counts) - len(parts.pairs) :], strict=True):
        expected.append(_over_outcomes(each, weight))
    return parts.stack.row_slopes(parts.values, expected, batch.scale)


def _over_outcomes(each: _Channelled, weight: Array) -> Array:
    """Expected counts of every outcome of a channel, from those of its parents."""
    shares = each.prior * each.likelihood / each.total[..., None, :]
    return weight[..., None, :] * shares


def _folded(joint: Array, axes: str, wanted: str) -> Array:
    """Sum a node's joint over the axes that are not wanted."""
    folded: Array = joint.sum(axis=tuple(k for k, axis in enumerate(axes) if axis not in wanted))
    return folded
