"""What each field of a mark may say for certain cars, kept from one reading to the next.

What a field may say depends on what was read in it and on the cars alone, and so does for
which of these cars it leaves the mark to be read; fields of several marks with the same
table say the same. A number is kept by the place at which it lies among the numbers that
the book names.
"""

from collections.abc import Hashable
from dataclasses import dataclass, replace

from witnessmark.codebook import Applies, CodeBook, Mark, Series
from witnessmark.dates import DateSpan
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.code_options import rows_for
from witnessmark.decoding.conditions import condition_items
from witnessmark.decoding.hypotheses import meet, says_of_car, series_by_item
from witnessmark.decoding.kept import Kept, kept
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.put_together import fields_said
from witnessmark.decoding.records import FieldMeaning
from witnessmark.decoding.unexplained import unexplained_in
from witnessmark.reading import kept_beside

CARS_KEPT = 2000
"""Sets of cars of one book for which anything is kept."""

LEAST_TOLD = 0.0004
"""No alternative of a smaller share is listed, unless it is the first (alternatives.py)."""


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class FieldOptions:
    """All that one field may say for certain cars, the likeliest first, and what follows.

    `shares` are those of all, `says` what makes the meaning of each the same as another's,
    `unlisted` the share of codes that the book has not, `of_car` that of each year, works or
    model that a row which weighs says. `is_explained`: nothing stands in the field without a
    meaning there.
    """

    options: tuple[FieldOption, ...]
    shares: tuple[float, ...]
    says: tuple[Hashable, ...]
    unlisted: float
    of_car: tuple[tuple[tuple[str, str], float], ...]
    is_explained: bool

    @property
    def first(self) -> FieldMeaning:
        """The likeliest meaning."""
        return self.options[0].meaning

    def told(self) -> "FieldOptions":
        """Without the options of a share too small to stand in any alternative."""
        count = max(1, sum([share >= LEAST_TOLD for share in self.shares]))
        return replace(self, options=self.options[:count], says=self.says[:count])

    @classmethod
    def of(
        cls, book: CodeBook, aligned: AlignedField, options: tuple[FieldOption, ...]
    ) -> "FieldOptions":
        """The options of a field with what follows from them."""
        weighty = [o for o in options if o.meaning.listed and o.meaning.basis.weighs]
        # What only the rest of the mark leaves of an unread code was not said by it.
        is_read = [o for o in weighty if any(sign.isalnum() for sign in o.meaning.code)]
        of_car = [o for o in is_read if says_of_car(book, o.meaning.says)]
        return cls(
            options=options,
            shares=tuple([option.share for option in options]),
            says=tuple([says(option.meaning) for option in options]),
            unlisted=sum([option.share for option in options if not option.meaning.listed]),
            of_car=tuple([((o.meaning.says, o.meaning.value), o.share) for o in of_car]),
            is_explained=not unexplained_in(aligned, options),
        )


def says(meaning: FieldMeaning) -> Hashable:
    """What makes two meanings the same, whatever the rows they rest on."""
    value = "" if meaning.spans else meaning.value
    return (meaning.code, value, meaning.listed, bool(meaning.spans), meaning.placeholder)


type Dated = tuple[tuple[str, ...], DateSpan | None]
"""The runs in which some cars can have been built, by their ids, and their own days."""

type Parts = tuple[tuple["ForCars", float], ...]
"""The cars that are left of some, each set with its share."""


class ForCars:
    """Certain cars, and what was worked out for them of each kind of field.

    `known`: the cars among which these are only supposed; None where they are given.
    """

    __slots__ = ("built", "cars", "dated", "known", "options", "parts", "series")

    def __init__(self, cars: Applies, known: Applies | None) -> None:
        self.cars, self.known = cars, known
        self.options: Kept[FieldOptions] = Kept()
        self.parts: Kept[Parts] = Kept()
        self.series: Kept[tuple[Series, ...] | None] = Kept()
        self.built: Kept[DateSpan | None] = Kept()
        self.dated: Kept[Dated] = Kept()


class FieldsOfMark:
    """What is the same for every reading of a mark.

    `kinds`: equal for fields, of whatever mark, that say the same by the same text for the
    same cars. `tells` are the fields that say the car's year, works or model, `asks` the items of
    the mark on which the series of a field depend.
    """

    def __init__(self, book: CodeBook, mark: Mark) -> None:
        self.tells = frozenset(f.id for f in mark.fields if says_of_car(book, f.says))
        self.asks = {f.id: condition_items(book, f.says) for f in mark.fields}
        self.kinds: dict[str, object] = {}
        series_of = {
            item: {row.applies for row in rows} for item, rows in series_by_item(book).items()
        }
        for f in fields_said(book, mark):
            series = frozenset(
                each for each in series_of.get(f.says, ()) if meet(each, mark.applies)
            )
            held = (mark.how_made, rows_for(book, f.table, mark.applies), series)
            form = (f.part, f.table, f.date_form, f.alphabet, f.widths, f.has_gaps)
            self.kinds[f.id] = kept(book, "kinds of fields", (f.id, f.says, form, held), object)


def fields_of(book: CodeBook, mark: Mark) -> FieldsOfMark:
    """What is the same for every reading of this mark of this book."""
    known = _fields_by_book(mark)
    for own, found in known:
        if own is book:
            return found
    # A mark stands in its book, and in those that it was joined to.
    if len(known) >= BOOKS_OF_MARK:
        known.clear()
    known.append((book, FieldsOfMark(book, mark)))
    return known[-1][1]


BOOKS_OF_MARK = 8


@kept_beside
def _fields_by_book(mark: Mark) -> list[tuple[CodeBook, FieldsOfMark]]:
    """The same by the books in which the mark stands, as they are asked for."""
    return []


class CarsOfBook:
    """All sets of cars for which marks of a book were read so far, by readings made alike."""

    def __init__(self) -> None:
        self.known: dict[tuple[Applies, Applies | None], ForCars] = {}
        self.options: Kept[FieldOptions] = Kept()

    def forget(self) -> None:
        """Start again where much is kept; never within a reading, whose cars are told apart by
        what is kept of them."""
        if len(self.known) >= CARS_KEPT:
            self.known.clear()

    def of(self, cars: Applies, known: Applies | None = None) -> ForCars:
        """What is kept for these cars, the same each time."""
        found = self.known.get((cars, known))
        if found is None:
            found = self.known[cars, known] = ForCars(cars, known)
        return found
