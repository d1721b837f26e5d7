"""The fields of one reading that were read, what each may say, and for which cars."""

from collections.abc import Callable, Hashable
from dataclasses import replace
from functools import partial

from witnessmark.catalogue import spoken
from witnessmark.codebook import IN_FULL, Applies, CarContext, Series
from witnessmark.dates import DateSpan
from witnessmark.decoding.align import AlignedField, Alignment
from witnessmark.decoding.code_options import cars_alike, code_options, listed_for_cars
from witnessmark.decoding.conditions import Said, holding, possible, values_said
from witnessmark.decoding.date_options import date_options, own_years, runs_of
from witnessmark.decoding.days_by_number import days_by_number
from witnessmark.decoding.for_cars import (
    CarsOfBook,
    Dated,
    FieldOptions,
    ForCars,
    Parts,
    fields_of,
    says,
)
from witnessmark.decoding.hypotheses import (
    cars_given,
    hypotheses,
    is_another,
    may_lie,
    meet,
    narrowed,
    parts_by_code,
    parts_by_number,
    says_of_car,
    series_by_item,
)
from witnessmark.decoding.kept import kept
from witnessmark.decoding.options import (
    DecodingRequest,
    FieldOption,
    empty_option,
    number_option,
    unreadable_option,
)
from witnessmark.decoding.records import CellsSeen
from witnessmark.decoding.same_codes import how_read, place_among_named
from witnessmark.decoding.seen import see_now
from witnessmark.decoding.seventeen import year_options
from witnessmark.reading import SILENT, shipped_rates

SURE = 0.9
"""Share from which a mark's own year, works or model is taken as said."""

NOTHING_GIVEN = CarContext()

type _SaidBeside = tuple[tuple[str, frozenset[str]], ...]
"""The values of items as what is asked again and again."""

LEAST_CARS = 0.002
"""Cars with a smaller share than this are not told apart in the alternatives."""


