"""What a list of a book says of itself: whether it holds all that there was."""

from enum import StrEnum
from typing import Any

from witnessmark.documents.entries import Entry
from witnessmark.documents.row import Row, word, yes_no


class ListIs(StrEnum):
    """What a list says of itself: does it hold all that the maker used?"""

    COMPLETE = "complete"
    PARTIAL = "partial"
    UNKNOWN = "unknown"


class ListingRow(Row):
    """A field with its table, or an item with its series: how far the list goes."""

    listed: ListIs = word(
        "What its list holds: all that there was (complete), known to leave gaps (partial: "
        "missing years are no fault of the book), or nobody says (unknown).",
        ListIs,
        default=ListIs.UNKNOWN,
    )
    incomplete = yes_no("The older way to write listed = partial.")

    @staticmethod
    def settle(made: dict[str, Any], entry: Entry, ground: Any) -> None:
        """The older way is read as before."""
        if entry.yes("incomplete"):
            made["listed"] = ListIs.PARTIAL

    @property
    def has_gaps(self) -> bool:
        """Is its list known to have gaps?"""
        return self.listed is ListIs.PARTIAL
