"""The network of one case: its variables, factors and plan, ready to be evaluated in batches.

Variables: B bearer, D deceit, K built as claimed, C which code differs, R whether the
car was worked over, W whether another car stands whole under the bearer, one A
for every other assembly, one S for every node, one G for every node and number
item (which car's record it shows), one Q for every item whose book gives series (does
the car's own number follow them). A batch varies the assumed rows, the variants
of the evidence slots and clamps on the variables asked about.
"""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import opt_einsum
from numpy.typing import NDArray

from witnessmark.codebook.records import Assembly
from witnessmark.weighing.contraction import Plan, plan
from witnessmark.weighing.evidence import SEEN, Evidence
from witnessmark.weighing.evidence_numbers import donor_of
from witnessmark.weighing.nodes import CharacterSource, Node, NodeKind
from witnessmark.weighing.number_factors import NumberFactors
from witnessmark.weighing.numbers import ALONE, CLAIMED, NumberItem
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.rows import RowValues, Table
from witnessmark.weighing.stack import TableStack

Array = NDArray[np.float64]

AXIS_STATES = {"B": 2, "D": 3, "K": 2, "A": 2, "Q": 2, "R": 2, "W": 2}
FIXED_TABLES = 6
"""Tables before those of the assemblies: bearer, deceit, built as claimed, which code differs,
worked over, another car whole."""


@dataclass(frozen=True, slots=True)
class NodeFactor:
    """The factor of one node. `axes` are its axis names in order, ending in "S"."""

    table: Table
    table_axes: str
    axes: str


@dataclass(frozen=True, slots=True)
class GroupFactor:
    """P(which car's record a node shows for one item | its class[, the home assembly])."""

    node: int
    item: int
    table: Table
    home: str


