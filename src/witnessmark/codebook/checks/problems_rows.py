"""Problems across a book's rows, and inside cells of several parts: years, overlaps, gaps, ranges,
lags; outcomes, sketches, conditions."""

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem, shown
from witnessmark.source import Source


class ReversedYears(Problem):
    """The last year lies before the first."""

    first_year: int
    last_year: int
    says = "the last year, {last_year}, lies before the first, {first_year}"
    wants = "{first_year} or later"


class YearOutside(Problem):
    """A year that the book does not cover."""

    year: int
    first_year: int
    last_year: int
    says = "{year} is not a year of the book"
    wants = "{first_year} to {last_year}"


class OverlappingRows(Problem):
    """Two rows of one id or code hold for the same car."""

    thing: str
    name: str
    other: Source
    says = "{thing} {name!q} applies to cars to which {other!p} applies already"
    wants = "other years, works or models, or another name"


class OverlappingSeries(Problem):
    """Two ranges of one item share numbers and cars."""

    item: str
    other: Source
    says = "the range shares numbers of {item!r} with {other!p}"
    wants = "ranges that do not overlap for the same years, works and models"


class AloneOfAll(Problem):
    """A range of numbers that no other model had, of which the models are not said."""

    says = "the range is of some models alone, and names none"
    wants = "the models that had such numbers"


class SeriesGap(Problem):
    """Years between the ranges of an item for which no range stands."""

    item: str
    years: str
    says = "the ranges of {item!r} leave out {years}"
    wants = "a range for each year between, or the item listed as partial"


class Gap(Problem):
    """Cars for which something is asked and nothing stands.

    `thing` is what has the gap ("the table 'paints'"), `asked_by` who asks for
    it ("the field 'paint' of the mark 'plate'"), `cars` the years and models.
    """

    thing: str
    asked_by: str
    cars: str
    says = "{thing} has nothing for {cars}, which {asked_by} covers"
    wants = "something for each, narrower years, works or models, or listed as partial"


class NumberForm(Problem):
    """A number that is not written as its item is."""

    item: str
    number: str
    length: int
    alphabet: str
    says = "{number!q} is not written as {item!r} is"
    wants = "{length} characters of {alphabet!q}"


class NoCodeOf(Problem):
    """A code or date of an exception that its item cannot have."""

    found: str
    item: str
    kind: str
    says = "no mark can say {found!q} for {item!r}"

    @property
    def wants(self) -> str:
        """A code of its tables, or a date in one of two ways."""
        if self.kind == "date":
            return "a date such as 1955, 1955-03 or 1955-03-14, or its code as a mark has it"
        return "a code of a table that a mark reads for it"


class ReversedRange(Problem):
    """The last number or day of a range comes before the first."""

    first: str
    last: str
    says = "the last, {last!q}, comes before the first, {first!q}"
    wants = "{first!q} or later"


class LagOrder(Problem):
    """The days of a lag are not in order."""

    least: int
    usual: int
    most: int
    says = "{least}, {usual} and {most} days are not in order"
    wants = "least_days no more than usual_days, no more than most_days, and least below most"


class LagToItself(Problem):
    """A lag from an item to itself."""

    item: str
    says = "the lag leads from {item!r} to itself"
    wants = "two items"


class LagCircle(Problem):
    """Lags that lead back to where they began, and need days to pass on the way."""

    days: int
    others: tuple[str, ...]
    says = "this lag and {others!l} go in a circle, by which a date is {days} days after itself"
    wants = "least_days that add up to 0 or less on the way round"


class NoIdentityBearer(Problem):
    """Cars of which no assembly bears the identity."""

    cars: str
    says = "no assembly bears the identity of {cars}"
    wants = "an assembly with identity_bearer = true for each car"


class ThirdIdentityBearer(Problem):
    """More than two assemblies of one car bear its identity."""

    assembly: str
    others: tuple[str, ...]
    says = "{assembly!r} bears the identity of cars that already have two bearers, {two}"
    wants = "one or two identity bearers for each car"

    @property
    def two(self) -> str:
        """The others in quotes."""
        return " and ".join(map(repr, self.others))


class NoIdentification(Problem):
    """No item is the number by which the maker names the car, or several are."""

    count: int
    wants = "one item, the number by which the maker names the car"

    @property
    def says(self) -> str:
        """None or several."""
        if self.count == 0:
            return "no item of kind number with identification = true"
        return "{count} items of kind number with identification = true"


class NoRun(Problem):
    """A form of date is read within the runs of the model years, and the book has none."""

    form: str
    says = "the form {form!q} asks for runs, and tables/runs.csv has none"
    wants = "a row in runs.csv for each model year, or no `within`"


class OutcomeForm(Problem):
    """A part of a feature's outcomes that is no outcome."""

    part: str
    says = "{part!q} is not an outcome with its look"
    wants = "such as 'as factory=factory; none=doubtful'"


class TooManyOutcomes(Problem):
    """A feature with more outcomes than a sheet has room for."""

    number: int
    most: int
    says = "a feature has {number} outcomes"
    wants = "at most {most}; ask a second question in a row of its own"


class LongOutcome(Problem):
    """An outcome too long to stand beside its box."""

    outcome: str
    most: int
    says = "the outcome {outcome!q} has {outcome!n} letters"
    wants = "at most {most}"


class OutcomeLook(Problem):
    """An outcome counts as a look that there is not."""

    look: str
    looks: tuple[str, ...]
    says = "{look!q} is not a look"
    wants = "one of: {looks!l}"


class RepeatedOutcome(Problem):
    """An outcome that the feature has already."""

    outcome: str
    says = "the outcome {outcome!q} is here a second time"
    wants = "each outcome once"


class SketchForm(Problem):
    """A part of a feature's sketches that gives no outcome a sketch."""

    part: str
    says = "{part!q} is not an outcome with its sketch"
    wants = "such as 'screws=screws; glue=glue'"


class SketchOfNoOutcome(Unknown):
    """A sketch for an outcome that the row does not have."""

    says = "{name!q} is not an outcome of this row"
    wants_else = ""


class UnknownSketch(Unknown):
    """A name that no sketch has."""

    says = "there is no sketch {name!q}"
    wants_else = "a name of the list in docs/codebook.md"


class UndrawnOutcomes(Problem):
    """Some outcomes of a row have a sketch and others none: what is drawn would lead the eye."""

    outcomes: tuple[str, ...]
    says = "no sketch for {undrawn}"
    wants = "a sketch for each outcome of the row, or an empty cell"

    @property
    def undrawn(self) -> str:
        """The outcomes in quotes."""
        return ", ".join(map(shown, self.outcomes))


class ConditionForm(Problem):
    """A further condition of a row that is not an item and its values."""

    text: str
    says = "{text!q} is not an item with its values"
    wants = "item=value value, with ; between conditions"


class RequiredOfMany(Problem):
    """A rule that requires one of the codes of which a car can have several."""

    item: str
    says = "{item!r} has many codes, and what it lacks says nothing"
    wants = "kind = forbidden, or the item as if_item"


class RepeatedCondition(Problem):
    """A further condition on an item of which the row speaks already."""

    item: str
    says = "the row already names {item!r}"
    wants = "each item once in a row"
