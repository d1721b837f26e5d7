"""The code book: what a maker is known to have done, declared and cited.

A book is a folder: `book.toml` declares the structure (assemblies, items, marks
and their fields, forms of date), `tables/*.csv` hold the rows that a
practitioner keeps in a spreadsheet (works, models, codes, series, rules, lags,
sites, features). Every row has a basis and a source.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from witnessmark.codebook.sketches import Sketch
from witnessmark.source import NOWHERE, Source


class Basis(StrEnum):
    """What stands behind a row (see docs/weighing.md)."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common practice"
    MEMORY = "memory"
    INVENTED = "invented"
    ASSUMED = "assumed"

    @property
    def weighs(self) -> bool:
        """May a row on this basis argue, for or against? One from memory never may."""
        return self is not Basis.MEMORY


@dataclass(frozen=True, slots=True)
class Citation:
    """Basis and source of a row, and the place where the row stands, or what finds it."""

    basis: Basis
    source: str
    where: Source | Callable[[], Source] = field(default=NOWHERE, compare=False, repr=False)

    @property
    def place(self) -> Source:
        """Where the row stands."""
        return self.where if isinstance(self.where, Source) else self.where()


@dataclass(frozen=True, slots=True)
class CarContext:
    """What is taken as given about a car when the book is asked: None or empty where open."""

    model_year: int | None = None
    model: str | None = None
    works: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Applies:
    """The years, works and models for which a row or mark holds; empty means all."""

    first_year: int
    last_year: int
    works: frozenset[str] = frozenset()
    models: frozenset[str] = frozenset()

    def covers(self, context: CarContext) -> bool:
        """Could it hold for this car? What is open in the context excludes nothing."""
        year = context.model_year
        if year is not None and not self.first_year <= year <= self.last_year:
            return False
        if context.works and self.works and not (self.works & context.works):
            return False
        return not (context.model and self.models and context.model not in self.models)


@dataclass(frozen=True, slots=True)
class Works:
    """A factory or coachbuilder. `role` names the item that says it ("works", "body_works")."""

    id: str
    name: str
    role: str
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class BodyFamily:
    """A kind of body that shares its sites and marks."""

    id: str
    name: str
    citation: Citation


@dataclass(frozen=True, slots=True)
class Model:
    """A model of the maker, the body family it wears and the works that built it."""

    id: str
    name: str
    body_family: str
    applies: Applies
    citation: Citation


class AssemblyKind(StrEnum):
    """The kinds of assembly that carry marks."""

    FRAME = "frame"
    BODY = "body"
    SHELL = "shell"
    ENGINE = "engine"
    GEARBOX = "gearbox"
    AXLE = "axle"


@dataclass(frozen=True, slots=True)
class Assembly:
    """A part of the car that carries marks and can come from another car.

    `identity_bearer`: the identification number belongs to this one. Two of one car may: a
    frame and a body that both bear it are two questions.
    """

    id: str
    name: str
    kind: AssemblyKind
    identity_bearer: bool
    applies: Applies
    citation: Citation


class ItemKind(StrEnum):
    """A number is compared place by place; a code through its canonical value."""

    NUMBER = "number"
    CODE = "code"
    DATE = "date"


@dataclass(frozen=True, slots=True)
class Item:
    """Something that a mark says about the car: chassis number, model, paint, casting date.

    `home` is the assembly whose own number it is (empty: the identity bearer).
    `alphabet` and `length` describe a number as it is written out in full.
    `numbers_follow`: "build" if numbers followed the cars as they were built, "orders" if
    they were given with the order, "unknown".
    """

    id: str
    name: str
    kind: ItemKind
    home: str = ""
    alphabet: str = "0123456789"
    length: int = 0
    numbers_follow: str = "unknown"
    identification: bool = False


@dataclass(frozen=True, slots=True)
class Series:
    """A range of numbers that a maker used: `first` to `last`, as written.

    `with_the_car` is False for what was supplied later in place of another: no car left
    the works with such a number. `is_beyond`: numbers above those that are known, or
    worked out, to have been reached; the row says why such a number asks for a reason.
    """

    item: str
    first: str
    last: str
    applies: Applies
    meaning: str
    citation: Citation
    with_the_car: bool = True
    is_beyond: bool = False


@dataclass(frozen=True, slots=True)
class CodeRow:
    """One code of one table: what it means and the canonical value it says.

    `disputed`: sources disagree about this code, and the book holds a row for each.
    """

    table: str
    code: str
    value: str
    meaning: str
    applies: Applies
    citation: Citation
    disputed: bool = False


