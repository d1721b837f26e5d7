"""A network summed the slow way: every state of every variable, every number, one by one.

Written from the tables and the words of docs/weighing.md alone. Nothing here
calls the contraction, the number tensors or the tables that couple a node to
the car whose record it shows.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from math import log10, prod

from witnessmark.agreement.records import CarMarks
from witnessmark.reading import ReadingRates, place_likelihood
from witnessmark.weighing.evidence import SEEN, SILENT, NumberReading
from witnessmark.weighing.network import Network
from witnessmark.weighing.nodes import CharacterSource, Node, NodeKind
from witnessmark.weighing.numbers import ALONE, NumberItem
from witnessmark.weighing.questions import Asked
from witnessmark.weighing.rows import Table
from witnessmark.weighing.spread import Spread

States = tuple[int, ...]
"""The state of every node."""
Chances = dict[str, float]
"""Whose record is shown ("car", "donor of …", "" for nobody else's): how probable."""


@dataclass
class Sums:
    """Joint probabilities with the evidence: variable to state to sum.

    `split[place][assembly state][node state]` is the joint of a node and its assembly.
    """

    total: float = 0.0
    variables: dict[str, dict[int, float]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(float))
    )
    split: dict[int, dict[tuple[int, int], float]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(float))
    )


@dataclass(frozen=True)
class SlowNetwork:
    """A network, its car and reading rates, to be summed by hand."""

    car: CarMarks
    network: Network
    rates: ReadingRates

    def sums(self, *, with_evidence: bool) -> Sums:
        """Every joint probability, with or without what was seen."""
        found = Sums()
        numbers = [self._numbers_factor(items) for items in self._items()]

        @cache
        def seen_together(states: States, bearer_own: bool, own: tuple[bool, ...]) -> float:
            several = prod(each(states, bearer_own, own) for each in numbers)
            return several * self._seen_of_pairs(states)

        for above in self._above():
            chance = self._chance_above(above)
            if chance == 0.0:
                continue
            per_node = [
                self._node_chances(place, above, with_evidence)
                for place in range(len(self.network.nodes))
            ]
            own = tuple(above[f"A:{a.id}"] == 0 for a in self.network.assemblies)
            below = {
                states: chance
                * nodes_chance
                * (seen_together(states, above["B"] == 0, own) if with_evidence else 1.0)
                for states, nodes_chance in _weighted(per_node)
            }
            self._add(found, above, below)
        return found

    def _add(self, found: Sums, above: dict[str, int], below: dict[States, float]) -> None:
        """One joint state of the variables above, with all those of the nodes below it."""
        chance = sum(below.values())
        found.total += chance
        for name, state in above.items():
            found.variables[name][state] += chance
        for place, node in enumerate(self.network.nodes):
            of_node: dict[int, float] = defaultdict(float)
            for states, part in below.items():
                of_node[states[place]] += part
            for state, part in of_node.items():
                found.variables[f"S:{place}"][state] += part
                found.split[place][above[self._assembly_of(node)], state] += part

    def _above(self) -> Iterator[dict[str, int]]:
        """Every joint state of the variables above the nodes."""
        assemblies = [f"A:{a.id}" for a in self.network.assemblies]
        configurations = range(self.network.showing_table.shape[1])
        states = (range(2), range(3), range(2), configurations, range(2), range(2))
        for b, d, k, c, r, w in product(*states):
            for own in product(range(2), repeat=len(assemblies)):
                above = {"B": b, "D": d, "K": k, "C": c, "R": r, "W": w}
                yield above | dict(zip(assemblies, own, strict=True))

    def _chance_above(self, above: dict[str, int]) -> float:
        net, at = self.network, above
        chance = share(net.bearer_table, at["B"]) * share(net.deceit_table, at["B"], at["D"])
        chance *= share(net.configuration_table, at["B"], at["D"], at["K"])
        chance *= share(net.showing_table, at["K"], at["C"])
        chance *= share(net.worked_table, at["R"]) * share(net.whole_table, at["B"], at["W"])
        for assembly, table in zip(net.assemblies, net.assembly_tables, strict=True):
            chance *= share(table, at["W"], at["D"], at[f"A:{assembly.id}"])
        return chance

    def _assembly_of(self, node: Node) -> str:
        return "B" if node.assembly == self.network.bearer.id else f"A:{node.assembly}"

    def _node_chances(
        self, place: int, above: dict[str, int], with_evidence: bool
    ) -> list[tuple[int, float]]:
        """P(state | above), times what was seen of this node alone."""
        node, factor = self.network.nodes[place], self.network.node_factors[place]
        found = []
        for s, state in enumerate(node.states):
            at = above | {"S": s, "A": above[self._assembly_of(node)]}
            chance = share(factor.table, *(at[axis] for axis in factor.table_axes))
            if with_evidence and chance:
                chance *= self._seen_of(place, at)
                reading = self.network.evidence.readings.get(place)
                if reading and self._is_seen(reading) and state.source is CharacterSource.BLANK:
                    chance *= reading.blank_ratio
            if chance:
                found.append((s, chance))
        return found

    def _seen_of(self, place: int, at: dict[str, int]) -> float:
        """What the channels of one node saw: an outcome is drawn, then noted with doubt."""
        seen = 1.0
        for channel in self.network.evidence.channels:
            if channel.node == place:
                is_seen = self.network.evidence.slots[channel.slot].is_seen
                noted = channel.likelihoods[SEEN if is_seen else SILENT]
                where = [at[axis] for axis in channel.axes]
                outcomes = range(channel.table.shape[-1])
                seen *= sum(share(channel.table, *where, o) * float(noted[o]) for o in outcomes)
        return seen

    def _seen_of_pairs(self, states: States) -> float:
        """What two nodes say together: the rules that their codes keep or break."""
        seen = 1.0
        for pair in self.network.evidence.pairs:
            is_seen = self.network.evidence.slots[pair.slot].is_seen
            noted = pair.likelihoods[SEEN if is_seen else SILENT]
            where = [self.network.nodes[place].classes[states[place]] for place in pair.nodes]
            outcomes = range(pair.table.shape[-1])
            seen *= sum(share(pair.table, *where, o) * float(noted[o]) for o in outcomes)
        return seen

    def _is_seen(self, reading: NumberReading) -> bool:
        return self.network.evidence.slots[reading.slot].is_seen

    def _items(self) -> list[tuple[NumberItem, ...]]:
        """The items; a number that the claim gives is one item, however it was cut up."""
        whole: dict[str, list[NumberItem]] = defaultdict(list)
        for k, item in enumerate(self.network.evidence.items):
            is_number = item.id in self.network.evidence.alphabets
            whole[item.id if is_number else f"{item.id} {k}"].append(item)
        return [tuple(parts) for parts in whole.values()]

    def _numbers_factor(self, parts: tuple[NumberItem, ...]):
        """P(all that was read of one item | states) over each mark standing alone."""
        item = parts[0]
        places = [showing.node for part in parts for showing in part.showings]
        length, size = item.shape
        if size**length > 5000:
            raise ValueError("too many numbers to count one by one")
        numbers = list(product(range(size), repeat=length))
        chance = spread_counted(item.spread, numbers)
        of_the_car = chance
        if item.follows_series:
            out, series = self._row("series.out"), spread_counted(item.own, numbers)
            of_the_car = {n: out * chance[n] + (1.0 - out) * series[n] for n in numbers}
        read = {place: self._read(place, item, numbers) for place in places}
        alone = {p: sum(chance[n] * read[p][n] for n in numbers) for p in places}
        claimed = None if item.claimed is None else tuple(int(t) for t in item.claimed)

        def of_cars(cars: tuple[str, ...]) -> float:
            found = 1.0
            for car in set(cars):
                marks = [p for p, shown in zip(places, cars, strict=True) if shown == car]
                if car == "":
                    found *= prod(alone[p] for p in marks)
                elif car == "car" and claimed is not None:
                    found *= prod(read[p][claimed] for p in marks)
                elif car == "car":
                    found *= sum(of_the_car[n] * prod(read[p][n] for p in marks) for n in numbers)
                else:
                    found *= sum(chance[n] * prod(read[p][n] for p in marks) for n in numbers)
            return found / prod(alone.values())

        of_cars = cache(of_cars)

        def factor(states: States, bearer_own: bool, own: tuple[bool, ...]) -> float:
            home = self._home(item, bearer_own, own)
            shown = [self._shows(p, states[p], item, home) for p in places]
            return sum(
                prod(chance for _, chance in choice) * of_cars(tuple(car for car, _ in choice))
                for choice in product(*(each.items() for each in shown))
            )

        return factor

    def _home(self, item: NumberItem, bearer_own: bool, own: tuple[bool, ...]) -> str:
        """Whose record the assembly bears that this item belongs to."""
        of_book = self.car.book.item(item.id)
        assemblies = [a.id for a in self.network.assemblies]
        if of_book is not None and of_book.home in assemblies:
            is_own = own[assemblies.index(of_book.home)]
            return "car" if is_own else f"donor of the {of_book.home}"
        return "car" if bearer_own else f"donor of the {self.network.bearer.id}"

    def _shows(self, place: int, state: int, item: NumberItem, home: str) -> Chances:
        """Section 2: the number that each character source shows."""
        node = self.network.nodes[place]
        source = node.states[state].source
        # A claimed code is weighed against the claim elsewhere; only donors couple here.
        coupled_only = item.claimed is not None and item.showings[0].groups[0] == ALONE
        if source is CharacterSource.DONOR:
            of = self.network.bearer.id if node.kind is NodeKind.PLATE else node.assembly
            return {f"donor of the {of}": 1.0}
        if coupled_only or source in (CharacterSource.OTHER, CharacterSource.BLANK):
            return {"": 1.0}
        if source is CharacterSource.OWN:
            return {"car": 1.0}
        if item.claimed is not None:
            knows = self._row("made.knows_claimed")
            return {"car": knows, "": 1.0 - knows}
        knows, copies = self._row("made.knows_open"), self._row("made.copies")
        shown = {"car": knows, home: copies}
        if home == "car":
            shown = {"car": knows + copies}
        return shown | {"": 1.0 - knows - copies}

    def _row(self, row: str) -> float:
        return next(r.value for r in self.network.values.rows if r.id == row)

    def _read(
        self, place: int, item: NumberItem, numbers: list[tuple[int, ...]]
    ) -> dict[tuple[int, ...], float]:
        """P(what was read of this item on this node | each number)."""
        reading = self.network.evidence.readings.get(place)
        if reading is None or not self._is_seen(reading):
            return dict.fromkeys(numbers, 1.0)
        if item.id in reading.vectors:
            return {n: float(reading.vectors[item.id][0][n[0]]) for n in numbers}
        if item.id not in reading.seen:
            return dict.fromkeys(numbers, 1.0)
        alphabet = self.network.evidence.alphabets.get(item.id, "")
        at_place = [
            [
                place_likelihood(p.seen, alphabet, reading.struck_by_hand, self.rates)
                for _, p in each
            ]
            for each in reading.seen[item.id].places
        ]
        return {
            n: prod(row[t] for rows, t in zip(at_place, n, strict=True) for row in rows)
            for n in numbers
        }


