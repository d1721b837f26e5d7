"""A book of format 1 as one of format 2: what stands otherwise in book.toml, key by key.

Pieces need no change: a book that declares none has those that its marks tell.
"""

from collections.abc import Iterator, Mapping

from witnessmark.codebook.book_format import FORMAT_VERSION
from witnessmark.documents.changes import FormatChange, changed_text
from witnessmark.documents.toml_places import TomlPlaces

_FOLLOW_OF = {"line": "build", "order": "orders"}
"""What the order of numbers followed, by the word of format 1; `unknown` stays."""


def changes_from_format_1(document: Mapping[str, object]) -> tuple[FormatChange, ...]:
    """What stands otherwise in format 2, for the values of a book.toml of format 1.

    A value of a wrong kind is left alone: the checks of keys know it better.
    """
    version = FormatChange(("format_version",), "format_version", FORMAT_VERSION)
    return (version, *_of_items(document.get("item")))


def _of_items(items: object) -> Iterator[FormatChange]:
    for n, item in enumerate(items if isinstance(items, list) else ()):
        if isinstance(item, dict) and "order" in item and "numbers_follow" not in item:
            word = item["order"]
            value = _FOLLOW_OF.get(word) if isinstance(word, str) else None
            yield FormatChange(("item", n, "order"), "numbers_follow", value)


def upgraded_text(text: str, changes: tuple[FormatChange, ...]) -> str:
    """The text of book.toml with each change made, and nothing else."""
    spots = TomlPlaces("", text).spots
    return changed_text(text, spots.keys, spots.values, changes, str)
