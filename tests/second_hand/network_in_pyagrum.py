"""A network of the weighing in pyAgrum, a general-purpose library of Bayesian networks.

`build` makes the same network from its tables: every variable with its table,
every look, code, date and rule as an outcome noted with doubt, every factor
over the numbers as a binary child that is seen to be true. `posteriors` asks
the library for all that the weighing asks for.

    bn, evidence = build(calculator.network)
    posteriors(calculator.network, bn, evidence)["B"]

Evidence is always given in full by one `setEvidence`: changing it piece by
piece in a running engine is not reliable in 3.3.1.
"""

import warnings

import numpy as np
from numpy.typing import NDArray

from witnessmark.reading import MOVABLE_ROWS, ReadingRates, rates_with, shipped_rates
from witnessmark.weighing.evidence import SEEN, NumberReading
from witnessmark.weighing.network import Network
from witnessmark.weighing.nodes import CharacterSource
from witnessmark.weighing.numbers import NumberItem, number_tensor

with warnings.catch_warnings():
    # Its compiled types lack what newer interpreters ask of them; nothing of ours.
    warnings.simplefilter("ignore", DeprecationWarning)
    import pyagrum as gum

Array = NDArray[np.float64]
Evidence = dict[str, list[float]]
"""Variable to the likelihood of each of its states."""

STATES = {"B": 2, "D": 3, "K": 2, "R": 2, "W": 2}


def build(network: Network, scale_row: Array | None = None) -> tuple[gum.BayesNet, Evidence]:
    """The network with its evidence.

    `scale_row` (rows,) multiplies the weight of every assumed row; None leaves
    all as they are. Raises ValueError if pyAgrum finds a table that is none.
    """
    scale = np.ones(len(network.values.rows)) if scale_row is None else scale_row
    bn = gum.BayesNet("case")
    evidence: Evidence = {}
    _add_fixed(bn, network, scale)
    _add_nodes(bn, network, scale)
    _add_seen(bn, evidence, network, scale)
    _add_numbers(bn, evidence, network, scale)
    faults = bn.check()
    if faults:
        raise ValueError("; ".join(faults))
    return bn, evidence


def without_numbers(network: Network) -> gum.BayesNet:
    """The network before anything was seen: no evidence, no factors over the numbers."""
    bn = gum.BayesNet("prior")
    scale = np.ones(len(network.values.rows))
    _add_fixed(bn, network, scale)
    _add_nodes(bn, network, scale)
    return bn


def asked_of(network: Network) -> list[str]:
    """The variables whose posteriors the weighing gives."""
    assemblies = [f"A:{assembly.id}" for assembly in network.assemblies]
    return ["B", "D", "K", *assemblies, *(f"S:{place}" for place in range(len(network.nodes)))]


def posteriors(network: Network, bn: gum.BayesNet, evidence: Evidence) -> dict[str, Array]:
    """P(state | evidence) of every variable asked about, by lazy propagation."""
    engine = gum.LazyPropagation(bn)
    engine.setEvidence(evidence)
    engine.makeInference()
    return {name: np.array(engine.posterior(name).toarray()) for name in asked_of(network)}


def rates_of(network: Network, scale_row: Array) -> ReadingRates:
    """The rates of reading of a network's rows: overridden, then moved in odds."""
    rates = shipped_rates()
    for row, factor in zip(network.values.rows, scale_row.tolist(), strict=True):
        if row.id in MOVABLE_ROWS:
            odds = row.value / (1.0 - row.value) * factor
            rates = rates_with(rates, row.id, odds / (1.0 + odds))
    return rates


def _variable(bn: gum.BayesNet, name: str, states: int) -> None:
    bn.add(gum.RangeVariable(name, name, 0, states - 1))


def _fill(bn: gum.BayesNet, name: str, parents: list[str], table: Array) -> None:
    """Set P(name | parents): the table's axes are the parents in order, then the variable."""
    for parent in parents:
        bn.addArc(parent, name)
    axes = [*parents, name]
    # pyAgrum's axes run the other way round than its list of names.
    order = [axes.index(each) for each in reversed(bn.cpt(name).names)]
    bn.cpt(name)[:] = np.ascontiguousarray(table.transpose(order), dtype=np.float64)


def _shares(base: Array, rows: NDArray[np.intp], scale: Array) -> Array:
    """The distributions of a table: weights over their sum, a row's weight scaled."""
    weights = base * np.where(rows >= 0, scale[rows], 1.0)
    shares: Array = weights / weights.sum(axis=-1, keepdims=True)
    return shares


