"""The fields of one reading that were read, what each may say, and for which cars.

What a field may say depends on the codes alone, so it is kept by them; so are the cars for
which a mark with these codes can be read.
"""

from collections.abc import Hashable
from dataclasses import replace
from functools import partial

from witnessmark.catalogue import spoken
from witnessmark.codebook.marks import Field
from witnessmark.codebook.records import Applies, CarContext
from witnessmark.dates import DateSpan
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.code_options import code_options, listed_for_cars
from witnessmark.decoding.date_options import date_options
from witnessmark.decoding.days_by_number import days_by_number
from witnessmark.decoding.hypotheses import (
    Hypothesis,
    cars_given,
    hypotheses,
    is_another,
    may_lie,
    meet,
    narrowed,
    says_of_car,
    series_by_item,
)
from witnessmark.decoding.kept import kept
from witnessmark.decoding.options import (
    Asked,
    FieldOption,
    empty_option,
    number_option,
    unreadable_option,
)
from witnessmark.decoding.records import CellsSeen
from witnessmark.decoding.same_codes import how_read, place_among_named
from witnessmark.decoding.seen import see
from witnessmark.decoding.seventeen import year_options
from witnessmark.reading import SILENT, shipped_rates

SURE = 0.9
"""Share from which a mark's own year, works or model is taken as said."""

NOTHING_GIVEN = CarContext()

LEAST_CARS = 0.002
"""Cars with a smaller share than this are not told apart in the alternatives."""


class Fields:
    """The fields of one reading that were read, and what each may say for certain cars."""

    def __init__(
        self, asked: Asked, alignment: Alignment, decoded: tuple[AlignedField, ...]
    ) -> None:
        self.asked, self.alignment, self.decoded = asked, alignment, decoded
        self._options_for: dict[Hashable, dict[Hashable, tuple[FieldOption, ...]]] = {}

    def options(self, cars: Applies, known: Applies) -> list[tuple[FieldOption, ...]]:
        """What each field may say for such cars, which are some of those that are known."""
        return [self._of_cars(aligned, cars, known) for aligned in self.decoded]

    def _of_cars(
        self, aligned: AlignedField, cars: Applies, known: Applies
    ) -> tuple[FieldOption, ...]:
        """What one field may say; of the car's year, works or model only what these cars are:
        what others are has a hypothesis of its own."""
        found = self.of(aligned, cars, known)
        book = self.asked.book
        if len(found) == 1 or not says_of_car(book, aligned.field.says):
            return found
        fitting = [o for o in found if narrowed(book, cars, o) is not None]
        total = sum(option.share for option in fitting)
        if total <= 0 or not any(option.meaning.listed for option in fitting):
            return found
        return tuple(replace(option, share=option.share / total) for option in fitting)

    def of(
        self, aligned: AlignedField, cars: Applies, known: Applies | None = None
    ) -> tuple[FieldOption, ...]:
        """What one field may say for such cars, the likeliest first."""
        field, cells = aligned.field, aligned.cells
        book, mark = self.asked.book, self.asked.mark
        if cells.is_empty:
            return (empty_option(field, cells.cells, mark),)
        if not (field.table or field.date_form):
            rows = series_by_item(book).get(field.says, ())
            lie = [r for r in rows if may_lie(cells.cells, r) and meet(r.applies, cars)]
            return (number_option(book, mark, field, cells, tuple(lie)),)
        if all(cell.kind in SILENT for cell in cells.cells):
            return self._unreadable(aligned, cars)
        known_options = self._kept_for(cars, known)
        built = self._built(cars) if field.date_form else None
        key = (field.id, aligned.key, built)
        found = known_options.get(key)
        if found is None:
            seen = CellsSeen(self.asked.reading, cells)
            if field.date_form:
                found = self._dates(field, seen, cars, built)
            else:
                found = self._codes(field, seen, cars, known)
            known_options[key] = found
        if not mark.number_rules:
            return found
        # What position 7 says of the year belongs to the whole number, and to no field alone.
        return year_options(self.asked, self.alignment, aligned, found)

    def _kept_for(
        self, cars: Applies, known: Applies | None
    ) -> dict[Hashable, tuple[FieldOption, ...]]:
        """What was worked out before of this mark's fields for the same cars."""
        place = (cars, known)
        found = self._options_for.get(place)
        if found is None:
            asked = self.asked
            how = how_read(asked.reading)
            rates = None if asked.rates is shipped_rates() else asked.rates
            question = ("options", asked.mark.id, cars, known, spoken(), rates, how)
            found = kept(self.asked.book, question, Bounded)
            self._options_for[place] = found
        return found

    def _codes(
        self, field: Field, cells: CellsSeen, cars: Applies, known: Applies | None
    ) -> tuple[FieldOption, ...]:
        book, mark = self.asked.book, self.asked.mark
        seen = see(book, mark, field, (cells,), self.asked.rates)
        return code_options(book, mark, field, seen, cars, known)

    def _dates(
        self, field: Field, cells: CellsSeen, cars: Applies, built: DateSpan | None
    ) -> tuple[FieldOption, ...]:
        book, mark = self.asked.book, self.asked.mark
        seen = see(book, mark, field, (cells,), self.asked.rates)
        return date_options(book, mark, field, seen, cars, built)

    def _unreadable(self, aligned: AlignedField, cars: Applies) -> tuple[FieldOption, ...]:
        """A code of which nothing can be read: what the rest of the mark leaves it to say of
        the car's year, works or model, where that is one thing alone."""
        book, mark, field = self.asked.book, self.asked.mark, aligned.field
        nothing = unreadable_option(field, aligned.cells.cells, mark)
        if not field.table or not says_of_car(book, field.says):
            return (nothing,)
        listed = [c for c in listed_for_cars(book, mark, field, cars) if not c.is_outside]
        said = {m.value: m for c in listed for m, _ in c.meanings if m.basis.weighs}
        if len(said) != 1 or len(listed) != len([c for c in listed if c.meanings]):
            return (nothing,)
        [meaning] = said.values()
        return (replace(nothing, meaning=replace(meaning, code=nothing.meaning.code)),)

    def _built(self, cars: Applies) -> DateSpan | None:
        """The days between which such a car was built, by the numbers of this mark."""
        for aligned in self.decoded:
            field, cells = aligned.field, aligned.cells
            is_number = not (field.table or field.date_form) and field.part == "all"
            if is_number and not cells.lacks and not cells.is_empty:
                found = days_by_number(self.asked.book, field.says, cells.cells, cars)
                if found is not None:
                    return found
        return None