@dataclass(frozen=True)
class Network:
    """The tables and evidence of one case."""

    values: RowValues
    bearer: Assembly
    assemblies: tuple[Assembly, ...]
    nodes: tuple[Node, ...]
    evidence: Evidence
    bearer_table: Table
    deceit_table: Table
    configuration_table: Table
    showing_table: Table
    worked_table: Table
    whole_table: Table
    assembly_tables: tuple[Table, ...]
    node_factors: tuple[NodeFactor, ...]
    group_factors: tuple[GroupFactor, ...]
    series_tables: dict[int, Table]
    letters: dict[str, str] = field(default_factory=dict)

    def letter(self, name: str) -> str:
        """The einsum letter of a variable."""
        return self.letters.setdefault(name, opt_einsum.get_symbol(len(self.letters)))

    @cached_property
    def axis_states(self) -> dict[str, int]:
        """How many states the variables have by their first letter, but for S and G."""
        return {**AXIS_STATES, "C": self.showing_table.shape[1]}

    def assembly_axis(self, assembly: str) -> str:
        """The variable that says whether an assembly is the car's own."""
        return "B" if assembly == self.bearer.id else f"A:{assembly}"

    def node_subscript(self, place: int) -> str:
        """The subscript of a node's factor."""
        factor, node = self.node_factors[place], self.nodes[place]
        names = {"A": self.assembly_axis(node.assembly), "S": f"S:{place}"}
        return "".join(self.letter(names.get(axis, axis)) for axis in factor.axes)

    @cached_property
    def class_sums(self) -> tuple[Array, ...]:
        """For every node the matrix that sums states into classes, shape (classes, states)."""
        return tuple(np.eye(max(node.classes) + 1)[:, list(node.classes)] for node in self.nodes)

    @cached_property
    def channel_options(self) -> tuple[Array, ...]:
        """For every channel its likelihoods, shape (*parents or 1, outcomes, variants)."""
        found = []
        for channel in self.evidence.channels:
            missing = [(1,) * (channel.table.base.ndim - like.ndim) for like in channel.likelihoods]
            shapes = zip(missing, channel.likelihoods, strict=True)
            shaped = [like.reshape(ones + like.shape) for ones, like in shapes]
            found.append(np.stack(shaped, axis=-1))
        return tuple(found)

    @cached_property
    def pair_options(self) -> tuple[Array, ...]:
        """For every pair channel its likelihoods, shape (outcomes, variants)."""
        return tuple(np.stack(pair.likelihoods, axis=-1) for pair in self.evidence.pairs)

    @cached_property
    def blank_options(self) -> dict[int, Array]:
        """What a node's reading says beyond its characters, shape (states, variants)."""
        found = {}
        for place, reading in self.evidence.readings.items():
            states = self.nodes[place].states
            blanks = [k for k, s in enumerate(states) if s.source is CharacterSource.BLANK]
            options = np.ones((len(states), 2 + len(reading.variants)))
            options[blanks, SEEN] = reading.blank_ratio
            for k, hypothetical in enumerate(reading.variants, start=2):
                options[:, k] = hypothetical.on_struck
                options[blanks, k] = hypothetical.on_blank
            found[place] = options
        return found

    @cached_property
    def number_factors(self) -> NumberFactors:
        """The number tensors, kept from batch to batch."""
        return NumberFactors(self.evidence)

    @property
    def first_node(self) -> int:
        """The place of the first node among the factors."""
        return FIXED_TABLES + len(self.assemblies)

    @property
    def n_priors(self) -> int:
        """Number of factors that stand without evidence too."""
        return self.first_node + len(self.nodes)

    @cached_property
    def stack(self) -> TableStack:
        """All tables, laid end to end."""
        return TableStack(self.tables)

    @cached_property
    def prior_stack(self) -> TableStack:
        """The tables that stand without evidence, laid end to end."""
        return TableStack(self.tables[: self.n_priors])

    @cached_property
    def tables(self) -> tuple[Table, ...]:
        """Every table, in the order of the factors that use them."""
        return (
            self.bearer_table,
            self.deceit_table,
            self.configuration_table,
            self.showing_table,
            self.worked_table,
            self.whole_table,
            *self.assembly_tables,
            *(factor.table for factor in self.node_factors),
            *(factor.table for factor in self.group_factors),
            *self.series_tables.values(),
            *(channel.table for channel in self.evidence.channels),
            *(pair.table for pair in self.evidence.pairs),
        )

    @cached_property
    def touched(self) -> tuple[int, ...]:
        """The rows that any table of this network uses, in order."""
        found: set[int] = set()
        for table in self.tables:
            found |= table.touched()
        return tuple(sorted(found))

    @cached_property
    def prior_subscripts(self) -> tuple[str, ...]:
        """Subscripts of the factors without evidence."""
        b, d, k, c, r, w = (self.letter(name) for name in "BDKCRW")
        assemblies = (w + d + self.letter(f"A:{a.id}") for a in self.assemblies)
        nodes = (self.node_subscript(place) for place in range(len(self.nodes)))
        return (b, b + d, b + d + k, k + c, r, b + w, *assemblies, *nodes)

    @cached_property
    def number_subscripts(self) -> tuple[str, ...]:
        """Subscripts of the group factors, of the series, and after them of the number tensors."""
        groups = []
        for factor in self.group_factors:
            home = self.letter(factor.home) if factor.home else ""
            state = self.letter(f"S:{factor.node}")
            groups.append(state + home + self.letter(f"G:{factor.node}:{factor.item}"))
        series = [self.letter(f"Q:{k}") for k in self.series_tables]
        tensors = [
            "".join(self.letter(f"G:{showing.node}:{k}") for showing in item.showings)
            + (self.letter(f"Q:{k}") if item.follows_series else "")
            for k, item in enumerate(self.evidence.items)
        ]
        return (*groups, *series, *tensors)

    @cached_property
    def pair_subscripts(self) -> tuple[str, ...]:
        """Subscripts of the factors over two nodes."""
        return tuple(
            self.letter(f"S:{pair.nodes[0]}") + self.letter(f"S:{pair.nodes[1]}")
            for pair in self.evidence.pairs
        )

    @cached_property
    def prior_plan(self) -> Plan:
        """The plan without evidence."""
        return self._plan(self.prior_subscripts)

    @cached_property
    def full_plan(self) -> Plan:
        """The plan with evidence."""
        subscripts = self.prior_subscripts + self.number_subscripts + self.pair_subscripts
        return self._plan(subscripts)

    def _plan(self, subscripts: tuple[str, ...]) -> Plan:
        sizes: dict[str, int] = {}
        for name, letter in self.letters.items():
            kind = name.split(":")[0]
            if kind in self.axis_states:
                sizes[letter] = self.axis_states[kind]
            elif kind == "S":
                sizes[letter] = max(self.nodes[int(name[2:])].classes) + 1
            else:
                _, node, item = name.split(":")
                showings = self.evidence.items[int(item)].showings
                sizes[letter] = next(len(s.groups) for s in showings if s.node == int(node))
        used = {letter for term in subscripts for letter in term}
        return plan(subscripts, tuple(sorted((k, v) for k, v in sizes.items() if k in used)))


