"""Rows: what one kind of entry is, declared once, as a class whose fields are its columns.

From the columns of a `Row` come its shape, which the readers check texts against and the JSON
Schema is made from; its record, which `of` builds from a checked entry; and its page in docs.

    class Lag(CarRow, called="lags.csv"):
        "Days by which one date comes before another."

        id: str = identifier("Its id.")
        least_days: int = number("Least days between.", 0, 36525)

A column without a default must be written. One without an annotation is read and checked, and
no part of the record. A field with a plain default is no column.
"""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field, fields, replace
from datetime import date, datetime
from enum import StrEnum
from inspect import get_annotations
from typing import Any, ClassVar, Self, dataclass_transform

from witnessmark.documents.entries import Entry
from witnessmark.documents.shapes import (
    CANONICAL,
    CANONICAL_NAME,
    FIRST_CAR_YEAR,
    ID_NAME,
    IDENTIFIER,
    LAST_CAR_YEAR,
    Key,
    Kind,
    Shape,
)

LONGEST_NAME = 200
"""Most characters of a name in a document that takes any."""

REQUIRED: Any = MISSING
"""Stands for the default of a column that must be written."""

type Read = Callable[[Any], object]
"""What a record holds, made from what stands in a cell or behind a key."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its key, which has no name before its class has, what the record makes of its
    value, the rows that a table or a list of tables holds, and what stands where nothing does."""

    key: Key
    otherwise: object
    read: Read | None = None
    row: "type[Row] | None" = None

    def keys(self, name: str) -> tuple[Key, ...]:
        """The key, under its name."""
        return (replace(self.key, name=name),)

    def maker(self, name: str) -> Callable[[Entry, Any], object]:
        """What makes the records of the rows that it holds."""
        assert self.row is not None
        row, is_list = self.row, self.key.kind is Kind.TABLES

        def made(entry: Entry, ground: Any) -> object:
            rows = tuple(row.of(each, ground) for each in entry.entries(name))
            return rows if is_list else next(iter(rows), None)

        return made

    def default(self) -> object:
        """What the record holds where nothing is written; MISSING where something must be."""
        if self.otherwise is REQUIRED or self.read is None:
            return self.otherwise
        return self.read(self.otherwise)


@dataclass(frozen=True, slots=True)
class JoinedColumns:
    """Columns that make one field of a record."""

    columns: Mapping[str, Column]
    read: Callable[[Entry, Any], object]

    def keys(self, name: str) -> tuple[Key, ...]:
        """The keys of all."""
        return tuple(key for own, each in self.columns.items() for key in each.keys(own))

    def maker(self, name: str) -> Callable[[Entry, Any], object]:
        """What makes of an entry what its record holds."""
        return self.read

    def default(self) -> object:
        """A record always has it."""
        return MISSING


def _column(
    kind: Kind,
    about: str,
    default: Any,
    instead: Any = None,
    read: Read | None = None,
    row: "type[Row] | None" = None,
    **more: Any,
) -> Any:
    """A column; `instead` stands in for a missing or faulty value where it must be written."""
    stands = instead if default is REQUIRED else default
    if not isinstance(stands, str | int) or stands is False:
        stands = None
    shape = row.shape if row is not None else None
    key = Key("", kind, about, default is REQUIRED, default=stands, shape=shape, **more)
    return Column(key, default, read, row)


def free_text(
    about: str,
    *,
    default: str = REQUIRED,
    read: Read | None = None,
    least: int | None = None,
    most: int | None = None,
) -> Any:
    """Free text, of `least` to `most` characters."""
    return _column(Kind.TEXT, about, default, read=read, least=least, most=most)


def named(about: str, *, default: str = REQUIRED) -> Any:
    """A name of 1 to `LONGEST_NAME` characters, of its own or of another thing."""
    return free_text(about, default=default, least=1, most=LONGEST_NAME)


def form(about: str, pattern: str, named: str = "", *, default: str = REQUIRED, **more: Any) -> Any:
    """A text of this form; `named` is what the form is called, `refused` the problem of another."""
    return _column(Kind.TEXT, about, default, pattern=pattern, pattern_name=named, **more)


def identifier(
    about: str, *, names: str = "", once: bool = True, of: str = "", default: str = REQUIRED
) -> Any:
    """An id: its own, by which it `names` a mark, once or in several rows; or that `of` a mark."""
    more: dict[str, Any] = {"names": names, "once": once, "refers_to": of}
    return form(about, IDENTIFIER, ID_NAME, default=default, **more)


def canonical(about: str) -> Any:
    """A canonical value."""
    return form(about, CANONICAL, CANONICAL_NAME)


def word(
    about: str,
    words: type[StrEnum] | tuple[str, ...],
    *,
    default: str = REQUIRED,
    instead: str | None = "",
    read: Read | None = None,
) -> Any:
    """One of some words; `instead` stands in for a faulty one where it must be written."""
    noun = getattr(words, "noun", "")
    if read is None and isinstance(words, type):
        read = words
    return _column(Kind.TEXT, about, default, instead, read, words=tuple(words), noun=noun)


def number(about: str, least: int, most: int, *, default: int | None = REQUIRED) -> Any:
    """A whole number; 0 stands in for a faulty one that must be written."""
    return _column(Kind.NUMBER, about, default, 0, least=least, most=most)


def year(about: str, *, default: int | None = REQUIRED) -> Any:
    """A model year; nothing stands in for a faulty one."""
    first, last = FIRST_CAR_YEAR, LAST_CAR_YEAR
    return _column(Kind.NUMBER, about, default, least=first, most=last)


