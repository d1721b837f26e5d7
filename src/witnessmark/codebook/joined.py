"""Further books beside the maker's, as one book: `joined(book, beside) -> CodeBook`.

Rows of a further book keep what they say and get the book's id before each of their names
("dated-parts.tire_date"), always, so that no two names of two books are ever taken for one.
What a further book knows explains and dates parts of the car but carries no weight: its
marks stand on no assembly, name no car, and carry the book's id (`Mark.book`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, cast

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.conditions import Condition
from witnessmark.codebook.date_records import Point
from witnessmark.codebook.draft import STANDING_ITEMS
from witnessmark.codebook.marks import DateForm, Field, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.qualified import qualified
from witnessmark.codebook.records import Item, Rule, Series
from witnessmark.codebook.site_records import Feature
from witnessmark.documents.row import Column, Row
from witnessmark.documents.shapes import IDENTIFIER

MODEL_YEAR, BUILD_DATE = "model_year", "build_date"
OF_EVERY_BOOK = frozenset(item.id for item in STANDING_ITEMS)


def makers_own(book: CodeBook) -> tuple[str, ...]:
    """What makes a book one maker's own, in words; empty for one that can stand beside it.

    Works, models and runs say which cars there are, and of those one book alone can speak.
    """
    named = {"works": book.works, "models": book.models, "runs": book.runs}
    return tuple(word for word, rows in named.items() if rows)


def joined(book: CodeBook, beside: tuple[CodeBook, ...]) -> CodeBook:
    """One book: the maker's, with what each further book knows beside it, in this order.

    Id, title, years, works, models, assemblies, runs and sources beyond the car are the maker's
    alone. ValueError where a further book is a maker's own (`makers_own`), or one of this id
    is in already: a fault of the caller, who checks.
    """
    for further in beside:
        if makers_own(further) or further.id in (book.id, *(each.id for each in book.beside)):
            raise ValueError(f"{further.id} cannot stand beside {book.id}")
        book = _with(book, _Further(further, _item_names(book, further)))
    return book


def _item_names(book: CodeBook, further: CodeBook) -> dict[str, str]:
    """Each item of a further book under the name that it has in the joined one.

    The model year alone can be the car's own: where the maker's book speaks of the same years.
    """
    names = {item.id: qualified(further.id, item.id) for item in further.items}
    if further.first_year <= book.last_year and book.first_year <= further.last_year:
        own, other = book.item(MODEL_YEAR), further.item(MODEL_YEAR)
        if own is not None and other is not None and own.kind is other.kind:
            names[MODEL_YEAR] = MODEL_YEAR
    return names


@dataclass(frozen=True, slots=True)
class _Further:
    """A further book and the names of its items in the joined one."""

    book: CodeBook
    item_names: Mapping[str, str]

    def name(self, name: str) -> str:
        """Any other name of this book, qualified."""
        return qualified(self.book.id, name)

    def item(self, name: str) -> str:
        """The name of an item."""
        return self.item_names.get(name, self.name(name))

    def row[R: Row](self, row: R, **own: object) -> R:
        """A row: whatever its columns declare as an id, qualified, but for what is `own`."""
        names = {
            name: self.name(getattr(row, name))
            for name, each in row.columns.items()
            if isinstance(each, Column) and each.key.pattern == IDENTIFIER
            # A layout is read and is no part of its mark.
            if hasattr(row, name)
        }
        return cast(R, replace(cast(Any, row), **(names | own)))

    def items(self) -> tuple[Item, ...]:
        """The items that are its own. None is the number by which this maker names the car."""
        spoken_of = {field.says for mark in self.book.marks for field in mark.fields}
        spoken_of |= {item for rule in self.book.rules for item in rule.items}
        return tuple(
            replace(item, id=self.item(item.id), home="", identification=False)
            for item in self.book.items
            if (item.id not in OF_EVERY_BOOK or item.id in spoken_of)
            and self.item(item.id) != item.id
        )

    def mark(self, mark: Mark) -> Mark:
        """A mark, on no assembly of the car, which bears the further book's id."""
        fields = tuple(map(self.field, mark.fields))
        return self.row(mark, assembly="", fields=fields, book=self.book.id)

    def piece(self, piece: Piece) -> Piece:
        """A piece, of no assembly of the car."""
        return self.row(piece, assembly="")

    def field(self, field: Field) -> Field:
        """A field, whose id is its mark's own."""
        tokens = tuple(map(self.row, field.tokens))
        return self.row(field, id=field.id, says=self.item(field.says), tokens=tokens)

    def date_form(self, form: DateForm) -> DateForm:
        """A form of date, with the tables of its letters."""
        return self.row(form, tokens=tuple(map(self.row, form.tokens)))

    def rule(self, rule: Rule) -> Rule:
        """A rule on two items or more."""
        first, second = self.item(rule.if_item), self.item(rule.then_item)
        return self.row(rule, if_item=first, then_item=second, also=self.also(rule))

    def also(self, row: Rule | Series | Point) -> tuple[Condition, ...]:
        """The further conditions of a row."""
        return tuple(replace(each, item=self.item(each.item)) for each in row.also)

    def numbers[R: Series | Point](self, row: R) -> R:
        """A range of numbers, or a known one."""
        return self.row(row, also=self.also(row))

    def feature(self, feature: Feature) -> Feature:
        """A feature, whose id is its site's own."""
        return self.row(feature, id=feature.id)


def _with(book: CodeBook, further: _Further) -> CodeBook:
    """The book with one further book beside it.

    A lag to or from the car's own date stays out: a part that is fitted later as a rule has none.
    """
    other = further.book
    lags = [lag for lag in other.lags if BUILD_DATE not in (lag.earlier, lag.later)]
    return replace(
        book,
        items=(*book.items, *further.items()),
        series=(*book.series, *map(further.numbers, other.series)),
        codes=(*book.codes, *map(further.row, other.codes)),
        date_forms=(*book.date_forms, *map(further.date_form, other.date_forms)),
        marks=(*book.marks, *map(further.mark, other.marks)),
        rules=(*book.rules, *map(further.rule, other.rules)),
        lags=(*book.lags, *map(further.row, lags)),
        sites=(*book.sites, *map(further.row, other.sites)),
        features=(*book.features, *map(further.feature, other.features)),
        exceptions=(*book.exceptions, *map(further.row, other.exceptions)),
        remarks=(*book.remarks, *map(further.row, other.remarks)),
        points=(*book.points, *map(further.numbers, other.points)),
        pieces=(*book.pieces, *map(further.piece, other.pieces)),
        joined_from=(*(book.joined_from or (book,)), other),
    )
