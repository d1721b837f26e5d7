"""The faults of what is entered, whoever takes it in: each class writes its sentence once."""

from witnessmark.problem import Problem


class UnknownName(Problem):
    """A name that the place where it was looked for does not know."""

    kind: str
    name: str
    where: str
    known: tuple[str, ...]

    @property
    def says(self) -> str:
        """With the place where it was looked for, if there is more than one."""
        if self.kind[:1] in "aeiou":
            return (
                "{name!r} is not an {kind} {where}" if self.where else "{name!r} is not an {kind}"
            )
        return "{name!r} is not a {kind} {where}" if self.where else "{name!r} is not a {kind}"

    @property
    def wants(self) -> str:
        """The nearest known names, or all when none is near."""
        if self.near:
            return "a known one; nearest: {near!l}"
        return "one of: {known!l}" if self.known else ""

    @property
    def near(self) -> tuple[str, ...]:
        """Up to three known names that are spelt most alike, the nearest first."""
        from difflib import get_close_matches

        spelt = {each.lower(): each for each in self.known}
        found = get_close_matches(self.name.lower()[:200], list(spelt), n=3, cutoff=0.5)
        return tuple(spelt[each] for each in found)


class SeveralMarks(Problem):
    """A name that people use for several marks of the book."""

    name: str
    marks: tuple[str, ...]
    year: str = "model year"
    says = "{name!r} is a common name for {marks!n} marks"
    wants = "the car's {year}, or one of: {marks!l}"


class ClaimedTwice(Problem):
    """One item claimed in two ways."""

    item: str
    says = "{item!r} is claimed more than once"
    wants = "one value for each item"


class MeansSeveral(Problem):
    """A code, or words, that mean several things on such a car."""

    text: str
    item: str
    offered: tuple[str, ...]
    is_year_open: bool
    says = "{text!q} can mean several things as the {item} of such a car"

    @property
    def wants(self) -> str:
        """What it can be, and that the year may tell."""
        return "the model year first, or {listed}" if self.is_year_open else "one of: {listed}"

    @property
    def listed(self) -> str:
        """What it can be, in a row."""
        return "; ".join(self.offered)


class OfOtherCars(Problem):
    """A code that the book has for cars of other years or models alone."""

    text: str
    item: str
    on: tuple[str, ...]
    says = "the book has no {item} {text!q} on a car as it is claimed"
    wants = "what stands on this car, or one in the book's words; on other cars it is {listed}"

    @property
    def listed(self) -> str:
        """What it is elsewhere, in a row."""
        return "; ".join(self.on)


class LegibilityUnsaid(Problem):
    """Characters made out, and nobody says how well they can be read."""

    allowed: tuple[str, ...]
    says = "it is not said how well it can be read"
    wants = "one of: {allowed!l}"


class NothingOfBook(Problem):
    """A text that is neither a code of an item, nor its words, nor the book's own name for it."""

    text: str
    item: str
    known: tuple[str, ...]

    says = "the book has no {item} {text!q}"

    @property
    def wants(self) -> str:
        """The nearest of what such a car can have; else an example."""
        if self.known:
            return "what stands on the car, or its words, such as {near}"
        return "what stands on the car, or its words"

    @property
    def near(self) -> str:
        """Up to three that are spelt most alike, else the first."""
        from difflib import get_close_matches

        found = get_close_matches(self.text[:200], self.known, n=3)
        return "; ".join(found or self.known[:1])


class PaperUnlisted(Problem):
    """A paper that the book does not list, without a word on what it is."""

    name: str
    known: tuple[str, ...]
    kind: str = "its kind, such as 'archive letter'"
    says = "the book lists no paper {name!q}"
    wants = "one of: {known!l}; or, for any other, {kind}"


class NotAllowed(Problem):
    """A value outside what the case document allows."""

    value: str
    reason: str
    wanted: str = ""
    says = "{value!r} {reason}"
    wants = "{wanted}"


class NotBeside(Problem):
    """A book beside the maker's that is a maker's own: two say which cars there are."""

    book: str
    owned: tuple[str, ...]
    says = "the book {book} cannot be used beside another: it is a maker's own, with {tables}"
    wants = "a book on what cars of any maker carry, such as dated-parts"

    @property
    def tables(self) -> str:
        """What it has of a maker's own."""
        return " and ".join(self.owned)


class BadJottingId(Problem):
    """The id of a jotting that no phone makes."""

    id: str
    says = "{id!r} is not the id of a jotting"
    wants = "8 to 40 letters, digits and dashes"


class NoSuchPicture(Problem):
    """A jotting speaks of a picture that has not come."""

    sha256: str
    says = "the picture {sha256!r} has not come"
    wants = "the picture first, then what speaks of it"


class JottingElsewhere(Problem):
    """A jotting for a case that whoever hands it over was not let into."""

    case: str
    says = "{case!r} is not a case that this phone was let into"
    wants = "a case of this phone"
