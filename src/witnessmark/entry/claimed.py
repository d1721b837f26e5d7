"""What is claimed of the car, item by item: as it stands on a plate or paper, in the book's words,
or by the book's own name for it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from witnessmark.casefile import Claim
from witnessmark.codebook import MODEL, MODEL_YEAR, CarContext, CodeBook, Item, ItemKind
from witnessmark.codebook.names import plain_name
from witnessmark.codebook.records import WorksRole
from witnessmark.entry.draft import Entered, EnteredPair
from witnessmark.entry.problems import ClaimedTwice, MeansSeveral, NothingOfBook, OfOtherCars
from witnessmark.examination import value_rows
from witnessmark.examination.book_words import (
    claimed_context,
    item_named,
    value_named,
    values_of,
)
from witnessmark.problem import Problem

FIRST = (MODEL_YEAR, MODEL, *WorksRole)
"""Items by which the others are read."""


@dataclass(frozen=True, slots=True)
class Claimable:
    """One way to say what an item is: a code with its words, or words alone, and the years in
    which it means this value."""

    value: str
    code: str
    words: str
    first_year: int
    last_year: int

    @property
    def label(self) -> str:
        """As it is offered, and may be typed."""
        return f"{self.code}: {self.words}" if self.code else self.words


def claimables(book: CodeBook, item: Item, context: CarContext) -> tuple[Claimable, ...]:
    """What can be claimed of an item that holds codes, on such a car, in the book's order."""
    if item.kind is not ItemKind.CODE or item.id == MODEL_YEAR:
        return ()
    if item.id in (MODEL, *WorksRole):  # which of them it is, is what is asked
        context = replace(context, model=None, works=frozenset())
    found: dict[tuple[str, str, str], Claimable] = {}
    for row in value_rows(book, item.id, context):
        way = (row.value, row.code, row.words)
        first, last = row.applies.first_year, row.applies.last_year
        before = found.get(way)
        if before is not None:
            first, last = min(first, before.first_year), max(last, before.last_year)
        found[way] = Claimable(*way, first, last)
    return tuple(_told_apart(tuple(found.values())))


def _told_apart(ways: tuple[Claimable, ...]) -> Iterator[Claimable]:
    """Two values of the same code and words bear the book's own names as well."""
    values: dict[str, set[str]] = {}
    for each in ways:
        values.setdefault(each.label, set()).add(each.value)
    for each in ways:
        is_one = len(values[each.label]) == 1
        yield each if is_one else replace(each, words=f"{each.words} ({each.value})")


def claim_shown(item: Item, ways: Sequence[Claimable], value: str) -> str:
    """A claimed value as it is offered; as the case has it where that would mean several."""
    if not item.many:
        return _shown(ways, value)
    return "; ".join(_shown(ways, each) for each in value.split())


def _shown(ways: Sequence[Claimable], value: str) -> str:
    own = [each for each in ways if each.value == value]
    names = [own[0].label] if len(own) == 1 else [each.words for each in own if not each.code]
    if own and len({each.words for each in own}) == 1:
        names.append(own[0].words)
    return next((each for each in names if _meant(ways, each) == {value}), value)


def _meant(ways: Sequence[Claimable], text: str) -> set[str]:
    """The values that a text can mean: as it is spelt first, then whatever its case and spaces."""
    wanted, plain = text.strip(), plain_name(text)
    exactly = {e.value for e in ways if wanted and wanted in (e.label, e.code, e.words)}
    return exactly or {
        e.value for e in ways if plain and plain in map(plain_name, (e.label, e.code, e.words))
    }


def claimed_items(
    book: CodeBook,
    claims: Iterable[EnteredPair],
    problems: list[Problem],
    standing: Mapping[str, str] | None = None,
) -> dict[str, Entered]:
    """Each claimed value by the item's id, as the book has it, read by the year, model and works
    that are claimed with it or stand in the case. An item that is claimed again, or a code that
    means several things, adds to the problems."""
    given: dict[str, Entered] = {}
    for pair in claims:
        item = item_named(book, str(pair.left.value))
        if item in given:
            problems.append(ClaimedTwice(pair.left.source, item))
        given[item] = pair.right
    now, found = dict(standing or {}), {}
    for name in sorted(given, key=lambda each: each not in FIRST):
        value = _read(book, name, given[name], now, problems)
        if value is not None:
            found[name] = replace(given[name], value=value)
            now[name] = value
    return {name: found[name] for name in given if name in found}


def _read(
    book: CodeBook, name: str, given: Entered, now: Mapping[str, str], problems: list[Problem]
) -> str | None:
    """What the case is to hold of an item, beside what is claimed already."""
    item, text = book.item(name), str(given.value)
    if item is None or item.kind is not ItemKind.CODE or name == MODEL_YEAR or not text.strip():
        return value_named(book, name, text)
    return _ClaimRead(book, item, claimed_context(Claim(items=dict(now)), book)).value(
        given, problems
    )


@dataclass(frozen=True, slots=True)
class _ClaimRead:
    """An item that holds codes, as it can be claimed of a car."""

    book: CodeBook
    item: Item
    context: CarContext

    def value(self, given: Entered, problems: list[Problem]) -> str | None:
        """What the case is to hold; None where the text means several things."""
        ways = claimables(self.book, self.item, self.context)
        found = []
        for part in _parts(ways, str(given.value)) if self.item.many else (str(given.value),):
            one = self._one(ways, replace(given, value=part))
            if isinstance(one, Problem):
                problems.append(one)
                return None
            found.append(one)
        return " ".join(found)

    def _one(self, ways: Sequence[Claimable], given: Entered) -> str | Problem:
        text, name = str(given.value).strip(), self.item.name
        known = value_named(self.book, self.item.id, text)
        found = _meant(ways, text) or {known}
        if len(found) > 1:
            offered = tuple(each.label for each in ways if _meant((each,), text))
            is_open = self.context.model_year is None
            return MeansSeveral(given.source, text, name, offered, is_open)
        if found != {text} or known in values_of(self.book, self.item.id):
            return found.pop()
        others = [e for e in claimables(self.book, self.item, CarContext()) if _meant((e,), text)]
        on = tuple(f"{each.words} ({each.first_year} to {each.last_year})" for each in others)
        if on:
            return OfOtherCars(given.source, text, name, on)
        if self.item.id in FIRST or not values_of(self.book, self.item.id):
            return text  # told with the case, if it is wrong
        return NothingOfBook(given.source, text, name, tuple(each.label for each in ways))


def _parts(ways: Sequence[Claimable], text: str) -> Iterator[str]:
    """The values of an item that can have several at once: parted by signs; words that mean
    nothing together are one each."""
    for part in [text] if _meant(ways, text) else re.split(";", text):
        for each in [part] if _meant(ways, part) else re.split(",", part):
            yield from [each] if _meant(ways, each) or not each.strip() else each.split()
