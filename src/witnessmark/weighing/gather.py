"""Gathers the evidence of one case into slots, channels and number readings."""

from witnessmark.agreement.phrases import any_of
from witnessmark.catalogue import said
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.evidence import Evidence
from witnessmark.weighing.gather_codes import gather_codes, gather_dates, gather_rules
from witnessmark.weighing.gather_numbers import NumbersGathered
from witnessmark.weighing.gather_sites import gather_absences, gather_looks


def gather(found: Collected) -> Evidence:
    """All evidence of the case, one kind after the other."""
    for mark in found.car.book.marks_for(found.car.context):
        if not mark.citation.basis.weighs and found.car.of(mark.id):
            found.left_out.append(
                said(
                    "The {mark} was read but the book gives it from memory: it explains and does "
                    "not argue.",
                    mark=mark.name,
                )
            )
    bearers = [a for a in found.car.book.assemblies_for(found.car.context) if a.identity_bearer]
    if len(bearers) > 1:
        found.left_out.append(
            said(
                "The claim leaves open which part bears the identity, {parts}: the {part} was "
                "taken, and marks on the other were not weighed.",
                parts=any_of([assembly.name for assembly in bearers]),
                part=bearers[0].name,
            )
        )
    numbers = NumbersGathered(found)
    for place, node in enumerate(found.nodes):
        if node.id not in found.echoes:
            gather_codes(found, place, node)
            gather_dates(found, place, node)
    gather_looks(found)
    gather_absences(found)
    gather_rules(found)
    return Evidence(
        found.slots,
        found.channels,
        found.pairs,
        numbers.readings,
        numbers.items,
        numbers.alphabets,
        tuple(found.left_out),
    )
