"""What has not been examined yet: marks unread, places not looked at, papers and archives.

Each candidate bears on one evidence slot and has outcomes; the outcomes of a
reading are whether it gives what the claim and the other marks say.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import PaperState, SiteState
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import said
from witnessmark.codebook.marks import Carried, Mark, MarkKind
from witnessmark.codebook.records import Settlement, Site
from witnessmark.decoding import FieldSeen
from witnessmark.reading import ReadingRates
from witnessmark.weighing.evidence import Evidence, Hypothetical, NumberReading
from witnessmark.weighing.nodes import Node, NodeKind
from witnessmark.weighing.rows import fixed

Array = NDArray[np.float64]

REACHABLE = (None, SiteState.NOT_LOOKED_FOR)
REACHED = (SiteState.READ, SiteState.FOUND_ILLEGIBLE, SiteState.ABSENT)
LOOK_MINUTES = int(fixed("look_minutes"))
"""Time for looking closely at a site already reached (assumed)."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thing that could be looked at.

    `options` maps the slot's variant of an outcome to its words; `base_variant` is the
    slot's variant that holds all outcomes together. Where `has_rest` the outcomes
    do not add up to the base, and `rest` names what is left.
    """

    target: str
    kind: str
    prompt: str
    slot: str
    options: dict[int, str]
    base_variant: int
    rest: str
    site: str
    minutes: int
    access_group: str
    access_minutes: int
    dismantling: str
    caution: str
    is_reachable: bool


def _to_read(mark: Mark, is_paper: bool) -> str:
    if is_paper:
        return said("Obtain and read the {paper}", paper=mark.name)
    return said("Read the {mark}", mark=mark.name)


def _to_look_at(site: Site) -> str:
    if not site.look_at:
        return said("Look closely at the {place}", place=site.name)
    return said("Look closely at the {place}: {features}", place=site.name, features=site.look_at)


class CandidateFinder:
    """Finds the candidates of one case; adds their hypothetical readings to the evidence."""

    def __init__(
        self, car: CarMarks, nodes: tuple[Node, ...], evidence: Evidence, rates: ReadingRates
    ) -> None:
        self.car, self.nodes, self.evidence, self.rates = car, nodes, evidence, rates
        gone = (PaperState.LOST, PaperState.REFUSED)
        self.entries = SiteEntries(car.casefile.sites)
        self.lost = {p.mark for p in car.casefile.papers if p.state in gone}

    def _state(self, mark: Mark) -> SiteState | None:
        """How this mark ended; None where the case says nothing of it."""
        entry = self.entries.of(mark.site, mark.id)
        return entry.state if entry is not None else None

    def find(self) -> tuple[Candidate, ...]:
        """All candidates, in the order of the book."""
        found: list[Candidate | None] = []
        for place, node in enumerate(self.nodes):
            is_read = any(self.car.of(mark.id) for mark in node.marks)
            if not is_read:
                found.append(self._reading(place, node))
            elif node.kind is not NodeKind.PAPER:
                found.append(self._again(place, node))
        for channel in self.evidence.channels:
            slot = self.evidence.slots[channel.slot]
            if slot.kind == "look" and not slot.is_seen:
                found.append(self._look(slot.about, slot.id))
        in_vain = {name for p in self.car.casefile.papers for name in p.asked_in_vain}
        for settlement in self.car.book.settlements:
            if settlement.applies.covers(self.car.context) and settlement.id not in in_vain:
                found.append(self._settlement(settlement))
        return tuple(candidate for candidate in found if candidate is not None)

    def _expected(self, place: int) -> dict[str, NDArray[np.intp]]:
        """Item to the number that the claim or the other marks give, where they give one."""
        expected = {}
        for item in self.evidence.items:
            is_code = item.id not in self.evidence.alphabets
            if is_code or place not in [showing.node for showing in item.showings]:
                continue
            if item.claimed is not None:
                expected[item.id] = item.claimed
                continue
            product = item.spread.by_place
            told = False
            for showing in item.showings:
                other = self.evidence.readings.get(showing.node)
                if showing.node == place or other is None or item.id not in other.seen:
                    continue
                seen = other.seen[item.id].likelihood(self.rates)
                told = told or bool(np.any(seen != 1.0))
                product = product * seen
            if told:
                expected[item.id] = product.argmax(axis=1)
        return expected

    def _hypothetical(
        self, reading: NumberReading, values: dict[str, NDArray[np.intp]] | None, on_blank: float
    ) -> Hypothetical:
        """A clear reading of these values, on top of what was seen before; None: no reading."""
        found: dict[str, Array] = {}
        for item in self.evidence.items:
            if reading.node not in [showing.node for showing in item.showings]:
                continue
            likelihood = np.ones(item.shape)
            alphabet = self.evidence.alphabets.get(item.id)
            if alphabet and item.id in reading.seen:
                likelihood = reading.seen[item.id].likelihood(self.rates)
            elif item.id in reading.vectors:
                likelihood = reading.vectors[item.id]
            if values is not None and alphabet and item.id in values:
                likelihood = likelihood * self._clear(values[item.id], alphabet, reading)
            found[item.id] = likelihood
        return Hypothetical(found, on_blank)

    def _clear(self, value: NDArray[np.intp], alphabet: str, reading: NumberReading) -> Array:
        seen = FieldSeen("", "", "", alphabet, reading.struck_by_hand)
        return np.array([seen.clearly(alphabet[each], self.rates) for each in value])

    def _add(self, reading: NumberReading, hypothetical: Hypothetical) -> int:
        reading.variants.append(hypothetical)
        return len(reading.variants) + 1

    def _reading(self, place: int, node: Node) -> Candidate | None:
        """A mark not read yet: gives the expected numbers, or others, or was never numbered."""
        reading = self.evidence.readings.get(place)
        expected = self._expected(place)
        if reading is None or not expected or node.id in self.lost:
            return None
        mark = node.marks[0]
        site = self.car.book.site(mark.site, self.car.context) if mark.site else None
        state = self._state(mark)
        is_paper = mark.kind is MarkKind.PAPER
        if state in REACHED and not is_paper:
            return None
        agrees = self._add(reading, self._hypothetical(reading, expected, 0.0))
        options = {agrees: said("it agrees")}
        if node.carried != Carried.FRAME_RAIL.value and not is_paper and node.kind != "plate":
            blank = Hypothetical({}, 1.0, 0.0)
            options[self._add(reading, blank)] = said("it was never numbered")
        return self._candidate(
            mark.id,
            "paper" if is_paper else "reading",
            _to_read(mark, is_paper),
            reading.slot,
            options,
            0,
            said("it gives another number"),
            site,
            state in REACHABLE and not is_paper,
        )

    def _again(self, place: int, node: Node) -> Candidate | None:
        """A mark to be read again: it has doubtful places, or one or two that differ."""
        reading = self.evidence.readings.get(place)
        expected = self._expected(place)
        if reading is None or not any(item in reading.seen for item in expected):
            return None
        doubtful = sum(
            # Another mark at this site may bear the item, and was not read.
            reading.seen[item].doubts([self.evidence.alphabets[item][each] for each in value])
            for item, value in expected.items()
            if item in reading.seen
        )
        if not 1 <= doubtful <= 2:
            return None
        mark = node.marks[0]
        base = self._add(reading, self._hypothetical(reading, None, reading.blank_ratio))
        agrees = self._add(reading, self._hypothetical(reading, expected, 0.0))
        site = self.car.book.site(mark.site, self.car.context) if mark.site else None
        return self._candidate(
            mark.id,
            "second reading",
            said("Read the {mark} again, by another examiner and in raking light", mark=mark.name),
            reading.slot,
            {agrees: said("it agrees")},
            base,
            said("it gives another number"),
            site,
            self._state(mark) in (*REACHABLE, SiteState.READ, SiteState.FOUND_ILLEGIBLE),
        )

    def _look(self, site_id: str, slot: str) -> Candidate | None:
        site = self.car.book.site(site_id, self.car.context)
        state = self.entries.state(site_id)
        if site is None or state is SiteState.ABSENT:
            return None
        reached = state in REACHED
        candidate = self._candidate(
            site_id,
            "look",
            _to_look_at(site),
            slot,
            {
                2: said("the place looks factory"),
                3: said("the place looks doubtful"),
                4: said("the place looks disturbed"),
            },
            0,
            "",
            site,
            reached or state in REACHABLE,
        )
        return candidate

    def _settlement(self, settlement: Settlement) -> Candidate | None:
        """A source outside the car: what it says of one mark or paper, read clearly."""
        place = next(
            (
                p
                for p, node in enumerate(self.nodes)
                if any(mark.id == settlement.speaks_of for mark in node.marks)
            ),
            None,
        )
        reading = self.evidence.readings.get(place) if place is not None else None
        expected = self._expected(place) if place is not None else {}
        if reading is None or not expected:
            return None
        node = self.nodes[reading.node]
        if any(self._state(mark) is SiteState.ABSENT for mark in node.marks):
            return None
        if all(self._is_clear(reading, item) for item in expected):
            return None
        base = self._add(reading, self._hypothetical(reading, None, reading.blank_ratio))
        agrees = self._add(reading, self._hypothetical(reading, expected, 0.0))
        return Candidate(
            settlement.id,
            "settlement",
            f"{settlement.name}: {settlement.how}",
            reading.slot,
            {
                agrees: said(
                    "the {mark} turns out to say what the claim and the other marks say",
                    mark=node.marks[0].name,
                )
            },
            base,
            said("the {mark} turns out to give another number", mark=node.marks[0].name),
            "",
            settlement.minutes,
            "",
            0,
            "",
            "",
            False,
        )

    def _is_clear(self, reading: NumberReading, item: str) -> bool:
        return item in reading.seen and reading.seen[item].is_clear

    def _candidate(
        self,
        target: str,
        kind: str,
        prompt: str,
        slot: str,
        options: dict[int, str],
        base: int,
        rest: str,
        site: Site | None,
        reachable: bool,
    ) -> Candidate:
        looked = kind == "look" and self.entries.state(target) in REACHED
        minutes = (LOOK_MINUTES if looked else site.minutes) if site else 0
        return Candidate(
            target,
            kind,
            prompt,
            slot,
            options,
            base,
            rest,
            site.id if site else "",
            minutes,
            site.access_group if site else "",
            site.access_minutes if site else 0,
            site.dismantling if site else "",
            site.caution if site else "",
            reachable,
        )