def share(table: Table, *entry: int) -> float:
    """One probability of a table: its weight over all weights of its distribution."""
    row = table.base[entry[:-1]]
    return float(row[entry[-1]] / row.sum())


def _weighted(per_node: list[list[tuple[int, float]]]) -> Iterator[tuple[States, float]]:
    """Every joint state of the nodes with the product of its chances."""
    if not per_node:
        yield (), 1.0
        return
    for states, chance in _weighted(per_node[:-1]):
        for state, own in per_node[-1]:
            yield (*states, state), chance * own


def log10_lr(evidence: Sums, prior: Sums, asked: Asked) -> float:
    """Posterior odds over prior odds of one question."""

    def log10_odds(sums: Sums) -> float:
        joint = sums.variables[asked.variable]
        yes = sum(chance for state, chance in joint.items() if asked.true[state])
        no = sum(chance for state, chance in joint.items() if not asked.true[state])
        return log10(yes) - log10(no)

    return log10_odds(evidence) - log10_odds(prior)


def log10_lr_split(
    evidence: Sums, prior: Sums, asked: Asked, network: Network, made: bool
) -> float:
    """Own against not own and struck later (`made`), or not own and not struck later."""
    place = asked.split_node
    assert place is not None

    def log10_odds(sums: Sums) -> float:
        no = sum(
            chance
            for (own, state), chance in sums.split[place].items()
            if own == 1
            and (network.nodes[place].states[state].source is CharacterSource.MADE) == made
        )
        return log10(sums.variables[asked.variable][0]) - log10(no)

    return log10_odds(evidence) - log10_odds(prior)


def spread_counted(spread: Spread, numbers: list[tuple[int, ...]]) -> dict[tuple[int, ...], float]:
    """p(t) of every number, block by block."""
    return {
        n: sum(
            float(weight) * prod(float(block[i][t]) for i, t in enumerate(n))
            for weight, block in zip(spread.weights, spread.shares, strict=True)
        )
        for n in numbers
    }
