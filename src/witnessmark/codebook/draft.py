"""The draft of a book: every record beside the entry it was built from.

The checks across a book read the record and point at the entry. `CodeBook` is
what is left when the entries are taken away.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from itertools import chain
from typing import Any

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.book_format import BOOK, ROWS, TABLES
from witnessmark.codebook.coverage import BookCars
from witnessmark.codebook.date_records import Lag, Point, Run
from witnessmark.codebook.marks import DateForm, DateToken, Field, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.records import (
    Applies,
    Assembly,
    Basis,
    BodyFamily,
    Citation,
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Model,
    Rule,
    Series,
    Works,
)
from witnessmark.codebook.site_records import Feature, Remark, Settlement, Site
from witnessmark.documents.entries import Entry, Placed, Value
from witnessmark.documents.row import Row
from witnessmark.documents.shapes import Shape

_BASES = {str(basis): basis for basis in Basis}


@dataclass(frozen=True, slots=True)
class Ground:
    """What every row of a book may leave out: its years, and the sources behind short keys.

    `tokens`: the parts of each form of date, by its id; `shared`: the years, works and models
    met so far.
    """

    first_year: int
    last_year: int
    sources: Mapping[str, Value]
    tokens: dict[str, tuple[DateToken, ...]]
    shared: dict[tuple[Value, ...], Applies]

    @property
    def whole(self) -> Applies:
        """All cars of the book."""
        return Applies(self.first_year, self.last_year)

    def applies(self, entry: Entry) -> Applies:
        """The years, works and models of an entry; the book's years where it names none. What
        holds for the same cars shares one record."""
        given = entry.values.get
        limits = (given("first_year"), given("last_year"), given("works"), given("models"))
        if limits not in self.shared:
            self.shared[limits] = Applies(
                entry.number_or("first_year", self.first_year),
                entry.number_or("last_year", self.last_year),
                frozenset(entry.texts("works") if "works" in entry.values else ()),
                frozenset(entry.texts("models") if "models" in entry.values else ()),
            )
        return self.shared[limits]

    def citation(self, entry: Entry) -> Citation:
        """Basis and source of an entry, the source as it is cited in full."""
        source = entry.text("source")
        cited = self.sources.get(source, source)
        return Citation(_BASES[entry.text("basis")], str(cited), entry.sources.whole)


@dataclass(frozen=True, slots=True)
class EntryList:
    """The entries of one list, and what each may hold."""

    shape: Shape
    entries: tuple[Entry, ...]


STANDING_ITEMS = (
    Item(id="model", name="model", kind=ItemKind.CODE),
    Item(id="model_year", name="model year", kind=ItemKind.CODE),
    Item(id="works", name="works", kind=ItemKind.CODE),
    Item(id="body_works", name="body works", kind=ItemKind.CODE),
    Item(id="build_date", name="build date", kind=ItemKind.DATE),
)
"""Items that every book has, whether it declares them or not."""


@dataclass(frozen=True, kw_only=True)
class Draft:
    """A book with the places of all that it says. `top` is the entry of the book itself.

    `unread` names the tables from which rows are missing because their file
    could not be read whole: what seems to be missing may stand there.
    """

    top: Entry
    unread: frozenset[str]
    ground: Ground
    items: tuple[Placed[Item], ...]
    assemblies: tuple[Placed[Assembly], ...]
    date_forms: tuple[Placed[DateForm], ...]
    marks: tuple[Placed[Mark], ...]
    works: tuple[Placed[Works], ...]
    body_families: tuple[Placed[BodyFamily], ...]
    models: tuple[Placed[Model], ...]
    codes: tuple[Placed[CodeRow], ...]
    series: tuple[Placed[Series], ...]
    rules: tuple[Placed[Rule], ...]
    lags: tuple[Placed[Lag], ...]
    sites: tuple[Placed[Site], ...]
    features: tuple[Placed[Feature], ...]
    exceptions: tuple[Placed[KnownException], ...]
    settlements: tuple[Placed[Settlement], ...]
    runs: tuple[Placed[Run], ...]
    remarks: tuple[Placed[Remark], ...]
    points: tuple[Placed[Point], ...]
    pieces: tuple[Placed[Piece], ...]

    def fields(self, mark: Placed[Mark]) -> tuple[Placed[Field], ...]:
        """The fields of a mark as they are written."""
        return tuple(
            Placed(Field.of(entry, self.ground), entry) for entry in mark.entry.entries("field")
        )

    def all_items(self) -> tuple[Item, ...]:
        """The declared items, and the standing ones that are not declared."""
        declared = records(self.items)
        ids = {item.id for item in declared}
        return declared + tuple(item for item in STANDING_ITEMS if item.id not in ids)

    @cached_property
    def items_by_id(self) -> dict[str, Item]:
        """All items by their ids."""
        return {item.id: item for item in self.all_items()}

    @cached_property
    def cars(self) -> BookCars:
        """The cars of the book; what a works does counts where it is written."""
        works = (each.record for each in self.works if each.entry.is_written("role"))
        return BookCars.of(records(self.models), works, self.ground.whole)

    @cached_property
    def lists(self) -> tuple[EntryList, ...]:
        """All lists of entries: those of book.toml, those within their entries, and the tables."""
        tables = (
            _within(shape, tuple(each.entry for each in getattr(self, stem)))
            for stem, shape in TABLES.items()
        )
        return (*_within(BOOK, (self.top,)), *chain.from_iterable(tables))

    def book(self) -> CodeBook:
        """The book without the places of its single values."""
        return CodeBook(
            id=self.top.text("id"),
            title=self.top.text("title"),
            maker=self.top.text("maker"),
            version=self.top.text("version"),
            first_year=self.ground.first_year,
            last_year=self.ground.last_year,
            summary=" ".join(self.top.text("summary").split()),
            items=self.all_items(),
            **{name: records(getattr(self, name)) for name in _OF_BOOK if name != "items"},
        )


def records[T](placed: tuple[Placed[T], ...]) -> tuple[T, ...]:
    """The records alone."""
    return tuple(each.record for each in placed)


def _within(shape: Shape, entries: tuple[Entry, ...]) -> Iterator[EntryList]:
    """A list, and those that stand in its entries."""
    yield EntryList(shape, entries)
    for key in shape.keys:
        if key.shape is not None:
            for entry in entries:
                yield from _within(key.shape, entry.entries(key.name))


def draft_book(
    top: Entry, tables: Mapping[str, tuple[Entry, ...]], unread: frozenset[str]
) -> Draft:
    """Build every record of book.toml and of the tables, which stand by the stems of their files.
    `top` must have its years."""
    sources = top.entries("sources")
    first_year, last_year = top.number_or("first_year", 0), top.number_or("last_year", 0)
    ground = Ground(first_year, last_year, sources[0].values if sources else {}, {}, {})

    def placed[R: Row](row: type[R], entries: tuple[Entry, ...]) -> tuple[Placed[R], ...]:
        return tuple(Placed(row.of(entry, ground), entry) for entry in entries)

    # Marks need the parts of the forms of date.
    date_forms = placed(DateForm, top.entries("date_form"))
    ground.tokens.update((f.record.id, f.record.tokens) for f in date_forms if f.record.id)
    listed: dict[str, Any] = {name: placed(row, tables.get(name, ())) for name, row in ROWS.items()}
    return Draft(
        top=top,
        unread=unread,
        ground=ground,
        items=placed(Item, top.entries("item")),
        assemblies=placed(Assembly, top.entries("assembly")),
        date_forms=date_forms,
        marks=placed(Mark, top.entries("mark")),
        pieces=placed(Piece, top.entries("piece")),
        **listed,
    )


_OF_BOOK = {each.name for each in fields(Draft)} & {each.name for each in fields(CodeBook)}
