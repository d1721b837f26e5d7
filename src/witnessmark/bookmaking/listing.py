"""What a book knows and what it does not: how many rows, on what basis, for which years."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.coverage import BookCars, year_ranges
from witnessmark.codebook.draft import STANDING_ITEMS
from witnessmark.codebook.marks import DatePart, Field, Mark
from witnessmark.codebook.named_rows import named_rows
from witnessmark.codebook.records import (
    Applies,
    Basis,
    Citation,
    CodeRow,
    ItemKind,
    Series,
)

BASES = (Basis.PUBLISHED, Basis.COMMON_PRACTICE, Basis.MEMORY, Basis.INVENTED)
SAYS_YEAR = {DatePart.YEAR_DIGIT, DatePart.YEAR_TWO, DatePart.YEAR_FOUR, DatePart.DAY_COUNT}


@dataclass(frozen=True, slots=True)
class Listed:
    """How many rows there are, by the basis on which they rest."""

    published: int = 0
    common_practice: int = 0
    memory: int = 0
    invented: int = 0

    @classmethod
    def of(cls, citations: Iterable[Citation]) -> "Listed":
        """Count the rows of these citations."""
        counts = Counter(each.basis for each in citations)
        return cls(*(counts[basis] for basis in BASES))

    def numbers(self) -> tuple[int, ...]:
        """The counts, in the order of BASES."""
        return (self.published, self.common_practice, self.memory, self.invented)

    def total(self) -> int:
        """All rows."""
        return sum(self.numbers())

    def words(self) -> str:
        """The counts that are not nothing, in words.

        >>> Listed(published=3, memory=1).words()
        '3 published, 1 memory'
        """
        counted = zip(self.numbers(), BASES, strict=True)
        return ", ".join(f"{n} {basis.value}" for n, basis in counted if n) or "none"


@dataclass(frozen=True, slots=True)
class TableListed:
    """The rows of one table, or of one kind of entry of book.toml."""

    name: str
    listed: Listed


@dataclass(frozen=True, slots=True)
class YearsListed:
    """Years in a row for which equally many rows of each basis hold."""

    first_year: int
    last_year: int
    listed: Listed

    def span(self) -> str:
        """The years in words."""
        return year_ranges(range(self.first_year, self.last_year + 1))


@dataclass(frozen=True, slots=True)
class FieldListed:
    """One field of a mark: what explains it, and how many rows that has, year by year.

    `reads` is "table paints", "form casting_day" or "series".
    """

    id: str
    name: str
    says: str
    reads: str
    years: tuple[YearsListed, ...]

    def words(self) -> str:
        """The years and their rows; a basis that all rows share is said once.

        >>> years = (YearsListed(1952, 1953, Listed(2)), YearsListed(1954, 1954, Listed(3)))
        >>> FieldListed("paint", "paint", "paint", "table paints", years).words()
        'published: 2 in 1952 to 1953, 3 in 1954'
        """
        numbers = [each.listed.numbers() for each in self.years]
        used = [b.value for at, b in enumerate(BASES) if any(each[at] for each in numbers)]
        if len(used) != 1:
            return "; ".join(f"{each.span()}: {each.listed.words()}" for each in self.years)
        counted = ((each.listed.total() or "none", each.span()) for each in self.years)
        return f"{used[0]}: " + ", ".join(f"{number} in {span}" for number, span in counted)


@dataclass(frozen=True, slots=True)
class MarkListed:
    """One mark and its fields."""

    mark: Mark
    fields: tuple[FieldListed, ...]


@dataclass(frozen=True, slots=True)
class Missing:
    """Something that the book does not know: `about` is a mark, item, model or form."""

    about: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookListed:
    """A book, its rows, its marks, and what is missing from it."""

    book: CodeBook
    sha256: str
    listed: Listed
    tables: tuple[TableListed, ...]
    marks: tuple[MarkListed, ...]
    missing: tuple[Missing, ...]


def list_book(book: CodeBook, sha256: str) -> BookListed:
    """What this book knows; `sha256` is the digest of its files."""
    cited: dict[str, list[Citation]] = {}
    for row in named_rows(book):
        cited.setdefault(row.table, []).append(row.citation)
    cars = BookCars.of(book.models, book.works, Applies(book.first_year, book.last_year))
    return BookListed(
        book=book,
        sha256=sha256,
        listed=Listed.of(citation for citations in cited.values() for citation in citations),
        tables=tuple(TableListed(name, Listed.of(each)) for name, each in cited.items()),
        marks=tuple(
            MarkListed(mark, tuple(_list_field(book, mark, field, cars) for field in mark.fields))
            for mark in book.marks
        ),
        missing=tuple(dict.fromkeys(_missing(book, cars))),
    )


def _rows(book: CodeBook, field: Field) -> tuple[CodeRow, ...] | tuple[Series, ...]:
    """The rows that explain a field that is no date."""
    if field.table:
        return book.table(field.table)
    return tuple(row for row in book.series if row.item == field.says)


def _list_field(book: CodeBook, mark: Mark, field: Field, cars: BookCars) -> FieldListed:
    """The field's rows in each year of the mark, equal years together."""
    form = book.date_form(field.date_form)
    if form is not None:
        reads, rows = f"form {form.id}", [(mark.applies, form.citation)]
    else:
        found = _rows(book, field)
        reads = f"table {field.table}" if field.table else "series"
        rows = [(row.applies, row.citation) for row in found]
    held = [(applies, cited) for applies, cited in rows if cars.meet(applies, mark.applies)]
    years = range(mark.applies.first_year, mark.applies.last_year + 1)
    listed = {
        year: Listed.of(c for a, c in held if a.first_year <= year <= a.last_year) for year in years
    }
    folded = [list(group) for _, group in groupby(years, key=lambda year: listed[year])]
    runs = tuple(YearsListed(group[0], group[-1], listed[group[0]]) for group in folded)
    return FieldListed(field.id, field.name, field.says, reads, runs)