@dataclass(frozen=True, slots=True)
class Condition:
    """A further condition of a rule: the item has one of the values."""

    item: str
    values: frozenset[str]


@dataclass(frozen=True, slots=True)
class Rule:
    """An allowed or forbidden combination: `if_item` in `if_values` and `then_item` in …

    `kind` is "allowed" (if the first holds, the second must) or "forbidden" (both
    may not hold together); `strength` is "firm" or "usual". `also` holds what must hold
    beside the first: a rule of three places or more.
    """

    id: str
    sentence: str
    kind: str
    if_item: str
    if_values: frozenset[str]
    then_item: str
    then_values: frozenset[str]
    strength: str
    applies: Applies
    citation: Citation
    also: tuple[Condition, ...] = ()

    @property
    def conditions(self) -> tuple[Condition, ...]:
        """All that must hold before the rule asks for anything."""
        return (Condition(self.if_item, self.if_values), *self.also)

    @property
    def items(self) -> frozenset[str]:
        """The items of which the rule speaks."""
        return frozenset((self.then_item, *(each.item for each in self.conditions)))

    def values_of(self, item: str) -> frozenset[str]:
        """The values of one item that it names."""
        sides = (Condition(self.then_item, self.then_values), *self.conditions)
        return frozenset[str]().union(*(each.values for each in sides if each.item == item))


@dataclass(frozen=True, slots=True)
class Lag:
    """Days by which the date `earlier` precedes the date `later`: least, usual, most.

    Fewer than 0 where the "earlier" date, a planned one say, may fall behind the other.
    """

    id: str
    earlier: str
    later: str
    least_days: int
    usual_days: int
    most_days: int
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Feature:
    """Something to look at on a site, with its outcomes and the look each counts as."""

    id: str
    site: str
    prompt: str
    outcomes: tuple["FeatureOutcome", ...]
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class FeatureOutcome:
    """One outcome of a feature; `look` is factory, doubtful or disturbed.

    `sketch` is what a field sheet draws beside it, None where it is not drawn.
    """

    id: str
    look: str
    sketch: Sketch | None = None


@dataclass(frozen=True, slots=True)
class Site:
    """Where on the car a mark stands, and how to get there.

    `variant` is the place as this works put it; several rows of one site id
    differ by works or years. `minutes` is the time on site; `dismantling` says
    what must come off ("none" if nothing); `access_group` names what several
    sites share (one lifting serves them all), `access_minutes` its time. `posture` is how
    one must stand, kneel or lie to see it; `along`, `across` and `up` are where it is on a
    car in per cent of its length from the front, its width from its own left-hand side and
    its height from the ground, or None where the book does not say.
    """

    id: str
    name: str
    where: str
    look_at: str
    dismantling: str
    minutes: int
    access_group: str
    access_minutes: int
    caution: str
    applies: Applies
    citation: Citation
    posture: str = ""
    along: int | None = None
    across: int | None = None
    up: int | None = None


@dataclass(frozen=True, slots=True)
class KnownException:
    """A named exception that takes weight away: placeholder, pilot car, known plant slip."""

    id: str
    item: str
    first: str
    last: str
    meaning: str
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Settlement:
    """A source outside the car that could settle a question: an archive, a laboratory.

    `speaks_of` names a paper mark, or an assembly or mark that it could read.
    """

    id: str
    name: str
    speaks_of: str
    how: str
    minutes: int
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Run:
    """When the cars of one model year were built: `first` to `last`, both included.

    Its model year is the only year of `applies`; one model year may have several
    runs, counted from different starts.
    """

    id: str
    first: date
    last: date
    meaning: str
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Remark:
    """Something known that is no code. `about` is a mark, item, assembly, site or "book"."""

    id: str
    about: str
    sentence: str
    applies: Applies
    citation: Citation


@dataclass(frozen=True, slots=True)
class Point:
    """A known car, or a range of numbers, tied to a date.

    `first` and `last` are numbers of `item`, or empty; `dated` says what the date
    is (scheduled, built, sold …); `date_first` and `date_last` are as exact as they
    are known (1968, 1968-01, 1968-01-25), or empty; `date_code` is the date as the
    car bears it.
    """

    id: str
    item: str
    first: str
    last: str
    dated: str
    date_first: str
    date_last: str
    date_code: str
    meaning: str
    applies: Applies
    citation: Citation

    def holds(self, number: str) -> bool:
        """Does this number of the same length lie in the range?"""
        last = self.last or self.first
        return len(self.first) == len(number) == len(last) and self.first <= number <= last
