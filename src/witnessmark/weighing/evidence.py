"""Evidence in the form the network takes it: slots, each with numbered variants.

A slot is one evidence item. Variant 0 says nothing (the item left out), variant
1 is what was seen, higher variants are what a next look could find. Channels
carry a slot's likelihood to one node; readings of numbers go through the number
tensors.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from witnessmark.casefile.records import LookClass
from witnessmark.weighing.evidence_numbers import NumberSeen
from witnessmark.weighing.numbers import NumberItem
from witnessmark.weighing.rows import Table

Array = NDArray[np.float64]

SILENT = 0
SEEN = 1


@dataclass(frozen=True, slots=True)
class Slot:
    """One evidence item: what it is, for people."""

    id: str
    kind: str
    about: str
    sentence: str
    is_seen: bool
    look: LookClass | None = None


@dataclass(frozen=True, slots=True)
class Channel:
    """How a slot bears on one node: an outcome drawn from `table`, seen with doubt.

    `axes` names the table's parents, in order, from "B" or "A", "D", "C", "R", "S".
    `likelihoods[variant]` broadcasts to `(*parents, outcomes)`; variant 0 is ones.
    """

    slot: str
    node: int
    axes: str
    table: Table
    likelihoods: list[Array]


@dataclass(frozen=True, slots=True)
class PairChannel:
    """How a slot bears on two nodes at once: what they say together.

    `table` has shape (classes of the first node, classes of the second, outcomes);
    `likelihoods[variant]` has shape (outcomes,).
    """

    slot: str
    nodes: tuple[int, int]
    table: Table
    likelihoods: list[Array]


@dataclass(frozen=True, slots=True)
class Hypothetical:
    """A reading that a next look could give: P(it | character) per item, places and letter.

    `on_blank` and `on_struck` are its further factor on a part that was never
    numbered, and on one that was.
    """

    likelihoods: dict[str, Array]
    on_blank: float
    on_struck: float = 1.0


@dataclass(frozen=True, slots=True)
class NumberReading:
    """What was seen of the numbers of one node.

    `seen[item]` is what was seen of the item's number, place by place;
    `vectors[item]` replaces them where an item is not read place by place (codes
    through their canonical values). `blank_ratio` is P(what was seen | no number
    was ever there) over P(what was seen | a number that stands alone).
    `variants[k]` are hypothetical readings, for variants 2 and up.
    """

    slot: str
    node: int
    seen: dict[str, NumberSeen]
    vectors: dict[str, Array]
    blank_ratio: float
    struck_by_hand: bool
    variants: list["Hypothetical"] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that bears on the network of one case."""

    slots: dict[str, Slot]
    channels: list[Channel]
    pairs: list[PairChannel]
    readings: dict[int, NumberReading]
    items: tuple[NumberItem, ...]
    alphabets: dict[str, str]
    left_out: tuple[str, ...]