def _add_fixed(bn: gum.BayesNet, network: Network, scale: Array) -> None:
    tables = {
        "B": ([], network.bearer_table),
        "D": (["B"], network.deceit_table),
        "K": (["B", "D"], network.configuration_table),
        "C": (["K"], network.showing_table),
        "R": ([], network.worked_table),
        "W": (["B"], network.whole_table),
    }
    for name, (parents, table) in tables.items():
        _variable(bn, name, {**STATES, "C": network.showing_table.shape[1]}[name])
        _fill(bn, name, parents, _shares(table.base, table.row_index, scale))
    for assembly, table in zip(network.assemblies, network.assembly_tables, strict=True):
        name = f"A:{assembly.id}"
        _variable(bn, name, 2)
        _fill(bn, name, ["W", "D"], _shares(table.base, table.row_index, scale))


def _parents(network: Network, place: int, axes: str) -> list[str]:
    """The variables that a node's axes stand for."""
    home = network.nodes[place].assembly
    own = "B" if home == network.bearer.id else f"A:{home}"
    return [{"A": own, "S": f"S:{place}"}.get(axis, axis) for axis in axes]


def _add_nodes(bn: gum.BayesNet, network: Network, scale: Array) -> None:
    for place, factor in enumerate(network.node_factors):
        name = f"S:{place}"
        _variable(bn, name, len(network.nodes[place].states))
        parents = _parents(network, place, factor.table_axes)[:-1]
        _fill(bn, name, parents, _shares(factor.table.base, factor.table.row_index, scale))


def _add_seen(bn: gum.BayesNet, evidence: Evidence, network: Network, scale: Array) -> None:
    """An outcome for every channel, noted with doubt; and what a blank part shows."""
    for k, channel in enumerate(network.evidence.channels):
        if not network.evidence.slots[channel.slot].is_seen:
            continue
        name = f"E:{k}"
        _variable(bn, name, channel.table.shape[-1])
        parents = _parents(network, channel.node, channel.axes)
        table = _shares(channel.table.base, channel.table.row_index, scale)
        _fill(bn, name, parents, table)
        evidence[name] = channel.likelihoods[SEEN].tolist()
    for k, pair in enumerate(network.evidence.pairs):
        if not network.evidence.slots[pair.slot].is_seen:
            continue
        name = f"P:{k}"
        _variable(bn, name, pair.table.shape[-1])
        first, second = (list(network.nodes[place].classes) for place in pair.nodes)
        by_class = _shares(pair.table.base, pair.table.row_index, scale)
        parents = [f"S:{place}" for place in pair.nodes]
        _fill(bn, name, parents, by_class[np.ix_(first, second)])
        evidence[name] = pair.likelihoods[SEEN].tolist()
    for place, reading in network.evidence.readings.items():
        if network.evidence.slots[reading.slot].is_seen:
            sources = [state.source for state in network.nodes[place].states]
            evidence[f"S:{place}"] = [
                reading.blank_ratio if source is CharacterSource.BLANK else 1.0
                for source in sources
            ]


def _add_numbers(bn: gum.BayesNet, evidence: Evidence, network: Network, scale: Array) -> None:
    for factor in network.group_factors:
        name, place = f"G:{factor.node}:{factor.item}", factor.node
        by_class = _shares(factor.table.base, factor.table.row_index, scale)
        table = by_class[list(network.nodes[place].classes)]
        _variable(bn, name, table.shape[-1])
        _fill(bn, name, [f"S:{place}", *([factor.home] if factor.home else [])], table)
    rates = rates_of(network, scale)
    for k, table in network.series_tables.items():
        _variable(bn, f"Q:{k}", 2)
        _fill(bn, f"Q:{k}", [], _shares(table.base, table.row_index, scale))
    for k, item in enumerate(network.evidence.items):
        name = f"N:{k}"
        tensor = _tensor(network, item, rates)
        true = tensor / tensor.max()
        _variable(bn, name, 2)
        parents = [f"G:{showing.node}:{k}" for showing in item.showings]
        parents += [f"Q:{k}"] if item.follows_series else []
        _fill(bn, name, parents, np.stack([1.0 - true, true], axis=-1))
        evidence[name] = [0.0, 1.0]


def _tensor(network: Network, item: NumberItem, rates: ReadingRates) -> Array:
    likelihoods = []
    for showing in item.showings:
        reading = network.evidence.readings.get(showing.node)
        read = _read(network, reading, item, rates) if reading else None
        likelihoods.append(np.ones(item.shape) if read is None else read)
    return number_tensor(item, likelihoods, [False] * len(likelihoods))


def _read(
    network: Network, reading: NumberReading, item: NumberItem, rates: ReadingRates
) -> Array | None:
    """P(what was read of one item | character), or None where nothing was read of it."""
    if not network.evidence.slots[reading.slot].is_seen:
        return None
    if item.id in reading.vectors:
        return reading.vectors[item.id]
    if item.id not in reading.seen:
        return None
    return reading.seen[item.id].likelihood(rates)
