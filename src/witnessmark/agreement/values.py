"""What a code or a date code may mean, from what was seen of it and nothing else.

A decoding is made for certain cars and names its likeliest alternatives. To compare,
every code of the table must have the same start: so what was seen of each field is
multiplied with a table that is even for all cars. Only where one code has two meanings,
such as a paint number used twice, does the car decide between them; a date is read for
the year that its own mark names, else for that of the car.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from witnessmark.agreement.records import CarMarks
from witnessmark.agreement.showing import CodeValue, DateValue
from witnessmark.codebook.book import ANY_CAR
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import CarContext, Citation, CodeRow
from witnessmark.decoding import FieldSeen
from witnessmark.decoding.code_options import code_options
from witnessmark.decoding.date_options import date_options
from witnessmark.decoding.hypotheses import cars_given
from witnessmark.decoding.kept import table_rows
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.records import FieldMeaning


@dataclass(frozen=True, slots=True)
class DatesMeant:
    """The days of a date code, and the meaning of one that can stand where a date should."""

    placeholder: str
    days: tuple[DateValue, ...]


def code_values(seen: FieldSeen, car: CarMarks, mark: Mark, field: Field) -> tuple[CodeValue, ...]:
    """The values that a code may say, the likeliest first."""
    options = code_options(car.book, mark, field, seen, cars_given(car.book, ANY_CAR))
    values: list[CodeValue] = []
    for meaning, share in _by_code(options):
        values.extend(_values(meaning, share, car, field))
    return tuple(sorted(values, key=lambda v: (-v.share, v.code, v.value)))


def date_values(seen: FieldSeen, car: CarMarks, mark: Mark, field: Field) -> DatesMeant:
    """The days that a date code may mean; the spans of one code share what it has."""
    own = {each.of_car for each in car.of(mark.id)}
    year = own.pop().model_year if len(own) == 1 else None
    # What its own mark says comes before what is given of the car.
    is_open = year is None and not mark.book
    context = replace(car.context, works=frozenset()) if is_open else CarContext(year)
    options = date_options(car.book, mark, field, seen, cars_given(car.book, context))
    placeholders = [o.meaning.plain for o in options if o.meaning.placeholder and o.share >= 0.5]
    days = tuple(
        DateValue(o.meaning.code, span, o.share / len(o.meaning.spans), _citation(o.meaning))
        for o in options
        for span in o.meaning.spans
    )
    return DatesMeant(placeholders[0] if placeholders else "", days)


def _by_code(options: tuple[FieldOption, ...]) -> Iterable[tuple[FieldMeaning, float]]:
    """Each code once with its share, listed and not listed kept apart."""
    shares: dict[tuple[str, bool], float] = {}
    first: dict[tuple[str, bool], FieldMeaning] = {}
    for option in options:
        key = (option.meaning.code, option.meaning.listed)
        shares[key] = shares.get(key, 0.0) + option.share
        first.setdefault(key, option.meaning)
    return ((first[key], share) for key, share in shares.items())


def _values(
    meaning: FieldMeaning, share: float, car: CarMarks, field: Field
) -> Iterable[CodeValue]:
    """The values of one code: those of its rows that hold for the car, else of all."""
    code = meaning.code
    if not meaning.listed:
        return [CodeValue(code, code, meaning.meaning, share, False, _citation(meaning))]
    rows = [row for row in table_rows(car.book, field.table) if row.code == code]
    fitting = [row for row in rows if row.applies.covers(car.context)] or rows
    meanings: dict[str, CodeRow] = {}
    # Where two rows say the same, one that weighs speaks for it.
    for row in sorted(fitting, key=lambda each: not each.citation.basis.weighs):
        meanings.setdefault(row.value, row)
    each = share / max(1, len(meanings))
    return [
        CodeValue(row.code, row.value, row.meaning, each, True, row.citation)
        for row in meanings.values()
    ]


def _citation(meaning: FieldMeaning) -> Citation:
    return Citation(meaning.basis, meaning.source)
