"""For which cars one mark can be read: its own fields bind each other.

A code that one model had, a number of one plant's span, a letter that two years used for
two things: each field of a mark is listed for certain years, works and models, and all
fields of one mark speak of one car. A hypothesis is such a set of cars; the fields are
walked once, and of every code the rows that hold for the cars still possible are kept. A
code that none of them had costs `decoding.outside` and rules nothing out.

What is given about the car is where the walk starts. Where the mark itself clearly says
another year, works or model, the mark is read for such cars instead, and that is told.
A row from memory, or of a list with gaps, tells the meanings of one mark apart and never
the year: what a mark says of its car to others rests on rows that weigh alone.
"""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import replace

from witnessmark.codebook import MODEL, MODEL_YEAR, Applies, CarContext, CodeBook, Series
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.rates import OUT_OF_SERIES_ROW, OUTSIDE_ROW, shipped_value
from witnessmark.reading import Cell, CellKind, kept_beside

OF_THE_CAR = ("model_year", "works", "model")
"""The items by which a mark says for which cars its other codes are to be read."""

MOST_HYPOTHESES = 12
LEAST_WEIGHT = 1e-3
"""A hypothesis with a smaller share than this of the best one is let go."""

LEAST_OPTION = 0.01
"""An option of a field with a smaller share does not make a hypothesis of its own."""


def cars_given(book: CodeBook, context: CarContext) -> Applies:
    """The cars that what is given leaves; all of the book where nothing is."""
    year = context.model_year
    return Applies(
        book.first_year if year is None else year,
        book.last_year if year is None else year,
        context.works,
        frozenset({context.model} if context.model else ()),
    )


def meet(first: Applies, second: Applies) -> bool:
    """Is there a car for which both hold?"""
    return (
        first.first_year <= second.last_year
        and second.first_year <= first.last_year
        and (not first.works or not second.works or bool(first.works & second.works))
        and (not first.models or not second.models or bool(first.models & second.models))
    )


def hull(found: list[Applies]) -> Applies:
    """All cars that any of these sets may hold."""
    works, models = [each.works for each in found], [each.models for each in found]
    return Applies(
        min(each.first_year for each in found),
        max(each.last_year for each in found),
        frozenset().union(*works) if all(works) else frozenset(),
        frozenset().union(*models) if all(models) else frozenset(),
    )


def says_of_car(book: CodeBook, item: str) -> bool:
    """Is this the model year, the model, or the works in one of its roles?"""
    return item in OF_THE_CAR or item in roles(book)


@kept_beside
def roles(book: CodeBook) -> dict[str, frozenset[str]]:
    """The works of a book by the item that names them."""
    names = {works.role for works in book.works}
    return {n: frozenset(w.id for w in book.works if w.role == n) for n in names}


def items_named(book: CodeBook, context: CarContext) -> dict[str, str]:
    """Year, model and works by the items that name them."""
    found = {}
    if context.model_year is not None:
        found[MODEL_YEAR] = str(context.model_year)
    if context.model:
        found[MODEL] = context.model
    found |= {works.role: works.id for works in book.works if works.id in context.works}
    return found


def is_another(book: CodeBook, item: str, value: str, cars: Applies) -> bool:
    """Is this the year, works or model of none of these cars?"""
    if item == MODEL_YEAR:
        is_year = value.isascii() and value.isdigit()
        return is_year and not cars.first_year <= int(value) <= cars.last_year
    if item == MODEL:
        return bool(cars.models) and value not in cars.models
    same_role = roles(book).get(item, frozenset())
    known = same_role & cars.works
    return bool(known) and value in same_role and value not in known


def what_is_own(book: CodeBook, item: str, cars: Applies) -> Hashable:
    """What `is_another` looks at: cars in which it is the same have the same years, works and
    models of their own."""
    if item == MODEL_YEAR:
        return cars.first_year, cars.last_year
    return cars.models if item == MODEL else roles(book).get(item, frozenset()) & cars.works


def narrowed(
    book: CodeBook, cars: Applies, option: FieldOption, has_gaps: bool = False
) -> Applies | None:
    """The cars that are left once a field says this; None where none is.

    `has_gaps`: its table is known to be incomplete, and other years may have had the code.
    """
    applies, meaning = option.applies, option.meaning
    if not (meaning.listed and meaning.value):  # a code that cannot be read is of any car
        return cars
    if not meet(cars, applies) or is_another(book, meaning.says, meaning.value, cars):
        return None
    found = _within(book, cars, applies)
    if has_gaps or not meaning.basis.weighs:
        found = replace(found, first_year=cars.first_year, last_year=cars.last_year)
    if not meaning.basis.weighs:
        return found
    if meaning.says == MODEL_YEAR and meaning.value.isdigit():
        return replace(found, first_year=int(meaning.value), last_year=int(meaning.value))
    if meaning.says == MODEL:
        return replace(found, models=frozenset({meaning.value}))
    if meaning.value in roles(book).get(meaning.says, ()):
        return replace(found, works=_of_roles(book, found.works, frozenset({meaning.value})))
    return found


