"""The faults that a command line can have: each class writes its sentence once."""

from dataclasses import dataclass

from witnessmark.problem import Problem
from witnessmark.source import Source


def typed(argument: str, text: str, column: int = 1, width: int | None = None) -> Source:
    """A place in what was typed for one argument, `column` from 1; all of it by default."""
    return Source(argument, None, column, len(text) if width is None else width, text)


def nearest(name: str, known: tuple[str, ...]) -> tuple[str, ...]:
    """Up to three known names that are spelt most alike, the nearest first."""
    from difflib import get_close_matches

    spelt = {each.lower(): each for each in known}
    found = get_close_matches(name.lower()[:200], list(spelt), n=3, cutoff=0.5)
    return tuple(spelt[each] for each in found)


@dataclass(frozen=True, slots=True)
class UnknownName(Problem):
    """A name that the place where it was looked for does not know."""

    kind: str
    name: str
    where: str
    known: tuple[str, ...]

    def sentence(self) -> str:
        """Names what is unknown, and where it was looked for."""
        article = "an" if self.kind[:1] in "aeiou" else "a"
        return f"{self.name!r} is not {article} {self.kind} {self.where}".rstrip()

    def expected(self) -> str:
        """The nearest known names, or all when none is near."""
        near = nearest(self.name, self.known)
        if near:
            return f"a known one; nearest: {', '.join(near)}"
        return "one of: " + ", ".join(self.known) if self.known else ""


@dataclass(frozen=True, slots=True)
class SeveralMarks(Problem):
    """A name that people use for several marks of the book."""

    name: str
    marks: tuple[str, ...]

    def sentence(self) -> str:
        """The name and how many marks have it."""
        return f"{self.name!r} is what people call {len(self.marks)} marks"

    def expected(self) -> str:
        """What would tell them apart."""
        return "the car's --year, or one of: " + ", ".join(self.marks)


@dataclass(frozen=True, slots=True)
class ClaimedTwice(Problem):
    """One item claimed in two ways."""

    item: str

    def sentence(self) -> str:
        """Names the item."""
        return f"{self.item!r} is claimed more than once"

    def expected(self) -> str:
        """One claim."""
        return "one value for each item"


@dataclass(frozen=True, slots=True)
class NotAPair(Problem):
    """An argument that should have been NAME=TEXT."""

    pair: str
    form: str

    def sentence(self) -> str:
        """Shows what was typed."""
        return f"{self.pair!r} is not {self.form}"

    def expected(self) -> str:
        """The form, with its equals sign."""
        return f"{self.form}, in quotes when it holds a space, ?, ~, [ or |"


@dataclass(frozen=True, slots=True)
class TooFew(Problem):
    """A comparison needs two marks."""

    count: int

    def sentence(self) -> str:
        """Counts what was given."""
        return f"{self.count} reading is not enough to compare"

    def expected(self) -> str:
        """At least two."""
        return "at least two of MARK=READING"


@dataclass(frozen=True, slots=True)
class OneOrAColumn(Problem):
    """A reading and a column of readings at once, or neither."""

    reading: str | None

    def sentence(self) -> str:
        """Says which of the two."""
        if self.reading is None:
            return "no reading was typed"
        return "a reading and a column of readings were given"

    def expected(self) -> str:
        """One of the two."""
        return "READING, or --column FILE"


@dataclass(frozen=True, slots=True)
class OneCase(Problem):
    """Several cases where a page is of one."""

    count: int

    def sentence(self) -> str:
        """Counts what was given."""
        return f"{self.count} cases were given, and a page is of one"

    def expected(self) -> str:
        """One, or the form for many."""
        return "one CASE, or --csv for many"


@dataclass(frozen=True, slots=True)
class NothingThere(Problem):
    """A path at which what was asked for does not stand."""

    path: str
    what: str
    wanted: str

    def sentence(self) -> str:
        """Names the path and what it lacks."""
        return f"there is no {self.what} at {self.path}"

    def expected(self) -> str:
        """What would have been found."""
        return self.wanted


@dataclass(frozen=True, slots=True)
class NotOverwritten(Problem):
    """A place that already holds something which is not ours to replace."""

    path: str
    what: str
    wanted: str

    def sentence(self) -> str:
        """Names the path and what stands there."""
        return f"{self.path} {self.what}; nothing was written"

    def expected(self) -> str:
        """What to name instead."""
        return self.wanted


@dataclass(frozen=True, slots=True)
class NotWritable(Problem):
    """A file that the system did not let us write."""

    path: str
    reason: str

    def sentence(self) -> str:
        """Names the path and the system's reason."""
        return f"cannot write {self.path}: {self.reason}; nothing was written"

    def expected(self) -> str:
        """A place that can be written to."""
        return "a folder that can be written to"


@dataclass(frozen=True, slots=True)
class ChangedMeanwhile(Problem):
    """A book that somebody else has changed since it was read."""

    path: str
    written: str

    def sentence(self) -> str:
        """The file, and who was first."""
        first = f" ({self.written})" if self.written else ""
        return f"{self.path} was changed{first} while the list was read; nothing was written"

    def expected(self) -> str:
        """What to do."""
        return "the same command again: it reads the book as it is now"


@dataclass(frozen=True, slots=True)
class NotAllowed(Problem):
    """A value outside what the case document allows."""

    value: str
    reason: str
    wanted: str = ""

    def sentence(self) -> str:
        """Names the value and what is wrong with it."""
        return f"{self.value!r} {self.reason}"

    def expected(self) -> str:
        """What would be allowed."""
        return self.wanted


@dataclass(frozen=True, slots=True)
class NotBeside(Problem):
    """A book beside the maker's that is a maker's own: two say which cars there are."""

    book: str
    owned: tuple[str, ...]

    def sentence(self) -> str:
        """Names the book and what makes it a maker's own."""
        return (
            f"the book {self.book} cannot stand beside another: it is a maker's own, "
            f"with {' and '.join(self.owned)}"
        )

    def expected(self) -> str:
        """What can."""
        return "a book of what cars of any maker carry, such as dated-parts"