def amount(about: str, least: float, most: float, *, default: float | None = REQUIRED) -> Any:
    """A number that need not be whole."""
    return _column(Kind.AMOUNT, about, default, read=_real, least=least, most=most)


def _real(found: Any) -> object:
    return None if found is None else float(found)


def yes_no(about: str, *, default: bool | None = False) -> Any:
    """True or false."""
    return _column(Kind.YES_NO, about, default)


def day(about: str, *, default: date | None = REQUIRED) -> Any:
    """A day such as 1952-01-01."""
    return _column(Kind.DAY, about, default)


def moment(about: str, *, default: datetime | None = REQUIRED) -> Any:
    """A day with a time such as 2025-03-14T10:30."""
    return _column(Kind.MOMENT, about, default)


def dated(about: str, *, default: str | None = REQUIRED) -> Any:
    """A date as exact as it is known, which is in the calendar."""
    return _column(Kind.PARTIAL_DATE, about, default)


def texts(
    about: str,
    *,
    default: tuple[str, ...] = REQUIRED,
    read: Read | None = None,
    of: str = "",
    least: int | None = None,
    most: int | None = None,
) -> Any:
    """A list of texts, each of `least` to `most` characters; `of` as for an identifier."""
    more: dict[str, Any] = {"refers_to": of, "least": least, "most": most}
    return _column(Kind.TEXTS, about, default, read=read, **more)


def numbers(about: str, least: int, most: int) -> Any:
    """A list of whole numbers, which the record has in order, each once."""

    def in_order(found: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(sorted(set(found)))

    return _column(Kind.NUMBERS, about, REQUIRED, read=in_order, least=least, most=most)


def citations(about: str) -> Any:
    """A table of texts under the author's own keys."""
    return _column(Kind.CITATIONS, about, ())


def named_texts(about: str, most: int, *, default: Mapping[str, str] = REQUIRED) -> Any:
    """Texts of at most `most` characters by name; each record has a mapping of its own."""
    own = default if default is REQUIRED else field(default_factory=lambda: dict(default))
    return _column(Kind.CITATIONS, about, own, most=most)


def one_row(about: str, row: "type[Row]", *, default: "Row | None" = REQUIRED) -> Any:
    """A table of its own."""
    return _column(Kind.TABLE, about, default, row=row)


def many_rows(about: str, row: "type[Row]", *, default: "tuple[Row, ...] | None" = REQUIRED) -> Any:
    """A list of tables."""
    return _column(Kind.TABLES, about, default, row=row)


def together(read: Callable[[Entry, Any], object], columns: Mapping[str, Column]) -> Any:
    """Columns that make one field of a record."""
    return JoinedColumns(columns, read)


@dataclass_transform(
    kw_only_default=True,
    frozen_default=True,
    field_specifiers=(
        free_text,
        named,
        form,
        identifier,
        canonical,
        word,
        number,
        amount,
        year,
        yes_no,
        day,
        moment,
        dated,
        texts,
        numbers,
        citations,
        named_texts,
        one_row,
        many_rows,
        together,
        field,
    ),
)
class Row:
    """A kind of entry; `called` is how it is named to a person.

    The first line of the docstring is what schema and page say of it.
    """

    shape: ClassVar[Shape]
    columns: ClassVar[Mapping[str, Column | JoinedColumns]] = {}
    _read: ClassVar[Mapping[str, Read]]
    _left_out: ClassVar[tuple[str, ...]]
    _made: ClassVar[Mapping[str, Callable[[Entry, Any], object]]]

    def __init_subclass__(cls, called: str = "") -> None:
        """Take the columns out of the class body, and make a frozen record of the rest."""
        body, annotated = dict(vars(cls)), get_annotations(cls)
        own = {
            name: each for name, each in body.items() if isinstance(each, Column | JoinedColumns)
        }
        for name, each in own.items():
            delattr(cls, name)
            if name in annotated and (default := each.default()) is not MISSING:
                setattr(cls, name, default)
        above = {name: each for name, each in cls.columns.items() if name not in own}
        cls.columns = own | above
        keys = (key for name, each in cls.columns.items() for key in each.keys(name))
        cls.shape = Shape(called, (cls.__doc__ or "").partition("\n")[0], tuple(keys))
        # One that only hands its columns down, or keeps none, is no record of its own.
        is_record = bool(called and annotated)
        record: Any = dataclass(frozen=True, kw_only=True, repr=is_record, eq=is_record)
        names = {each.name for each in fields(record(cls))} if annotated else ()
        kept = {name: each for name, each in cls.columns.items() if name in names}
        plain = {n: c.read for n, c in kept.items() if isinstance(c, Column) and not c.row}
        cls._read = {name: read for name, read in plain.items() if read is not None}
        cls._made = {name: each.maker(name) for name, each in kept.items() if name not in plain}
        cls._left_out = tuple(name for name in cls.shape.by_name if name not in plain)

    @classmethod
    def of(cls, entry: Entry, ground: Any) -> Self:
        """The record of an entry; whatever was faulty has been reported by now.

        `ground` is what the document as a whole says, and a row may leave out.
        """
        made: dict[str, Any] = dict(entry.values)
        for name in cls._left_out:
            made.pop(name, None)
        for name, read in cls._read.items():
            made[name] = read(made[name])
        for name, make in cls._made.items():
            made[name] = make(entry, ground)
        cls.settle(made, entry, ground)
        found = cls.__new__(cls)
        # A frozen record's own __init__ sets every field by a call; a book has thousands of rows.
        found.__dict__.update(made)
        return found

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """Put into `made` what hangs on several columns, or on the document as a whole."""
