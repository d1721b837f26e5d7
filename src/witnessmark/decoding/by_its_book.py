"""A mark of a joined book is decoded by the book that describes it, alone.

So no table, series or mark of one book has a say in another's: the maker's own marks are
decoded as if nothing stood beside it, and a further book's as by that book alone. What comes
out bears the names of the joined book. Of the car a further book's mark is told the year
alone, and that only where it states it itself: a tire may be of any year.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from witnessmark.codebook import ANY_CAR, CarContext, CodeBook, Mark
from witnessmark.codebook.qualified import bare_name, qualified
from witnessmark.decoding.decode import decode as decode_alone
from witnessmark.decoding.records import Beside, Decoding
from witnessmark.reading import Reading, ReadingRates, parse_as

THE_CARS_YEAR = "model_year"
"""The one item of a further book that can be the car's own."""


def decode(
    reading: Reading,
    book: CodeBook,
    mark: Mark,
    context: CarContext = ANY_CAR,
    rates: ReadingRates | None = None,
) -> Decoding:
    """All meanings of the reading that fit the book, the likeliest first (see decode.py)."""
    return next(decode_many((reading,), book, mark, context, rates))


def decode_many(
    readings: Iterable[Reading],
    book: CodeBook,
    mark: Mark,
    context: CarContext = ANY_CAR,
    rates: ReadingRates | None = None,
) -> Iterator[Decoding]:
    """Each of many readings of one mark, in order, as `decode` decodes it. The mark's own book
    is looked up once; what else they share is kept for readings one by one too (same_codes.py)."""
    own = book.that_describes(mark)
    if own is book or not mark.book:
        yield from (decode_alone(each, own, mark, context, rates) for each in readings)
        return
    alone = own.mark(bare_name(mark.id))
    assert alone is not None, "a mark of a joined book is one of a book that it was made of"
    states_year = any(field.says == THE_CARS_YEAR for field in mark.fields)
    year = CarContext(context.model_year) if states_year else ANY_CAR
    for each in readings:
        of_alone = parse_as(each.as_typed, alone, each)
        found = _named(decode_alone(of_alone, own, alone, year, rates), each, book, mark)
        yield found if states_year else replace(found, of_car=ANY_CAR)


def _named(found: Decoding, reading: Reading, book: CodeBook, mark: Mark) -> Decoding:
    """The decoding with the names of the joined book."""
    says = {field.id: field.says for field in mark.fields}
    read = (
        reading if found.beside is None else parse_as(found.reading.as_typed, mark, found.reading)
    )
    alternatives = tuple(
        replace(each, fields=tuple(replace(m, says=says[m.field]) for m in each.fields))
        for each in found.alternatives
    )
    cells = tuple(replace(each, says=says[each.field]) for each in found.field_cells)
    slip = found.slip
    if slip is not None:
        slip = replace(slip, others=tuple(qualified(mark.book, each) for each in slip.others))
    return replace(
        found,
        mark=mark.id,
        reading=read,
        problems=read.problems,
        alternatives=alternatives,
        field_cells=cells,
        slip=slip,
        beside=_beside(found.beside, book, mark),
    )


def _beside(found: Beside | None, book: CodeBook, mark: Mark) -> Beside | None:
    """The other mark that was typed with this one, by its name in the joined book."""
    other = None if found is None else book.mark(qualified(mark.book, found.mark.id))
    if found is None or other is None:
        return None
    return Beside(
        other,
        parse_as(found.reading.as_typed, other, found.reading),
        parse_as(found.own.as_typed, mark, found.own),
    )
