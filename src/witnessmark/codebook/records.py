"""The code book: what a maker is known to have done, declared and cited.

A book is a folder: `book.toml` declares the structure (assemblies, items, marks
and their fields, forms of date), `tables/*.csv` hold the rows that a
practitioner keeps in a spreadsheet (works, models, codes, series, rules, lags,
sites, features). Every row has a basis and a source. A record says itself what
may stand in its columns (documents/row.py); `book_format` lists them all.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from witnessmark.codebook.conditions import Condition, conditions
from witnessmark.codebook.listed import ListingRow
from witnessmark.documents.entries import Entry
from witnessmark.documents.row import (
    Row,
    canonical,
    free_text,
    identifier,
    number,
    texts,
    together,
    word,
    year,
    yes_no,
)
from witnessmark.source import NOWHERE, Source

LONGEST_FIELD = 64
"""Most characters that a field, a number or a part of a date can have."""

UNKNOWN = "unknown"
MODEL_YEAR, MODEL, IN_FULL = "model_year", "model", "all"
"""The items that name a car's year and model; the part of a number that is the whole of it."""


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


@dataclass(slots=True, unsafe_hash=True)
class Citation:
    """Basis and source of a row, and the place where the row stands, or what finds it.

    Nobody changes one; it is not frozen, because a frozen one takes five times as long to make,
    and every row of a book has one.
    """

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

    def narrowed(self, other: "Applies") -> "Applies":
        """The cars for which both hold, where a list that is empty means all."""
        return Applies(
            max(self.first_year, other.first_year),
            min(self.last_year, other.last_year),
            _both(self.works, other.works),
            _both(self.models, other.models),
        )


def _both(one: frozenset[str], other: frozenset[str]) -> frozenset[str]:
    """What is in both lists, where an empty one means all."""
    return one & other if one and other else one | other


YEARS = {
    "first_year": year(
        "First model year to which it applies; if missing, the book's first.", default=None
    ),
    "last_year": year(
        "Last model year to which it applies; if missing, the book's last.", default=None
    ),
}
WHOSE = {
    "works": texts("The works to which it applies; if empty, all.", of="works", default=()),
    "models": texts("The models to which it applies; if empty, all.", of="model", default=()),
}
FOR_CARS = YEARS | WHOSE
"""The columns that say for which cars a row holds."""


def applies_of(entry: Entry, ground: Any) -> object:
    """The cars for which the row of this entry holds."""
    return ground.applies(entry)


class CitedRow(Row):
    """A row of a book with what stands behind it."""

    citation: Citation = together(
        lambda entry, ground: ground.citation(entry),
        {
            # A faulty basis is taken as memory, so that the row explains but carries no weight.
            # What is assumed is in the model's own tables, never in a book.
            "basis": word(
                "What it rests on: published, common practice, memory (explains but "
                "carries no weight), or invented where the maker is.",
                tuple(basis for basis in Basis if basis is not Basis.ASSUMED),
                instead=Basis.MEMORY,
            ),
            "source": free_text("Who says so: a key of [sources], or the source in words."),
        },
    )


class CarRow(CitedRow):
    """A cited row that holds for some cars."""

    applies: Applies = together(applies_of, FOR_CARS)


class WorksRole(StrEnum):
    """The items that name works, each by what was done there."""

    WORKS = "works"
    BODY_WORKS = "body_works"


class Works(CarRow, called="works.csv"):
    """Factories and coachbuilders."""

    id: str = identifier("Its id.", names="works")
    name: str = free_text("Its name.")
    role: WorksRole = word("The item that names it.", WorksRole, instead=WorksRole.WORKS)
    applies: Applies = together(applies_of, YEARS)


class BodyFamily(CitedRow, called="body_families.csv"):
    """Kinds of body that share their sites and marks."""

    id: str = identifier("Its id.", names="body family")
    name: str = free_text("Its name.")


class Model(CarRow, called="models.csv"):
    """Models, the body family each wears and the works that built it."""

    id: str = identifier("Its id.", names="model")
    name: str = free_text("Its name.")
    body_family: str = identifier("The id of its body family.", of="body family")
    applies: Applies = together(
        applies_of, {"works": texts("The works that built it.", of="works", default=()), **YEARS}
    )


class AssemblyKind(StrEnum):
    """The kinds of assembly that carry marks."""

    FRAME = "frame"
    BODY = "body"
    SHELL = "shell"
    ENGINE = "engine"
    GEARBOX = "gearbox"
    AXLE = "axle"


class Assembly(CarRow, called="an assembly"):
    """A part of the car that carries marks and can come from another car.

    Two of one car may bear its identity: a frame and a body that both bear it are two questions.
    """

    id: str = identifier("Its id, which marks name under `assembly`.", names="assembly")
    name: str = free_text("What it is called in sentences: frame.")
    kind: AssemblyKind = word("What kind of part it is.", AssemblyKind, instead=AssemblyKind.BODY)
    identity_bearer: bool = yes_no("Does it bear the identity? One or two do.", default=False)