class Bounded(dict[Hashable, tuple[FieldOption, ...]]):
    """Answers kept up to a number; with one more, all are forgotten."""

    MOST = 4000

    def __setitem__(self, key: Hashable, value: tuple[FieldOption, ...]) -> None:
        if len(self) >= self.MOST:
            self.clear()
        super().__setitem__(key, value)


def cars_of(fields: Fields) -> tuple[Hypothesis, ...]:
    """For which cars the mark is read: those given, or, where it clearly says others, those."""
    asked = fields.asked
    if asked.mark.number_rules:
        return _cars_of(fields)
    codes = tuple(
        [
            aligned.key if aligned.field.table else place_among_named(asked.book, aligned)
            for aligned in fields.decoded
            if not aligned.field.date_form
        ]
    )
    ids = tuple([aligned.field.id for aligned in fields.decoded])
    how = how_read(asked.reading)
    rates = None if asked.rates is shipped_rates() else asked.rates
    question = ("cars", asked.mark.id, asked.context, rates, how, ids, codes)
    return kept(asked.book, question, partial(_cars_of, fields))


def _cars_of(fields: Fields) -> tuple[Hypothesis, ...]:
    asked = fields.asked
    given = cars_given(asked.book, asked.context)
    start = given if asked.context != NOTHING_GIVEN and not _contradicts(fields, given) else None
    start = start or cars_given(asked.book, NOTHING_GIVEN)
    found = hypotheses(asked.book, start, fields.decoded, fields.of)
    best = found[0].weight
    kept_cars = [each for each in found if each.weight >= LEAST_CARS * best]
    total = sum(each.weight for each in kept_cars)
    return tuple(replace(each, weight=each.weight / total) for each in kept_cars)


def _contradicts(fields: Fields, given: Applies) -> bool:
    """Does a field of the mark clearly say another year, works or model than is given?"""
    book = fields.asked.book
    for aligned in fields.decoded:
        if not says_of_car(book, aligned.field.says) or not aligned.field.table:
            continue
        first, *_ = fields.of(aligned, given)
        meaning = first.meaning
        if first.share < SURE or not meaning.listed or not meaning.basis.weighs:
            continue
        if is_another(book, meaning.says, meaning.value, given):
            return True
    return False
