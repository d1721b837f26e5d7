"""Codes as evidence: do a node's codes say what the claim says, and do dates and rules fit?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import CodeRow, ItemKind
from witnessmark.weighing.nodes import CharacterSource, Node
from witnessmark.weighing.priors import MODEL_ITEM, TableMaker
from witnessmark.weighing.rows import Table, fixed

Array = NDArray[np.float64]

TINY = 1e-30
SEVERAL = fixed("several_differ")
"""Of a car that differs in several codes, the share of its codes that do."""
UNLISTED = "not listed"
UNLISTED_SHARE = fixed("unlisted_code_share")
"""Share of codes that the book does not list, in the probability of a reading."""


def code_fields(node: Node, car: CarMarks) -> list[tuple[Mark, Field]]:
    """The fields of a node that show codes of a table."""
    found = []
    for mark in node.marks:
        for fld in mark.fields:
            item = car.book.item(fld.says)
            if fld.table and item is not None and item.kind is ItemKind.CODE:
                found.append((mark, fld))
    return found


def value_likelihoods(car: CarMarks, mark: Mark, fld: Field) -> dict[str, float]:
    """P(what was seen in this field | canonical value), over all readings; empty if unread.

    A code that was used twice is read as for the car in question: only where it is listed
    for no such car do all its rows speak. A row from memory is left out: it explains and
    never argues. So is a field of which a place lacks, nobody knows which.
    """
    seen = car.seen(mark, fld)
    if seen is None or seen.is_empty or seen.lacks:
        return {}
    rows: dict[str, list[CodeRow]] = {}
    for row in car.book.table(fld.table):
        if row.citation.basis.weighs:
            rows.setdefault(row.code, []).append(row)
    found: dict[str, list[float]] = {}
    for code, likelihood in seen.codes:
        of_code = rows.get(code, [])
        holding = [row for row in of_code if row.applies.covers(car.context)]
        for value in dict.fromkeys(row.value for row in holding or of_code):
            found.setdefault(value, []).append(likelihood)
    values = {value: float(np.mean(each)) for value, each in found.items()}
    values[UNLISTED] = seen.unlisted
    return values


def claimed_code_items(car: CarMarks, nodes: tuple[Node, ...]) -> tuple[str, ...]:
    """The codes that the claim states and that some weighed mark of the car shows, in order."""
    echoes = {paper.mark for paper in car.casefile.papers if paper.copied_from}
    found: dict[str, None] = {}
    for node in nodes:
        for _, fld in code_fields(node, car) if node.id not in echoes else ():
            claimed = car.casefile.claim.items.get(fld.says, "")
            if claimed and claimed in _listed(car, fld):
                found.setdefault(fld.says)
    return tuple(found)


def _listed(car: CarMarks, fld: Field) -> set[str]:
    rows = car.book.table(fld.table)
    return {row.value for row in rows if row.citation.basis.weighs}


@dataclass(frozen=True, slots=True)
class CodesSeen:
    """The claimed codes that one node shows. `likelihood` is that of what was read if all
    agree, if one differs (each of `items` in turn), if several do, and if they are another
    car's, over the last: shape (3 + items,)."""

    items: tuple[str, ...]
    likelihood: Array


def codes_against_claim(car: CarMarks, node: Node) -> CodesSeen | None:
    """How well what was read of a node's codes fits the claim; None where it shows none.

    A car that was built otherwise differs in one code and agrees in the others, or in
    several; of another model all is by chance.
    """
    shown: dict[str, dict[str, float]] = {}
    for mark, fld in code_fields(node, car):
        claimed = car.casefile.claim.items.get(fld.says, "")
        values = value_likelihoods(car, mark, fld) if claimed else {}
        if claimed in values:
            shown[fld.says] = both(shown.get(fld.says), values)
    if not shown:
        return None
    agree: dict[str, float] = {}
    differ: dict[str, float] = {}
    for item, seen in shown.items():
        agree[item], differ[item] = _item_fit(seen, car.casefile.claim.items[item])
    whole = float(np.prod(list(agree.values())))
    one = [differ[i] if i == MODEL_ITEM else differ[i] * whole / max(agree[i], TINY) for i in agree]
    several = np.prod([(1.0 - SEVERAL) * agree[i] + SEVERAL * differ[i] for i in agree])
    likelihood = np.array([whole, *one, float(several), 1.0])
    return CodesSeen(tuple(agree), np.maximum(likelihood, TINY))