def _within(book: CodeBook, cars: Applies, applies: Applies) -> Applies:
    """Of these cars those for which a row holds."""
    models = cars.models & applies.models if cars.models else applies.models
    return Applies(
        max(cars.first_year, applies.first_year),
        min(cars.last_year, applies.last_year),
        _of_roles(book, cars.works, applies.works) if applies.works else cars.works,
        models if applies.models else cars.models,
    )


def _of_roles(book: CodeBook, known: frozenset[str], wanted: frozenset[str]) -> frozenset[str]:
    """The works that are left: of every role that `wanted` names only those named."""
    named = [of for of in roles(book).values() if of & wanted]
    bound = frozenset[str]().union(*named)
    base = known or frozenset[str]().union(*roles(book).values())
    kept_same = base & wanted if base & bound else wanted
    return (base - bound) | (kept_same or wanted)


def hypotheses[T: Hashable](
    start: T, steps: Iterable[Callable[[T], Iterable[tuple[T, float]]]]
) -> list[tuple[float, T]]:
    """The sets of cars for which the mark may be read, the likeliest first; shares sum to 1.

    Each step says for some cars which of them a field leaves, with the share of each.
    """
    found = {start: 1.0}
    for step in steps:
        after: dict[T, float] = {}
        for cars, weight in found.items():
            for each, part in step(cars):
                after[each] = after.get(each, 0.0) + weight * part
        if len(after) > 1:
            ranked = sorted(after.items(), key=lambda each: -each[1])[:MOST_HYPOTHESES]
            least = LEAST_WEIGHT * ranked[0][1]
            after = {cars: weight for cars, weight in ranked if weight >= least}
        found = after
    total = sum(found.values())
    return [(weight / total, cars) for cars, weight in found.items()]


def parts_by_code(
    book: CodeBook, cars: Applies, options: tuple[FieldOption, ...], has_gaps: bool
) -> dict[Applies, float]:
    """Which of these cars a code leaves: those of its rows that hold divide its share.

    `has_gaps`: its table is known to be incomplete.
    """
    outside = shipped_value(OUTSIDE_ROW)
    after: dict[Applies, float] = {}
    by_code: dict[str, list[FieldOption]] = {}
    left = 1.0
    for option in options:
        if option.meaning.listed and option.share >= LEAST_OPTION:
            by_code.setdefault(option.meaning.code, []).append(option)
            left -= option.share
    for of_code in by_code.values():
        share = sum(option.share for option in of_code)
        left_by = [(narrowed(book, cars, option, has_gaps), option.share) for option in of_code]
        holding = [(left_cars, own) for left_cars, own in left_by if left_cars is not None]
        of_these = sum(own for _, own in holding)
        # The options were weighed for these cars: one that none of them had has paid already.
        for each, own in holding or [(cars, share * outside)]:
            part = own * share / of_these if holding else own
            after[each] = after.get(each, 0.0) + part
    if left > LEAST_OPTION or not by_code:
        after[cars] = after.get(cars, 0.0) + max(left, LEAST_OPTION)
    return after


def parts_by_number(
    book: CodeBook,
    cars: Applies,
    bearing: Applies,
    aligned: AlignedField,
    series: tuple[Series, ...],
) -> dict[Applies, float]:
    """Which of these cars a number leaves: it lies in a series of some of them, or in none of
    theirs although the book has some. Series of cars that bear no such mark say nothing.

    `bearing` are the cars that bear the mark, `series` those of the number of which every
    condition is known to hold.
    """
    rows = [row for row in series if meet(row.applies, bearing)]
    cells = aligned.cells.cells
    if not rows or aligned.cells.missing:
        return {cars: 1.0}
    known = [row for row in rows if row.citation.basis.weighs and meet(row.applies, cars)]
    lies_in = [row for row in known if may_lie(cells, row)]
    inside = [row for row in lies_in if not (row.is_beyond or row.is_open)]
    if not inside and any(row.is_open for row in lies_in):
        return {cars: 1.0}
    if not inside:
        return {cars: shipped_value(OUT_OF_SERIES_ROW) if known else 1.0}
    each_cars = dict.fromkeys(_within(book, cars, row.applies) for row in inside)
    # A series that holds for all these cars is no reason to tell some of them apart.
    chosen = [cars] if cars in each_cars else list(each_cars)
    return dict.fromkeys(chosen, 1.0 / len(chosen))


@kept_beside
def series_by_item(book: CodeBook) -> dict[str, tuple[Series, ...]]:
    """The series of a book by their item."""
    items = dict.fromkeys(row.item for row in book.series)
    return {i: tuple(row for row in book.series if row.item == i) for i in items}


def may_lie(cells: tuple[Cell, ...], row: Series) -> bool:
    """Can a number that was read so lie in this series, or above the first of one whose last
    is not known? Worn places can be anything."""
    if not len(row.first) == len(cells) == len(row.last or row.first):
        return False
    if any(cell.kind is CellKind.NEVER_STRUCK for cell in cells):
        return False
    low = "".join([min(cell.characters, default="0") for cell in cells])
    high = "".join([max(cell.characters, default="9") for cell in cells])
    return (row.is_open or low <= row.last) and row.first <= high