def build_network(
    values: RowValues,
    maker: TableMaker,
    bearer: Assembly,
    assemblies: tuple[Assembly, ...],
    nodes: tuple[Node, ...],
    evidence: Evidence,
) -> Network:
    """The network of these nodes and this evidence."""
    node_factors = []
    for place, node in enumerate(nodes):
        table_axes = {
            NodeKind.BEARER_MARK: "BDS",
            NodeKind.ASSEMBLY_MARK: "ADS",
            NodeKind.PLATE: "BDCS",
            NodeKind.PAPER: "DS",
        }[node.kind]
        wanted = set(table_axes)
        for channel in evidence.channels:
            if channel.node == place:
                wanted |= set(channel.axes)
        axes = "".join(axis for axis in "BADCRS" if axis in wanted)
        node_factors.append(NodeFactor(maker.node(node), table_axes, axes))
    groups = tuple(
        GroupFactor(
            showing.node, k, *_group_table(maker, nodes, item, showing.node, bearer.id, evidence)
        )
        for k, item in enumerate(evidence.items)
        for showing in item.showings
    )
    return Network(
        values,
        bearer,
        assemblies,
        nodes,
        evidence,
        maker.bearer(),
        maker.deceit(),
        maker.configuration(),
        maker.showing(),
        maker.worked_over(),
        maker.another_whole(),
        tuple(maker.assembly(a.kind) for a in assemblies),
        tuple(node_factors),
        groups,
        {k: maker.series() for k, item in enumerate(evidence.items) if item.follows_series},
    )


def _group_table(
    maker: TableMaker,
    nodes: tuple[Node, ...],
    item: NumberItem,
    place: int,
    bearer: str,
    evidence: Evidence,
) -> tuple[Table, str]:
    """The table of one node and item, and the variable of the item's home ("" if claimed)."""
    showing = next(s for s in item.showings if s.node == place)
    node, groups = nodes[place], showing.groups
    homes = [g for g in groups if g not in (CLAIMED, ALONE)]
    own_donor = donor_of(node.assembly if node.kind is not NodeKind.PLATE else bearer)
    # The home's donor stands last; it may be the node's own donor as well.
    home_group = homes[-1] if homes else ""
    home_assembly = home_group.removeprefix(donor_of(""))
    claimed = item.claimed is not None
    count = max(node.classes) + 1
    table = Table((count, len(groups)) if claimed else (count, 2, len(groups)))
    last = len(groups) - 1
    for state, node_state in zip(node.classes, node.states, strict=True):
        wheres = [(state,)] if claimed else [(state, 0), (state, 1)]
        for where in wheres:
            if node_state.source is CharacterSource.OWN:
                table.put_certain(where, 0)
            elif node_state.source is CharacterSource.DONOR:
                table.put_certain(where, groups.index(own_donor))
            elif node_state.source is not CharacterSource.MADE:
                table.put_certain(where, last)
            elif claimed:
                maker.put(table, where, {0: "made.knows_claimed"}, last)
            else:
                _put_made(maker, table, where, groups.index(home_group), last)
    home = "" if claimed else ("B" if home_assembly == bearer else f"A:{home_assembly}")
    return table, home


def _put_made(
    maker: TableMaker, table: Table, where: tuple[int, ...], home: int, last: int
) -> None:
    """A mark made later shows the true record, or what the car's own part bears, or neither.

    Where that part is the car's own, copying it gives the true record too.
    """
    if where[1] == 1:
        maker.put(table, where, {0: "made.knows_open", home: "made.copies"}, last)
        return
    # Both ways lead to the same record: what is left over is the invented share.
    maker.put(table, where, {0: "made.knows_open"}, last)
    known, copied = (maker.rows[maker.index[r]].value for r in ("made.knows_open", "made.copies"))
    table.base[(*where, 0)] = known + copied
    table.base[(*where, last)] = max(1.0 - known - copied, 1e-6)
