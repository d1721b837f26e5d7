"""A reading and a code book give the meanings that fit, in order.

The fields of one mark speak of one car: for each set of cars that they leave
(hypotheses.py) a field's options are those of such cars, and an alternative is one option
of each, its share the product of theirs and of the cars'. Alternatives that mean the same
are one.
"""

from dataclasses import replace
from functools import partial
from math import prod
from threading import RLock

from witnessmark.codebook import Applies, CarContext, CodeBook, Mark
from witnessmark.decoding.align import AlignedField, Alignment, align
from witnessmark.decoding.alternatives import Ways, alternatives_of, deciding_column
from witnessmark.decoding.fields import SURE, Fields, cars_of
from witnessmark.decoding.for_cars import FieldOptions
from witnessmark.decoding.hypotheses import hull, meet, roles
from witnessmark.decoding.options import DecodingRequest
from witnessmark.decoding.put_together import put_together
from witnessmark.decoding.records import Beside, Decoding, Slip, SlipKind
from witnessmark.decoding.same_codes import kept_decoding, same_codes
from witnessmark.decoding.seen import is_read
from witnessmark.decoding.seventeen import notes_on
from witnessmark.decoding.slips import exchange_in_codes, nothing_listed, slip_in
from witnessmark.decoding.two_marks import beside
from witnessmark.decoding.unexplained import unexplained_in
from witnessmark.reading import STRAINED, Reading, ReadingRates, parse_reading, shipped_rates

ANY_CAR = CarContext()
"""Nothing is given about the car."""

MOST_EXCHANGED = 20
"""Characters of a text in which an exchange of neighbours is looked for."""


def decode(
    reading: Reading,
    book: CodeBook,
    mark: Mark,
    context: CarContext = ANY_CAR,
    rates: ReadingRates | None = None,
) -> Decoding:
    """All meanings of the reading that fit the book, the likeliest first.

    Shares are of everything that the reading allows, codes that the book does
    not list among it: an alternative with such a code has `listed` False in that
    field, and `not_listed_share` is the share of all alternatives that have one.
    A field of which nothing was read has no meaning; it stands in `missing`.
    """
    with ONE_AT_A_TIME:
        return _kept_or_decoded(reading, book, mark, context, rates)


ONE_AT_A_TIME = RLock()
"""What is kept of cars is told apart within a reading, and is forgotten between two."""


def _kept_or_decoded(
    reading: Reading, book: CodeBook, mark: Mark, context: CarContext, rates: ReadingRates | None
) -> Decoding:
    other = beside(reading, book, mark)
    if other is not None:
        reading = other.own
        context = completed(context, decode(other.reading, book, other.mark, rates=rates).of_car)
    asked = DecodingRequest(
        reading=reading, book=book, mark=mark, context=context, rates=rates or shipped_rates()
    )
    alignment = put_together(book, mark, align(reading, mark))
    answer = partial(_decode, asked, alignment, other)
    codes = None if other is not None else same_codes(reading, book, mark, alignment)
    if codes is None:
        return answer()
    question = (context, rates, codes)
    return kept_decoding(
        book, mark.id, question, reading=reading, alignment=alignment, answer=answer
    )


def _decode(asked: DecodingRequest, alignment: Alignment, other: Beside | None) -> Decoding:
    reading, book, mark = asked.reading, asked.book, asked.mark
    decoded = tuple(aligned for aligned in alignment.fields if is_read(aligned.cells))
    fields = Fields(asked, alignment, decoded)
    cars = cars_of(fields)
    known = hull([each.cars for _, each in cars])
    ways = [(weight, fields.options(fields.cars.of(each.cars, known))) for weight, each in cars]
    alternatives = alternatives_of(ways) if decoded else ()
    likeliest = ways[0][1]
    return Decoding(
        book=book.id,
        mark=mark.id,
        reading=reading,
        alternatives=alternatives,
        not_listed_share=sum([weight * _not_listed_share(fields) for weight, fields in ways]),
        unread="".join([cell.sign() for cell in alignment.unread]),
        missing=alignment.missing,
        deciding_column=deciding_column(alternatives, alignment),
        field_cells=tuple([aligned.cells for aligned in alignment.fields]),
        problems=reading.problems,
        unexplained=tuple(
            unexplained
            for aligned, field in zip(decoded, likeliest, strict=True)
            if not field.is_explained
            for unexplained in unexplained_in(aligned, field.options)
        ),
        notes=notes_on(asked, alignment),
        of_car=_said_of_car(book, ways) if decoded else ANY_CAR,
        cars=cars[0][1].cars,
        slip=_slip(asked, decoded, likeliest, cars[0][1].cars),
        beside=other,
    )


