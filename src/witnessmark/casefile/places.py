"""Where each value of a case stands in its text, so that others can point at it.

A path names a value as a program would reach it: `("sites", 2, "state")`. Later
rooms check the case against a code book and ask here for the line and column.
"""

import re
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field

from witnessmark.casefile.json_text import typed_offset
from witnessmark.source import Source

type JsonPath = tuple[str | int, ...]
"""The way to a value: field names, and list positions counted from 0."""

_LINE_END = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the text, in characters: `start` is in it, `end` is not."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class CasePlaces:
    """A text and the spans of its values and field names.

    The span of a list or an object is its opening bracket alone: nobody wants
    half a document underlined.
    """

    name: str
    text: str
    values: Mapping[JsonPath, Span]
    keys: Mapping[JsonPath, Span]
    line_starts: tuple[int, ...]
    # One line is cut out once: a case may be one line of five million characters.
    _lines: dict[int, str] = field(default_factory=dict, compare=False, repr=False)

    def source(self, path: JsonPath) -> Source:
        """The value at this path; where there is none, what should have held it."""
        while path not in self.values:
            if not path:
                return Source(self.name)
            path = path[:-1]
        return self._at(self.values[path])

    def key_source(self, path: JsonPath) -> Source:
        """The field name of this path; where it has none, its value."""
        span = self.keys.get(path)
        return self.source(path) if span is None else self._at(span)

    def source_within(self, path: JsonPath, start: int, width: int = 1) -> Source:
        """`width` characters of a text value, the first at `start`, counted from 0.

        Escapes are allowed for: the character written as an escape is one.
        """
        typed = self.typed(path)
        if not typed.startswith('"'):
            return self.source(path)
        first = self.values[path].start + typed_offset(typed, start)
        after = self.values[path].start + typed_offset(typed, start + width)
        return self._at(Span(first, after))

    def typed(self, path: JsonPath) -> str:
        """The value as it was typed, quotes and escapes included; empty where there is none."""
        span = self.values.get(path)
        return "" if span is None else self.text[span.start : span.end]

    def at(self, offset: int, width: int = 1) -> Source:
        """A place by its offset from the start of the text."""
        return self._at(Span(offset, offset + width))

    def line_of(self, offset: int) -> int:
        """The line, counted from 1, in which this offset lies."""
        return bisect_right(self.line_starts, offset)

    def _at(self, span: Span) -> Source:
        line = self.line_of(span.start)
        start = self.line_starts[line - 1]
        return Source(
            self.name, line, span.start - start + 1, max(1, span.end - span.start), self._line(line)
        )

    def _line(self, line: int) -> str:
        if line not in self._lines:
            last = line == len(self.line_starts)
            end = len(self.text) if last else self.line_starts[line]
            self._lines[line] = self.text[self.line_starts[line - 1] : end].rstrip("\r\n")
        return self._lines[line]


def places_of(
    name: str, text: str, values: Mapping[JsonPath, Span], keys: Mapping[JsonPath, Span]
) -> CasePlaces:
    """The places of a text whose values and keys were found.

    >>> places_of("case.json", '{"id": 3}', {("id",): Span(7, 8)}, {}).source(("id",)).place()
    'case.json:1:8'
    """
    starts = (0, *(match.end() for match in _LINE_END.finditer(text)))
    return CasePlaces(name, text, values, keys, starts)