class Fields:
    """The fields of one reading that were read, and what each may say for certain cars."""

    def __init__(
        self, asked: DecodingRequest, alignment: Alignment, decoded: tuple[AlignedField, ...]
    ) -> None:
        self.asked, self.alignment, self.decoded = asked, alignment, decoded
        book, mark = asked.book, asked.mark
        rates = None if asked.rates is shipped_rates() else asked.rates
        question = (spoken(), rates, how_read(asked.reading))
        self.cars = kept(book, "cars", question, CarsOfBook)
        self.cars.forget()
        self.of_mark = fields_of(book, mark)
        self.questions = [self._question(aligned) for aligned in decoded]
        # What position 7 says of the year belongs to the whole number, and to no field alone.
        self.is_kept = not mark.number_rules

    def _question(self, aligned: AlignedField) -> tuple[object, Hashable]:
        """What is the same for all fields that may say the same for the same cars."""
        kind, key = self.of_mark.kinds[aligned.field.id], aligned.key
        if aligned.is_number:
            return kind, place_among_named(self.asked.book, aligned)
        return kind, key if isinstance(key, str) else (self.of_mark, key)

    def options(self, cars: ForCars) -> list[FieldOptions]:
        """What each field may say for such cars; of the car's year, works or model only what
        these cars are: what others are has a hypothesis of its own."""
        return [self._of_cars(at, cars) for at in range(len(self.decoded))]

    def _of_cars(self, at: int, cars: ForCars) -> FieldOptions:
        found = self.of(at, cars)
        if len(found.options) == 1 or self.decoded[at].field.id not in self.of_mark.tells:
            return found
        if not self.is_kept:
            return self._fitting(at, cars, found)
        question = (self.questions[at], "of these cars")
        return cars.options.ask(question, partial(self._fitting, at, cars, found))

    def _fitting(self, at: int, cars: ForCars, found: FieldOptions) -> FieldOptions:
        """The options that leave some of these cars; all where none that is listed does."""
        book = self.asked.book
        fitting = [o for o in found.options if narrowed(book, cars.cars, o) is not None]
        total = sum(option.share for option in fitting)
        if total <= 0 or not any(option.meaning.listed for option in fitting):
            return found
        of_these = tuple(replace(option, share=option.share / total) for option in fitting)
        return FieldOptions.of(book, self.decoded[at], of_these)

    def of(self, at: int, cars: ForCars) -> FieldOptions:
        """What one field may say for such cars, the likeliest first."""
        aligned, question = self.decoded[at], self.questions[at]
        if aligned.is_number and not aligned.cells.is_empty:
            return self._number(at, cars)
        if aligned.field.date_form:
            asked = (aligned.field.says, self._built(cars))
            dated = cars.dated.ask(asked, partial(self._dated, cars, *asked))
            answer = partial(self._worked_out, aligned, cars, dated[1])
            return self.cars.options.ask((question, dated), answer)
        found = cars.options.ask(question, partial(self._of_alike, at, cars))
        if self.is_kept:
            return found
        options = year_options(self.asked, self.alignment, aligned, found.options)
        if options is found.options:
            return found
        return FieldOptions.of(self.asked.book, aligned, options)

    def _of_alike(self, at: int, cars: ForCars) -> FieldOptions:
        """What a code may say is the same for all cars for which the same rows hold."""
        aligned = self.decoded[at]
        alike = cars_alike(self.asked.book, aligned.field, cars.cars, cars.known)
        answer = partial(self._worked_out, aligned, cars, None)
        return self.cars.options.ask((self.questions[at], alike), answer)

    def _dated(self, cars: ForCars, item: str, built: DateSpan | None) -> Dated:
        """The runs and the own days of such cars: what a date may say is the same for all that
        have the same."""
        book = self.asked.book
        runs = tuple([run.id for run in runs_of(book, cars.cars)])
        return runs, own_years(book, item, cars.cars, built)

    def _number(self, at: int, cars: ForCars) -> FieldOptions:
        """A number: itself, and in which series of such cars it can lie."""
        book, mark, aligned = self.asked.book, self.asked.mark, self.decoded[at]
        said_of = self._said(at, cars)
        question = (self.questions[at], said_of)
        rows = cars.series.ask(question, partial(self._series, aligned, cars, dict(said_of)))
        option = number_option(
            book,
            mark,
            aligned.field,
            cells=aligned.cells,
            rows=rows,
            known=holding(rows or (), dict(said_of)),
        )
        key, field = aligned.key, aligned.field
        is_fitting = isinstance(key, str) and set(key) <= set(field.alphabet)
        if field.id in self.of_mark.tells or not is_fitting:
            return FieldOptions.of(book, aligned, (option,))
        return FieldOptions(
            options=(option,),
            shares=(1.0,),
            says=(says(option.meaning),),
            unlisted=0.0,
            of_car=(),
            is_explained=True,
        )

    def _said(self, at: int, cars: ForCars, *, to_argue: bool = False) -> _SaidBeside:
        """What the codes beside a number say of the items on which its series depend; to argue,
        by rows that weigh alone."""
        items = self.of_mark.asks[self.decoded[at].field.id]
        if not items:
            return ()
        fields = [k for k, each in enumerate(self.decoded) if each.field.says in items]
        options = [option for k in fields for option in self.of(k, cars).options]
        said_of = values_said((o.meaning, o.share) for o in options)
        if to_argue:
            told = values_said((o.meaning, o.share) for o in options if not o.meaning.basis.weighs)
            said_of = {item: said_of[item] for item in said_of.keys() - told}
        return tuple(sorted(said_of.items()))

    def _series(
        self, aligned: AlignedField, cars: ForCars, said_of: Said
    ) -> tuple[Series, ...] | None:
        """The series of such cars in which a number can lie, those first whose conditions hold;
        None where none is listed."""
        series = series_by_item(self.asked.book).get(aligned.field.says, ())
        cells = aligned.cells.cells
        of_cars = [row for row in series if meet(row.applies, cars.cars)]
        known = holding(of_cars, said_of)
        bearing = self.asked.mark.applies
        # The years of the mark itself come first: a count begins anew, and lies in several. Of
        # other cars an open range, in which nearly every number can lie, says nothing.
        inside = [
            row
            for row in possible(of_cars, said_of)
            if may_lie(cells, row) and not (row.is_open and not meet(row.applies, bearing))
        ]
        first = sorted(
            inside,
            key=lambda row: (row not in known, not meet(row.applies, bearing), row.is_open),
        )
        return tuple(first) if first or known else None

    def _worked_out(
        self, aligned: AlignedField, cars: ForCars, own: DateSpan | None
    ) -> FieldOptions:
        book, mark, field = self.asked.book, self.asked.mark, aligned.field
        cells = aligned.cells
        options: tuple[FieldOption, ...]
        if cells.is_empty:
            options = (empty_option(field, cells.cells, mark),)
        elif all(cell.kind in SILENT for cell in cells.cells):
            options = self._unreadable(aligned, cars.cars)
        else:
            read = (CellsSeen(self.asked.reading, cells),)
            seen = see_now(
                book, mark, field, readings=read, rates=self.asked.rates, is_code=bool(field.table)
            )
            if field.date_form:
                options = date_options(book, mark, field, seen=seen, cars=cars.cars, own=own)
            else:
                options = code_options(
                    book, mark, field, seen=seen, cars=cars.cars, known=cars.known
                )
        found = FieldOptions.of(book, aligned, options)
        return found if field.id in self.of_mark.tells or not self.is_kept else found.told()

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

    def _built(self, cars: ForCars) -> DateSpan | None:
        """The days between which such a car was built, by the numbers of this mark."""
        for at, aligned in enumerate(self.decoded):
            field, cells = aligned.field, aligned.cells
            if aligned.is_number and field.part == IN_FULL and not (cells.lacks or cells.is_empty):
                said_of = self._said(at, cars, to_argue=True)
                answer = partial(
                    days_by_number,
                    self.asked.book,
                    field.says,
                    cells.cells,
                    cars=cars.cars,
                    said_of=dict(said_of),
                )
                found = cars.built.ask((self.questions[at], said_of), answer)
                if found is not None:
                    return found
        return None

    def steps(self) -> list[Callable[[ForCars], Parts]]:
        """What each field leaves of such cars: what says of the car first, then the others."""
        telling = self.of_mark.tells
        order = sorted(
            range(len(self.decoded)), key=lambda at: self.decoded[at].field.id not in telling
        )
        return [partial(self._parts, at) for at in order if self._tells_cars_apart(at)]

    def _tells_cars_apart(self, at: int) -> bool:
        """Is it a code, or a whole number, that was not left empty?"""
        aligned = self.decoded[at]
        is_whole = aligned.is_number and aligned.field.part == IN_FULL
        return not aligned.cells.is_empty and (bool(aligned.field.table) or is_whole)

    def _parts(self, at: int, cars: ForCars) -> Parts:
        if not self.is_kept:
            return self._left_by(at, cars)
        question = (self.questions[at], self._said(at, cars, to_argue=True))
        return cars.parts.ask(question, partial(self._left_by, at, cars))

    def _left_by(self, at: int, cars: ForCars) -> Parts:
        """The cars that one field leaves of these."""
        book, aligned = self.asked.book, self.decoded[at]
        if aligned.field.table:
            options = self.of(at, cars).options
            found = parts_by_code(book, cars.cars, options, has_gaps=aligned.field.has_gaps)
        else:
            rows = series_by_item(book).get(aligned.field.says, ())
            known = holding(rows, dict(self._said(at, cars, to_argue=True)))
            found = parts_by_number(book, cars.cars, self.asked.mark.applies, aligned, known)
        return tuple([(self.cars.of(each), part) for each, part in found.items()])


