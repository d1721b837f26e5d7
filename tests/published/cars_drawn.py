"""Cars drawn from the model itself: their states, their numbers, what would be seen of them."""

from dataclasses import dataclass
from random import Random

from tests.weighing.by_hand import share
from tests.weighing.tiny import CLAIMED, TINY_BOOK, prepared, tiny_case
from witnessmark.casefile.records import Casefile
from witnessmark.reading import Cell, CellKind, Observation, place_likelihood
from witnessmark.weighing.network import Network
from witnessmark.weighing.nodes import CharacterSource
from witnessmark.weighing.rows import Table

LOOKS = ("factory", "doubtful", "disturbed")
SHAPE = tiny_case("unit", {"wing": "021", "seat": "21", "plate": "021|3|?", "block": "?|3"})
"""Which marks are read and looked at; codes are not, so that only numbers and looks speak."""


@dataclass(frozen=True)
class Drawing:
    """Draws cars of one network with a generator of its own."""

    random: Random
    network: Network

    def case(self, bearer: int) -> Casefile:
        """What is seen of one car whose bearer is own (0) or not (1)."""
        net = self.network
        at = {"B": bearer}
        at["D"] = self._of(net.deceit_table, bearer)
        at["K"] = self._of(net.configuration_table, bearer, at["D"])
        at["C"] = self._of(net.showing_table, at["K"])
        at["R"] = self._of(net.worked_table)
        at["W"] = self._of(net.whole_table, bearer)
        for assembly, table in zip(net.assemblies, net.assembly_tables, strict=True):
            at[f"A:{assembly.id}"] = self._of(table, at["W"], at["D"])
        states = [self._node(place, at) for place in range(len(net.nodes))]
        numbers = _Numbers(self, at["A:engine"] == 0)
        texts, looks = {}, {}
        for place, node in enumerate(net.nodes):
            mark = node.marks[0]
            source = node.states[states[place]].source
            if mark.id != "card":
                texts[mark.id] = self._text(mark.id, source, numbers)
                looks[mark.id] = self._look(place, at, states[place])
        return tiny_case("unit", texts, looks)

    def _of(self, table: Table, *where: int) -> int:
        states = range(table.shape[-1])
        return self.random.choices(states, [share(table, *where, s) for s in states])[0]

    def _where(self, place: int, at: dict[str, int], axes: str) -> list[int]:
        home = self.network.nodes[place].assembly
        own = "B" if home == self.network.bearer.id else f"A:{home}"
        return [at[own if axis == "A" else axis] for axis in axes]

    def _node(self, place: int, at: dict[str, int]) -> int:
        factor = self.network.node_factors[place]
        return self._of(factor.table, *self._where(place, at, factor.table_axes[:-1]))

    def _look(self, place: int, at: dict[str, int], state: int) -> str:
        site = self.network.nodes[place].marks[0].site
        channel = next(c for c in self.network.evidence.channels if c.slot == f"look:{site}")
        return LOOKS[self._of(channel.table, *self._where(place, at | {"S": state}, channel.axes))]

    def _text(self, mark: str, source: CharacterSource, numbers: "_Numbers") -> str:
        by_hand = mark != "card"
        if mark == "block":
            return f"?|{self._read(numbers.engine(mark, source), '0123456789', by_hand)}"
        chassis = numbers.chassis(source)
        if mark == "plate":
            engine = self._read(numbers.engine(mark, source), "0123456789", by_hand)
            return f"{self._read(chassis, '012', by_hand)}|{engine}|?"
        return self._read(chassis[-2:] if mark == "seat" else chassis, "012", by_hand)

    def _read(self, meant: str, alphabet: str, by_hand: bool) -> str:
        """What somebody calls clear, character by character; a blank is seen to be one."""
        seen = ""
        for character in meant:
            if character == "_":
                seen += "_"
                continue
            t = alphabet.index(character)
            chances = [
                place_likelihood(
                    (Observation(Cell(CellKind.CLEAR, c, 1)),),
                    alphabet,
                    by_hand,
                    self.rates,
                )[t]
                for c in alphabet
            ]
            seen += self.random.choices(alphabet, chances)[0]
        return seen

    @property
    def rates(self):
        """The shipped rates of reading."""
        return _READY.calculator.rates

    def number(self, item: str, item_is_own: bool = False) -> str:
        """A number that nobody else bears, by the item's chances; the claimed car's own
        follows its series."""
        found = next(i for i in self.network.evidence.items if i.id == item)
        alphabet = self.network.evidence.alphabets[item]
        spread = found.spread
        if item_is_own and found.own is not None and not self.happens("series.out"):
            spread = found.own
        block = self.random.choices(range(len(spread.weights)), spread.weights.tolist())[0]
        rows = spread.shares[block]
        return "".join(self.random.choices(alphabet, row.tolist())[0] for row in rows)

    def happens(self, row: str) -> bool:
        """Does what one assumed row speaks of happen?"""
        value = next(r.value for r in self.network.values.rows if r.id == row)
        return self.random.random() < value


class _Numbers:
    """The numbers of one car: its own, its donors', and those that marks were given."""

    def __init__(self, drawing: Drawing, engine_is_own: bool) -> None:
        self.drawing = drawing
        self.own_engine = drawing.number("engine_number", item_is_own=True)
        self.of_shell_donor = {
            item: drawing.number(item) for item in ("chassis_number", "engine_number")
        }
        self.of_engine_donor = drawing.number("engine_number")
        self.borne = self.own_engine if engine_is_own else self.of_engine_donor

    def chassis(self, source: CharacterSource) -> str:
        """The chassis number that a mark of this source shows."""
        if source is CharacterSource.BLANK:
            return "___"
        if source is CharacterSource.OWN:
            return CLAIMED
        if source is CharacterSource.DONOR:
            return self.of_shell_donor["chassis_number"]
        if source is CharacterSource.MADE and self.drawing.happens("made.knows_claimed"):
            return CLAIMED
        return self.drawing.number("chassis_number")

    def engine(self, mark: str, source: CharacterSource) -> str:
        """The engine number that the block or the plate shows."""
        if source is CharacterSource.BLANK:
            return "_"
        if source is CharacterSource.OWN:
            return self.own_engine
        if source is CharacterSource.DONOR:
            donor = self.of_shell_donor["engine_number"]
            return donor if mark == "plate" else self.of_engine_donor
        if source is CharacterSource.MADE:
            rows = {r.id: r.value for r in self.drawing.network.values.rows}
            knows, copies = rows["made.knows_open"], rows["made.copies"]
            drawn = self.drawing.random.random()
            if drawn < knows:
                return self.own_engine
            if drawn < knows + copies:
                return self.borne
        return self.drawing.number("engine_number")


_READY = prepared(SHAPE, TINY_BOOK)


def drawing(seed: int) -> Drawing:
    """A fresh generator over the tiny maker's unit body."""
    return Drawing(Random(seed), _READY.calculator.network)