def _missing(book: CodeBook, cars: BookCars) -> Iterator[Missing]:
    """All that a reader might look for and not find."""
    yield from _missing_models(book, cars)
    yield from _missing_codes(book, cars)
    yield from _thin_lists(book)
    yield from _missing_numbers(book, cars)
    yield from _missing_dates(book)
    said = {field.says for mark in book.marks for field in mark.fields}
    standing = {item.id for item in STANDING_ITEMS}
    for item in book.items:
        if item.id not in said | standing:
            yield Missing(item.id, f"no mark says the {item.name}")


def _missing_models(book: CodeBook, cars: BookCars) -> Iterator[Missing]:
    if not book.models:
        yield Missing("book", "no model is listed")
    if not book.works:
        yield Missing("book", "no works is listed")
    whole = Applies(book.first_year, book.last_year)
    built = [model.applies for model in book.models]
    unbuilt = [
        year
        for year in range(book.first_year, book.last_year + 1)
        if not any(span.first_year <= year <= span.last_year for span in built)
    ]
    if book.models and unbuilt:
        yield Missing("book", f"no model is listed for {year_ranges(unbuilt)}")
    if left := _left(cars, [whole], [mark.applies for mark in book.marks]):
        yield Missing("book", f"no mark is described for {left}")


def _left(cars: BookCars, needed: list[Applies], rows: list[Applies]) -> str:
    """The cars for which something is needed and no row holds, in words; none: no word."""
    asked = [(each.works, car) for each in needed for car in cars.cars(each)]
    lacking = {
        car
        for works, car in asked
        if not any(cars.works_meet(row.works, works) and car.is_of(row) for row in rows)
    }
    whole = {car.year for car in lacking} - {car.year for _, car in asked if car not in lacking}
    models: dict[str, list[str]] = {}
    for model in dict.fromkeys(car.model for _, car in asked):
        years = year_ranges({car.year for car in lacking if car.model == model} - whole)
        models.setdefault(years, []).append(model)
    named = [f"{years} ({', '.join(each)})" for years, each in models.items() if years]
    return "; ".join(filter(None, [year_ranges(whole), *named]))


def _missing_codes(book: CodeBook, cars: BookCars) -> Iterator[Missing]:
    for mark in book.marks:
        if not mark.fields:
            yield Missing(mark.id, "the mark has no field")
        for field in mark.fields:
            if field.table:
                applies = [row.applies for row in book.table(field.table)]
                if left := _left(cars, [mark.applies], applies):
                    yield Missing(mark.id, f"no code of {field.table} is listed for {left}")


def _thin_lists(book: CodeBook) -> Iterator[Missing]:
    """The tables that the book itself says have gaps, with the number of codes they have."""
    thin = {f.table: None for m in book.marks for f in m.fields if f.has_gaps and f.table}
    for table in thin:
        count = len({row.code for row in book.table(table)})
        codes = "one code" if count == 1 else f"{count} codes"
        yield Missing(table, f"the list is known to have gaps; it has {codes}")


def _missing_numbers(book: CodeBook, cars: BookCars) -> Iterator[Missing]:
    for item in book.items:
        saying = [m for m in book.marks if any(f.says == item.id for f in m.fields)]
        if item.kind is not ItemKind.NUMBER or not saying:
            continue
        series = [row.applies for row in book.series if row.item == item.id]
        if not series:
            yield Missing(item.id, f"no series of the {item.name} is listed")
            continue
        if left := _left(cars, [mark.applies for mark in saying], series):
            yield Missing(item.id, f"no series is listed for {left}")


def _missing_dates(book: CodeBook) -> Iterator[Missing]:
    for form in book.date_forms:
        if not SAYS_YEAR & {token.part for token in form.tokens}:
            yield Missing(form.id, "a code of this form does not say the year")
        run_years = {run.applies.first_year for run in book.runs}
        without = set(range(book.first_year, book.last_year + 1)) - run_years
        if form.within_run and without:
            yield Missing(form.id, f"no run is listed for {year_ranges(without)}")
    said = {field.says for mark in book.marks for field in mark.fields}
    tied = {name for lag in book.lags for name in (lag.earlier, lag.later)}
    for item in book.items:
        if item.kind is ItemKind.DATE and item.id in said - tied:
            yield Missing(item.id, f"no lag ties the {item.name} to another date")
