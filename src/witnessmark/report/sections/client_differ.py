"""What the first page says of findings that differ: in plain words, the most important first.

Findings that set one number against another are told together: who reads
something else, and what all the others read.
"""

from collections import Counter
from dataclasses import dataclass
from itertools import groupby

from witnessmark.agreement.records import Finding, FindingKind, Outcome, Subject
from witnessmark.catalogue import counted, said
from witnessmark.codebook.records import Basis, Item, ItemKind
from witnessmark.outline.records import Block, Bullets, Heading, Paragraph
from witnessmark.report.sections.client_metal import metal_lines
from witnessmark.report.sections.client_open import MOST_CLAIM, Front, clipped, told_misfits
from witnessmark.wording.amounts import capital, clause, listed, sentence

DIFFERENCES_SHOWN = 3
OTHERS_NAMED = 5
NOT_MARKS = ("claim", "title")


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that does not agree; `rank` is lowest for what matters most, and
    `findings` says how many findings it tells of."""

    rank: int
    text: str
    findings: int


def differ_blocks(front: Front) -> tuple[Block, ...]:
    """The heading, what the metal shows, and two or three differences with a word on the rest."""
    heading = Heading(said("What does not agree, and what the metal shows"))
    findings, metal = front.opinion.findings, metal_lines(front)
    every = [each for each in findings if each.outcome is Outcome.DIFFER]
    differing = [each for each in every if not front.opinion.is_as_declared(each)]
    untold = _untold(front, differing)
    if not any(each.outcome in (Outcome.AGREE, Outcome.DIFFER) for each in findings):
        items = [said("Nothing could be compared.")]
    elif every and not differing:
        items = [said("What differs is as was declared beforehand, see section {section}.",
                      section=front.section("findings"))]  # fmt: skip
    elif not differing:
        items = [said("Nothing that was compared differs.")]
    if not differing:
        return heading, Bullets((*metal, *items)) if metal else Paragraph(items[0])
    if not (untold or metal):
        return ()
    told = differences(front, untold)[: DIFFERENCES_SHOWN - bool(metal)]
    rest = len(untold) - sum(each.findings for each in told)
    items = [*metal, *(each.text for each in told)]
    if rest:
        items.append(
            counted(
                "And {number} more finding that differs, see section {section}.",
                "And {number} more findings that differ, see section {section}.",
                rest,
                section=front.section("findings"),
            )
        )
    return heading, Bullets(tuple(items))


def _untold(front: Front, differing: list[Finding]) -> list[Finding]:
    """All but the codes and dates of a mark that stands above for what does not fit; of a number
    it says here what the other marks read."""
    items = {item.id: item for item in front.book.items}
    told = {mark for each in told_misfits(front) for mark in each.about}
    return [
        each
        for each in differing
        if _rank(each, items) < _SERIES or told.isdisjoint(s.mark for s in each.subjects)
    ]


def differences(front: Front, differing: list[Finding]) -> list[Difference]:
    """The findings as differences: the identity, other numbers, codes, then dates."""
    items = {item.id: item for item in front.book.items}
    order = list(dict.fromkeys((_rank(each, items), each.topic) for each in differing))
    ranked = sorted(differing, key=lambda each: order.index((_rank(each, items), each.topic)))
    found: list[Difference] = []
    for (rank, topic), group in groupby(ranked, key=lambda each: (_rank(each, items), each.topic)):
        alike = list(group)
        if rank < _SERIES and all(map(_is_one_item, alike)):
            found.append(Difference(rank, _numbers(alike, items[topic].name, front), len(alike)))
        else:
            found += [Difference(rank, _observed(each), 1) for each in alike[:1]]
    return sorted(found, key=lambda each: each.rank)


def _is_one_item(finding: Finding) -> bool:
    """Does it set what marks read of one item against each other, and do they read two things?"""
    is_of_item = finding.kind in (FindingKind.ITEM, FindingKind.TITLE)
    return is_of_item and len({each.shown for each in finding.subjects}) > 1


_IDENTITY, _NUMBER, _SERIES, _CODE, _DATE, _EXPLAINS = range(6)


def _rank(finding: Finding, items: dict[str, Item]) -> int:
    """How much a difference matters; one from memory carries no weight and comes last."""
    item = items.get(finding.topic)
    if finding.basis is Basis.MEMORY:
        return _EXPLAINS
    if item is None or item.kind is not ItemKind.NUMBER:
        return _DATE if finding.kind is FindingKind.LAG else _CODE
    if finding.kind is FindingKind.SERIES:
        return _SERIES
    return _NUMBER if item.home else _IDENTITY


def _numbers(findings: list[Finding], item: str, front: Front) -> str:
    """One number as the mark reads it that differs from most, against all others."""
    subjects = [subject for each in findings for subject in each.subjects]
    count = Counter((each.mark, each.field) for each in subjects if each.mark not in NOT_MARKS)
    apart = max(count, key=lambda key: count[key]) if count else subjects[0].mark
    once = {(each.mark, each.field): each for each in subjects}
    first = once.pop(apart) if isinstance(apart, tuple) else subjects[0]
    alike: dict[str, list[str]] = {}
    for other in once.values():
        alike.setdefault(other.shown, []).append(_named(other, front))
    clauses = [_read([_named(first, front)], first.shown)]
    clauses += [_read(names, shown) for shown, names in alike.items()]
    return said(
        "{item}: {readings}: not the same.",
        item=capital(item),
        readings="; ".join(clauses),
    )


def _named(subject: Subject, front: Front) -> str:
    name = front.names.mark(subject.mark)
    return name if subject.mark in NOT_MARKS else said("the {mark}", mark=name)


def _joined(names: list[str]) -> str:
    """Marks one after the other, those beyond a few only counted."""
    left = len(names) - OTHERS_NAMED
    if left <= 0:
        return listed(tuple(names))
    return counted(
        "{names} and {number} more",
        "{names} and {number} more",
        left,
        names=", ".join(names[:OTHERS_NAMED]),
    )


def _read(names: list[str], shown: str) -> str:
    return counted(
        "{marks} reads {characters}",
        "{marks} read {characters}",
        len(names),
        marks=_joined(names),
        characters=shown,
    )


def _observed(finding: Finding) -> str:
    """What was observed, and where the book has it only from memory, that."""
    text = clause(clipped(finding.observation, MOST_CLAIM))
    if finding.basis is Basis.MEMORY:
        return said("{observation} (from memory: it carries no weight).", observation=text)
    return sentence(text)
