"""What is being collected for one case: its slots, channels, and what was left out, and why."""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from witnessmark.agreement.known_exceptions import exceptions_on
from witnessmark.agreement.records import CarMarks, Finding
from witnessmark.casefile.records import LookClass
from witnessmark.codebook.marks import Mark
from witnessmark.reading import ReadingRates
from witnessmark.weighing.evidence import Channel, PairChannel, Slot
from witnessmark.weighing.nodes import Node
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.rows import Table


@dataclass(frozen=True, slots=True)
class Collected:
    """The case and what has been found in it so far."""

    car: CarMarks
    findings: tuple[Finding, ...]
    nodes: tuple[Node, ...]
    bearer: str
    maker: TableMaker
    rates: ReadingRates
    slots: dict[str, Slot] = field(default_factory=dict)
    channels: list[Channel] = field(default_factory=list)
    pairs: list[PairChannel] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)

    @property
    def echoes(self) -> frozenset[str]:
        """Papers that repeat another mark or paper: one source counts once."""
        return frozenset(p.mark for p in self.car.casefile.papers if p.copied_from)

    def slot(
        self,
        slot_id: str,
        kind: str,
        about: str,
        sentence: str,
        seen: bool,
        look: LookClass | None = None,
    ) -> str:
        """Add an evidence item; gives its id back."""
        self.slots[slot_id] = Slot(slot_id, kind, about, sentence, seen, look)
        return slot_id

    def second_of_two(
        self, slot_id: str, kind: str, place: int, sentence: str, table: Table, axes: str
    ) -> None:
        """An evidence item in which the second of two outcomes was seen."""
        slot = self.slot(slot_id, kind, self.nodes[place].id, sentence, True)
        likelihoods = [np.ones(2), np.array([0.0, 1.0])]
        self.channels.append(Channel(slot, place, axes, table, likelihoods))

    def node_at(self, site: str, of: Callable[[Mark], bool] = lambda _: True) -> int | None:
        """The node whose characters stand at a site, a struck one before a cast one; of those
        with a mark there that `of` allows."""
        places = [
            p for p, n in enumerate(self.nodes) if any(m.site == site and of(m) for m in n.marks)
        ]
        places.sort(key=lambda p: self.nodes[p].is_cast)
        return places[0] if places else None

    def is_excused(self, node: Node, sentence: Callable[[str, str], str]) -> bool:
        """Does the book name an exception that covers this node's numbers, or the car's?

        Then what would speak against the node is left out, and said so in a `sentence` made
        of the mark's name and the exception: it takes weight away and never adds any.
        """
        for mark in node.marks:
            for known in exceptions_on(self.car, mark.id):
                self.left_out.append(sentence(mark.name, known.meaning))
                return True
        return False
