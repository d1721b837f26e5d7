"""Codes as evidence: do a node's codes say what the claim says, and do dates and rules fit?"""

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import ItemKind
from witnessmark.decoding import is_short, sure_places
from witnessmark.reading import Observation, ReadingRates, place_likelihood
from witnessmark.weighing.nodes import CharacterSource, Node
from witnessmark.weighing.priors import CONFIGURATION, TableMaker
from witnessmark.weighing.rows import Table, fixed

Array = NDArray[np.float64]

UNLISTED = "not listed"
UNLISTED_SHARE = fixed("unlisted_code_share")
"""Share of codes that the book does not list, in the probability of a reading."""
MODEL_ITEM = "model"


def code_fields(node: Node, car: CarMarks) -> list[tuple[Mark, Field]]:
    """The fields of a node that show codes of a table."""
    found = []
    for mark in node.marks:
        for fld in mark.fields:
            item = car.book.item(fld.says)
            if fld.table and item is not None and item.kind is ItemKind.CODE:
                found.append((mark, fld))
    return found


def value_likelihoods(
    car: CarMarks, mark: Mark, fld: Field, rates: ReadingRates
) -> dict[str, float]:
    """P(what was seen in this field | canonical value), over all readings; empty if unread.

    A row from memory is left out: it explains and never argues.
    """
    observations = _observations(car, mark, fld)
    if not observations:
        return {}
    by_hand = mark.how_made.value == "struck by hand"
    places = [
        dict(zip(fld.alphabet, place_likelihood(o, fld.alphabet, by_hand, rates), strict=True))
        for o in observations
    ]
    found: dict[str, list[float]] = {}
    for row in car.book.table(fld.table):
        if not row.citation.basis.weighs:
            continue
        found.setdefault(row.value, []).append(_code_likelihood(row.code, places))
    values = {value: float(np.mean(each)) for value, each in found.items()}
    values[UNLISTED] = float(np.prod([np.mean(list(place.values())) for place in places]))
    return values


def _observations(car: CarMarks, mark: Mark, fld: Field) -> list[tuple[Observation, ...]]:
    """The observations at each place of a field, over all readings of its mark."""
    gathered: list[list[Observation]] = []
    for decoding in car.of(mark.id):
        reading = decoding.reading
        for cells in decoding.field_cells:
            if cells.field != fld.id or cells.is_empty:
                continue
            for place, cell in enumerate(sure_places(cells, is_short(decoding, mark))):
                if place == len(gathered):
                    gathered.append([])
                gathered[place].append(
                    Observation(cell, reading.legibility, reading.orientation, reading.seen)
                )
    return [tuple(place) for place in gathered]


def _code_likelihood(code: str, places: list[dict[str, float]]) -> float:
    if len(code) != len(places):
        return 1e-9
    product = 1.0
    for character, place in zip(code, places, strict=True):
        product *= place.get(character, 1e-9)
    return product


def codes_against_claim(
    car: CarMarks, node: Node, rates: ReadingRates
) -> tuple[Array, bool, float] | None:
    """Likelihood of (all claimed codes agree, at least one differs), scaled to 1 by chance.

    Also whether the model is among them, and the chance that another car's codes
    would agree. None where the node shows no code that the claim states.
    """
    agree, chance, share, has_model = 1.0, 1.0, 1.0, False
    found = False
    for mark, fld in code_fields(node, car):
        claimed = car.casefile.claim.items.get(fld.says, "")
        values = value_likelihoods(car, mark, fld, rates) if claimed else {}
        if claimed not in values:
            continue
        found = True
        has_model = has_model or fld.says == MODEL_ITEM
        listed = [v for v in values if v != UNLISTED]
        field_share = (1.0 - UNLISTED_SHARE) / len(listed)
        mean = sum(values[v] for v in listed) * field_share + UNLISTED_SHARE * values[UNLISTED]
        agree *= values[claimed]
        chance *= mean
        share *= field_share
    if not found:
        return None
    differ = (chance - share * agree) / (1.0 - share) if share < 1.0 else chance
    return np.array([agree, max(differ, 1e-30)]) / chance, has_model, share


def codes_table(maker: TableMaker, node: Node, has_model: bool, share: float) -> Table:
    """P(agree, differ | C, S), shape (3, states, 2). Another car's codes agree by chance."""
    table = Table((len(CONFIGURATION), len(node.states), 2))
    shown = "codes.shown.model" if has_model else "codes.shown.other"
    for state, node_state in enumerate(node.states):
        for c, configuration in enumerate(CONFIGURATION):
            if node_state.source is CharacterSource.OWN:
                if configuration == "not as claimed, codes show it":
                    maker.put(table, (c, state), {0: shown}, 1)
                else:
                    maker.put(table, (c, state), {1: "codes.slip"}, 0)
            elif node_state.source is CharacterSource.MADE:
                maker.put(table, (c, state), {0: "codes.made"}, 1)
            else:
                table.base[c, state] = (share, 1.0 - share)
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