def cars_of(fields: Fields) -> tuple[tuple[float, ForCars], ...]:
    """For which cars the mark is read, with the share of each: those given, or, where it
    clearly says others, those."""
    asked = fields.asked
    given = fields.cars.of(cars_given(asked.book, asked.context))
    start = given if asked.context != NOTHING_GIVEN and not _contradicts(fields, given) else None
    start = start or fields.cars.of(cars_given(asked.book, NOTHING_GIVEN))
    found = hypotheses(start, fields.steps())
    best = found[0][0]
    likely = [(weight, cars) for weight, cars in found if weight >= LEAST_CARS * best]
    total = sum([weight for weight, _ in likely])
    return tuple([(weight / total, cars) for weight, cars in likely])


def _contradicts(fields: Fields, given: ForCars) -> bool:
    """Does a field of the mark clearly say another year, works or model than is given?"""
    book = fields.asked.book
    for at, aligned in enumerate(fields.decoded):
        if aligned.field.id not in fields.of_mark.tells or not aligned.field.table:
            continue
        first, *_ = fields.of(at, given).options
        meaning = first.meaning
        if first.share < SURE or not meaning.listed or not meaning.basis.weighs:
            continue
        if is_another(book, meaning.says, meaning.value, given.cars):
            return True
    return False
