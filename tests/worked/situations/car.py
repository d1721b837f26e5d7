"""A car to be tried: what its marks say, as somebody would type it, and the ways to change it.

A text holds names in braces ({number}, {tail}); `values` says what stands for them. So one
change can put another car's number on one mark, whatever else stands on that mark.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Typed:
    """One reading: its text, values of its own for the names in it, and what goes with it."""

    text: str
    own: Texts = field(default_factory=dict)
    beside: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Core:
    """A core and the marks by which it is tried; a text is empty where the book has no such date.

    `tie` bears a number that ties it to the car, as do the marks `beside` it. `cast` is the mark
    of its casting date, `late` what it would say months after the car, `early` eight months
    before it. `stamp` is the mark with its day of assembly, `before_cast` what it would say a
    fortnight before the casting. `plainer` is another type of core on its stamp; `head` is the
    mark of a fitted piece's date, `late_head` what it would say two years after the car.
    `of_another`: what else another car's core bears, where a paper names this one's day.
    """

    assembly: str
    tie: str = ""
    beside: tuple[str, ...] = ()
    cast: str = ""
    late: str = ""
    early: str = ""
    stamp: str = ""
    before_cast: str = ""
    plainer: Texts = field(default_factory=dict)
    head: str = ""
    late_head: str = ""
    of_another: Texts = field(default_factory=dict)

    @property
    def ties(self) -> tuple[str, ...]:
        """All marks on it that bear the number."""
        return (self.tie, *self.beside) if self.tie else ()


@dataclass(frozen=True, slots=True)
class Car:
    """A car of one book; `hidden` are the marks of the bearer, `others` the numbers of other cars.

    `near` and `exchanged` are this car's numbers with one figure wrong, and with two neighbours
    exchanged.
    """

    book: str
    claim: Texts
    built: str
    values: Texts
    readings: Mapping[str, tuple[Typed, ...]]
    bearer: str
    hidden: tuple[str, ...]
    plate: str
    cores: tuple[Core, ...]
    others: tuple[Texts, ...]
    near: Texts
    exchanged: Texts
    looks: Mapping[tuple[str, str], str] = field(default_factory=dict)
    sites: Texts = field(default_factory=dict)
    papers: Texts = field(default_factory=dict)
    statements: tuple[Mapping[str, Any], ...] = ()
    title: str = ""

    def core(self, assembly: str) -> Core:
        """The core of one assembly."""
        return next(each for each in self.cores if each.assembly == assembly)

    def but(self, *changes: "Change") -> "Car":
        """The car with these changes, each after the one before."""
        car = self
        for change in changes:
            car = change(car)
        return car


Change = Callable[[Car], Car]


def clear(texts: Texts) -> dict[str, tuple[Typed, ...]]:
    """One reading of each mark, clear and in person."""
    return {mark: (Typed(text),) for mark, text in texts.items()}


def written(*numbers: str, **forms: str) -> tuple[dict[str, str], ...]:
    """Each number, and the forms in which it stands on other marks."""
    return tuple(
        {"number": each, **{name: form.format(each) for name, form in forms.items()}}
        for each in numbers
    )


# ---------------------------------------------------------------------- what is read


def says(mark: str, text: str = "", **own: str) -> Change:
    """The mark says this text, or the same with these names meaning something else."""

    def change(car: Car) -> Car:
        before = car.readings.get(mark, (Typed(""),))
        after = tuple(
            replace(each, text=text or each.text, own={**each.own, **own}) for each in before
        )
        return replace(car, readings={**car.readings, mark: after})

    return change


def _with_own(mark: str, choose: Callable[[Car], Texts]) -> Change:
    return lambda car: car.but(says(mark, **choose(car)))


def of_another(*marks: str, which: int = 0) -> Change:
    """These marks bear the number of another car, undisturbed."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.others[which]) for mark in marks))


def one_figure_wrong(*marks: str) -> Change:
    """One figure of the number on these marks is another."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.near) for mark in marks))


def two_exchanged(*marks: str) -> Change:
    """Two neighbouring figures of the number on these marks are exchanged."""
    return lambda car: car.but(*(_with_own(mark, lambda c: c.exchanged) for mark in marks))


def unseen(*marks: str) -> Change:
    """Nobody looked for these marks; a site with nothing else on it is not seen either."""
    return lambda car: replace(
        car, readings={each: read for each, read in car.readings.items() if each not in marks}
    )


def noted(**beside: Any) -> Callable[..., Change]:
    """What goes with every reading of some marks: legibility, how it was seen."""

    def of(*marks: str) -> Change:
        def change(car: Car) -> Car:
            changed = {
                mark: tuple(replace(each, beside={**each.beside, **beside}) for each in typed)
                for mark, typed in car.readings.items()
                if mark in (marks or tuple(car.readings))
            }
            return replace(car, readings={**car.readings, **changed})

        return change

    return of


again = noted(again=True)
"""Looked at once more after something did not fit."""
worn = noted(legibility="worn")
poor = noted(legibility="poor")
photographed = noted(seen="photograph")
told = noted(seen="told")


def second_reading(mark: str, text: str = "", **own: str) -> Change:
    """Another examiner reads the mark too."""

    def change(car: Car) -> Car:
        first = car.readings[mark][0]
        other = Typed(text or first.text, {**first.own, **own}, {"by": "second examiner"})
        return replace(car, readings={**car.readings, mark: (*car.readings[mark], other)})

    return change


# ------------------------------------------------------------ how it looks, where it ended


def looks(site: str, outcome: str, feature: str = "surface") -> Change:
    """How the metal at one site appears."""
    return lambda car: replace(car, looks={**car.looks, (site, feature): outcome})


def ends(site: str, state: str) -> Change:
    """How the visit to one site ended."""
    return lambda car: replace(car, sites={**car.sites, site: state})


# ------------------------------------------------------------------------ what is said


def claims(**items: str) -> Change:
    """What else, or otherwise, is claimed; an empty value takes a claimed item away."""
    return lambda car: replace(car, claim={k: v for k, v in {**car.claim, **items}.items() if v})


def completed(day: str) -> Change:
    """The claim's own day; an empty one where it states none."""
    return lambda car: replace(car, built=day)


def declared(about: str, sentence: str, **said: str) -> Change:
    """The seller says so beforehand; `said` are the statement's origin, work, who did it, paper."""
    is_first = {"first": True, "": None}.get(said.get("origin", ""), False)
    statement = {"about": about, "says": sentence, "original": is_first, **said}
    return lambda car: replace(car, statements=(*car.statements, statement))


def renumbered(**values: str) -> Change:
    """The whole car says so wherever the name stands."""
    return lambda car: replace(car, values={**car.values, **values})


def paper(mark: str, state: str) -> Change:
    """Where a paper is."""
    return lambda car: replace(car, papers={**car.papers, mark: state})


def titled(number: str) -> Change:
    """The number on the title paper."""
    return lambda car: replace(car, title=number)