def _slip(
    asked: DecodingRequest,
    decoded: tuple[AlignedField, ...],
    likeliest: list[FieldOptions],
    cars: Applies,
) -> Slip | None:
    """What does not fit the form of the mark, or the codes that the book lists for it."""
    reading, book, mark = asked.reading, asked.book, asked.mark
    found = slip_in(reading, book, mark, cars)
    if found is not None and found.kind is SlipKind.UNLIKE:
        return found
    coded = [
        (aligned, field)
        for aligned, field in zip(decoded, likeliest, strict=True)
        if not aligned.is_number
    ]
    unlisted = [aligned for aligned, field in coded if not field.first.listed]
    # A code of years that no such mark is from is none of this mark.
    strange = [
        field
        for _, field in coded
        if not (field.first.listed and meet(field.options[0].applies, mark.applies))
    ]
    if mark.windows and reading.layout.strain >= STRAINED and 0 < len(coded) == len(strange):
        return nothing_listed(mark, book, cars)
    if found is None and unlisted and not asked.is_supposed:
        return _exchanged_in_codes(asked, unlisted, cars)
    return found


def _exchanged_in_codes(
    asked: DecodingRequest, unlisted: list[AlignedField], cars: Applies
) -> Slip | None:
    """The one exchange of neighbours with which every code of a clear reading is listed."""
    reading, book, mark = asked.reading, asked.book, asked.mark
    text = reading.as_typed
    if mark.windows or not text.isalnum() or len(text) > MOST_EXCHANGED:
        return None
    # A code that no row has is none of other cars either: it has to be touched itself.
    codes = [{c.column for c in each.cells.cells} for each in unlisted if each.field.table]
    cells = {cell.column: cell for cell in reading.cells}
    found = []
    for at in range(len(text) - 1):
        touched = {at + 1, at + 2}
        if text[at] == text[at + 1] or any(not code & touched for code in codes):
            continue
        if at + 1 not in cells:  # a character of a word that is none of the mark's
            continue
        swapped = text[:at] + text[at + 1] + text[at] + text[at + 2 :]
        supposed = parse_reading(swapped, mark)
        if supposed.layout.strain:
            continue
        again = replace(asked, reading=supposed, is_supposed=True)
        alignment = put_together(book, mark, align(supposed, mark))
        if _decode(again, alignment, None).not_listed_share < 1.0 - SURE:
            found.append(cells[at + 1])
    return exchange_in_codes(found[0], book, mark, cars) if len(found) == 1 else None


def completed(given: CarContext, said: CarContext) -> CarContext:
    """What is given about a car, and where that is open what one of its marks says."""
    return CarContext(
        given.model_year or said.model_year, given.model or said.model, given.works or said.works
    )


def _said_of_car(book: CodeBook, ways: Ways) -> CarContext:
    """What the mark itself surely says of its car's year, works and model, and nothing else."""
    shares: dict[tuple[str, str], float] = {}
    for weight, fields in ways:
        for field in fields:
            for said, share in field.of_car:
                shares[said] = shares.get(said, 0.0) + weight * share
    sure = {item: value for (item, value), share in shares.items() if share >= SURE}
    if not sure:
        return ANY_CAR
    year = sure.get("model_year", "")
    works = {value for item, value in sure.items() if value in roles(book).get(item, ())}
    return CarContext(
        int(year) if year.isdigit() else None, sure.get("model") or None, frozenset(works)
    )


def _not_listed_share(fields: list[FieldOptions]) -> float:
    """The share of all alternatives in which a field has a code that the book has not."""
    return 1.0 - prod([1.0 - min(field.unlisted, 1.0) for field in fields if field.unlisted])
