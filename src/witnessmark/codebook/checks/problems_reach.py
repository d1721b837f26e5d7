"""Problems of rows that nothing reaches, and of what a list says of itself."""

from witnessmark.problem import Problem
from witnessmark.source import Source


class ListedTwice(Problem):
    """A list that says of itself two things."""

    listed: str
    says = "the list is said to be {listed} and to leave gaps"
    wants = "only one of them: listed, and no incomplete"


class CompleteFromMemory(Problem):
    """A list that is said to be complete and has a row from memory: nobody can know that."""

    thing: str
    row: Source
    says = "the {thing} cannot be complete: {row!p} is from memory"
    wants = "partial or unknown, or rows that somebody has published"


class NoSuchCar(Problem):
    """Years, works and models that no car of the book has together."""

    says = "no car of the book is of these years, works and models"
    wants = "years, works and models in which a car was built"


class CodeUnread(Problem):
    """A code that no mark reads on any car for which its row holds."""

    table: str
    says = "no mark on these cars has a field for the table {table!r}"
    wants = "years, works and models of a mark that has one"


class ItemUnsaid(Problem):
    """Numbers of an item that no mark says."""

    item: str
    says = "no mark says {item!r}"
    wants = "an item that a field of a mark says"
