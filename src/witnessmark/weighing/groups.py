"""Which marks speak of one car: the probable sources of every mark, and the grouping."""

import numpy as np

from witnessmark.weighing.evaluate import Joints
from witnessmark.weighing.evidence_numbers import donor_of
from witnessmark.weighing.network import Network
from witnessmark.weighing.nodes import CharacterSource, NodeKind
from witnessmark.weighing.numbers import CLAIMED
from witnessmark.weighing.records import MarkGroup, MarkState, StateShare
from witnessmark.weighing.rows import fixed

SHOWN = fixed("mark_joins_group")
"""A mark joins the group of its most probable source only beyond this share."""


def mark_states(network: Network, joints: Joints) -> tuple[MarkState, ...]:
    """For every mark read, its sources and attachments at the odds used, most probable first."""
    found = []
    for place, node in enumerate(network.nodes):
        reading = network.evidence.readings.get(place)
        if reading is None or not network.evidence.slots[reading.slot].is_seen:
            continue
        joint = joints.variables[f"S:{place}"][0]
        share = joint / joint.sum()
        sources: dict[str, float] = {}
        attachments: dict[str, float] = {}
        for state, probability in zip(node.states, share.tolist(), strict=True):
            sources[state.source.value] = sources.get(state.source.value, 0.0) + probability
            if state.source is not CharacterSource.MADE:
                key = state.attachment.value
                attachments[key] = attachments.get(key, 0.0) + probability
        found.append(MarkState(node.id, _ranked(sources), _ranked(attachments)))
    return tuple(found)


def _ranked(shares: dict[str, float]) -> tuple[StateShare, ...]:
    ordered = sorted(shares.items(), key=lambda pair: -pair[1])
    return tuple(StateShare(name, min(1.0, float(np.round(p, 12)))) for name, p in ordered)


def groups_of_marks(
    network: Network, states: tuple[MarkState, ...], illegible: tuple[str, ...] = ()
) -> tuple[MarkGroup, ...]:
    """The marks by the car they most probably speak of; the undecided stand apart.

    Marks that are `illegible` speak of no car: what is probable of them is so without them.
    """
    nodes = {node.id: node for node in network.nodes}
    grouped: dict[str, list[str]] = {}
    for state in states:
        if state.mark in illegible:
            continue
        node = nodes[state.mark]
        top = state.sources[0]
        if top.probability <= SHOWN:
            car = "undecided"
        elif top.state == CharacterSource.OWN.value:
            car = CLAIMED
        elif top.state == CharacterSource.DONOR.value:
            assembly = network.bearer.id if node.kind is NodeKind.PLATE else node.assembly
            car = donor_of(assembly)
        elif top.state == CharacterSource.MADE.value:
            car = "made later"
        else:
            car = "a third car" if top.state == CharacterSource.OTHER.value else "never numbered"
        grouped.setdefault(car, []).append(node.id)
    return tuple(MarkGroup(car, tuple(marks)) for car, marks in grouped.items())
