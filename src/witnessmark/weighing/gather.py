"""Gathers the evidence of one case into slots, channels and number readings."""

from collections.abc import Iterator

from witnessmark.agreement.phrases import any_of
from witnessmark.catalogue import said
from witnessmark.codebook.qualified import further_book
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.evidence import Evidence
from witnessmark.weighing.gather_codes import gather_codes, gather_dates, gather_rules
from witnessmark.weighing.gather_numbers import NumbersGathered
from witnessmark.weighing.gather_sites import gather_absences, gather_looks


def gather(found: Collected) -> Evidence:
    """All evidence of the case, one kind after the other."""
    found.left_out.extend(_that_explain(found))
    bearers = [a for a in found.car.book.assemblies_for(found.car.context) if a.identity_bearer]
    if len(bearers) > 1:
        found.left_out.append(
            said(
                "More than one part bears the identity, or may by this claim, {parts}: the {part} "
                "was taken, and marks on the other were not weighed.",
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


def _that_explain(found: Collected) -> Iterator[str]:
    """Marks that were read and only explain, those of one further book in one sentence."""
    noted: dict[str, dict[str, None]] = {}
    for mark in found.car.book.marks_for(found.car.context):
        is_read = bool(found.car.of(mark.id))
        if is_read and not mark.argues and not mark.book:
            yield said(
                "The {mark} was read but the book gives it from memory: it explains and does "
                "not argue.",
                mark=mark.name,
            )
        elif is_read and mark.book:
            noted.setdefault(mark.book, {}).setdefault(mark.name)
    for look in found.car.casefile.looks:
        site = found.car.book.site(look.site)
        if site is not None and (book := further_book(site.id)):
            noted.setdefault(book, {}).setdefault(site.name)
    for book, names in noted.items():
        yield said(
            "Noted by the book {book}, which stands beside the maker’s: {marks}. This explains and "
            "dates parts, which may have been fitted at any time, and does not argue.",
            book=book,
            marks="; ".join(names),
        )
