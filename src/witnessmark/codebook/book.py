"""The code book as a whole, and the questions it answers about its own tables."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from witnessmark.codebook.date_records import Lag, Point, Run
from witnessmark.codebook.marks import DateForm, Mark
from witnessmark.codebook.names import marks_called, named
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.qualified import qualified
from witnessmark.codebook.records import (
    Assembly,
    BodyFamily,
    CarContext,
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Model,
    Rule,
    Series,
    Works,
)
from witnessmark.codebook.site_records import Feature, Remark, Settlement, Site
from witnessmark.dates import DateSpan, year_span

YEAR_BEGINS = (7, 1)
"""Month and day from which cars of the next model year may have been built."""

ANY_CAR = CarContext()
"""Nothing is taken as given about the car."""


@dataclass(frozen=True, kw_only=True)
class CodeBook:
    """Cited tables of one maker and span of years.

    `joined_from`: the books of which it was made, each as it is by itself, the maker's first;
    empty for a book that stands alone (joined.py).
    """

    id: str
    title: str
    maker: str
    version: str
    first_year: int
    last_year: int
    summary: str
    works: tuple[Works, ...] = ()
    body_families: tuple[BodyFamily, ...] = ()
    models: tuple[Model, ...] = ()
    assemblies: tuple[Assembly, ...] = ()
    items: tuple[Item, ...] = ()
    series: tuple[Series, ...] = ()
    codes: tuple[CodeRow, ...] = ()
    date_forms: tuple[DateForm, ...] = ()
    marks: tuple[Mark, ...] = ()
    rules: tuple[Rule, ...] = ()
    lags: tuple[Lag, ...] = ()
    sites: tuple[Site, ...] = ()
    features: tuple[Feature, ...] = ()
    exceptions: tuple[KnownException, ...] = ()
    settlements: tuple[Settlement, ...] = ()
    runs: tuple[Run, ...] = ()
    remarks: tuple[Remark, ...] = ()
    points: tuple[Point, ...] = ()
    joined_from: tuple["CodeBook", ...] = ()
    pieces: tuple[Piece, ...] = ()

    @property
    def beside(self) -> tuple["CodeBook", ...]:
        """The further books beside the maker's."""
        return self.joined_from[1:]

    def that_describes(self, mark: Mark) -> "CodeBook":
        """The book that describes this mark, by itself: the maker's, or a further one."""
        wanted = mark.book or self.id
        return next((each for each in self.joined_from if each.id == wanted), self)

    def is_of_another_thing(self, mark: Mark, context: CarContext) -> bool:
        """Is it a further book's mark that no car of this context and of the maker's years has?"""
        first, last = mark.applies.first_year, mark.applies.last_year
        is_of_our_years = first <= self.last_year and self.first_year <= last
        return bool(mark.book) and not (is_of_our_years and mark.applies.covers(context))

    def item(self, item_id: str) -> Item | None:
        """The item of this id, or None."""
        return next((item for item in self.items if item.id == item_id), None)

    @property
    def identification(self) -> Item | None:
        """The number by which the maker names the car; None in a book that was not checked."""
        return next((i for i in self.items if i.identification and i.kind is ItemKind.NUMBER), None)

    def item_named(self, name: str) -> Item | None:
        """The item that people call so, by id or name, or None."""
        return self.item(name) or named(name, self.items)

    def mark(self, mark_id: str) -> Mark | None:
        """The mark of this id, or None."""
        return next((mark for mark in self.marks if mark.id == mark_id), None)

    def marks_named(self, name: str, context: CarContext = ANY_CAR) -> tuple[Mark, ...]:
        """The marks that people call so: by id, name, local name or alias, whatever the case,
        hyphens, underscores and spaces. Of several, those that this car can have: where more
        than one is left, what was typed must choose."""
        return marks_called(self.marks, name, context)

    def model_named(self, name: str) -> Model | None:
        """The model that people call so, by id or name, or None."""
        return named(name, self.models)

    def works_named(self, name: str, role: str = "") -> Works | None:
        """The works that people call so, by id or name, or None; `role` asks for one of a
        part in building the car, "works" or "body_works"."""
        return named(name, (each for each in self.works if role in ("", each.role)))

    def date_form(self, form_id: str) -> DateForm | None:
        """The form of date of this id, or None."""
        return next((form for form in self.date_forms if form.id == form_id), None)

    def models_for(self, context: CarContext) -> tuple[Model, ...]:
        """The models that such a car can be."""
        known = (each for each in self.models if each.applies.covers(context))
        return tuple(each for each in known if context.model in (None, each.id))

    def works_for(self, context: CarContext) -> tuple[Works, ...]:
        """The works that such a car can come from; of those given, no other had that part in it."""
        given = {each.role for each in self.works if each.id in context.works}
        known = (each for each in self.works if each.applies.covers(context))
        return tuple(e for e in known if e.id in context.works or e.role not in given)

    def table(self, table_id: str, context: CarContext = ANY_CAR) -> tuple[CodeRow, ...]:
        """The rows of one table that could hold for this car."""
        return tuple(
            row for row in self.codes if row.table == table_id and row.applies.covers(context)
        )

    def rules_met(self, said: Mapping[str, str]) -> tuple[Rule, ...]:
        """The rules of which every condition is fulfilled by these values of items: what the
        codes of one mark, a casting number say, ask of the others."""
        return tuple(
            rule
            for rule in self.rules
            if all(said.get(each.item) in each.values for each in rule.conditions)
        )

    def marks_for(self, context: CarContext) -> tuple[Mark, ...]:
        """The marks that a car of this context could carry."""
        return tuple(mark for mark in self.marks if mark.applies.covers(context))

    def assemblies_for(self, context: CarContext) -> tuple[Assembly, ...]:
        """The assemblies of a car of this context, its identity bearers first."""
        found = [a for a in self.assemblies if a.applies.covers(context)]
        return tuple(sorted(found, key=lambda a: not a.identity_bearer))

    def site(self, site_id: str, context: CarContext = ANY_CAR) -> Site | None:
        """The row of this site that fits the car best, or None."""
        rows = [s for s in self.sites if s.id == site_id and s.applies.covers(context)]
        rows.sort(key=lambda s: not (s.applies.works & context.works))
        return rows[0] if rows else None

    def runs_for(self, context: CarContext) -> tuple[Run, ...]:
        """The runs in which a car of this context can have been built; all where none fits."""
        return tuple(run for run in self.runs if run.applies.covers(context)) or self.runs

    def days_built(self, context: CarContext, first_year: int, last_year: int) -> DateSpan:
        """The days on which cars of these model years were built.

        By the runs of such cars, where those of every year are known and weigh. A book with
        other runs only says that its model years are not calendar years: such a year reaches
        from the middle of the one before to its own end, or as far as a run does. In a book
        without any run a model year is a calendar year.
        """
        years = year_span(first_year, last_year)
        if not self.runs:
            return years
        known = [
            run
            for run in self.runs
            if first_year <= run.applies.first_year <= last_year
            and run.applies.covers(replace(context, model_year=None))
        ]
        firsts, lasts = [run.first for run in known], [run.last for run in known]
        dated = {run.applies.first_year for run in known if run.citation.basis.weighs}
        if dated >= set(range(first_year, last_year + 1)):
            return DateSpan(min(firsts), max(lasts))
        start = date(first_year - 1, *YEAR_BEGINS)
        return DateSpan(min([start, *firsts]), max([years.last, *lasts]))

    def remarks_on(self, mark: Mark, context: CarContext = ANY_CAR) -> tuple[Remark, ...]:
        """What is known about this mark, the items it says, where it is and what it is on: of
        dates first, for a date is taken for more than it says more often than anything else."""
        said = [qualified(mark.book, field.says) for field in mark.fields]
        dates = [i.id for i in self.items if i.id in said and i.kind is ItemKind.DATE]
        around = (mark.assembly, mark.piece, mark.site)
        about = {name: place for place, name in enumerate((*around, *said, mark.id, *dates))}
        found = [r for r in self.remarks if r.about in about and r.applies.covers(context)]
        return tuple(sorted(found, key=lambda r: -about[r.about]))

    def remarks_about(
        self, names: Iterable[str], context: CarContext = ANY_CAR
    ) -> tuple[Remark, ...]:
        """What is known about whatever bears these names, in their order, of such a car: of
        certain models only where the model is known."""
        order = {name: place for place, name in enumerate(dict.fromkeys(names))}
        found = [
            each
            for each in self.remarks
            if each.about in order
            and each.applies.covers(context)
            and (context.model is not None or not each.applies.models)
        ]
        return tuple(sorted(found, key=lambda each: order[each.about]))

    def points_at(
        self, item_id: str, number: str, context: CarContext = ANY_CAR
    ) -> tuple[Point, ...]:
        """The known cars and ranges in which this number lies."""
        return tuple(
            point
            for point in self.points
            if point.item == item_id and point.holds(number) and point.applies.covers(context)
        )
