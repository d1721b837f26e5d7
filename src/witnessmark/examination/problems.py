"""Faults of a case that only its code book, or the model, can show."""

from difflib import get_close_matches

from witnessmark.codebook.qualified import bare_name
from witnessmark.problem import Problem

NAMES_SHOWN = 12
"""Most names listed as expected."""


class UnknownToBook(Problem):
    """A name that the code book, or the model's tables, do not have."""

    noun: str
    name: str
    where: str
    known: tuple[str, ...]

    @property
    def says(self) -> str:
        """With the article of the noun."""
        if self.noun[:1] in "aeiou":
            return "{name!r} is not an {noun} {where}"
        return "{name!r} is not a {noun} {where}"

    @property
    def wants(self) -> str:
        """The nearest names, else some of the known ones."""
        if not self.near:
            return "nothing: there is none"
        if len(self.near) == NAMES_SHOWN < len(self.known):
            return "one of: {near!l}, …"
        return "one of: {near!l}"

    @property
    def near(self) -> tuple[str, ...]:
        """The names listed: of the same bare name, else spelt alike, else the first."""
        same = tuple(each for each in self.known if bare_name(each) == self.name)
        near = same or tuple(get_close_matches(self.name, self.known, n=3))
        return near or self.known[:NAMES_SHOWN]


class SeveralMarksOfCar(Problem):
    """A name that people use for several marks, of which neither claim nor reading chooses."""

    name: str
    marks: tuple[str, ...]
    says = "{name!r} is a common name for {marks!n} marks of this car"
    wants = "one of: {listed!l}"

    @property
    def listed(self) -> tuple[str, ...]:
        """The marks, or the first of very many."""
        return self.marks[:NAMES_SHOWN]


class ClaimedNumberUnfit(Problem):
    """A claimed number that is not written as the book says such a number is."""

    item: str
    value: str
    length: int
    alphabet: str
    forms: tuple[str, ...] = ()
    says = "{value!r} is not a whole {item}"

    @property
    def wants(self) -> str:
        """The number alone, or as marks of the book bear it."""
        if not self.forms:
            return "{length} characters out of {alphabet}"
        return "{length} characters out of {alphabet}, or as it stands on the car: {forms!l}"


class SaidTwoWays(Problem):
    """A site that was not seen and something noted there, or a mark absent and yet read."""

    site: str
    state: str
    mark: str = ""

    @property
    def says(self) -> str:
        """Of the mark, or else of the site."""
        if self.mark:
            return "the case calls the mark {mark!r} {state!r}, yet something was noted there"
        return "the case calls the site {site!r} {state!r}, yet something was noted there"

    @property
    def wants(self) -> str:
        """One of the two."""
        if self.mark:
            return "the mark {mark!r} as read, or nothing noted there"
        return "the site {site!r} as read, or nothing noted there"


class NoShare(Problem):
    """Another value for an assumed share that is no share."""

    row: str
    value: float
    says = "{value:g} is not a share, as the row {row!r} must be"
    wants = "a number above 0 and below 1"


class NoLook(Problem):
    """Shares of two outcomes of a look that leave nothing for the third."""

    row: str
    value: float
    beside: str
    other: float
    says = (
        "{row!r} of {value:g} and {beside!r} of {other:g} are shares of one look and leave "
        "nothing for places that look as made"
    )
    wants = "a number above 0 and below {left:g}"

    @property
    def left(self) -> float:
        """What the other outcome leaves."""
        return 1.0 - self.other


class PaperOfTwoKinds(Problem):
    """A paper with a kind of its own that is one of the book too, or has no name."""

    says = "a paper that the book does not list has a name of its own, and no mark"
    wants = 'a "name" and an empty "mark", or an empty "kind"'


class NotFromMemory(Problem):
    """A row that somebody vouches for and that rests on something better, or is invented."""

    row: str
    basis: str
    says = "the row {row!r} is not from memory: its basis is {basis!r}"
    wants = "a row of the book whose basis is memory"


class NoBearer(Problem):
    """A claim about a car for which the book names no assembly that bears the identity."""

    book: str
    says = "the book {book} names no identity bearer for a car of this year and model"
    wants = "a model and model year that the book covers"


class TooManyMarks(Problem):
    """More marks bearing one item than are summed exactly."""

    item: str
    count: int
    most: int
    says = "{count} marks bear the {item}"
    wants = "at most {most}, which is how many are summed exactly"


class YearOutsideBook(Problem):
    """A claimed year that is no year, or not one of the book's."""

    year: str
    book: str
    first: int
    last: int
    says = "{year!r} is not a year of the book {book}"
    wants = "a year from {first} to {last}"


class TooManyReadings(Problem):
    """More readings of one mark than are pooled."""

    mark: str
    count: int
    most: int
    says = "there are {count} readings of the mark {mark!r}"
    wants = "at most {most}, one for each examiner"
