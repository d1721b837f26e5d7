"""Problems across a book's rows: years, overlaps, gaps, ranges, lags."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import shown
from witnessmark.problem import Problem
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class ReversedYears(Problem):
    """The last year lies before the first."""

    first_year: int
    last_year: int

    @override
    def sentence(self) -> str:
        return f"the last year, {self.last_year}, lies before the first, {self.first_year}"

    @override
    def expected(self) -> str:
        return f"{self.first_year} or later"


@dataclass(frozen=True, slots=True)
class YearOutside(Problem):
    """A year that the book does not cover."""

    year: int
    first_year: int
    last_year: int

    @override
    def sentence(self) -> str:
        return f"{self.year} is no year of the book"

    @override
    def expected(self) -> str:
        return f"{self.first_year} to {self.last_year}"


@dataclass(frozen=True, slots=True)
class OverlappingRows(Problem):
    """Two rows of one id or code hold for the same car."""

    thing: str
    name: str
    other: Source

    @override
    def sentence(self) -> str:
        return (
            f"{self.thing} {shown(self.name)} holds for cars "
            f"for which {self.other.place()} holds already"
        )

    @override
    def expected(self) -> str:
        return "other years, works or models, or another name"


@dataclass(frozen=True, slots=True)
class OverlappingSeries(Problem):
    """Two ranges of one item share numbers and cars."""

    item: str
    other: Source

    @override
    def sentence(self) -> str:
        return f"the range shares numbers of {self.item!r} with {self.other.place()}"

    @override
    def expected(self) -> str:
        return "ranges that do not overlap for the same years, works and models"


@dataclass(frozen=True, slots=True)
class SeriesGap(Problem):
    """Years between the ranges of an item for which no range stands."""

    item: str
    years: str

    @override
    def sentence(self) -> str:
        return f"the ranges of {self.item!r} leave out {self.years}"

    @override
    def expected(self) -> str:
        return "a range for each year between, or incomplete = true for the item"


@dataclass(frozen=True, slots=True)
class Gap(Problem):
    """Cars for which something is asked and nothing stands.

    `thing` is what has the gap ("the table 'paints'"), `asked_by` who asks for
    it ("the field 'paint' of the mark 'plate'"), `cars` the years and models.
    """

    thing: str
    asked_by: str
    cars: str

    @override
    def sentence(self) -> str:
        return f"{self.thing} has nothing for {self.cars}, which {self.asked_by} covers"

    @override
    def expected(self) -> str:
        return "something for each, narrower years, works or models, or incomplete = true"


@dataclass(frozen=True, slots=True)
class NumberForm(Problem):
    """A number that is not written as its item is."""

    item: str
    number: str
    length: int
    alphabet: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.number)} is not written as {self.item!r} is"

    @override
    def expected(self) -> str:
        return f"{self.length} characters of {shown(self.alphabet)}"


@dataclass(frozen=True, slots=True)
class ReversedRange(Problem):
    """The last number of a range comes before the first."""

    first: str
    last: str

    @override
    def sentence(self) -> str:
        return f"the last number, {shown(self.last)}, comes before the first, {shown(self.first)}"

    @override
    def expected(self) -> str:
        return f"{shown(self.first)} or a later number"


@dataclass(frozen=True, slots=True)
class LagOrder(Problem):
    """The days of a lag are not in order."""

    least: int
    usual: int
    most: int

    @override
    def sentence(self) -> str:
        return f"{self.least}, {self.usual} and {self.most} days are not in order"

    @override
    def expected(self) -> str:
        return "least_days no more than usual_days, no more than most_days, and least below most"


@dataclass(frozen=True, slots=True)
class NoIdentityBearer(Problem):
    """Cars of which no assembly bears the identity."""

    cars: str

    @override
    def sentence(self) -> str:
        return f"no assembly bears the identity of {self.cars}"

    @override
    def expected(self) -> str:
        return "an assembly with identity_bearer = true for each car"


@dataclass(frozen=True, slots=True)
class ThirdIdentityBearer(Problem):
    """More than two assemblies of one car bear its identity."""

    assembly: str
    others: tuple[str, ...]

    @override
    def sentence(self) -> str:
        others = " and ".join(map(repr, self.others))
        return f"{self.assembly!r} bears the identity of cars of which {others} bear it"

    @override
    def expected(self) -> str:
        return "one or two identity bearers for each car"


@dataclass(frozen=True, slots=True)
class NoIdentification(Problem):
    """No item is the number by which the maker names the car, or several are."""

    count: int

    @override
    def sentence(self) -> str:
        many = "no item" if self.count == 0 else f"{self.count} items"
        return f"{many} of kind number with identification = true"

    @override
    def expected(self) -> str:
        return "one item, the number by which the maker names the car"


@dataclass(frozen=True, slots=True)
class NoRun(Problem):
    """A form of date is read within the runs of the model years, and the book has none."""

    form: str

    @override
    def sentence(self) -> str:
        return f"the form {shown(self.form)} asks for runs, and tables/runs.csv has none"

    @override
    def expected(self) -> str:
        return "a row in runs.csv for each model year, or no `within`"
