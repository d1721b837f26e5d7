"""What people call the marks: no name means two marks of one car."""

from collections.abc import Callable, Iterator
from functools import partial

from witnessmark.codebook.checks.problems_names import NoName, SharedAlias
from witnessmark.codebook.coverage import BookCars
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import Alias, Mark
from witnessmark.codebook.names import names_of, plain_name
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem
from witnessmark.source import Source

type Held = dict[str, list[tuple[Mark, Alias]]]


def check_aliases(draft: Draft) -> Iterator[Problem]:
    """Each alias against all names of all other marks of the same car.

    Two marks of which a car bears one or the other may share a name: what was typed shows
    which of the two it is.
    """
    held: Held = {}
    for mark in draft.marks:
        for name in names_of(mark.record):
            held.setdefault(plain_name(name.name), []).append((mark.record, name))
    for mark in draft.marks:
        for alias, place in _written(mark):
            plain = plain_name(alias.name)
            if not plain:
                yield NoName(place(), alias.name)
                continue
            other = _other(mark.record, alias, held[plain], draft.cars)
            if other:
                yield SharedAlias(place(), alias.name, other)


def _written(mark: Placed[Mark]) -> Iterator[tuple[Alias, Callable[[], Source]]]:
    """The aliases of a mark, each with what finds where it stands."""
    entry, aliases = mark.entry, mark.record.aliases
    plain = entry.texts("aliases")
    places = [partial(entry.source, "aliases", index) for index in range(len(plain))]
    places += [partial(each.source, "name", None) for each in entry.entries("alias")]
    yield from zip(aliases, places, strict=True)


def _other(mark: Mark, alias: Alias, held: list[tuple[Mark, Alias]], cars: BookCars) -> str:
    """The first other mark that means the same on a car that bears both, or no name."""
    for other, name in held:
        if other.id == mark.id or form_of(other) == form_of(mark):
            continue
        if cars.meet(alias.applies, name.applies):
            return other.id
    return ""


def form_of(mark: Mark) -> str:
    """The mark of which this is a form: itself, where it is no other form of one."""
    return mark.other_form_of or mark.id
