"""Which cars a row holds for: do two rows meet, and which cars are left out."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice

from witnessmark.codebook.records import Applies, CarContext, Model, Works, WorksRole

MOST_MODELS = 200
"""A book with more models than any maker had is checked for the first of them."""


@dataclass(frozen=True, slots=True)
class Car:
    """A kind of car of the book: a model in a year; an empty model where the book has none."""

    year: int
    model: str

    def is_of(self, row: Applies) -> bool:
        """Does the row hold for this car, wherever it was built?"""
        return row.covers(CarContext(self.year, self.model or None))


@dataclass(frozen=True, slots=True)
class ModelYears:
    """A model and the years in which it was built."""

    model: str
    applies: Applies


@dataclass(frozen=True, slots=True)
class BookCars:
    """All cars of a book, and which works play the same part in building one.

    `works` and `body_works` hold ids: a car has one works and one coachbuilder,
    so a row for a works and a row for a coachbuilder can both hold for it.
    """

    models: tuple[ModelYears, ...]
    works: frozenset[str]
    body_works: frozenset[str]

    @classmethod
    def of(cls, models: Iterable[Model], works: Iterable[Works], whole: Applies) -> "BookCars":
        """The cars of a book with these models and works; `whole` holds for all of them."""
        roles = [(each.id, each.role) for each in works]
        listed = [ModelYears(each.id, each.applies) for each in islice(models, MOST_MODELS)]
        return cls(
            tuple(listed) or (ModelYears("", whole),),
            frozenset(name for name, role in roles if role is WorksRole.WORKS),
            frozenset(name for name, role in roles if role is WorksRole.BODY_WORKS),
        )

    def cars(self, needed: Applies) -> tuple[Car, ...]:
        """The cars for which a row or mark holds."""
        return tuple(
            Car(year, each.model)
            for each in self.models
            if not needed.models or not each.model or each.model in needed.models
            for year in range(
                max(needed.first_year, each.applies.first_year),
                min(needed.last_year, each.applies.last_year) + 1,
            )
        )

    def works_meet(self, one: frozenset[str], other: frozenset[str]) -> bool:
        """Can a car be of works of both sets? Empty means all."""
        if not one or not other or one & other:
            return True
        return not any(one & role and other & role for role in (self.works, self.body_works))

    def meet(self, one: Applies, other: Applies) -> bool:
        """Is there a car for which both hold?"""
        if one.last_year < other.first_year or other.last_year < one.first_year:
            return False
        if one.models and other.models and not one.models & other.models:
            return False
        # Of a works whose part in a car is not known nothing is said.
        if not one.works & other.works and (one.works | other.works) - self.works - self.body_works:
            return not one.works or not other.works
        return self.works_meet(one.works, other.works)

    def builds(self, *rows: Applies) -> bool:
        """Is there a car, of a model in a year in which it was built, for which all hold?"""
        named = frozenset[str]().union(*(row.models for row in rows))
        if named - {each.model for each in self.models}:
            # Of a model that is not known nothing is said.
            return True
        return any(
            all(not row.models or not each.model or each.model in row.models for row in rows)
            and self._all_meet((each.applies, *rows))
            for each in self.models
        )

    def _all_meet(self, rows: tuple[Applies, ...]) -> bool:
        """Can one car be of a year and of works of all of them?"""
        if max(row.first_year for row in rows) > min(row.last_year for row in rows):
            return False
        for role in (self.works, self.body_works):
            named = [row.works & role for row in rows if row.works & role]
            if named and not frozenset.intersection(*named):
                return False
        return True

    def left_out(self, needed: Applies, rows: Iterable[Applies]) -> tuple[str, ...]:
        """The cars for which `needed` holds and no row does, first the years without any, in
        words: "1957 to 1959", or "1957 (solent-sprint)"."""
        holding = [row for row in rows if self.works_meet(row.works, needed.works)]
        spans = {(row.first_year, row.last_year) for row in holding if not row.models}
        if any(first <= needed.first_year and needed.last_year <= last for first, last in spans):
            return ()
        cars = self.cars(needed)
        lacking = {car for car in cars if not any(car.is_of(row) for row in holding)}
        whole = {car.year for car in lacking} - {car.year for car in cars if car not in lacking}
        found = [year_ranges(whole)] if whole else []
        for model in dict.fromkeys(car.model for car in cars):
            years = {car.year for car in lacking if car.model == model} - whole
            found += [f"{year_ranges(years)} ({model})"] if years else []
        return tuple(found)


def year_ranges(years: Iterable[int]) -> str:
    """Years in words.

    >>> year_ranges([1952, 1953, 1957])
    '1952 to 1953, 1957'
    """
    runs: list[list[int]] = []
    for year in sorted(years):
        if runs and runs[-1][1] == year - 1:
            runs[-1][1] = year
        else:
            runs.append([year, year])
    return ", ".join(str(a) if a == b else f"{a} to {b}" for a, b in runs)
