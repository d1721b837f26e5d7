"""What stands behind one contribution: what was observed there, and the rows of the book that
were used for it, each with its basis and source."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.agreement.records import Finding, FindingKind, Outcome
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import Citation, ItemKind
from witnessmark.examination import Opinion
from witnessmark.report.sections.rows_used import RowKind, UsedRow, rows_used
from witnessmark.wording.amounts import sentence
from witnessmark.wording.names import plain_name

REASONS_SHOWN = 3

_WORTH = (Outcome.DIFFER, Outcome.UNDECIDED, Outcome.AGREE)
"""Outcomes that give a reason, what says most first."""

_KINDS = {
    "number": (FindingKind.ITEM, FindingKind.SERIES, FindingKind.TITLE),
    "absence": (FindingKind.ITEM, FindingKind.CODE, FindingKind.COMBINATION),
    "code": (FindingKind.ITEM, FindingKind.CODE, FindingKind.COMBINATION),
    "date": (FindingKind.LAG, FindingKind.ITEM),
}
"""Which comparisons speak of what a contribution is of."""


@dataclass(frozen=True, slots=True)
class Behind:
    """The reasons of a contribution in sentences, the rows used, and what says that there is such
    a mark or place at all: its name, and who says so."""

    reasons: tuple[str, ...]
    rows: tuple[UsedRow, ...]
    stands_by: tuple[str, Citation] | None


def behind(about: str, kind: str, opinion: Opinion, book: CodeBook) -> Behind:
    """The reasons and rows of a contribution of this kind, about this mark or place."""
    reasons = tuple(dict.fromkeys(_reasons(about, kind, opinion, book)))[:REASONS_SHOWN]
    mark, site = book.mark(about), book.site(about, opinion.context)
    bearer = mark or site
    stands_by = None if bearer is None else (bearer.name, bearer.citation)
    return Behind(reasons, _rows(about, opinion, book), stands_by)


def _reasons(about: str, kind: str, opinion: Opinion, book: CodeBook) -> Iterator[str]:
    """How the place looked; or what the mark was compared with, what differs first."""
    if kind == "look":
        for look in opinion.casefile.looks:
            if look.site == about:
                told = said(
                    "{feature}: {outcome}.",
                    feature=plain_name(look.feature).capitalize(),
                    outcome=plain_name(look.outcome),
                )
                yield f"{told} {sentence(look.note)}".strip()
        return
    numbers = {each.id for each in book.items if each.kind is ItemKind.NUMBER}
    of_mark = [f for f in opinion.findings if _speaks(f, about, kind, numbers)]
    for outcome in _WORTH:
        for each in of_mark:
            if each.outcome is outcome:
                yield f"{each.observation} {each.inference}"


def _speaks(finding: Finding, about: str, kind: str, numbers: set[str]) -> bool:
    """Is it a comparison of this mark, of the kind that the contribution is of?"""
    if about not in (each.mark for each in finding.subjects):
        return False
    if finding.kind is FindingKind.ITEM and kind in ("number", "code"):
        return (finding.topic in numbers) is (kind == "number")
    return finding.kind in _KINDS.get(kind, ())


def _rows(about: str, opinion: Opinion, book: CodeBook) -> tuple[UsedRow, ...]:
    """The rows that an Opinion of this mark or place alone would have used."""
    case = opinion.casefile
    alone = replace(
        opinion,
        casefile=replace(case, looks=tuple(e for e in case.looks if e.site == about)),
        decodings=tuple(each for each in opinion.decodings if each.mark == about),
        findings=tuple(
            each for each in opinion.findings if about in (s.mark for s in each.subjects)
        ),
        sites=(),
        looks=(),
    )
    return tuple(each for each in rows_used(alone, book) if each.kind is not RowKind.RUN)
