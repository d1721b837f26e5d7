"""How the format of a code book is declared: shapes of keys, each with its kind.

The parser, the columns of the tables and the JSON Schema for editors all read
the same declarations, so that they cannot drift apart.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from witnessmark.problem import Problem
from witnessmark.source import Source

IDENTIFIER = r"[a-z0-9]+(?:[_-][a-z0-9]+)*"
"""An id: lower-case words and digits joined by _ or -."""

CANONICAL = r"[a-z0-9]+(?:[.-][a-z0-9]+)*"
"""A canonical value: lower-case words and digits joined by - (or . in a ratio)."""

FIRST_CAR_YEAR = 1886
LAST_CAR_YEAR = 2100


type Default = str | int | bool | tuple[()] | None


class Kind(StrEnum):
    """What may stand behind a key or in a cell; the value is how it is named to a person."""

    TEXT = "text"
    NUMBER = "a whole number"
    AMOUNT = "a number"
    YES_NO = "true or false"
    DAY = "a date such as 1952-01-01"
    MOMENT = "a day with a time"
    PARTIAL_DATE = "a date as exact as it is known"
    TEXTS = "a list of texts"
    NUMBERS = "a list of whole numbers"
    TABLE = "a table"
    TABLES = "a list of tables"
    CITATIONS = "a table of key = text"


@dataclass(frozen=True)
class Key:
    """One key of book.toml or one column of a table.

    `about` is shown by editors. `words` closes the list of texts, `noun` is what one of them is
    called; `pattern` is a regular expression that the whole text has to match, `pattern_name`
    what it is called, `refused` the problem of a text that does not. `names` is what its value
    is the id of, one each if `once`, `refers_to` what it names, both in words: "mark". `least`
    and `most` bound a number or each number of a list, and for a text its length. `default`
    stands where the key is missing or faulty.
    """

    name: str
    kind: Kind
    about: str
    required: bool = False
    words: tuple[str, ...] = ()
    pattern: str = ""
    pattern_name: str = ""
    refused: Callable[[Source, str], Problem] | None = None
    noun: str = ""
    names: str = ""
    refers_to: str = ""
    once: bool = True
    least: float | None = None
    most: float | None = None
    default: str | int | bool | None = None
    shape: "Shape | None" = None

    @property
    def is_name(self) -> bool:
        """Is it an id or a canonical value, which even if ill-formed can be looked up?"""
        return self.pattern in (IDENTIFIER, CANONICAL)

    @property
    def is_free(self) -> bool:
        """Does it hold any text?"""
        return self.kind is Kind.TEXT and not self.words and not self.pattern

    @cached_property
    def stands_in(self) -> Default:
        """What stands for a key that is missing or faulty."""
        if self.default is not None:
            return self.default
        match self.kind:
            case Kind.TEXT:
                return ""
            case Kind.YES_NO:
                return False
            case Kind.NUMBER | Kind.AMOUNT | Kind.DAY | Kind.MOMENT | Kind.PARTIAL_DATE:
                return None
            case _:
                return ()

    @cached_property
    def form(self) -> re.Pattern[str]:
        """The pattern, ready for use."""
        return re.compile(self.pattern)


@dataclass(frozen=True)
class Shape:
    """The keys that one table may have. `name` is how it is named to a person."""

    name: str
    about: str
    keys: tuple[Key, ...]

    def key(self, name: str) -> Key | None:
        """The declaration of this key, or None."""
        return self.by_name.get(name)

    @cached_property
    def by_name(self) -> Mapping[str, Key]:
        """Every key by its name, in the declared order."""
        return {key.name: key for key in self.keys}

    @cached_property
    def required(self) -> tuple[str, ...]:
        """The names of the keys that must be written."""
        return tuple(key.name for key in self.keys if key.required)

    @cached_property
    def defaults(self) -> Mapping[str, Default]:
        """What stands under each key of a table in which nothing is written."""
        return {key.name: key.stands_in for key in self.keys}

    def names(self) -> tuple[str, ...]:
        """The names of all keys, in the declared order."""
        return tuple(self.by_name)


ID_NAME = "lower-case letters and digits, joined by _ or -"
CANONICAL_NAME = "lower-case words and digits, joined by hyphens"
