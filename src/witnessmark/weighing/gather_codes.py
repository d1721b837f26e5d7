"""Gathers what codes, dates and rules say of the nodes that bear them."""

import numpy as np

from witnessmark.agreement.phrases import on_mark
from witnessmark.agreement.records import Finding, Outcome
from witnessmark.agreement.showing import CLAIM
from witnessmark.catalogue import said
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import Lag
from witnessmark.weighing import evidence_codes as codes
from witnessmark.weighing import evidence_dates as dates
from witnessmark.weighing.collected import Collected
from witnessmark.weighing.date_readings import DaysRead, days_read
from witnessmark.weighing.evidence import Channel, PairChannel
from witnessmark.weighing.nodes import Node

COMBINATION_RULE = "combination_of_codes"
YEARS_RULE = "code_of_its_years"
BUILD_DATE = "build_date"


def gather_codes(found: Collected, place: int, node: Node) -> None:
    """The codes of one node against the claim."""
    against = codes.codes_against_claim(found.car, node)
    if against is None:
        return
    agree, *differ = against.likelihood.tolist()
    if agree < max(differ[:-1]) and found.is_excused(node, _code_excused):
        return
    slot = found.slot(
        f"codes:{node.id}",
        "codes",
        node.id,
        said("The codes on the {mark} against the claim.", mark=node.marks[0].name),
        True,
    )
    table = codes.codes_table(found.maker, node, against.items)
    likelihoods = [np.ones(against.likelihood.size), against.likelihood]
    found.channels.append(Channel(slot, place, "CS", table, likelihoods))


def gather_dates(found: Collected, place: int, node: Node) -> None:
    """The dates of one node against the day the car was built."""
    built = dates.built_span(found.car)
    if built is None:
        return
    for mark in node.marks:
        for fld in mark.fields:
            read = days_read(found.car, mark, fld)
            if read is not None and fld.says == BUILD_DATE:
                _stated_day(found, place, node, mark, fld, read)
                continue
            lag = _lag(found, fld.says)
            if lag is None or read is None:
                continue
            fit = dates.date_fit(read, built, lag)
            if fit[0] < 1.0 and found.is_excused(node, _date_excused):
                continue
            slot = found.slot(
                f"date:{mark.id}.{fld.id}",
                "date",
                node.id,
                said(
                    "The {date} against the date the car was built.",
                    date=on_mark(fld.name, mark.name),
                ),
                True,
            )
            table = dates.date_table(found.maker, node)
            found.channels.append(Channel(slot, place, "DS", table, [np.ones(3), fit]))


def _stated_day(
    found: Collected,
    place: int,
    node: Node,
    mark: Mark,
    fld: Field,
    read: DaysRead,
) -> None:
    """The day that a paper says the car was built, against the day that is claimed."""
    built = dates.built_span(found.car)
    if built is None:
        return
    likelihood, share = dates.stated_day(read, built)
    sentence = said("The {date} against the claimed one.", date=on_mark(fld.name, mark.name))
    slot = found.slot(f"date:{mark.id}.{fld.id}", "date", node.id, sentence, True)
    table = dates.stated_day_table(found.maker, node, share)
    found.channels.append(Channel(slot, place, "S", table, [np.ones(2), likelihood]))


def _lag(found: Collected, item: str) -> Lag | None:
    return next(
        (
            lag
            for lag in found.car.book.lags
            if lag.earlier == item
            and lag.later == "build_date"
            and lag.applies.covers(found.car.context)
            and lag.citation.basis.weighs
        ),
        None,
    )


