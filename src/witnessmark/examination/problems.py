"""Faults of a case that only its code book, or the model, can show."""

from dataclasses import dataclass
from difflib import get_close_matches

from witnessmark.codebook.qualified import bare_name
from witnessmark.problem import Problem

NAMES_SHOWN = 12
"""Most names listed as expected."""


@dataclass(frozen=True, slots=True)
class UnknownToBook(Problem):
    """A name that the code book, or the model's tables, do not have."""

    noun: str
    name: str
    where: str
    known: tuple[str, ...]

    def sentence(self) -> str:
        """The name and where it was looked for."""
        article = "an" if self.noun[:1] in "aeiou" else "a"
        return f"{self.name!r} is not {article} {self.noun} {self.where}"

    def expected(self) -> str:
        """The nearest names, else some of the known ones."""
        same = tuple(each for each in self.known if bare_name(each) == self.name)
        near = same or tuple(get_close_matches(self.name, self.known, n=3))
        near = near or self.known[:NAMES_SHOWN]
        more = ", …" if len(near) == NAMES_SHOWN and len(self.known) > NAMES_SHOWN else ""
        return "one of: " + ", ".join(near) + more if near else "nothing: there is none"


@dataclass(frozen=True, slots=True)
class SeveralMarks(Problem):
    """A name that people use for several marks, of which neither claim nor reading chooses."""

    name: str
    marks: tuple[str, ...]

    def sentence(self) -> str:
        """The name and how many marks have it."""
        return f"{self.name!r} is what people call {len(self.marks)} marks of this car"

    def expected(self) -> str:
        """The marks, of which one is meant."""
        return "one of: " + ", ".join(self.marks[:NAMES_SHOWN])


@dataclass(frozen=True, slots=True)
class ClaimedNumberUnfit(Problem):
    """A claimed number that is not written as the book says such a number is."""

    item: str
    value: str
    length: int
    alphabet: str

    def sentence(self) -> str:
        """The number."""
        return f"{self.value!r} is not a whole {self.item}"

    def expected(self) -> str:
        """Its length and characters."""
        return f"{self.length} characters out of {self.alphabet}"


@dataclass(frozen=True, slots=True)
class SaidTwoWays(Problem):
    """A site that was not seen and something noted there, or a mark absent and yet read."""

    site: str
    state: str
    mark: str = ""

    def sentence(self) -> str:
        """Both."""
        return f"the case calls the {self._what()} {self.state!r}, yet something was noted there"

    def expected(self) -> str:
        """One of the two."""
        return f"the {self._what()} as read, or nothing noted there"

    def _what(self) -> str:
        return f"mark {self.mark!r}" if self.mark else f"site {self.site!r}"


@dataclass(frozen=True, slots=True)
class NoShare(Problem):
    """Another value for an assumed share that is no share."""

    row: str
    value: float

    def sentence(self) -> str:
        """The row and the value."""
        return f"{self.value:g} is no share, and the row {self.row!r} is one"

    def expected(self) -> str:
        """What a share is."""
        return "a number above 0 and below 1"


@dataclass(frozen=True, slots=True)
class NoLook(Problem):
    """Shares of two outcomes of a look that leave nothing for the third."""

    row: str
    value: float
    beside: str
    other: float

    def sentence(self) -> str:
        """Both rows with their values."""
        return (
            f"{self.row!r} of {self.value:g} and {self.beside!r} of {self.other:g} are shares of "
            "one look, and leave nothing for places that look as made"
        )

    def expected(self) -> str:
        """What is left."""
        return f"a number above 0 and below {1.0 - self.other:g}"


@dataclass(frozen=True, slots=True)
class NotFromMemory(Problem):
    """A row that somebody vouches for and that rests on something better, or is invented."""

    row: str
    basis: str

    def sentence(self) -> str:
        """The row and what it rests on."""
        return f"the row {self.row!r} is not from memory: its basis is {self.basis!r}"

    def expected(self) -> str:
        """What can be vouched for."""
        return "a row of the book whose basis is memory"


@dataclass(frozen=True, slots=True)
class NoBearer(Problem):
    """A claim about a car for which the book names no assembly that bears the identity."""

    book: str

    def sentence(self) -> str:
        """The book."""
        return f"the book {self.book} names no identity bearer for a car of this year and model"

    def expected(self) -> str:
        """What to look at."""
        return "a model and model year that the book covers"


@dataclass(frozen=True, slots=True)
class TooManyMarks(Problem):
    """More marks bearing one item than are summed exactly."""

    item: str
    count: int
    most: int

    def sentence(self) -> str:
        """The item and the count."""
        return f"{self.count} marks bear the {self.item}"

    def expected(self) -> str:
        """The limit."""
        return f"at most {self.most}, which is how many are summed exactly"


@dataclass(frozen=True, slots=True)
class YearOutsideBook(Problem):
    """A claimed year that is no year, or not one of the book's."""

    year: str
    book: str
    first: int
    last: int

    def sentence(self) -> str:
        """The year."""
        return f"{self.year!r} is not a year of the book {self.book}"

    def expected(self) -> str:
        """The book's years."""
        return f"a year from {self.first} to {self.last}"


@dataclass(frozen=True, slots=True)
class TooManyReadings(Problem):
    """More readings of one mark than are pooled."""

    mark: str
    count: int
    most: int

    def sentence(self) -> str:
        """The mark and the count."""
        return f"there are {self.count} readings of the mark {self.mark!r}"

    def expected(self) -> str:
        """The limit."""
        return f"at most {self.most}, one for each examiner"
