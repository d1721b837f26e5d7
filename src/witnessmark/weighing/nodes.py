"""The nodes of the network: one for each place where characters have one source.

Marks struck at one site on one assembly in one way share a node (one source
counts once); each plate and each paper is a node of its own.
"""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Carried, HowMade, Mark, MarkKind
from witnessmark.codebook.records import Assembly, CarContext, ItemKind


class CharacterSource(StrEnum):
    """The car from whose factory a mark's characters come."""

    OWN = "own"
    DONOR = "donor"
    OTHER = "other"
    BLANK = "blank"
    MADE = "made"


class Attachment(StrEnum):
    """How the bearer of the mark came to be where it is."""

    SINCE_FACTORY = "since the factory"
    REFITTED = "refitted"
    BROUGHT = "brought from elsewhere"


@dataclass(frozen=True, slots=True)
class NodeState:
    """A character source together with an attachment."""

    source: CharacterSource
    attachment: Attachment


# Places of the states in every table of a mark or plate.
OWN_SINCE, OWN_REFITTED, OWN_BROUGHT, DONOR, OTHER, BLANK, MADE, DONOR_REFITTED = range(8)
MARK_STATES = (
    NodeState(CharacterSource.OWN, Attachment.SINCE_FACTORY),
    NodeState(CharacterSource.OWN, Attachment.REFITTED),
    NodeState(CharacterSource.OWN, Attachment.BROUGHT),
    NodeState(CharacterSource.DONOR, Attachment.SINCE_FACTORY),
    NodeState(CharacterSource.OTHER, Attachment.BROUGHT),
    NodeState(CharacterSource.BLANK, Attachment.BROUGHT),
    NodeState(CharacterSource.MADE, Attachment.BROUGHT),
    NodeState(CharacterSource.DONOR, Attachment.REFITTED),
)
PAPER_OWN, PAPER_OTHER, PAPER_MADE = range(3)
PAPER_STATES = (
    NodeState(CharacterSource.OWN, Attachment.SINCE_FACTORY),
    NodeState(CharacterSource.OTHER, Attachment.BROUGHT),
    NodeState(CharacterSource.MADE, Attachment.BROUGHT),
)


class NodeKind(StrEnum):
    """What a node's parents are."""

    BEARER_MARK = "mark on the identity bearer"
    ASSEMBLY_MARK = "mark on another assembly"
    PLATE = "plate"
    PAPER = "paper"


@dataclass(frozen=True, slots=True)
class Node:
    """Marks that share one source. `id` is the first mark's id."""

    id: str
    kind: NodeKind
    assembly: str
    carried: str
    marks: tuple[Mark, ...]
    bears_items: bool = True

    @property
    def states(self) -> tuple[NodeState, ...]:
        """The states of the node's variable."""
        return PAPER_STATES if self.kind is NodeKind.PAPER else MARK_STATES

    @property
    def classes(self) -> tuple[int, ...]:
        """The class of every state: states of one class show the same records."""
        order = {
            CharacterSource.OWN: 0,
            CharacterSource.DONOR: 1,
            CharacterSource.OTHER: 2,
            CharacterSource.BLANK: 2,
            CharacterSource.MADE: 3,
        }
        if not self.bears_items:
            return (0,) * len(self.states)
        found = [order[state.source] for state in self.states]
        ranks = sorted(set(found))
        return tuple(ranks.index(each) for each in found)

    @property
    def is_cast(self) -> bool:
        """Were its characters raised by the mould?"""
        return self.marks[0].how_made is HowMade.CAST


_CARRIED = {
    Carried.FRAME_RAIL: "frame",
    Carried.WELDED_PANEL: "welded",
    Carried.BOLTED_PANEL: "bolted",
    Carried.BLOCK: "block",
    Carried.CASING: "casing",
}


def bearer_of(book: CodeBook, context: CarContext) -> Assembly | None:
    """The assembly that bears the identity of a car of this context, or None."""
    return next((a for a in book.assemblies_for(context) if a.identity_bearer), None)


def assemblies_of(book: CodeBook, context: CarContext) -> tuple[Assembly, ...]:
    """The assemblies that are weighed: the bearer, then those that bear no identity.

    Where the claim leaves open which of several bears it, the book's first is taken.
    """
    bearer = bearer_of(book, context)
    others = (a for a in book.assemblies_for(context) if not a.identity_bearer)
    return (*([bearer] if bearer is not None else []), *others)


def nodes_of(book: CodeBook, context: CarContext) -> tuple[Node, ...]:
    """The nodes of every mark that a car of this context could carry.

    A mark that never argues has none: it explains (`Mark.argues`).
    """
    bearer = bearer_of(book, context)
    known = {assembly.id for assembly in assemblies_of(book, context)}
    grouped: dict[tuple[str, ...], list[Mark]] = {}
    for mark in book.marks_for(context):
        if not mark.argues or (mark.assembly and mark.assembly not in known):
            continue
        if mark.kind is MarkKind.PAPER or not mark.assembly:
            grouped[("alone", mark.id)] = [mark]
        else:
            key = (mark.assembly, mark.site or mark.id, mark.how_made.value)
            grouped.setdefault(key, []).append(mark)
    bearer_id = bearer.id if bearer else ""
    return tuple(_node(marks, bearer_id, _bears_items(marks, book)) for marks in grouped.values())


def _bears_items(marks: list[Mark], book: CodeBook) -> bool:
    """Does any field say a number, or a code that other marks may say too?"""
    items = (book.item(fld.says) for mark in marks for fld in mark.fields)
    return any(item is not None and item.kind is not ItemKind.DATE for item in items)


def _node(marks: list[Mark], bearer: str, bears_items: bool) -> Node:
    first = marks[0]
    if first.kind is MarkKind.PAPER:
        kind = NodeKind.PAPER
    elif not first.assembly:
        kind = NodeKind.PLATE
    elif first.assembly == bearer:
        kind = NodeKind.BEARER_MARK
    else:
        kind = NodeKind.ASSEMBLY_MARK
    carried = _CARRIED.get(first.carried, "casing")
    return Node(first.id, kind, first.assembly or bearer, carried, tuple(marks), bears_items)


def marks_bearing(book: CodeBook, context: CarContext) -> dict[str, int]:
    """How many nodes of a car of this context bear each number item, by the item's name."""
    counts: dict[str, int] = {}
    for node in nodes_of(book, context):
        items = {fld.says for mark in node.marks for fld in mark.fields}
        for item_id in items:
            item = book.item(item_id)
            if item is not None and item.kind is ItemKind.NUMBER:
                counts[item.name] = counts.get(item.name, 0) + 1
    return counts
