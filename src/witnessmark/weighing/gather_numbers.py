"""Gathers the numbers: what was read of every item on every node, and codes as items."""

import numpy as np

from witnessmark.catalogue import said
from witnessmark.weighing import evidence_codes as codes
from witnessmark.weighing import evidence_numbers as numbers
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.evidence import NumberReading
from witnessmark.weighing.nodes import Node, NodeKind
from witnessmark.weighing.numbers import NumberItem
from witnessmark.weighing.spread import of_places

OPEN_CODES = 4
"""Most codes that the claim leaves open and that are weighed against each other."""


class NumbersGathered:
    """Items, readings of them by node, and the items' alphabets."""

    def __init__(self, found: Collected) -> None:
        self.found = found
        self.items, self.readings, self.alphabets = self._numbers()

    def _numbers(
        self,
    ) -> tuple[tuple[NumberItem, ...], dict[int, NumberReading], dict[str, str]]:
        car = self.found.car
        all_items = numbers.items_of(car, self.found.nodes, self.found.bearer)
        items = {item.id: item for item in all_items}
        alphabets = {i: item.alphabet for i in items if (item := car.book.item(i)) is not None}
        readings: dict[int, NumberReading] = {}
        self._name_what_is_not_summed(all_items)
        vectors, extra = self._codes_as_items()
        for place, node in enumerate(self.found.nodes):
            if node.id in self.found.echoes:
                self.found.left_out.append(
                    said(
                        "The {mark} is a copy of another mark or paper: one source counts once.",
                        mark=node.marks[0].name,
                    )
                )
            else:
                seen = numbers.numbers_seen(car, node)
                readings[place] = self._reading(place, node, seen, items, vectors)
        return (*all_items, *extra), readings, alphabets

    def _name_what_is_not_summed(self, items: tuple[NumberItem, ...]) -> None:
        """Unread marks beside many others that bear the same number."""
        summed = {(item.id, showing.node) for item in items for showing in item.showings}
        unread: dict[str, dict[str, None]] = {}
        for place, node in enumerate(self.found.nodes):
            for mark, _, item in numbers.number_fields(node, self.found.car.book):
                if (item.id, place) not in summed:
                    unread.setdefault(item.name, {}).setdefault(mark.name)
        for name, marks in unread.items():
            self.found.left_out.append(
                said(
                    "Many marks bear the {item}. What these unread ones would show of it is not "
                    "weighed as a next look: {marks}.",
                    item=name,
                    marks=", ".join(marks),
                )
            )

    def _reading(
        self,
        place: int,
        node: Node,
        seen: dict[str, numbers.NumberSeen],
        items: dict[str, NumberItem],
        vectors: dict[int, dict[str, numbers.Array]],
    ) -> NumberReading:
        by_hand = numbers.struck_by_hand(node)
        own_vectors = vectors.get(place, {})
        mine = {item: number.likelihood(self.found.rates) for item, number in seen.items()}
        error = dict(self.found.rates.error)[next(iter(dict(self.found.rates.error)))]
        ratio = numbers.blank_ratio(seen, mine, items, error) if seen else 1.0
        name = node.marks[0].name
        texts = [d.reading.as_typed for mark in node.marks for d in self.found.car.of(mark.id)]
        slot = self.found.slot(
            f"reading:{node.id}",
            "reading",
            node.id,
            said("What was read on the {mark}: {texts}.", mark=name, texts="; ".join(texts))
            if texts
            else said("The {mark}.", mark=name),
            bool(seen) or bool(own_vectors),
        )
        return NumberReading(slot, place, seen, own_vectors, ratio, by_hand)

    def _codes_as_items(self) -> tuple[dict[int, dict[str, numbers.Array]], list[NumberItem]]:
        """Codes compared through their canonical values, as numbers of one place.

        A code that the claim leaves open and two nodes show is an item like any
        other. One that the claim states is weighed against it node by node; only
        that all factory marks of one donor show the same is added here.
        """
        vectors: dict[int, dict[str, numbers.Array]] = {}
        items = []
        for item_id, by_node in self._kept(self._codes_shown()).items():
            is_claimed = item_id in self.found.car.casefile.claim.items
            for places in self._coupled(by_node, is_claimed):
                names = sorted({value for p in places for value in by_node[p]})
                for p in places:
                    row = [by_node[p].get(name, 1e-9) for name in names]
                    vectors.setdefault(p, {})[item_id] = np.array([row])
                chance = of_places(np.full((1, len(names)), 1.0 / len(names)))
                home = numbers.home_of(
                    self.found.car.book.item(item_id), self.found.car, self.found.bearer
                )
                showings = tuple(
                    numbers.code_showing(
                        p, self.found.nodes[p], None if is_claimed else home, self.found.bearer
                    )
                    for p in places
                )
                claimed = np.zeros(1, dtype=np.intp) if is_claimed else None
                items.append(NumberItem(item_id, showings, chance, claimed))
        return vectors, items

    def _kept(
        self, shown: dict[str, dict[int, dict[str, float]]]
    ) -> dict[str, dict[int, dict[str, float]]]:
        """All codes that are claimed, and of those left open the ones that most marks show:
        the sum grows with every item that ties the same marks together."""
        claimed = self.found.car.casefile.claim.items
        left_open = [
            item for item, nodes in shown.items() if item not in claimed and len(nodes) > 1
        ]
        dropped = sorted(left_open, key=lambda item: -len(shown[item]))[OPEN_CODES:]
        for item_id in dropped:
            item = self.found.car.book.item(item_id)
            self.found.left_out.append(
                said(
                    "The {item} is not claimed: what the marks say of it is compared and not "
                    "weighed.",
                    item=item.name if item else item_id,
                )
            )
        return {item: nodes for item, nodes in shown.items() if item not in dropped}

    def _codes_shown(self) -> dict[str, dict[int, dict[str, float]]]:
        """Item to node to the likelihood of every canonical value."""
        shown: dict[str, dict[int, dict[str, float]]] = {}
        for place, node in enumerate(self.found.nodes):
            if node.id in self.found.echoes:
                continue
            for mark, fld in codes.code_fields(node, self.found.car):
                values = codes.value_likelihoods(self.found.car, mark, fld)
                if values:
                    by_node = shown.setdefault(fld.says, {})
                    by_node[place] = codes.both(by_node.get(place), values)
        return shown

    def _coupled(self, by_node: dict[int, dict[str, float]], is_claimed: bool) -> list[list[int]]:
        """The sets of nodes whose codes of one item depend on each other."""
        if not is_claimed:
            return [list(by_node)] if len(by_node) > 1 else []
        by_assembly: dict[str, list[int]] = {}
        for place in by_node:
            node = self.found.nodes[place]
            if node.kind in (NodeKind.BEARER_MARK, NodeKind.ASSEMBLY_MARK):
                by_assembly.setdefault(node.assembly, []).append(place)
        return [places for places in by_assembly.values() if len(places) > 1]
