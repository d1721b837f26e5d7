"""Which rows of the code book an Opinion used, each by name with its basis and source.

Pure: found again from what the Opinion holds. A row counts as used where a
reading was decoded by it, a finding rests on it, a look was noted under it, or
it says what could settle a question.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from witnessmark.agreement.records import FindingKind
from witnessmark.catalogue import marked
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field
from witnessmark.codebook.qualified import bare_name, further_book
from witnessmark.codebook.records import Basis, Citation, CodeRow, KnownException, Series
from witnessmark.decoding.records import FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind
from witnessmark.weighing import Standing

NEVER_STRUCK = "_"
SHARE_SHOWN = 0.01
"""A meaning with a smaller share than this is not printed, nor are its rows."""


class RowKind(StrEnum):
    """The tables of a code book that a row can stand in, as a page names them."""

    CODE = marked("Codes")
    DATE_FORM = marked("Forms of date")
    SERIES = marked("Series of numbers")
    RULE = marked("Rules on what was built")
    LAG = marked("Days between two dates")
    EXCEPTION = marked("Known exceptions")
    RUN = marked("Model-year runs")
    SITE = marked("Places on the car")
    FEATURE = marked("Features at a place")
    SETTLEMENT = marked("Sources beyond the car")


@dataclass(frozen=True, slots=True)
class UsedRow:
    """One row: its table, what finds it there, what it says, basis and source.

    `days` are the least, usual and most days of a lag; `book` is the further book that it is
    of, empty for the maker's.
    """

    kind: RowKind
    table: str
    key: str
    meaning: str
    basis: Basis
    source: str
    days: tuple[int, int, int] | None = None
    book: str = ""


def rows_used(opinion: Opinion, book: CodeBook) -> tuple[UsedRow, ...]:
    """Every row used, once, in the order of the kinds and then of the book."""
    found = (
        *_codes(opinion, book),
        *_series(opinion, book),
        *_rules(opinion, book),
        *_lags(opinion, book),
        *_exceptions(opinion, book),
        *_runs(opinion, book),
        *_sites(opinion, book),
        *_features(opinion, book),
        *_settlements(opinion, book),
    )
    order = tuple(RowKind)
    return tuple(sorted(dict.fromkeys(found), key=lambda row: order.index(row.kind)))


def _row(
    kind: RowKind, table: str, key: str, meaning: str, citation: Citation, name: str = ""
) -> UsedRow:
    """A row; the name in the book that it goes by tells of which book it is."""
    book = further_book(name or table)
    return UsedRow(kind, table, key, meaning, citation.basis, citation.source, book=book)


def _codes(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    """Codes that were read, and the forms by which dates were."""
    for field, meaning in _meanings(opinion, book):
        for row in _code_rows(field, meaning, book):
            yield _row(RowKind.CODE, row.table, row.code, row.meaning, row.citation)
        if field.empty is not None and meaning.code == NEVER_STRUCK:
            empty = field.empty
            yield _row(RowKind.CODE, field.table, NEVER_STRUCK, empty.meaning, empty.citation)
        form = book.date_form(field.date_form)
        if form is not None:
            said_by = book.item(field.says)
            name = said_by.name if said_by is not None else field.name
            yield _row(RowKind.DATE_FORM, "", bare_name(form.id), name, form.citation, form.id)


def _code_rows(field: Field, meaning: FieldMeaning, book: CodeBook) -> tuple[CodeRow, ...]:
    """The rows of this code; those with the value that is meant, where there are such."""
    if not meaning.listed:
        return ()
    rows = tuple(r for r in book.table(field.table) if r.code == meaning.code.strip())
    return tuple(row for row in rows if row.value == meaning.value) or rows


def _meanings(opinion: Opinion, book: CodeBook) -> Iterator[tuple[Field, FieldMeaning]]:
    for decoding in opinion.decodings:
        mark = book.mark(decoding.mark)
        fields = {field.id: field for field in mark.fields} if mark is not None else {}
        for alternative in decoding.alternatives:
            if alternative.share < SHARE_SHOWN:
                continue
            for meaning in alternative.fields:
                if meaning.field in fields:
                    yield fields[meaning.field], meaning


def _topics(opinion: Opinion, kind: FindingKind) -> frozenset[str]:
    return frozenset(each.topic for each in opinion.findings if each.kind is kind)


def _observed(opinion: Opinion, row: Series | KnownException) -> bool:
    """Does a finding on its item name this range of numbers?"""
    return any(
        row.first in each.observation and (row.last or row.first) in each.observation
        for each in opinion.findings
        if each.topic == row.item
    )


def _series(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    for row in book.series:
        if _observed(opinion, row):
            key = f"{row.first} – {row.last}".rstrip()
            yield _row(RowKind.SERIES, row.item, key, row.meaning, row.citation)


def _rules(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    topics = _topics(opinion, FindingKind.COMBINATION)
    for row in book.rules:
        if row.id in topics:
            yield _row(RowKind.RULE, "", bare_name(row.id), row.sentence, row.citation, row.id)


def _lags(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    topics = _topics(opinion, FindingKind.LAG)
    for row in book.lags:
        if row.id in topics:
            yield UsedRow(
                RowKind.LAG,
                "",
                bare_name(row.id),
                "",
                row.citation.basis,
                row.citation.source,
                (row.least_days, row.usual_days, row.most_days),
                further_book(row.id),
            )


def _exceptions(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    told = [each.observation.lower() for each in opinion.findings]
    for row in book.exceptions:
        if any(row.meaning.lower() in text for text in told):
            key = f"{row.first} – {row.last}" if row.last else row.first
            yield _row(RowKind.EXCEPTION, row.item, key, row.meaning, row.citation)


def _runs(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    for row in book.runs:
        if opinion.context.model_year is not None and row.applies.covers(opinion.context):
            key = f"{row.first.isoformat()} – {row.last.isoformat()}"
            yield _row(RowKind.RUN, row.id, key, row.meaning, row.citation)


def _sites(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    for outcome in opinion.sites:
        row = book.site(outcome.site, opinion.context) or book.site(outcome.site)
        if row is not None:
            yield _row(RowKind.SITE, "", row.name, row.where, row.citation, row.id)


def _features(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    looked = {(look.site, look.feature) for look in opinion.casefile.looks}
    for row in book.features:
        if (row.site, row.id) in looked and row.applies.covers(opinion.context):
            yield _row(RowKind.FEATURE, row.site, row.id, row.prompt, row.citation)


def _settlements(opinion: Opinion, book: CodeBook) -> Iterator[UsedRow]:
    unsettled = {w.about for w in opinion.weighed if w.standing is not Standing.ANSWERED}
    targets = {
        look.target
        for look in opinion.looks
        if look.kind is LookKind.SOURCE and unsettled.intersection(look.pieces)
    }
    for row in book.settlements:
        if row.id in targets:
            yield _row(RowKind.SETTLEMENT, "", row.id, row.name, row.citation)


def sources_of(rows: Iterable[UsedRow]) -> tuple[tuple[Basis, str], ...]:
    """The bases and sources of these rows, each once, in the order of their first use."""
    return tuple(dict.fromkeys((row.basis, row.source) for row in rows))
