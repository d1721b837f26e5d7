"""What a code or a date code may mean, from what was seen of it and nothing else.

A decoding is made for certain cars and names its likeliest alternatives. To compare,
every code of the table must have the same start: so what was seen of each field is
multiplied with a table that is even for all cars. Only where one code has two meanings,
such as a paint number used twice, does the car decide between them: by what its own mark
says, else by what is known of it. A date is read for the cars for which its mark was
decoded: of the days that a code may mean, those about their years.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.agreement.showing import LIKELY, CodeValue, DateValue
from witnessmark.codebook import (
    ANY_CAR,
    Applies,
    CarContext,
    Citation,
    CodeBook,
    CodeRow,
    Field,
    Mark,
)
from witnessmark.dates import DateSpan
from witnessmark.decoding import Decoding, FieldMeaning, FieldSeen, cars_given, meet, table_rows
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.date_options import date_options, own_years
from witnessmark.decoding.options import FieldOption


@dataclass(frozen=True, slots=True)
class DatesMeant:
    """The days of a date code, and what it means besides where it can be none: then it may
    say either."""

    placeholder: str
    days: tuple[DateValue, ...]


def code_values(
    seen: FieldSeen, book: CodeBook, mark: Mark, field: Field, known: CarContext, cars: Applies
) -> tuple[CodeValue, ...]:
    """The values that a code may say, the likeliest first, on a car of which this is known;
    `cars` are those for which the whole of its mark is read."""
    options = code_options(book, mark, field, seen, cars_given(book, ANY_CAR))
    values: list[CodeValue] = []
    for meaning, share in _by_code(options):
        rows = [row for row in table_rows(book, field.table) if row.code == meaning.code]
        fitting = [row for row in rows if row.applies.covers(known)] or rows
        read = [row for row in fitting if meet(row.applies, cars)] or fitting
        values.extend(_values(meaning, share, read))
    return tuple(sorted(values, key=lambda v: (-v.share, v.code, v.value)))


def date_values(
    seen: FieldSeen,
    book: CodeBook,
    mark: Mark,
    field: Field,
    cars: Applies,
    decodings: tuple[Decoding, ...],
) -> DatesMeant:
    """The days that a date code may mean; the spans of one code share what it has.

    The decodings of the mark say which of its days are about the car's own years.
    """
    options = date_options(
        book, mark, field, seen=seen, cars=cars, own=own_years(book, field.says, cars)
    )
    told = _spans_told(decodings, field.id)
    placeholders = [o.meaning.plain for o in options if o.meaning.placeholder and o.share >= 0.5]
    days: list[DateValue] = []
    for option in options:
        meaning = option.meaning
        spans = told.get(meaning.code) or meaning.spans
        each = option.share / max(1, len(spans))
        days.extend(DateValue(meaning.code, span, each, _citation(meaning)) for span in spans)
    return DatesMeant(placeholders[0] if placeholders else "", tuple(days))


def _spans_told(decodings: tuple[Decoding, ...], field_id: str) -> dict[str, tuple[DateSpan, ...]]:
    """The days of each code of a date field by what was decoded of it."""
    found: dict[str, dict[DateSpan, None]] = {}
    for decoding in decodings:
        for alternative in decoding.alternatives:
            for meaning in alternative.fields:
                if meaning.field == field_id and alternative.share >= LIKELY:
                    found.setdefault(meaning.code, {}).update(dict.fromkeys(meaning.spans))
    return {code: tuple(sorted(spans)) for code, spans in found.items()}


def _by_code(options: tuple[FieldOption, ...]) -> Iterable[tuple[FieldMeaning, float]]:
    """Each code once with its share, listed and not listed kept apart."""
    shares: dict[tuple[str, bool], float] = {}
    first: dict[tuple[str, bool], FieldMeaning] = {}
    for option in options:
        key = (option.meaning.code, option.meaning.listed)
        shares[key] = shares.get(key, 0.0) + option.share
        first.setdefault(key, option.meaning)
    return ((first[key], share) for key, share in shares.items())


def _values(meaning: FieldMeaning, share: float, rows: list[CodeRow]) -> Iterable[CodeValue]:
    """The values of one code: those of its rows."""
    code = meaning.code
    if not meaning.listed:
        return [
            CodeValue(
                code=code,
                value=code,
                meaning=meaning.meaning,
                share=share,
                is_listed=False,
                citation=_citation(meaning),
            )
        ]
    meanings: dict[str, CodeRow] = {}
    # Where two rows say the same, one that weighs speaks for it.
    for row in sorted(rows, key=lambda each: not each.citation.basis.weighs):
        meanings.setdefault(row.value, row)
    each = share / max(1, len(meanings))
    return [
        CodeValue(
            code=row.code,
            value=row.value,
            meaning=row.meaning,
            share=each,
            is_listed=True,
            citation=row.citation,
        )
        for row in meanings.values()
    ]


def _citation(meaning: FieldMeaning) -> Citation:
    return Citation(meaning.basis, meaning.source)
