"""Gathers the evidence of one case into slots, channels and number readings."""

import numpy as np

from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.casefile.records import AttachmentSeen, LookClass, PaperState, SiteState
from witnessmark.codebook.records import Lag
from witnessmark.dates import year_span
from witnessmark.reading import Observation, ReadingRates
from witnessmark.weighing import evidence_codes as codes
from witnessmark.weighing import evidence_dates as dates
from witnessmark.weighing import evidence_looks as looks
from witnessmark.weighing import evidence_numbers as numbers
from witnessmark.weighing.evidence import (
    Channel,
    Evidence,
    NumberReading,
    PairChannel,
    Slot,
)
from witnessmark.weighing.nodes import Node, NodeKind
from witnessmark.weighing.numbers import NumberItem
from witnessmark.weighing.priors import TableMaker
from witnessmark.weighing.rows import Table

COMBINATION_RULE = "combination_of_codes"
YEARS_RULE = "code_of_its_years"
READ_PAPERS = (PaperState.IN_HAND, PaperState.COPY)


class Gatherer:
    """Collects what bears on the network, one kind of evidence after the other."""

    def __init__(
        self,
        car: CarMarks,
        findings: tuple[Finding, ...],
        nodes: tuple[Node, ...],
        bearer: str,
        maker: TableMaker,
        rates: ReadingRates,
    ) -> None:
        self.car, self.findings, self.nodes = car, findings, nodes
        self.maker, self.rates, self.bearer = maker, rates, bearer
        self.slots: dict[str, Slot] = {}
        self.channels: list[Channel] = []
        self.pairs: list[PairChannel] = []
        self.left_out: list[str] = []
        self.detached = {
            visit.site
            for visit in car.casefile.sites
            if visit.attachment is AttachmentSeen.DETACHED
        }
        self.echoes = {p.mark for p in car.casefile.papers if p.copied_from}

    def gather(self) -> Evidence:
        """All evidence of the case."""
        for mark in self.car.book.marks_for(self.car.context):
            if not mark.citation.basis.weighs and self.car.of(mark.id):
                self.left_out.append(
                    f"The {mark.name} was read but the book gives it from memory: "
                    "it explains and does not argue."
                )
        items, readings, alphabets = self._numbers()
        for place, node in enumerate(self.nodes):
            if node.id not in self.echoes:
                self._codes(place, node)
                self._dates(place, node)
        self._looks()
        self._absences()
        self._rules()
        return Evidence(
            self.slots, self.channels, self.pairs, readings, items, alphabets, tuple(self.left_out)
        )

    def _slot(
        self,
        slot_id: str,
        kind: str,
        about: str,
        sentence: str,
        seen: bool,
        look: LookClass | None = None,
    ) -> str:
        self.slots[slot_id] = Slot(slot_id, kind, about, sentence, seen, look)
        return slot_id

    def _numbers(
        self,
    ) -> tuple[tuple[NumberItem, ...], dict[int, NumberReading], dict[str, str]]:
        car = self.car
        all_items = numbers.items_of(car, self.nodes, self.bearer)
        items = {item.id: item for item in all_items}
        alphabets = {i: item.alphabet for i in items if (item := car.book.item(i)) is not None}
        readings: dict[int, NumberReading] = {}
        vectors, extra = self._codes_as_items()
        for place, node in enumerate(self.nodes):
            if node.id in self.echoes:
                self.left_out.append(
                    f"The {node.marks[0].name} is a copy of another mark or paper: "
                    "one source counts once."
                )
            else:
                seen = numbers.observations_of(car, node)
                readings[place] = self._reading(place, node, seen, items, alphabets, vectors)
        return (*all_items, *extra), readings, alphabets

    def _reading(
        self,
        place: int,
        node: Node,
        seen: dict[str, tuple[tuple[Observation, ...], ...]],
        items: dict[str, NumberItem],
        alphabets: dict[str, str],
        vectors: dict[int, dict[str, numbers.Array]],
    ) -> NumberReading:
        by_hand = numbers.struck_by_hand(node)
        own_vectors = vectors.get(place, {})
        mine = {
            item: numbers.likelihood_of(places, alphabets[item], by_hand, self.rates)
            for item, places in seen.items()
        }
        error = dict(self.rates.error)[next(iter(dict(self.rates.error)))]
        ratio = numbers.blank_ratio(seen, mine, items, error) if seen else 1.0
        name = node.marks[0].name
        texts = [d.reading.as_typed for mark in node.marks for d in self.car.of(mark.id)]
        slot = self._slot(
            f"reading:{node.id}",
            "reading",
            node.id,
            f"What was read on the {name}: {'; '.join(texts)}." if texts else f"The {name}.",
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
        for item_id, by_node in self._codes_shown().items():
            is_claimed = item_id in self.car.casefile.claim.items
            for places in self._coupled(by_node, is_claimed):
                names = sorted({value for p in places for value in by_node[p]})
                for p in places:
                    row = [by_node[p].get(name, 1e-9) for name in names]
                    vectors.setdefault(p, {})[item_id] = np.array([row])
                chance = np.full((1, len(names)), 1.0 / len(names))
                home = numbers.home_of(self.car.book.item(item_id), self.car, self.bearer)
                showings = tuple(
                    numbers.code_showing(
                        p, self.nodes[p], None if is_claimed else home, self.bearer
                    )
                    for p in places
                )
                claimed = np.zeros(1, dtype=np.intp) if is_claimed else None
                items.append(NumberItem(item_id, showings, chance, claimed))
        return vectors, items

    def _codes_shown(self) -> dict[str, dict[int, dict[str, float]]]:
        """Item to node to the likelihood of every canonical value."""
        shown: dict[str, dict[int, dict[str, float]]] = {}
        for place, node in enumerate(self.nodes):
            if node.id in self.echoes:
                continue
            for mark, fld in codes.code_fields(node, self.car):
                values = codes.value_likelihoods(self.car, mark, fld, self.rates)
                if values:
                    shown.setdefault(fld.says, {})[place] = values
        return shown

    def _coupled(self, by_node: dict[int, dict[str, float]], is_claimed: bool) -> list[list[int]]:
        """The sets of nodes whose codes of one item depend on each other."""
        if not is_claimed:
            return [list(by_node)] if len(by_node) > 1 else []
        by_assembly: dict[str, list[int]] = {}
        for place in by_node:
            node = self.nodes[place]
            if node.kind in (NodeKind.BEARER_MARK, NodeKind.ASSEMBLY_MARK):
                by_assembly.setdefault(node.assembly, []).append(place)
        return [places for places in by_assembly.values() if len(places) > 1]

    def _codes(self, place: int, node: Node) -> None:
        against = codes.codes_against_claim(self.car, node, self.rates)
        if against is None:
            return
        likelihood, has_model, share = against
        slot = self._slot(
            f"codes:{node.id}",
            "codes",
            node.id,
            f"The codes on the {node.marks[0].name} against the claim.",
            True,
        )
        table = codes.codes_table(self.maker, node, has_model, share)
        self.channels.append(Channel(slot, place, "CS", table, [np.ones(2), likelihood]))

    def _dates(self, place: int, node: Node) -> None:
        built = dates.built_span(self.car)
        if built is None:
            return
        for mark in node.marks:
            for fld in mark.fields:
                form = self.car.book.date_form(fld.date_form) if fld.date_form else None
                spans = dates.spans_of(self.car, mark.id, fld.id) if form else ()
                lag = self._lag(fld.says)
                if form is None or lag is None or not spans:
                    continue
                production = year_span(form.first_year, form.last_year)
                fit = dates.date_fit(spans, built, lag, production)
                slot = self._slot(
                    f"date:{mark.id}.{fld.id}",
                    "date",
                    node.id,
                    f"The {fld.name} on the {mark.name} against the date the car was built.",
                    True,
                )
                table = dates.date_table(self.maker, node)
                self.channels.append(Channel(slot, place, "DS", table, [np.ones(3), fit]))

    def _lag(self, item: str) -> Lag | None:
        return next(
            (
                lag
                for lag in self.car.book.lags
                if lag.earlier == item
                and lag.later == "build_date"
                and lag.applies.covers(self.car.context)
                and lag.citation.basis.weighs
            ),
            None,
        )

    def node_at(self, site: str) -> int | None:
        """The node whose characters stand at a site: a struck one before a cast one."""
        places = [p for p, n in enumerate(self.nodes) if any(m.site == site for m in n.marks)]
        places.sort(key=lambda p: self.nodes[p].is_cast)
        return places[0] if places else None

    def _looks(self) -> None:
        seen = looks.worst_looks(self.car)
        sites = {mark.site for node in self.nodes for mark in node.marks if mark.site}
        for site in sorted(sites):
            place = self.node_at(site)
            if place is None:
                continue
            likelihoods = [np.ones(3), np.ones(3)]
            row = self.car.book.site(site, self.car.context) or self.car.book.site(site)
            name = row.name if row else site
            sentence = f"How the metal looks at the {name}."
            found = None
            if site in seen:
                found, how, noted = seen[site]
                likelihoods[1] = looks.look_likelihood(found, how)
                sentence = f"The {name} looks {found.value}" + (
                    f" ({'; '.join(noted)})." if noted else "."
                )
            slot = self._slot(f"look:{site}", "look", site, sentence, site in seen, found)
            likelihoods += [np.eye(3)[k] for k in range(3)]
            table = looks.look_table(self.maker, self.nodes[place], site in self.detached)
            self.channels.append(Channel(slot, place, "DS", table, likelihoods))

    def _absences(self) -> None:
        """Marks that are absent, kept apart from the car, or whose part is not there at all."""
        missing: set[str] = set()
        for visit in self.car.casefile.sites:
            place = self.node_at(visit.site)
            if place is None:
                continue
            node = self.nodes[place]
            name = node.marks[0].name
            marked = node.kind in (NodeKind.BEARER_MARK, NodeKind.ASSEMBLY_MARK)
            if visit.attachment is AttachmentSeen.NO_SUCH_PART and marked:
                if node.assembly not in missing:
                    missing.add(node.assembly)
                    sentence = f"The car has no such part as bears the {name}: {visit.reason}"
                    table = looks.missing_table(self.maker)
                    axis = "BC" if node.kind is NodeKind.BEARER_MARK else "AC"
                    self._second(
                        f"missing:{node.assembly}", "absence", place, sentence, table, axis
                    )
            elif visit.state is SiteState.ABSENT and any(
                m.always_struck and m.site == visit.site for m in node.marks
            ):
                sentence = f"The {name}, which this works always struck, is absent."
                table = looks.absence_table(self.maker, node)
                self._second(f"absence:{node.id}", "absence", place, sentence, table, "S")
            if visit.attachment is AttachmentSeen.DETACHED and node.kind is not NodeKind.PAPER:
                sentence = f"The {name} is kept apart from the car."
                table = looks.detached_table(self.maker, node)
                self._second(f"detached:{node.id}", "attachment", place, sentence, table, "S")

    def _second(
        self, slot_id: str, kind: str, place: int, sentence: str, table: Table, axes: str
    ) -> None:
        """A slot in which the second of two outcomes was seen."""
        slot = self._slot(slot_id, kind, self.nodes[place].id, sentence, True)
        self.channels.append(Channel(slot, place, axes, table, [np.ones(2), np.array([0.0, 1.0])]))

    def _rules(self) -> None:
        """One item for all rules that the codes of one node, or of two, keep or break: a
        maker of plates who copies a true combination keeps them all at once."""
        by_nodes: dict[tuple[int, ...], list[Finding]] = {}
        for finding in self.findings:
            if not _is_weighed(finding):
                continue
            places = self._bearing_nodes(finding)
            if places and finding.outcome is not Outcome.SILENT:
                by_nodes.setdefault(places, []).append(finding)
        for places, found in by_nodes.items():
            strength, kept = _rules_kept(found)
            broken = [f.observation for f in found if f.outcome is Outcome.DIFFER]
            names = " and the ".join(self.nodes[p].marks[0].name for p in places)
            sentence = " ".join(broken) or f"The codes on the {names} keep the rules of the book."
            slot_id = "rules:" + "+".join(self.nodes[p].id for p in places)
            slot = self._slot(slot_id, "rule", self.nodes[places[0]].id, sentence, True)
            likelihoods = [np.ones(2), np.array([max(kept, 1e-6), max(1.0 - kept, 1e-6)])]
            first = self.nodes[places[0]]
            if len(places) == 1:
                table = codes.rule_table(self.maker, first, strength)
                self.channels.append(Channel(slot, places[0], "S", table, likelihoods))
            else:
                second = self.nodes[places[1]]
                table = codes.pair_rule_table(self.maker, first, second, strength)
                pair = PairChannel(slot, (places[0], places[1]), table, likelihoods)
                self.pairs.append(pair)

    def _bearing_nodes(self, finding: Finding) -> tuple[int, ...]:
        """The one or two nodes whose codes a rule tested, in order; echoes left out."""
        marks = {m.id: p for p, n in enumerate(self.nodes) for m in n.marks}
        found = {marks[s.mark] for s in finding.subjects if s.mark in marks}
        kept = sorted(p for p in found if self.nodes[p].id not in self.echoes)
        return tuple(kept[:2])


def _is_weighed(finding: Finding) -> bool:
    """Combinations kept or broken, and codes that the book lists only for other years."""
    if not finding.basis.weighs:
        return False
    out_of_years = finding.rule == YEARS_RULE and finding.outcome is Outcome.DIFFER
    return finding.rule == COMBINATION_RULE or out_of_years


def _strength(finding: Finding) -> str:
    """The kind of rule a finding tested: firm, usual, or the years of a code."""
    return "years" if finding.rule == YEARS_RULE else finding.strength


def _rules_kept(found: list[Finding]) -> tuple[str, float]:
    """The strength that counts and the probability that all rules of it are kept.

    The strongest rule that is broken counts: firm before the years of a code before
    usual. Where none is, the strongest that was tested is kept.
    """
    kept: dict[str, float] = {}
    for finding in found:
        share = finding.agreement_share
        if share is None or finding.rule == YEARS_RULE:
            share = float(finding.outcome is Outcome.AGREE)
        kept[_strength(finding)] = kept.get(_strength(finding), 1.0) * share
    tested = [strength for strength in ("firm", "years", "usual") if strength in kept]
    broken = [strength for strength in tested if kept[strength] < 0.5]
    chosen = (broken or tested)[0]
    return chosen, kept[chosen]
