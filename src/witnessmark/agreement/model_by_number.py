"""Which models a number can be of, where a maker gave some of its numbers to one model alone.

A number says a model only by ranges of which the book says so (`alone`) on a row that weighs;
any row of a model, one from memory too, leaves it possible. So a number in the coupé's own range
is none of an open car, and a number that lies in no such range says nothing.
"""

from collections.abc import Iterable

from witnessmark.agreement.numbering import NumberRange, best_inside, best_outside, spans
from witnessmark.codebook import CarContext, CodeBook, Item, Series
from witnessmark.decoding import PlaceSeen

SAME = 1e-9
"""Likelihoods nearer to each other than this, as a share, tell no models apart."""


def model_likelihoods(
    book: CodeBook, item: Item, places: tuple[PlaceSeen, ...], context: CarContext
) -> dict[str, float]:
    """P(what was seen of a whole number | the likeliest number of each model), and under "" of
    one that the book does not list; empty where all models could have such a number.

    `context` is what is known of the car beside its model.
    """
    rows = [
        row
        for row in book.series
        if row.item == item.id and row.applies.covers(context) and not row.also
    ]
    alone = [row for row in rows if row.is_alone]
    if not alone or len(places) != item.length or not any(place.is_read for place in places):
        return {}
    found = {
        model.id: max(
            best_outside(places, _spans(_of_others(alone, model.id), item), item.alphabet),
            best_inside(places, _spans(_of_model(rows, model.id), item)),
        )
        for model in book.models
        if model.applies.covers(context)
    }
    best = max(found.values(), default=0.0)
    if best - min(found.values(), default=0.0) <= SAME * best:
        return {}
    return found | {"": best_outside(places, _spans(alone, item), item.alphabet)}


def _of_others(alone: Iterable[Series], model: str) -> list[Series]:
    return [row for row in alone if model not in row.applies.models]


def _of_model(rows: Iterable[Series], model: str) -> list[Series]:
    return [row for row in rows if not row.applies.models or model in row.applies.models]


def _spans(rows: Iterable[Series], item: Item) -> list[range]:
    return spans((row_range(row, item) for row in rows), item.alphabet)


def row_range(row: Series, item: Item) -> NumberRange:
    """The numbers of a series; all above its first where its last is not known."""
    return NumberRange(row.first, row.last or item.alphabet[-1] * len(row.first))
