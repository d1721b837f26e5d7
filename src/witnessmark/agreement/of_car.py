"""What the marks of one car surely say of its year, model and works, put together.

What is given (by the claim, or by an option) is where it starts and is never replaced. What
is open there is taken from the marks: from the identification number on the part that bears
the identity, then from that number on other parts and papers, then from any mark that names
it. An identification number that only one year or model had names these too. Marks of one
rank that contradict each other give nothing, and neither does anything below them: that is
told, and nobody chooses between them here.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from witnessmark.agreement.showing import TITLE
from witnessmark.codebook import MODEL, MODEL_YEAR, CarContext, CodeBook, Mark, MarkKind
from witnessmark.decoding import Decoding, items_named, meet, says_of_car, table_rows
from witnessmark.decoding.fields import SURE

LAST_RANK = 3
"""Marks that say nothing of year, model or works: they are read by what the others say."""

WITH_PAPERS = 1
"""The rank of papers, the title among them, and of parts that are not the identity's."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Marks of one rank that name different years, models or works, or a mark that names
    another than was given.

    `item` is what they name; `given` what was given of it, or empty; `said` each value with
    the ids of the marks that say it.
    """

    item: str
    given: str
    said: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class SaidOfCar:
    """What is known of a car: what is given, completed by its marks.

    `told` names for each item that was taken from marks the ids of these.
    """

    context: CarContext
    told: tuple[tuple[str, tuple[str, ...]], ...] = ()
    contradictions: tuple[Contradiction, ...] = ()

    def marks_that_tell(self, item: str) -> tuple[str, ...]:
        """The ids of the marks from which this item was taken; none where it was given."""
        return next((marks for each, marks in self.told if each == item), ())


def rank(book: CodeBook, mark: Mark) -> int:
    """When a mark is heard, 0 first. What a further book has, a tire or a pane, may be of any
    car and says nothing of this one."""
    if mark.book:
        return LAST_RANK
    bears_number = any(
        (item := book.item(field.says)) is not None and item.identification for field in mark.fields
    )
    if bears_number and mark.kind is not MarkKind.PAPER and _is_of_identity(book, mark):
        return 0
    if bears_number:
        return WITH_PAPERS
    speaks = any(field.table and says_of_car(book, field.says) for field in mark.fields)
    return 2 if speaks else LAST_RANK


def _is_of_identity(book: CodeBook, mark: Mark) -> bool:
    bearers = {assembly.id for assembly in book.assemblies if assembly.identity_bearer}
    return not mark.assembly or mark.assembly in bearers


@dataclass(frozen=True, slots=True)
class _MarkSays:
    """What one mark says of its car."""

    rank: int
    mark: str
    said: CarContext


def said_of_car(
    book: CodeBook,
    given: CarContext,
    decodings: Iterable[Decoding],
    title: Decoding | None = None,
) -> SaidOfCar:
    """What is given, completed by what these decodings surely say, rank by rank; the title is
    heard with the papers."""
    words = [*_heard(book, decodings)]
    mark = book.mark(title.mark) if title is not None else None
    if title is not None and mark is not None:
        said_there = _by_the_rows(book, mark, title, own_words(title))
        words.append(_MarkSays(WITH_PAPERS, TITLE, said_there))
    heard = sorted(words, key=lambda each: each.rank)
    said = SaidOfCar(given, (), tuple(_against(book, given, heard)))
    closed: set[str] = set()
    for _, group in groupby(heard, key=lambda each: each.rank):
        said = _completed(book, said, list(group), closed)
    return said


def _heard(book: CodeBook, decodings: Iterable[Decoding]) -> Iterator[_MarkSays]:
    for decoding in decodings:
        mark = book.mark(decoding.mark)
        place = LAST_RANK if mark is None else rank(book, mark)
        if mark is None or place == LAST_RANK:
            continue
        said = own_words(decoding)
        if place <= WITH_PAPERS or _is_of_identity(book, mark):
            said = _by_the_rows(book, mark, decoding, said)
        yield _MarkSays(place, mark.id, said)


def own_words(decoding: Decoding) -> CarContext:
    """What one mark itself surely says of its car; nothing where it is not like that mark."""
    return CarContext() if decoding.is_unlike else decoding.of_car


def is_sure(decoding: Decoding) -> bool:
    """Is one meaning of this reading as good as certain?"""
    alternatives = decoding.alternatives
    return not decoding.is_unlike and bool(alternatives) and alternatives[0].share >= SURE


def _by_the_rows(book: CodeBook, mark: Mark, decoding: Decoding, said: CarContext) -> CarContext:
    """The same with the year and model to which the rows of its codes and numbers leave it."""
    if not is_sure(decoding):
        return said
    year, model, cars = said.model_year, said.model, decoding.cars
    if year is None and cars.first_year == cars.last_year:
        year = cars.first_year
    if model is None and len(models := _models_by_codes(book, mark, decoding)) == 1:
        model = next(iter(models))
    return replace(said, model_year=year, model=model)


def _models_by_codes(book: CodeBook, mark: Mark, decoding: Decoding) -> frozenset[str]:
    """The models that had all codes of the likeliest meaning, by rows that weigh: one from
    memory tells other marks nothing. Empty where no code is of certain models."""
    tables = {field.id: field.table for field in mark.fields}
    found: frozenset[str] = frozenset()
    for meaning in decoding.alternatives[0].fields:
        rows = [
            row
            for row in table_rows(book, tables.get(meaning.field, ""))
            if (row.code, row.value) == (meaning.code, meaning.value)
            and row.citation.basis.weighs
            and meet(row.applies, decoding.cars)
        ]
        models = frozenset[str]().union(*(row.applies.models for row in rows))
        if models and all(row.applies.models for row in rows):
            found = found & models if found else models
    return found


def _completed(
    book: CodeBook, said: SaidOfCar, heard: list[_MarkSays], closed: set[str]
) -> SaidOfCar:
    """What was known, with what the marks of one rank say of what was open."""
    context, told, contradictions = said.context, list(said.told), list(said.contradictions)
    known = items_named(book, context)
    for item, values in _named(book, heard).items():
        if item in known or item in closed:
            continue
        if len(values) > 1:
            closed.add(item)
            contradictions.append(Contradiction(item, "", _told(values)))
            continue
        [(value, marks)] = values.items()
        context = _with(context, item, value)
        told.append((item, tuple(marks)))
    return SaidOfCar(context, tuple(told), tuple(contradictions))


def _against(book: CodeBook, given: CarContext, heard: list[_MarkSays]) -> Iterator[Contradiction]:
    """Where a mark itself names another year, model or works than was given."""
    named = _named(book, heard)
    for item, value in items_named(book, given).items():
        others = {own: marks for own, marks in named.get(item, {}).items() if own != value}
        if others:
            yield Contradiction(item, value, _told(others))


type _Named = dict[str, dict[str, dict[str, None]]]


def _told(values: dict[str, dict[str, None]]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((value, tuple(marks)) for value, marks in values.items())


def _named(book: CodeBook, heard: list[_MarkSays]) -> _Named:
    """Each item that the marks name, its values, and who says each."""
    named: _Named = {}
    for words in heard:
        for item, value in items_named(book, words.said).items():
            named.setdefault(item, {}).setdefault(value, {})[words.mark] = None
    return named


def _with(context: CarContext, item: str, value: str) -> CarContext:
    if item == MODEL_YEAR:
        return replace(context, model_year=int(value))
    if item == MODEL:
        return replace(context, model=value)
    return replace(context, works=context.works | {value})


def without(book: CodeBook, context: CarContext, item: str) -> CarContext:
    """The same with nothing known of one of year, model and works."""
    if item == MODEL_YEAR:
        return replace(context, model_year=None)
    if item == MODEL:
        return replace(context, model=None)
    of_role = {works.id for works in book.works if works.role == item}
    return replace(context, works=context.works - of_role)


def own_first(book: CodeBook, known: CarContext, own: CarContext) -> CarContext:
    """What a mark itself says of its car, and where it says nothing what is known."""
    context = known
    for item, value in items_named(book, own).items():
        context = _with(without(book, context, item), item, value)
    return context
