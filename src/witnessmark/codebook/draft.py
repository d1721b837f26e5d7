"""The draft of a book: every record beside the entry it was built from.

The checks across a book read the record and point at the entry. `CodeBook` is
what is left when the entries are taken away.
"""

from collections.abc import Callable
from dataclasses import dataclass

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.build import (
    build_assembly,
    build_body_family,
    build_code,
    build_date_form,
    build_exception,
    build_field,
    build_item,
    build_lag,
    build_mark,
    build_model,
    build_piece,
    build_point,
    build_remark,
    build_rule,
    build_run,
    build_series,
    build_settlement,
    build_site,
    build_works,
)
from witnessmark.codebook.build_parts import build_feature
from witnessmark.codebook.ground import Ground
from witnessmark.codebook.marks import DateForm, Field, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.records import (
    Assembly,
    BodyFamily,
    CodeRow,
    Feature,
    Item,
    ItemKind,
    KnownException,
    Lag,
    Model,
    Point,
    Remark,
    Rule,
    Run,
    Series,
    Settlement,
    Site,
    Works,
)
from witnessmark.documents.entries import Entry, Placed
from witnessmark.source import NOWHERE

STANDING_ITEMS = (
    Item("model", "model", ItemKind.CODE),
    Item("model_year", "model year", ItemKind.CODE),
    Item("works", "works", ItemKind.CODE),
    Item("body_works", "body works", ItemKind.CODE),
    Item("build_date", "build date", ItemKind.DATE),
)
"""Items that every book has, whether it declares them or not."""


@dataclass(frozen=True, slots=True)
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
            Placed(build_field(entry, self.ground), entry) for entry in mark.entry.entries("field")
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
            works=records(self.works),
            body_families=records(self.body_families),
            models=records(self.models),
            assemblies=records(self.assemblies),
            items=self.all_items(),
            series=records(self.series),
            codes=records(self.codes),
            date_forms=records(self.date_forms),
            marks=records(self.marks),
            rules=records(self.rules),
            lags=records(self.lags),
            sites=records(self.sites),
            features=records(self.features),
            exceptions=records(self.exceptions),
            settlements=records(self.settlements),
            runs=records(self.runs),
            remarks=records(self.remarks),
            points=records(self.points),
            pieces=records(self.pieces),
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

    def placed[T](entries: tuple[Entry, ...], build: Callable[[Entry, Ground], T]) -> "Made[T]":
        return tuple(Placed(build(entry, ground), entry) for entry in entries)

    def rows(table: str) -> tuple[Entry, ...]:
        return next((each.entries for each in tables if each.table == table), ())

    date_forms = placed(top.entries("date_form"), build_date_form)
    ground.tokens.update((f.record.id, f.record.tokens) for f in date_forms if f.record.id)
    return Draft(
        top=top,
        unread=unread,
        ground=ground,
        items=tuple(Placed(build_item(entry), entry) for entry in top.entries("item")),
        assemblies=placed(top.entries("assembly"), build_assembly),
        date_forms=date_forms,
        marks=placed(top.entries("mark"), build_mark),
        works=placed(rows("works"), build_works),
        body_families=placed(rows("body_families"), build_body_family),
        models=placed(rows("models"), build_model),
        codes=placed(rows("codes"), build_code),
        series=placed(rows("series"), build_series),
        rules=placed(rows("rules"), build_rule),
        lags=placed(rows("lags"), build_lag),
        sites=placed(rows("sites"), build_site),
        features=placed(rows("features"), build_feature),
        exceptions=placed(rows("exceptions"), build_exception),
        settlements=placed(rows("settlements"), build_settlement),
        runs=placed(rows("runs"), build_run),
        remarks=placed(rows("remarks"), build_remark),
        points=placed(rows("points"), build_point),
        pieces=placed(top.entries("piece"), build_piece),
    )


type Made[T] = tuple[Placed[T], ...]
_NO_SOURCES = Entry({}, {}, NOWHERE)
