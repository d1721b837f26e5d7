"""Where each value of a JSON text stands, so that others can point at it.

A path names a value as a program would reach it: `("sites", 2, "state")`. Later
rooms check a case against a code book and ask here for the line and column. Of a quoted text,
as it was typed, it is known where a character stands, and which cannot be read.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from witnessmark.documents.lines import KeyPath, Lines, Span
from witnessmark.source import Source

_CHARACTER = re.compile(
    r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\u[0-9a-fA-F]{4}|\\.|[^\\]",
    re.DOTALL,
)
_ESCAPE = re.compile(
    r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\(?:u([0-9a-fA-F]{4})|.)"
)
# Typed as they are, even a tab and a line end are refused: JSON wants them escaped.
_RAW = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
_ESCAPED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
_PLAIN_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?", re.ASCII)
_SHORT_ESCAPES = {r"\b": 0x08, r"\f": 0x0C}


@dataclass(frozen=True, slots=True)
class JsonPlaces:
    """A text and the spans of its values and field names.

    The span of a list or an object is its opening bracket alone: nobody wants
    half a document underlined.
    """

    lines: Lines
    values: dict[KeyPath, Span]
    keys: dict[KeyPath, Span]

    @property
    def name(self) -> str:
        """The file as the user would write it."""
        return self.lines.name

    @property
    def text(self) -> str:
        """The whole text."""
        return self.lines.text

    def at(self, span: Span) -> Source:
        """A place by its stretch of the text."""
        return self.lines.source(span.start, span.end)

    def is_entered(self, path: KeyPath) -> bool:
        """Was the value at this path typed on a command line? In a document none was."""
        return False

    def source(self, path: KeyPath) -> Source:
        """The value at this path; where there is none, what should have held it."""
        while path not in self.values:
            if not path:
                return Source(self.name)
            path = path[:-1]
        return self.at(self.values[path])

    def key_source(self, path: KeyPath) -> Source:
        """The field name of this path; where it has none, its value."""
        span = self.keys.get(path)
        return self.source(path) if span is None else self.at(span)

    def source_within(self, path: KeyPath, start: int, width: int = 1) -> Source:
        """`width` characters of a text value, the first at `start`, counted from 0.

        Escapes are allowed for: the character written as an escape is one.
        """
        typed = self.typed(path)
        if not typed.startswith('"'):
            return self.source(path)
        first = self.values[path].start
        return self.lines.source(
            first + typed_offset(typed, start), first + typed_offset(typed, start + width)
        )

    def typed(self, path: KeyPath) -> str:
        """The value as it was typed, quotes and escapes included; empty where there is none."""
        span = self.values.get(path)
        return "" if span is None else self.text[span.start : span.end]


@dataclass(frozen=True)
class EnteredPlaces(JsonPlaces):
    """The places of a text of which some values were typed elsewhere, on a command line: each
    such value with where it was typed."""

    given: Mapping[KeyPath, Source]

    def is_entered(self, path: KeyPath) -> bool:
        """Was the value typed on a command line?"""
        return path in self.given

    def source(self, path: KeyPath) -> Source:
        """Where the value at this path was typed."""
        return self.given[path] if path in self.given else super().source(path)

    def key_source(self, path: KeyPath) -> Source:
        """The same: a name is typed with its value."""
        return self.given[path] if path in self.given else super().key_source(path)

    def source_within(self, path: KeyPath, start: int, width: int = 1) -> Source:
        """`width` characters of a text value, the first at `start`, counted from 0."""
        if path not in self.given:
            return super().source_within(path, start, width)
        of = self.given[path]
        return replace(of, column=(of.column or 1) + start, width=width)

    def typed(self, path: KeyPath) -> str:
        """The value as JSON has it: a number where it looks like one, else a text."""
        if path not in self.given:
            return super().typed(path)
        of = self.given[path]
        text = of.text[(of.column or 1) - 1 :][: of.width]
        return text if _PLAIN_NUMBER.fullmatch(text) else json.dumps(text)


def places_of(name: str, text: str) -> JsonPlaces:
    """The places of a text, none of which have been found yet."""
    return JsonPlaces(Lines(name, text), {}, {})


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A character that no text may hold: its offset and width as typed, and its code point."""

    offset: int
    width: int
    code_point: int


def typed_offset(typed: str, index: int) -> int:
    """Offset in a quoted text, as typed, of its character number `index`, from 0.

    >>> typed_offset(r'"a\\u00e9b"', 2)
    8
    """
    offset = 1
    for _ in range(index):
        match = _CHARACTER.match(typed, offset, len(typed) - 1)
        if match is None:
            break
        offset = match.end()
    return offset


def first_unreadable(typed: str) -> Unreadable | None:
    """The first control character or half of a surrogate pair, typed or escaped.

    >>> first_unreadable(r'"ab\\u0000"')
    Unreadable(offset=3, width=6, code_point=0)
    """
    found = []
    raw = _RAW.search(typed)
    if raw is not None:
        found.append(Unreadable(raw.start(), 1, ord(raw[0])))
    if "\\" in typed:
        for escape in _ESCAPE.finditer(typed):
            code_point = int(escape[1], 16) if escape[1] else _SHORT_ESCAPES.get(escape[0])
            if code_point is not None and _ESCAPED.match(chr(code_point)):
                found.append(Unreadable(escape.start(), len(escape[0]), code_point))
                break
    return min(found, key=lambda each: each.offset, default=None)