def gather_rules(collected: Collected) -> None:
    """One item for all rules that the codes of one node, or of two, keep or break: a
    maker of plates who copies a true combination keeps them all at once."""
    by_nodes: dict[tuple[int, ...], list[Finding]] = {}
    for finding in collected.findings:
        if not _is_weighed(finding) or _is_of_claimed_codes(collected, finding):
            continue
        places = _bearing_nodes(collected, finding)
        if places and finding.outcome is not Outcome.SILENT:
            by_nodes.setdefault(places, []).append(finding)
    for places, found in by_nodes.items():
        strength, kept = _rules_kept(found)
        nodes = [collected.nodes[p] for p in places]
        if kept < 0.5 and any(collected.is_excused(n, _rule_excused) for n in nodes):
            continue
        broken = [f.observation for f in found if f.outcome is Outcome.DIFFER]
        sentence = " ".join(broken) or _kept([n.marks[0].name for n in nodes])
        slot_id = "rules:" + "+".join(collected.nodes[p].id for p in places)
        slot = collected.slot(slot_id, "rule", collected.nodes[places[0]].id, sentence, True)
        likelihoods = [np.ones(2), np.array([max(kept, 1e-6), max(1.0 - kept, 1e-6)])]
        first = collected.nodes[places[0]]
        if len(places) == 1:
            table = codes.rule_table(collected.maker, first, strength)
            collected.channels.append(Channel(slot, places[0], "S", table, likelihoods))
        else:
            second = collected.nodes[places[1]]
            table = codes.pair_rule_table(collected.maker, first, second, strength)
            pair = PairChannel(slot, (places[0], places[1]), table, likelihoods)
            collected.pairs.append(pair)


def _kept(names: list[str]) -> str:
    """That the codes on one mark, or on two, keep the rules."""
    if len(names) == 1:
        return said("The codes on the {mark} keep the rules of the book.", mark=names[0])
    return said(
        "The codes on the {mark} and the {other} keep the rules of the book.",
        mark=names[0],
        other=names[1],
    )


def _code_excused(mark: str, exception: str) -> str:
    return said(
        "A code that differs on the {mark} is not weighed: the book names an exception "
        "({exception}).",
        mark=mark,
        exception=exception,
    )


def _date_excused(mark: str, exception: str) -> str:
    return said(
        "A date out of order on the {mark} is not weighed: the book names an exception "
        "({exception}).",
        mark=mark,
        exception=exception,
    )


def _rule_excused(mark: str, exception: str) -> str:
    return said(
        "A broken rule on the {mark} is not weighed: the book names an exception ({exception}).",
        mark=mark,
        exception=exception,
    )


def _bearing_nodes(collected: Collected, finding: Finding) -> tuple[int, ...]:
    """The one or two nodes whose codes a rule tested, in order.

    None where one of the marks is not weighed (an echo, or no mark of this car): what
    it says together with another must not count against the other alone. None either where
    three or more broke it together: which two of them, nothing says.
    """
    places = {m.id: p for p, n in enumerate(collected.nodes) for m in n.marks}
    marks = {s.mark for s in finding.subjects if s.mark != CLAIM}
    if any(m not in places or collected.nodes[places[m]].id in collected.echoes for m in marks):
        return ()
    if any(_is_unsure(collected, m) for m in marks):
        return ()
    found = tuple(sorted({places[m] for m in marks}))
    return found if len(found) <= 2 else ()


def _is_unsure(collected: Collected, mark_id: str) -> bool:
    """Was the mark read only with too few places to say which code stands where?"""
    mark = collected.car.book.mark(mark_id)
    if mark is None or mark.windows:
        return False
    seen = [collected.car.seen(mark, fld) for fld in mark.fields]
    return any(each.lacks for each in seen if each is not None)


def _is_weighed(finding: Finding) -> bool:
    """Combinations kept or broken, and codes that the book lists only for other years."""
    if not finding.basis.weighs:
        return False
    out_of_years = finding.rule == YEARS_RULE and finding.outcome is Outcome.DIFFER
    return finding.rule == COMBINATION_RULE or out_of_years


def _is_of_claimed_codes(collected: Collected, finding: Finding) -> bool:
    """Are the codes that a rule is about weighed against the claim?

    What is claimed keeps the rule or breaks it by itself: that both codes are as claimed,
    or one is not, has been weighed then, and once is enough.
    """
    weighed = set(collected.maker.code_items)
    rule = next((r for r in collected.car.book.rules if r.id == finding.topic), None)
    if rule is None:
        # A code of other years: claimed or not, it has been weighed as a code.
        return finding.rule == YEARS_RULE and finding.topic in weighed
    return rule.items <= weighed


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
