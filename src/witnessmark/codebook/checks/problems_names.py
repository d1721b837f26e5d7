"""Problems across a book: names that lead nowhere, ids given twice, basis and source."""

from witnessmark.documents.problems import Unknown
from witnessmark.problem import Problem


class NotInBook(Unknown):
    """A name that nothing in the book bears. `thing` is what it should be: a site, an item."""

    thing: str
    says = "the book has no {thing} {name!q}"
    wants_else = "one that the book has"


class RepeatedId(Problem):
    """An id that another of the same kind already has."""

    thing: str
    name: str
    first_line: int | None
    says = "the {thing} {name!q} is here again (first in line {first_line})"
    wants = "another id"


class WrongItemKind(Problem):
    """An item of one kind where only another kind can stand."""

    item: str
    kind: str
    wanted: str
    says = "{item!r} is an item of kind {kind}"
    wants = "{wanted}"


class UnknownValue(Unknown):
    """A canonical value that no row, model or works of the book has for this item."""

    item: str
    says = "nothing in the book says {name!q} for {item!r}"
    wants_else = "a value of {item!r}"


class UnusedTable(Unknown):
    """A code table that nothing reads: most often a table's name is mistyped."""

    says = "no field and no form of date reads the table {name!q}"
    wants_else = "a table that a field names"


class IdNotFolder(Problem):
    """The book's id differs from the name of its folder."""

    id: str
    folder: str
    says = "the id {id!q} is not the name of the folder"
    wants = "id = {folder!r}"


class InventedBasis(Problem):
    """An invented row in the book of a real maker."""

    says = "a row can be invented only where the maker is"
    wants = "another basis, or invented = true in book.toml if the maker is invented"


class UnknownSource(Unknown):
    """A source that looks like a mistyped key of [sources]."""

    says = "[sources] has no key {name!q}"
    wants = "{near!r}, which is the nearest; or the source in words"


class SharedAlias(Problem):
    """A name for a mark that another mark of the same car has."""

    alias: str
    other: str
    says = "{alias!q} is also a name of the mark {other!r} on the same car"
    wants = "a name of this mark alone, or two marks that no car bears together"


class NoName(Problem):
    """A name for a mark in which there is nothing to go by."""

    alias: str
    says = "{alias!q} is not a name"
    wants = "what people call the mark: trim tag"
