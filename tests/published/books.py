"""The shipped books, each opened once, and what they say of a mark as somebody typed it."""

from dataclasses import dataclass
from datetime import date
from functools import cache

from witnessmark.codebook import CarContext, CodeBook, find_book, open_book, shipped_books
from witnessmark.decoding import Decoding, FieldMeaning, decode
from witnessmark.reading import parse_reading

SHIPPED = tuple(folder.name for folder in shipped_books())
"""Every book that comes with the program; what holds of each is tried on each of these."""
CHEVROLET, FORD = "chevrolet-1964-1972", "ford-1964-1973"
VOLKSWAGEN, JAGUAR = "volkswagen-1950-1979", "jaguar-1948-1974"
TARVANE = "tarvane-1952-1961"
REAL = (CHEVROLET, FORD, VOLKSWAGEN, JAGUAR)
"""Those of one real maker."""
NO_MAKER = ("dated-parts", "seventeen-characters")
"""Those that stand beside any maker's."""
assert {*REAL, TARVANE, *NO_MAKER} == set(SHIPPED)

ANY = CarContext()
"""A car of which nothing is claimed."""


@cache
def opened(book_id: str) -> CodeBook:
    """A shipped book, which has no fault."""
    folder = find_book(book_id)
    assert folder is not None
    found = open_book(folder)
    assert found.problems == ()
    assert found.book is not None
    return found.book


@dataclass(frozen=True)
class Marks:
    """The marks of one shipped book, decoded as typed for a car."""

    book_id: str

    def decoded(self, mark_id: str, text: str, car: CarContext = ANY) -> Decoding:
        """What was read on a mark, decoded."""
        book = opened(self.book_id)
        mark = book.mark(mark_id)
        assert mark is not None, mark_id
        return decode(parse_reading(text, mark), book, mark, car)

    def meant(self, mark_id: str, text: str, car: CarContext = ANY) -> dict[str, FieldMeaning]:
        """The likeliest meaning of each field."""
        likeliest = self.decoded(mark_id, text, car).alternatives[0]
        return {each.field: each for each in likeliest.fields}

    def values(self, mark_id: str, text: str, car: CarContext = ANY) -> dict[str, str]:
        """The canonical value of each field, by the likeliest meaning."""
        return {field: each.value for field, each in self.meant(mark_id, text, car).items()}

    def readings(self, mark_id: str, field: str, text: str, car: CarContext = ANY) -> list[str]:
        """Every listed value of one field with at least a hundredth of what the reading allows."""
        found = (
            each.value
            for alternative in self.decoded(mark_id, text, car).alternatives
            if alternative.share > 0.01
            for each in alternative.fields
            if each.field == field and each.listed
        )
        return list(dict.fromkeys(found))

    def days(self, mark_id: str, field: str, text: str, car: CarContext = ANY) -> list[date]:
        """The first day of every span that a date code can mean."""
        return [span.first for span in self.meant(mark_id, text, car)[field].spans]
