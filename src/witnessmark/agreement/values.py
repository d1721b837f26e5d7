"""What a code or a date code may mean, from what was read and nothing else.

A decoding is made for the claimed car and names its likeliest alternatives. To
compare, every code of the table must have the same start: so each field is
decoded again by itself, for no car in particular; a date within a run is read in
that of the model year which its own mark names. Only where one code has two
meanings, such as a paint number used twice, does the car decide between them.

Several readings of one mark are multiplied code by code and brought back to a
sum of 1. One reading keeps its shares; what they leave is not listed.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import CodeValue, DateValue
from witnessmark.codebook.book import ANY_CAR
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import Citation, CodeRow
from witnessmark.decoding.align import align
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.date_options import date_options
from witnessmark.decoding.decode import said_of_the_car
from witnessmark.decoding.options import Asked, FieldOption
from witnessmark.decoding.records import FieldMeaning
from witnessmark.reading import Reading, shipped_rates

UNNAMED = 1e-9
"""Share of a code that one reading does not name at all, when two are pooled."""


@dataclass(frozen=True, slots=True)
class DatesMeant:
    """The days of a date code, or the placeholder that stands where a date should."""

    placeholder: str
    days: tuple[DateValue, ...]


@dataclass(frozen=True, slots=True)
class _Meant:
    """One code of a field, one of its meanings, and its share."""

    meaning: FieldMeaning
    share: float


def code_values(
    readings: tuple[Reading, ...], car: CarMarks, mark: Mark, field: Field
) -> tuple[CodeValue, ...]:
    """The values that a code may say, the likeliest first; none without a reading."""
    values: list[CodeValue] = []
    for meant in _pooled(readings, car, mark, field):
        values.extend(_values(meant, car, field))
    return tuple(sorted(values, key=lambda v: (-v.share, v.code, v.value)))


def date_values(
    readings: tuple[Reading, ...], car: CarMarks, mark: Mark, field: Field
) -> DatesMeant:
    """The days that a date code may mean; the spans of one code share what it has."""
    pooled = _pooled(readings, car, mark, field)
    placeholders = [m.meaning.meaning for m in pooled if m.meaning.placeholder and m.share >= 0.5]
    days = tuple(
        DateValue(m.meaning.code, span, m.share / len(m.meaning.spans), _citation(m.meaning))
        for m in pooled
        for span in m.meaning.spans
    )
    return DatesMeant(placeholders[0] if placeholders else "", days)


def _values(meant: _Meant, car: CarMarks, field: Field) -> Iterable[CodeValue]:
    """The values of one code: those of its rows that hold for the car, else of all."""
    m = meant.meaning
    if not m.listed:
        return [CodeValue(m.code, m.code, m.meaning, meant.share, False, _citation(m))]
    rows = [row for row in car.book.codes if (row.table, row.code) == (field.table, m.code)]
    fitting = [row for row in rows if row.applies.covers(car.context)] or rows
    meanings: dict[str, CodeRow] = {}
    # Where two rows say the same, one that weighs speaks for it.
    for row in sorted(fitting, key=lambda each: not each.citation.basis.weighs):
        meanings.setdefault(row.value, row)
    share = meant.share / max(1, len(meanings))
    return [
        CodeValue(row.code, row.value, row.meaning, share, True, row.citation)
        for row in meanings.values()
    ]


def _pooled(
    readings: tuple[Reading, ...], car: CarMarks, mark: Mark, field: Field
) -> tuple[_Meant, ...]:
    """Every code of one field with its share, all readings of it taken together."""
    each = [_codes(_options(reading, car, mark, field)) for reading in readings]
    meant = []
    for code in sorted({code for codes in each for code in codes}):
        share = 1.0
        for codes in each:
            share *= codes[code].share if code in codes else UNNAMED
        first = next(codes[code] for codes in each if code in codes)
        meant.append(_Meant(first.meaning, share))
    total = sum(m.share for m in meant) if len(readings) > 1 else 1.0
    return tuple(_Meant(m.meaning, m.share / total) for m in meant) if total > 0 else ()


def _codes(options: Iterable[FieldOption]) -> dict[str, _Meant]:
    """The options by code, listed and not listed kept apart; rows of one code added up."""
    found: dict[str, _Meant] = {}
    for option in options:
        key = option.meaning.code if option.meaning.listed else f"{option.meaning.code} not listed"
        before = found[key].share if key in found else 0.0
        found[key] = _Meant(option.meaning, before + option.share)
    return found


def _options(reading: Reading, car: CarMarks, mark: Mark, field: Field) -> tuple[FieldOption, ...]:
    """What one field may say by itself: a code whatever the car, a date within the run of the
    model year that the mark itself names."""
    own = ANY_CAR if field.table else said_of_the_car(reading, car.book, mark)
    asked = Asked(reading, car.book, mark, own, shipped_rates())
    for aligned in align(reading, mark).fields:
        if aligned.field.id == field.id:
            return (code_options if field.table else date_options)(asked, aligned)
    return ()


def _citation(meaning: FieldMeaning) -> Citation:
    return Citation(meaning.basis, meaning.source)
