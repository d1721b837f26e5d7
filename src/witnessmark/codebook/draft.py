"""The draft of a book: every record beside the entry it was built from.

The checks across a book read the record and point at the entry. `CodeBook` is
what is left when the entries are taken away.
"""

from dataclasses import dataclass, fields
from typing import Any

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.book_format import ROWS
from witnessmark.codebook.date_records import Lag, Point, Run
from witnessmark.codebook.ground import Ground
from witnessmark.codebook.marks import DateForm, Field, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.records import (
    Assembly,
    BodyFamily,
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Model,
    Remark,
    Rule,
    Series,
    Works,
)
from witnessmark.codebook.site_records import Feature, Settlement, Site
from witnessmark.documents.entries import Entry, Placed
from witnessmark.documents.row import Row
from witnessmark.source import NOWHERE

STANDING_ITEMS = (
    Item(id="model", name="model", kind=ItemKind.CODE),
    Item(id="model_year", name="model year", kind=ItemKind.CODE),
    Item(id="works", name="works", kind=ItemKind.CODE),
    Item(id="body_works", name="body works", kind=ItemKind.CODE),
    Item(id="build_date", name="build date", kind=ItemKind.DATE),
)
"""Items that every book has, whether it declares them or not."""


@dataclass(frozen=True, slots=True, kw_only=True)
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
        declared = tuple(item.record for item in self.items)
        ids = {item.id for item in declared}
        return declared + tuple(item for item in STANDING_ITEMS if item.id not in ids)

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


@dataclass(frozen=True, slots=True)
class TableEntries:
    """The entries of all files of one table: all codes, say."""

    table: str
    entries: tuple[Entry, ...]


def draft_book(top: Entry, tables: tuple[TableEntries, ...], unread: frozenset[str]) -> Draft:
    """Build every record. `top` must have its years."""
    sources = top.entries("sources")
    first_year, last_year = top.number("first_year"), top.number("last_year")
    ground = Ground(first_year, last_year, sources[0] if sources else _NO_SOURCES, {}, {})

    def placed[R: Row](row: type[R], entries: tuple[Entry, ...]) -> tuple[Placed[R], ...]:
        return tuple(Placed(row.of(entry, ground), entry) for entry in entries)

    # Marks need the parts of the forms of date.
    date_forms = placed(DateForm, top.entries("date_form"))
    ground.tokens.update((f.record.id, f.record.tokens) for f in date_forms if f.record.id)
    rows = {each.table: each.entries for each in tables}
    listed: dict[str, Any] = {name: placed(row, rows.get(name, ())) for name, row in ROWS.items()}
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
_NO_SOURCES = Entry({}, {}, NOWHERE)
