"""Gathers what the sites say: how the metal looks, what is absent, detached or not there."""

from dataclasses import dataclass

import numpy as np

from witnessmark.agreement.phrases import sentence
from witnessmark.casefile.records import AttachmentSeen, LookClass, SiteSeen, SiteState
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import said
from witnessmark.codebook.marks import Mark
from witnessmark.weighing import evidence_looks as looks
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.evidence import Channel
from witnessmark.weighing.nodes import NodeKind


def gather_looks(collected: Collected) -> None:
    """How the metal looks at every site that bears a mark of this car."""
    detached = {
        visit.site
        for visit in collected.car.casefile.sites
        if visit.attachment is AttachmentSeen.DETACHED
    }
    seen = looks.worst_looks(collected.car)
    sites = {mark.site for node in collected.nodes for mark in node.marks if mark.site}
    for site in sorted(sites):
        place = collected.node_at(site)
        if place is None:
            continue
        likelihoods = [np.ones(3), np.ones(3)]
        row = collected.car.book.site(site, collected.car.context) or collected.car.book.site(site)
        name = row.name if row else site
        told = said("How the metal looks at the {place}.", place=name)
        found = None
        if site in seen:
            found, how, noted = seen[site]
            likelihoods[1] = looks.look_likelihood(found, how)
            told = _looks(name, found, noted)
        slot = collected.slot(f"look:{site}", "look", site, told, site in seen, found)
        likelihoods += [np.eye(3)[k] for k in range(3)]
        table = looks.look_table(collected.maker, collected.nodes[place], site in detached)
        collected.channels.append(Channel(slot, place, "DRS", table, likelihoods))


def _looks(place: str, look: LookClass, noted: tuple[str, ...]) -> str:
    """How the metal looks at a place, with what was noted."""
    looks_so = {
        LookClass.FACTORY: said("{place}: looks factory", place=place),
        LookClass.DOUBTFUL: said("{place}: looks doubtful", place=place),
        LookClass.DISTURBED: said("{place}: looks disturbed", place=place),
    }
    return sentence(f"{looks_so[look]} ({'; '.join(noted)})" if noted else looks_so[look])


def _absence_excused(mark: str, exception: str) -> str:
    return said(
        "An absence on the {mark} is not weighed: the book names an exception ({exception}).",
        mark=mark,
        exception=exception,
    )


@dataclass(frozen=True, slots=True)
class _Ended:
    """The entries by which one place, or some of its marks, ended alike: they count once."""

    visits: tuple[SiteSeen, ...]
    entries: SiteEntries

    def speaks_of(self, mark: Mark) -> bool:
        """Is it one of these entries, and no other, that says how the mark ended?"""
        entry = self.entries.of(mark.site, mark.id)
        return any(each is entry for each in self.visits)


def _ended(sites: tuple[SiteSeen, ...]) -> tuple[_Ended, ...]:
    entries = SiteEntries(sites)
    alike: dict[tuple[str, SiteState, AttachmentSeen], list[SiteSeen]] = {}
    for visit in sites:
        alike.setdefault((visit.site, visit.state, visit.attachment), []).append(visit)
    return tuple(_Ended(tuple(visits), entries) for visits in alike.values())


def gather_absences(collected: Collected) -> None:
    """Marks that are absent, kept apart from the car, or whose part is not there at all."""
    missing: set[str] = set()
    for ended in _ended(collected.car.casefile.sites):
        visit = ended.visits[0]
        place = collected.node_at(visit.site, ended.speaks_of)
        if place is None:
            continue
        node = collected.nodes[place]
        name = node.marks[0].name
        marked = node.kind in (NodeKind.BEARER_MARK, NodeKind.ASSEMBLY_MARK)
        if visit.attachment is AttachmentSeen.NO_SUCH_PART and marked:
            if node.assembly not in missing:
                missing.add(node.assembly)
                told = said(
                    "The car has no such part as bears the {mark}: {reason}",
                    mark=name,
                    reason=visit.reason,
                )
                table = looks.missing_table(collected.maker)
                axis = "BC" if node.kind is NodeKind.BEARER_MARK else "AC"
                collected.second_of_two(
                    f"missing:{node.assembly}", "absence", place, told, table, axis
                )
        elif visit.state is SiteState.ABSENT and any(
            m.always_struck and ended.speaks_of(m) for m in node.marks
        ):
            told = said("The {mark}, which this works always struck, is absent.", mark=name)
            if collected.is_excused(node, _absence_excused):
                continue
            table = looks.absence_table(collected.maker, node)
            collected.second_of_two(f"absence:{node.id}", "absence", place, told, table, "S")
        if visit.attachment is AttachmentSeen.DETACHED and node.kind is not NodeKind.PAPER:
            told = said("The {mark} is kept apart from the car.", mark=name)
            table = looks.detached_table(collected.maker, node)
            collected.second_of_two(f"detached:{node.id}", "attachment", place, told, table, "S")
