"""Problems across a book: names that lead nowhere, ids given twice, basis and source."""

from dataclasses import dataclass
from typing import override

from witnessmark.documents.problems import nearest, shown
from witnessmark.problem import Problem


@dataclass(frozen=True, slots=True)
class UnknownName(Problem):
    """A name that nothing in the book bears. `thing` is what it should be: a site, an item."""

    thing: str
    name: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"the book has no {self.thing} {shown(self.name)}"

    @override
    def expected(self) -> str:
        return nearest(self.name, self.known) or "one that the book has"


@dataclass(frozen=True, slots=True)
class RepeatedId(Problem):
    """An id that another of the same kind already has."""

    thing: str
    name: str
    first_line: int | None

    @override
    def sentence(self) -> str:
        return f"the {self.thing} {shown(self.name)} stands here again (first in {self._line()})"

    @override
    def expected(self) -> str:
        return "another id"

    def _line(self) -> str:
        return f"line {self.first_line}"


@dataclass(frozen=True, slots=True)
class WrongItemKind(Problem):
    """An item of one kind where only another kind can stand."""

    item: str
    kind: str
    wanted: str

    @override
    def sentence(self) -> str:
        return f"{self.item!r} is an item of kind {self.kind}"

    @override
    def expected(self) -> str:
        return self.wanted


@dataclass(frozen=True, slots=True)
class UnknownValue(Problem):
    """A canonical value that no row, model or works of the book has for this item."""

    item: str
    value: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"nothing in the book says {shown(self.value)} for {self.item!r}"

    @override
    def expected(self) -> str:
        return nearest(self.value, self.known) or f"a value of {self.item!r}"


@dataclass(frozen=True, slots=True)
class UnusedTable(Problem):
    """A code table that nothing reads: most often a table's name is mistyped."""

    table: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"no field and no form of date reads the table {shown(self.table)}"

    @override
    def expected(self) -> str:
        return nearest(self.table, self.known) or "a table that a field names"


@dataclass(frozen=True, slots=True)
class IdNotFolder(Problem):
    """The book's id differs from the name of its folder."""

    id: str
    folder: str

    @override
    def sentence(self) -> str:
        return f"the id {shown(self.id)} is not the name of the folder"

    @override
    def expected(self) -> str:
        return f"id = {self.folder!r}"


@dataclass(frozen=True, slots=True)
class InventedBasis(Problem):
    """An invented row in the book of a real maker."""

    @override
    def sentence(self) -> str:
        return "a row can be invented only where the maker is"

    @override
    def expected(self) -> str:
        return "another basis, or invented = true in book.toml if the maker is invented"


@dataclass(frozen=True, slots=True)
class UnknownSource(Problem):
    """A source that looks like a mistyped key of [sources]."""

    source_key: str
    known: tuple[str, ...]

    @override
    def sentence(self) -> str:
        return f"[sources] has no key {shown(self.source_key)}"

    @override
    def expected(self) -> str:
        return f"{nearest(self.source_key, self.known)}; or the source in words"


@dataclass(frozen=True, slots=True)
class SharedAlias(Problem):
    """A name for a mark that another mark of the same car has."""

    alias: str
    other: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.alias)} is also a name of the mark {self.other!r} on the same car"

    @override
    def expected(self) -> str:
        return "a name of this mark alone, or marks that no car bears both"


@dataclass(frozen=True, slots=True)
class NoName(Problem):
    """A name for a mark in which there is nothing to go by."""

    alias: str

    @override
    def sentence(self) -> str:
        return f"{shown(self.alias)} is no name"

    @override
    def expected(self) -> str:
        return "what people call the mark: trim tag"
