"""Further books beside the maker's, as one book: `joined(book, beside) -> CodeBook`.

Rows of a further book keep what they say and get the book's id before each of their names
("dated-parts.tire_date"), always, so that no two names of two books are ever taken for one.
What a further book knows explains and dates parts of the car but carries no weight: its
marks stand on no assembly, name no car, and carry the book's id (`Mark.book`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.date_records import Lag, Point
from witnessmark.codebook.draft import STANDING_ITEMS
from witnessmark.codebook.marks import DateForm, DateToken, Field, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.qualified import qualified
from witnessmark.codebook.records import Item, KnownException, Remark, Rule, Series
from witnessmark.codebook.site_records import Feature

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
        return replace(
            mark,
            id=self.name(mark.id),
            assembly="",
            site=self.name(mark.site),
            fields=tuple(map(self.field, mark.fields)),
            book=self.book.id,
            other_form_of=self.name(mark.other_form_of),
            piece=self.name(mark.piece),
            surface=self.name(mark.surface),
        )

    def piece(self, piece: Piece) -> Piece:
        """A piece, of no assembly of the car."""
        return replace(piece, id=self.name(piece.id), assembly="")

    def field(self, field: Field) -> Field:
        """A field, whose id is its mark's own."""
        return replace(
            field,
            says=self.item(field.says),
            table=self.name(field.table),
            date_form=self.name(field.date_form),
            tokens=self.tokens(field.tokens),
        )

    def tokens(self, tokens: tuple[DateToken, ...]) -> tuple[DateToken, ...]:
        """The parts of a date, with the tables of its letters."""
        return tuple(replace(token, table=self.name(token.table)) for token in tokens)

    def date_form(self, form: DateForm) -> DateForm:
        """A form of date."""
        return replace(form, id=self.name(form.id), tokens=self.tokens(form.tokens))

    def rule(self, rule: Rule) -> Rule:
        """A rule on two items."""
        return replace(
            rule,
            id=self.name(rule.id),
            if_item=self.item(rule.if_item),
            then_item=self.item(rule.then_item),
            also=tuple(replace(each, item=self.item(each.item)) for each in rule.also),
        )

    def numbered[Row: (KnownException, Point)](self, row: Row) -> Row:
        """A row on numbers of an item."""
        return replace(row, id=self.name(row.id), item=self.name(row.item))

    def series(self, row: Series) -> Series:
        """A series of numbers of an item."""
        return replace(row, item=self.name(row.item))

    def lag(self, lag: Lag) -> Lag:
        """A lag between two dates."""
        earlier, later = self.name(lag.earlier), self.name(lag.later)
        return replace(lag, id=self.name(lag.id), earlier=earlier, later=later)

    def feature(self, feature: Feature) -> Feature:
        """A feature, whose id is its site's own."""
        return replace(feature, site=self.name(feature.site))

    def remark(self, remark: Remark) -> Remark:
        """A remark, on an item even where that is shared: it is about this book's marks."""
        return replace(remark, id=self.name(remark.id), about=self.name(remark.about))


def _with(book: CodeBook, further: _Further) -> CodeBook:
    """The book with one further book beside it.

    A lag to or from the car's own date stays out: a part that is fitted later as a rule has none.
    """
    other = further.book
    lags = [lag for lag in other.lags if BUILD_DATE not in (lag.earlier, lag.later)]
    return replace(
        book,
        items=(*book.items, *further.items()),
        series=(*book.series, *map(further.series, other.series)),
        codes=(*book.codes, *(replace(r, table=further.name(r.table)) for r in other.codes)),
        date_forms=(*book.date_forms, *map(further.date_form, other.date_forms)),
        marks=(*book.marks, *map(further.mark, other.marks)),
        rules=(*book.rules, *map(further.rule, other.rules)),
        lags=(*book.lags, *map(further.lag, lags)),
        sites=(*book.sites, *(replace(site, id=further.name(site.id)) for site in other.sites)),
        features=(*book.features, *map(further.feature, other.features)),
        exceptions=(*book.exceptions, *map(further.numbered, other.exceptions)),
        remarks=(*book.remarks, *map(further.remark, other.remarks)),
        points=(*book.points, *map(further.numbered, other.points)),
        pieces=(*book.pieces, *map(further.piece, other.pieces)),
        joined_from=(*(book.joined_from or (book,)), other),
    )