def both(one: dict[str, float] | None, other: dict[str, float]) -> dict[str, float]:
    """Value likelihoods of two fields of one node that say the same item: they say one value,
    so that a second agreement is no chance."""
    if one is None:
        return other
    values = dict.fromkeys((*one, *other))
    return {v: one.get(v, one[UNLISTED]) * other.get(v, other[UNLISTED]) for v in values}


def _item_fit(joint: dict[str, float], claimed: str) -> tuple[float, float]:
    """P(what was read of one item | it is as claimed) and P(it | it differs), over chance."""
    listed = [value for value in joint if value != UNLISTED]
    share = (1.0 - UNLISTED_SHARE) / len(listed)
    otherwise = share * sum(joint[v] for v in listed if v != claimed)
    otherwise += UNLISTED_SHARE * joint[UNLISTED]
    mean = share * joint[claimed] + otherwise
    return joint[claimed] / mean, otherwise / (1.0 - share) / mean


def codes_table(maker: TableMaker, node: Node, items: tuple[str, ...]) -> Table:
    """P(all agree, each of the items differs, several do, another car's | C, S), shape
    (configurations, states, 3 + items). A car of another model shows its own colours on
    every mark, whether the mark says the model or not."""
    table = Table((maker.configurations, len(node.states), 3 + len(items)))
    each = tuple(range(1, 1 + len(items)))
    several, chance = 1 + len(items), 2 + len(items)
    for state, node_state in enumerate(node.states):
        for c in range(maker.configurations):
            changed = maker.code_items[c - 1] if 0 < c <= len(maker.code_items) else ""
            where = (c, state)
            if node_state.source is CharacterSource.OWN and changed in items:
                maker.put(table, where, {0: "codes.shown"}, 1 + items.index(changed))
            elif node_state.source is CharacterSource.OWN and changed == MODEL_ITEM:
                table.put_certain(where, chance)
            elif node_state.source is CharacterSource.OWN and maker.is_several(c):
                maker.put(table, where, {0: "codes.shown"}, several)
            elif node_state.source is CharacterSource.OWN:
                maker.put_others(table, where, "codes.slip", 0, each)
            elif node_state.source is CharacterSource.MADE:
                maker.put_spread(table, where, {0: "codes.made"}, each)
            else:
                table.put_certain(where, chance)
    return table


def pair_rule_table(maker: TableMaker, first: Node, second: Node, strength: str) -> Table:
    """P(kept, broken | classes of two nodes): codes of two cars break a rule by chance."""
    shape = (max(first.classes) + 1, max(second.classes) + 1, 2)
    table = Table(shape)
    own = f"rule.own.{strength}"
    for a, one in zip(first.classes, first.states, strict=True):
        for b, other in zip(second.classes, second.states, strict=True):
            sources = {one.source, other.source}
            if CharacterSource.MADE in sources:
                row = "rule.made"
            else:
                row = own if sources == {CharacterSource.OWN} else "rule.apart"
            maker.put(table, (a, b), {1: row}, 0)
    return table


def rule_table(maker: TableMaker, node: Node, strength: str) -> Table:
    """P(kept, broken | S), shape (states, 2)."""
    table = Table((len(node.states), 2))
    own = f"rule.own.{strength}"
    for state, node_state in enumerate(node.states):
        made = node_state.source is CharacterSource.MADE
        maker.put(table, (state,), {1: "rule.made" if made else own}, 0)
    return table
