"""A document of the format before, brought over: changes of names and values, one field each.

Each change is found once and then made in the values, where a document is read as it is, or in
the text, where it is brought over. Whatever no change names stays to the byte: order, spaces,
comments and unknown fields.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from witnessmark.documents.lines import KeyPath, Span, edited

OLD_VERSION = 1
"""The format version before the present one, of books and cases: it is read as it is."""


@dataclass(frozen=True, slots=True)
class FormatChange:
    """The field at `path` has the name `key` in the present format, and this value; None: its
    own."""

    path: KeyPath
    key: str
    value: str | int | None = None

    @property
    def now(self) -> KeyPath:
        """The path in the present format."""
        return (*self.path[:-1], self.key)


def with_changes(document: Mapping[str, Any], changes: tuple[FormatChange, ...]) -> dict[str, Any]:
    """The values with each change made, in the order in which they were."""
    by_path = {each.path: each for each in changes}
    deepest = max((len(path) for path in by_path), default=0)

    def changed(value: Any, path: KeyPath) -> Any:
        if len(path) == deepest:
            return value
        if isinstance(value, list):
            return [changed(each, (*path, n)) for n, each in enumerate(value)]
        if not isinstance(value, dict):
            return value
        made = {}
        for key, each in value.items():
            change = by_path.get((*path, key))
            if change is None:
                made[key] = changed(each, (*path, key))
            else:
                made[change.key] = each if change.value is None else change.value
        return made

    found: dict[str, Any] = changed(dict(document), ())
    return found


def changed_text(
    text: str,
    keys: Mapping[KeyPath, Span],
    values: Mapping[KeyPath, Span],
    changes: tuple[FormatChange, ...],
    key_as: Callable[[str], str],
) -> str:
    """The text with each change made, and nothing else; `key_as` writes a key."""
    edits: list[tuple[Span, str]] = []
    for each in changes:
        if each.key != each.path[-1]:
            edits.append((keys[each.path], key_as(each.key)))
        if each.value is not None:
            edits.append((values[each.path], json.dumps(each.value)))
    return edited(text, edits)
