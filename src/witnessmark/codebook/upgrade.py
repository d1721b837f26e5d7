"""A book of format 1 as one of format 2: what stands otherwise in book.toml, key by key.

Each change is found once and then made in the values, where a book is read as it is, or in the
text, where it is brought over. Whatever no change names stays to the byte: comments, order and
spaces. Pieces need no change: a book that declares none has those that its marks tell.
"""

import json
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass

from witnessmark.codebook.book_format import FORMAT_VERSION
from witnessmark.documents.lines import KeyPath, Span
from witnessmark.documents.toml_places import locate

OLD_VERSION = 1
"""The format version before the present one: it is read as it is."""

_FOLLOW_OF = {"line": "build", "order": "orders"}
"""What the order of numbers followed, by the word of format 1; `unknown` stays."""


@dataclass(frozen=True, slots=True)
class BookChange:
    """The key at `path` has the name `key` in format 2, and this value; None: its own."""

    path: KeyPath
    key: str
    value: str | int | None = None

    @property
    def now(self) -> KeyPath:
        """The path in format 2."""
        return (*self.path[:-1], self.key)


def changes_from_format_1(document: Mapping[str, object]) -> tuple[BookChange, ...]:
    """What stands otherwise in format 2, for the values of a book.toml of format 1.

    A value of a wrong kind is left alone: the checks of keys know it better.
    """
    version = BookChange(("format_version",), "format_version", FORMAT_VERSION)
    return (version, *_of_items(document.get("item")))


def _of_items(items: object) -> Iterator[BookChange]:
    for n, item in enumerate(items if isinstance(items, list) else ()):
        if isinstance(item, dict) and "order" in item and "numbers_follow" not in item:
            word = item["order"]
            value = _FOLLOW_OF.get(word) if isinstance(word, str) else None
            yield BookChange(("item", n, "order"), "numbers_follow", value)


def with_changes(
    document: Mapping[str, object], changes: tuple[BookChange, ...]
) -> dict[str, object]:
    """The values with each change made, in the order in which they were."""
    made = deepcopy(dict(document))
    for change in changes:
        table: object = made
        for step in change.path[:-1]:
            table = table[step]  # type: ignore[index]
        assert isinstance(table, dict)
        held = list(table.items())
        table.clear()
        for key, value in held:
            if key != change.path[-1]:
                table[key] = value
            else:
                table[change.key] = value if change.value is None else change.value
    return made


def upgraded_text(text: str, changes: tuple[BookChange, ...]) -> str:
    """The text of book.toml with each change made, and nothing else."""
    places = locate("", text)
    edits: list[tuple[Span, str]] = []
    for each in changes:
        if each.key != each.path[-1]:
            edits.append((places.keys[each.path], each.key))
        if each.value is not None:
            edits.append((places.values[each.path], json.dumps(each.value)))
    edits.sort(key=lambda edit: edit[0].start)
    parts, at = [], 0
    for spot, new in edits:
        parts += [text[at : spot.start], new]
        at = spot.end
    return "".join((*parts, text[at:]))
