"""The code book as a whole, and the questions it answers about its own tables."""

from dataclasses import dataclass

from witnessmark.codebook.marks import DateForm, Mark
from witnessmark.codebook.records import (
    Assembly,
    BodyFamily,
    CarContext,
    CodeRow,
    Feature,
    Item,
    KnownException,
    Lag,
    Model,
    Rule,
    Series,
    Settlement,
    Site,
    Works,
)

ANY_CAR = CarContext()
"""Nothing is taken as given about the car."""


@dataclass(frozen=True, slots=True)
class CodeBook:
    """Cited tables of one maker and span of years."""

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

    def item(self, item_id: str) -> Item | None:
        """The item of this id, or None."""
        return next((item for item in self.items if item.id == item_id), None)

    def mark(self, mark_id: str) -> Mark | None:
        """The mark of this id, or None."""
        return next((mark for mark in self.marks if mark.id == mark_id), None)

    def date_form(self, form_id: str) -> DateForm | None:
        """The form of date of this id, or None."""
        return next((form for form in self.date_forms if form.id == form_id), None)

    def table(self, table_id: str, context: CarContext = ANY_CAR) -> tuple[CodeRow, ...]:
        """The rows of one table that could hold for this car."""
        return tuple(
            row for row in self.codes if row.table == table_id and row.applies.covers(context)
        )

    def marks_for(self, context: CarContext) -> tuple[Mark, ...]:
        """The marks that a car of this context could carry."""
        return tuple(mark for mark in self.marks if mark.applies.covers(context))

    def assemblies_for(self, context: CarContext) -> tuple[Assembly, ...]:
        """The assemblies of a car of this context, the identity bearer first."""
        found = [a for a in self.assemblies if a.applies.covers(context)]
        return tuple(sorted(found, key=lambda a: not a.identity_bearer))

    def site(self, site_id: str, context: CarContext = ANY_CAR) -> Site | None:
        """The row of this site that fits the car best, or None."""
        rows = [s for s in self.sites if s.id == site_id and s.applies.covers(context)]
        rows.sort(key=lambda s: not (s.applies.works & context.works))
        return rows[0] if rows else None
