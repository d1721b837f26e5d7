"""Which mark somebody means by a name that several marks have: what was typed tells.

Decode, compare and case all ask here, so that one name and one reading always mean the
same mark.
"""

from witnessmark.codebook import ANY_CAR, IN_FULL, CarContext, CodeBook, Mark
from witnessmark.codebook.names import plain_name
from witnessmark.decoding.by_its_book import decode
from witnessmark.decoding.hypotheses import may_lie, meet, series_by_item
from witnessmark.decoding.records import Decoding
from witnessmark.reading import parse_reading


def marks_meant(
    book: CodeBook, name: str, text: str, context: CarContext = ANY_CAR
) -> tuple[Mark, ...]:
    """The marks that may be meant by a name and by what was read of it: one as a rule, none
    where the book has no such name, several that the text fits alike where nothing decides.

    An id means that mark; else the one whose form the text fits, on the car that is known or
    that the text names; else the one whose id was spelt otherwise.
    """
    called = book.marks_named(name.strip(), context)
    if len(called) < 2:
        return called
    best = best_marks(called, text, book, context)
    if len(best) == 1:
        return best
    chosen = _of_its_own_car(book, name, text, called)
    if chosen is None:
        wanted = plain_name(name)
        chosen = next((mark for mark in called if plain_name(mark.id) == wanted), None)
    return best if chosen is None else (chosen,)


def best_marks(
    marks: tuple[Mark, ...], text: str, book: CodeBook, context: CarContext
) -> tuple[Mark, ...]:
    """Those of several marks whose form the text fits best: that bear the codes read there, on
    the car that they name. All where it is like none."""
    misfits = [_misfit(mark, text, book, context) for mark in marks]
    best = min(misfits)
    if best[0]:
        return marks
    return tuple(mark for mark, each in zip(marks, misfits, strict=True) if each == best)


def _of_its_own_car(book: CodeBook, name: str, text: str, called: tuple[Mark, ...]) -> Mark | None:
    """Of several marks of this name that the text fits alike the one that people mean on the
    car which the text itself names: a number of 1966 stands where it stood in that year."""
    for mark in called:
        said = decode(parse_reading(text, mark), book, mark)
        meant = () if said.is_unlike else book.marks_named(name.strip(), said.of_car)
        if len(meant) == 1 and meant[0] in called:
            return meant[0]
    return None


def _misfit(
    mark: Mark, text: str, book: CodeBook, context: CarContext
) -> tuple[bool, int, int, float, int, bool]:
    """How badly a text fits a mark: is it nothing like it; in how much would the car be one
    that has no such mark; how many fields are amiss; how far is the form strained; how much
    of the text says nothing there; does its number lie in no series of the cars that bear it."""
    reading = parse_reading(text, mark)
    decoding = decode(reading, book, mark, context)
    optional = {field.id for field in mark.fields if field.optional}
    amiss = {each.field for each in decoding.unexplained} | set(decoding.missing) - optional
    has_slip = decoding.slip is not None or bool(decoding.unread) or bool(reading.problems)
    return (
        decoding.is_unlike,
        of_another_car(mark, book, decoding),
        len(amiss) + has_slip,
        round(reading.layout.strain, 2),
        len(reading.changes),
        _is_in_no_series(mark, book, decoding),
    )


def _is_in_no_series(mark: Mark, book: CodeBook, decoding: Decoding) -> bool:
    """Does a whole number that is read there lie outside every series of the mark's cars, of
    which the book has some?"""
    for each in decoding.field_cells:
        rows = series_by_item(book).get(each.says, ()) if each.part == IN_FULL else ()
        of_cars = [row for row in rows if meet(row.applies, mark.applies)]
        is_asked = any(not row.also for row in of_cars)
        if is_asked and not any(may_lie(each.cells, row) for row in of_cars):
            return True
    return False


def of_another_car(mark: Mark, book: CodeBook, decoding: Decoding) -> int:
    """In how many of year, works and model the car that is read there has no such mark. Rows
    from memory count here, since a form is chosen and nothing is argued."""
    applies, cars = mark.applies, decoding.cars
    fields = decoding.alternatives[0].fields if decoding.alternatives else ()
    works = {each.value for each in fields} & {each.id for each in book.works}
    year = decoding.of_car.model_year
    return (
        (year is not None and not applies.first_year <= year <= applies.last_year)
        + bool(works and applies.works and not works & applies.works)
        + bool(cars.models and applies.models and not cars.models & applies.models)
    )
