"""Walks the rooms in order: decode, compare, weigh, and an Opinion at the end."""

from witnessmark.agreement import compare
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import Casefile
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import CarContext
from witnessmark.decoding import decode
from witnessmark.decoding.records import Decoding
from witnessmark.examination.book_words import claimed_context, in_book_words
from witnessmark.examination.disclosure import disclosures
from witnessmark.examination.limits import limitations
from witnessmark.examination.names import book_names
from witnessmark.examination.records import BookVersion, Opinion
from witnessmark.examination.sites import site_outcomes
from witnessmark.reading import parse_reading
from witnessmark.weighing import weigh


def car_context(casefile: Casefile, book: CodeBook) -> CarContext:
    """What the claim gives about the car: year, model, works and coachbuilder."""
    return claimed_context(casefile.claim, book)


def decode_marks(casefile: Casefile, book: CodeBook, context: CarContext) -> tuple[Decoding, ...]:
    """Every reading of the case decoded; a reading of a mark the book does not know is left out."""
    found = []
    for typed in casefile.readings:
        mark = book.mark(typed.mark)
        if mark is None:
            continue
        reading = parse_reading(
            typed.text,
            mark,
            legibility=typed.legibility,
            orientation=typed.orientation,
            seen=typed.seen,
            by=typed.by,
        )
        found.append(decode(reading, book, mark, context))
    return tuple(found)


def car_marks(casefile: Casefile, book: CodeBook) -> CarMarks:
    """The case, the book and the decoded marks together: what the rules and the weighing read."""
    context = car_context(casefile, book)
    return CarMarks(casefile, book, context, decode_marks(casefile, book, context))


def examine(casefile: Casefile, book: CodeBook, version: BookVersion) -> Opinion:
    """From a case and its code book to an Opinion: decode, compare, weigh."""
    casefile = in_book_words(casefile, book)
    car = car_marks(casefile, book)
    findings = compare(car)
    weighing = weigh(car, findings)
    sites = site_outcomes(car)
    return Opinion(
        casefile,
        version,
        car.context,
        sites,
        car.decodings,
        findings,
        weighing,
        disclosures(car, weighing),
        limitations(car, sites, weighing),
        tuple(problem for decoding in car.decodings for problem in decoding.problems),
        book_names(car),
    )
