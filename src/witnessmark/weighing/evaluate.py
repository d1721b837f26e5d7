"""Evaluates a network for a batch of row values, evidence variants and clamps.

Gives joint probabilities of every variable asked about together with the
evidence, and, where wanted, how the logarithm of the total moves with each row.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from witnessmark.reading import ReadingRates
from witnessmark.weighing.contraction import total_and_slopes
from witnessmark.weighing.evidence import (
    SEEN,
    SILENT,
    Channel,
    NumberReading,
    PairChannel,
)
from witnessmark.weighing.evidence_numbers import likelihood_of
from witnessmark.weighing.network import AXIS_STATES, FIXED_TABLES, Network
from witnessmark.weighing.nodes import CharacterSource
from witnessmark.weighing.numbers import NumberItem, number_tensor

Array = NDArray[np.float64]
Index = NDArray[np.intp]


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


def evaluate(
    network: Network, batch: Batch, *, with_evidence: bool, slopes: bool = False
) -> Joints:
    """Sum the network for every case of the batch."""
    priors = [table.values(batch.scale) for table in network.tables[: _n_priors(network)]]
    node_start = FIXED_TABLES + len(network.assemblies)
    channels = network.evidence.channels if with_evidence else []
    seen = [_seen(network, channel, batch) for channel in channels]
    factors = [_clamped(network, batch, k, prior) for k, prior in enumerate(priors[:node_start])]
    whole = []
    for place in range(len(network.nodes)):
        parts = [s for s, c in zip(seen, channels, strict=True) if c.node == place]
        prior = priors[node_start + place]
        whole.append(_node_factor(network, batch, place, prior, parts, with_evidence))
        factors.append(whole[-1] @ network.class_sums[place])
    chosen, groups = network.prior_plan, []
    paired: list[_Paired] = []
    if with_evidence:
        chosen = network.full_plan
        groups = [g.table.values(batch.scale) for g in network.group_factors]
        factors += groups
        factors += [
            _numbers(network, batch, k, item) for k, item in enumerate(network.evidence.items)
        ]
        paired = [_paired(network, pair, batch) for pair in network.evidence.pairs]
        factors += [pair.total for pair in paired]
    total, derivatives = total_and_slopes(chosen, factors)
    total = np.broadcast_to(total, (batch.size,))
    joints = [f * d for f, d in zip(factors, derivatives, strict=True)]
    for place, each in enumerate(whole):
        # Back from classes to states: the derivative is the same for all states of a class.
        joints[node_start + place] = (
            each * derivatives[node_start + place][..., network.nodes[place].classes]
        )
    row_slope = None
    if slopes:
        row_slope = _slopes(network, batch, total, joints, priors, seen, groups, paired)
    return Joints(
        total, _variables(network, joints), joints[node_start:][: len(network.nodes)], row_slope
    )


def _n_priors(network: Network) -> int:
    return FIXED_TABLES + len(network.assemblies) + len(network.nodes)


def _variables(network: Network, joints: list[Array]) -> dict[str, Array]:
    """The joint of every variable asked about, shape (batch, states)."""
    found = {"B": joints[0], "D": joints[1].sum(axis=1), "K": joints[2].sum(axis=(1, 2))}
    for k, assembly in enumerate(network.assemblies):
        found[f"A:{assembly.id}"] = joints[FIXED_TABLES + k].sum(axis=1)
    for place in range(len(network.nodes)):
        joint = joints[FIXED_TABLES + len(network.assemblies) + place]
        found[f"S:{place}"] = joint.sum(axis=tuple(range(1, joint.ndim - 1)))
    return found


def _clamped(network: Network, batch: Batch, k: int, prior: Array) -> Array:
    names = ["B", "D", "K", "C", *(f"A:{a.id}" for a in network.assemblies)]
    clamp = batch.clamps.get(names[k])
    if clamp is None:
        return prior
    return prior * clamp.reshape(clamp.shape[0], *([1] * (prior.ndim - 2)), -1)


@dataclass(frozen=True, slots=True)
class _Seen:
    """A channel at work: outcome distribution, likelihood and their sum over outcomes."""

    channel: Channel
    prior: Array
    likelihood: Array
    total: Array


@dataclass(frozen=True, slots=True)
class _Paired:
    """A channel over two nodes at work; its total is a factor of its own."""

    channel: PairChannel
    prior: Array
    likelihood: Array
    total: Array


def _paired(network: Network, channel: PairChannel, batch: Batch) -> _Paired:
    prior = channel.table.values(batch.scale)
    chosen = np.stack(channel.likelihoods)[_variant(network, channel.slot, batch)]
    likelihood = chosen[:, None, None, :]
    return _Paired(channel, prior, likelihood, (prior * likelihood).sum(axis=-1))


def _variant(network: Network, slot: str, batch: Batch) -> Index:
    given = batch.variants.get(slot)
    if given is not None:
        return given
    return np.array([SEEN if network.evidence.slots[slot].is_seen else SILENT])


def _seen(network: Network, channel: Channel, batch: Batch) -> _Seen:
    prior = channel.table.values(batch.scale)
    variant = _variant(network, channel.slot, batch)
    shaped = [
        like.reshape((1,) * (prior.ndim - 1 - like.ndim) + like.shape)
        for like in channel.likelihoods
    ]
    likelihood = np.stack(shaped)[variant]
    return _Seen(channel, prior, likelihood, (prior * likelihood).sum(axis=-1))


def _spread(part: Array, part_axes: str, axes: str) -> Array:
    """Insert the axes that a part lacks, as size 1, keeping the batch axis first."""
    sizes = dict(zip(part_axes, part.shape[1:], strict=True))
    return part.reshape(part.shape[0], *(sizes.get(axis, 1) for axis in axes))


def _node_factor(
    network: Network, batch: Batch, place: int, prior: Array, seen: list[_Seen], with_evidence: bool
) -> Array:
    factor = network.node_factors[place]
    whole = _spread(prior, factor.table_axes, factor.axes)
    for part in seen:
        whole = whole * _spread(part.total, part.channel.axes, factor.axes)
    reading = network.evidence.readings.get(place) if with_evidence else None
    if reading is not None:
        whole = whole * _spread(_blank(network, reading, place, batch), "S", factor.axes)
    clamp = batch.clamps.get(f"S:{place}")
    if clamp is not None:
        whole = whole * _spread(clamp, "S", factor.axes)
    sizes = {**AXIS_STATES, "S": len(network.nodes[place].states)}
    return np.broadcast_to(whole, (whole.shape[0], *(sizes[axis] for axis in factor.axes)))


def _blank(network: Network, reading: NumberReading, place: int, batch: Batch) -> Array:
    """What a reading says beyond its characters: of a part never numbered, shape (batch, S)."""
    states = network.nodes[place].states
    options = [np.ones(len(states)), np.ones(len(states))]
    blanks = [k for k, s in enumerate(states) if s.source is CharacterSource.BLANK]
    options[1][blanks] = reading.blank_ratio
    for hypothetical in reading.variants:
        option = np.full(len(states), hypothetical.on_struck)
        option[blanks] = hypothetical.on_blank
        options.append(option)
    chosen: Array = np.stack(options)[_variant(network, reading.slot, batch)]
    return chosen


def _numbers(network: Network, batch: Batch, k: int, item: NumberItem) -> Array:
    """The number tensor for every case of the batch; equal cases are computed once."""
    columns = []
    for showing in item.showings:
        reading = network.evidence.readings.get(showing.node)
        columns.append(_variant(network, reading.slot, batch) if reading else np.array([SILENT]))
    columns.append(batch.rates_index if batch.rates_index is not None else np.array([0]))
    length = max(column.size for column in columns)
    table = np.stack([np.broadcast_to(column, (length,)) for column in columns], axis=1)
    distinct, inverse = np.unique(table, axis=0, return_inverse=True)
    tensors = [_tensor(network, batch, item, row) for row in distinct]
    stacked: Array = np.stack(tensors)[inverse.reshape(-1)]
    return stacked


def _tensor(network: Network, batch: Batch, item: NumberItem, row: Index) -> Array:
    likelihoods, hypothetical = [], []
    for showing, variant in zip(item.showings, row[:-1], strict=True):
        reading = network.evidence.readings.get(showing.node)
        likelihood = None
        if reading is not None and variant == SEEN:
            likelihood = _seen_likelihood(network, reading, item, batch.rates[row[-1]])
        elif reading is not None and variant > SEEN:
            likelihood = reading.variants[variant - 2].likelihoods.get(item.id)
        likelihoods.append(np.ones_like(item.chance) if likelihood is None else likelihood)
        hypothetical.append(bool(variant > SEEN))
    return number_tensor(item, likelihoods, hypothetical)


def _seen_likelihood(
    network: Network, reading: NumberReading, item: NumberItem, rates: ReadingRates
) -> Array | None:
    if item.id in reading.vectors:
        return reading.vectors[item.id]
    seen = reading.seen.get(item.id)
    if seen is None:
        return None
    alphabet = network.evidence.alphabets[item.id]
    return likelihood_of(seen, alphabet, reading.struck_by_hand, rates)


def _slopes(
    network: Network,
    batch: Batch,
    total: Array,
    joints: list[Array],
    priors: list[Array],
    seen: list[_Seen],
    groups: list[Array],
    paired: list[_Paired],
) -> Array:
    """d ln total / d ln weight of every row, shape (batch, rows), by expected counts."""
    slope = np.zeros(batch.scale.shape)
    node_start, n_priors = FIXED_TABLES + len(network.assemblies), _n_priors(network)
    tables = network.tables

    def counts(joint: Array) -> Array:
        return joint / total.reshape(-1, *([1] * (joint.ndim - 1)))

    for k in range(node_start):
        tables[k].add_row_slopes(slope, counts(joints[k]), priors[k])
    for place, factor in enumerate(network.node_factors):
        joint = counts(joints[node_start + place])
        own = _folded(joint, factor.axes, factor.table_axes)
        factor.table.add_row_slopes(slope, own, priors[node_start + place])
        for part in seen:
            if part.channel.node == place:
                weight = _folded(joint, factor.axes, part.channel.axes)
                share = part.prior * part.likelihood / part.total[..., None]
                expected = weight[..., None] * share
                part.channel.table.add_row_slopes(slope, expected, part.prior)
    for k, group in enumerate(groups):
        table = network.group_factors[k].table
        table.add_row_slopes(slope, counts(joints[n_priors + k]), group)
    # The factors over two nodes stand last, after the number tensors.
    for pair, joint in zip(paired, joints[len(joints) - len(paired) :], strict=True):
        share = pair.prior * pair.likelihood / pair.total[..., None]
        expected = counts(joint)[..., None] * share
        pair.channel.table.add_row_slopes(slope, expected, pair.prior)
    return slope


def _folded(joint: Array, axes: str, wanted: str) -> Array:
    """Sum a node's joint over the axes that are not wanted."""
    away = tuple(1 + k for k, axis in enumerate(axes) if axis not in wanted)
    folded: Array = joint.sum(axis=away)
    return folded