class ItemKind(StrEnum):
    """A number is compared place by place; a code through its canonical value."""

    NUMBER = "number"
    CODE = "code"
    DATE = "date"


class NumbersFollow(StrEnum):
    """What the order of numbers follows."""

    BUILD = "build"
    ORDERS = "orders"
    UNKNOWN = UNKNOWN


class Item(ListingRow, called="an item"):
    """Something that a mark says about the car.

    Chassis number, model, paint, casting date. `alphabet` and `length` describe a number as it
    is written out in full.
    """

    id: str = identifier("Its id, which fields name under `says`.", names="item")
    name: str = free_text("What it is called in sentences: chassis number.")
    kind: ItemKind = word(
        "A number is compared place by place, a code by its value, a date by its days.",
        ItemKind,
        instead=ItemKind.CODE,
    )
    alphabet: str = free_text("The characters that a number can have.", default="0123456789")
    length: int = number("How many characters a number has in full.", 0, LONGEST_FIELD, default=0)
    numbers_follow: NumbersFollow = word(
        "What their order follows: the cars as they were built (build), orders, or unknown.",
        NumbersFollow,
        default=NumbersFollow.UNKNOWN,
    )
    identification: bool = yes_no(
        "Is it the number by which the maker names the car?", default=False
    )
    many: bool = yes_no("Can a car have several of its codes, as its equipment?", default=False)
    home: str = identifier(
        "The assembly whose own number it is; empty for the identity bearer.",
        of="assembly",
        default="",
    )


class Supplied(StrEnum):
    """How a number of a series came to a car."""

    NEW = "new"
    LATER = "later"
    BEYOND = "beyond"


class Series(CarRow, called="series.csv"):
    """Ranges of numbers that the maker used, `first` to `last`.

    Of one without a last number nothing is said of those above its first. One that holds `also`
    only where further items have certain values explains where they have not been read, and is
    left out of the weighing of numbers.
    """

    item: str = identifier("The item that is numbered.", of="item")
    first: str = free_text("The first number, as written.")
    last: str = free_text("The last number, as written; empty where it is not known.", default="")
    also: tuple[Condition, ...] = conditions("Items of the same mark with the values it holds for.")
    meaning: str = free_text("What the range was used for.")
    supplied: Supplied = word(
        "new: with the car; later: in place of another; beyond: past those known.",
        Supplied,
        instead=Supplied.NEW,
    )
    alone: bool = word(
        "yes where no other model had such numbers.", ("yes",), default="", read="yes".__eq__
    )

    @property
    def is_open(self) -> bool:
        """Is its last number not known?"""
        return not self.last

    @property
    def is_alone(self) -> bool:
        """May it argue that a number in it is of its models and of no others?"""
        return self.alone and self.citation.basis.weighs and bool(self.applies.models)

    @property
    def with_the_car(self) -> bool:
        """Could a car leave the works with such a number, and not have it in place of another?"""
        return self.supplied is Supplied.NEW

    @property
    def is_beyond(self) -> bool:
        """Are they above those known, or worked out, to have been reached? The row says why."""
        return self.supplied is Supplied.BEYOND


class CodeRow(CarRow, called="codes.csv"):
    """Codes and what they mean."""

    table: str = identifier("The code table it belongs to.", names="table", once=False)
    code: str = free_text("The code as written.")
    value: str = canonical("Its canonical value.")
    meaning: str = free_text("Its meaning in words.")
    disputed: bool = word(
        "yes where sources disagree about the code and a row stands for each.",
        ("yes",),
        default="",
        read="yes".__eq__,
    )


class RuleKind(StrEnum):
    """What a rule says of its items: where the first holds the second must, or must not."""

    ALLOWED = "allowed"
    FORBIDDEN = "forbidden"


class Strength(StrEnum):
    """How far a rule goes: without exceptions, or with some."""

    FIRM = "firm"
    USUAL = "usual"


class Rule(CarRow, called="rules.csv"):
    """Combinations that were made or never made; `also` is what must hold beside the first."""

    id: str = identifier("Its id.")
    sentence: str = free_text("The rule in words.")
    kind: RuleKind = word("allowed: the first requires the second.", RuleKind, instead="allowed")
    if_item: str = identifier("The first item.", of="item")
    if_values: frozenset[str] = texts("Its values.", read=frozenset)
    also: tuple[Condition, ...] = conditions(
        "Further items with their values, if the rule has more conditions."
    )
    then_item: str = identifier("The second item.", of="item")
    then_values: frozenset[str] = texts("Its values.", read=frozenset)
    strength: Strength = word("firm, or usual.", Strength, instead=Strength.USUAL)

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


class KnownException(CarRow, called="exceptions.csv"):
    """Named exceptions, which reduce weight: placeholder, pilot car, known slip at the works."""

    id: str = identifier("Its id.")
    item: str = identifier("The item.", of="item")
    first: str = free_text("The first number, code or date.")
    last: str = free_text("The last one.")
    meaning: str = free_text("What it is.")
