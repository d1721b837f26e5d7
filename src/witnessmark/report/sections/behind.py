"""What stands behind one contribution: what was observed there, and the rows of the book that
were used for it, each with its basis and source."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.agreement.look_class import place_looked
from witnessmark.agreement.records import Finding, FindingKind, Outcome
from witnessmark.catalogue import as_said, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import Basis
from witnessmark.examination import Opinion, marks_of
from witnessmark.report.sections.appendix import row_meaning, table_name
from witnessmark.report.sections.rows_used import RowKind, UsedRow, rows_used
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.case_words import feature_word, look_word

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


_ROWS = {
    "number": (RowKind.SERIES, RowKind.EXCEPTION),
    "code": (RowKind.CODE, RowKind.RULE),
    "date": (RowKind.DATE_FORM, RowKind.LAG),
    "look": (RowKind.FEATURE,),
    "absence": (RowKind.RULE,),
}
"""Which rows of the book it is weighed by."""


@dataclass(frozen=True, slots=True)
class RowsOfSource:
    """Rows of the book in words, with the basis and the source that they share."""

    rows: tuple[str, ...]
    basis: str
    source: str


@dataclass(frozen=True, slots=True)
class Behind:
    """The reasons of a contribution in sentences, and the rows it was weighed by: first that of the
    mark or place itself."""

    reasons: tuple[str, ...]
    cited: tuple[RowsOfSource, ...]


def behind(about: str, kind: str, opinion: Opinion, book: CodeBook) -> Behind:
    """The reasons and rows of a contribution of this kind, about this mark or place."""
    reasons = tuple(dict.fromkeys(_reasons(about, kind, opinion, book)))
    if kind != "look":  # of what was looked at nothing is left out
        reasons = reasons[:REASONS_SHOWN]
    return Behind(reasons, tuple(_cited(about, kind, opinion, book)))


def _cited(about: str, kind: str, opinion: Opinion, book: CodeBook) -> Iterator[RowsOfSource]:
    """The rows by their source, in the order of their first use."""
    found: dict[tuple[Basis, str], list[str]] = {}
    bearer = book.mark(about) or book.site(about, opinion.context)
    if bearer is not None:
        found[bearer.citation.basis, bearer.citation.source] = [capital(bearer.name)]
    names = Names(opinion.names)
    for row in _rows(about, opinion, book):
        if row.kind in _ROWS.get(kind, ()):
            found.setdefault((row.basis, row.source), []).append(_in_words(row, names))
    for (basis, source), rows in found.items():
        yield RowsOfSource(tuple(rows), as_said(basis.value), source)


def _in_words(row: UsedRow, names: Names) -> str:
    """A row with its table, where it has one, and what it says."""
    key = f"{table_name(row, names)} {row.key}" if row.table else row.key
    told = row_meaning(row)
    return said("{row}: {meaning}", row=key, meaning=told) if told else key


def _reasons(about: str, kind: str, opinion: Opinion, book: CodeBook) -> Iterator[str]:
    """How the place looked, what is not as made first; or what the mark was compared with, what
    differs first."""
    if kind == "look":
        otherwise = place_looked(marks_of(opinion, book), about).otherwise
        looks = (each for each in opinion.casefile.looks if each.site == about)
        for look in sorted(looks, key=lambda each: each.feature not in otherwise):
            told = said(
                "{feature}: {outcome}.",
                feature=capital(feature_word(look.feature)),
                outcome=look_word(look.outcome),
            )
            yield f"{told} {sentence(look.note)}".strip()
        return
    kinds = {each.id: each.kind.value for each in book.items}
    of_mark = [f for f in opinion.findings if _speaks(f, about, kind, kinds)]
    for outcome in _WORTH:
        for each in of_mark:
            if each.outcome is outcome:
                yield f"{each.observation} {each.inference}"


def _speaks(finding: Finding, about: str, kind: str, kinds: dict[str, str]) -> bool:
    """Is it a comparison of this mark, of the kind that the contribution is of? `kinds` has those
    of the items."""
    if about not in (each.mark for each in finding.subjects):
        return False
    if finding.kind is FindingKind.ITEM and kind != "absence":
        return kinds.get(finding.topic) == kind
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
