"""Where each value of a JSON text stands, so that others can point at it.

A path names a value as a program would reach it: `("sites", 2, "state")`. Later
rooms check a case against a code book and ask here for the line and column.
"""

from dataclasses import dataclass

from witnessmark.documents.json_text import typed_offset
from witnessmark.documents.lines import KeyPath, Lines, Span
from witnessmark.source import Source


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


def places_of(name: str, text: str) -> JsonPlaces:
    """The places of a text, none of which have been found yet."""
    return JsonPlaces(Lines(name, text), {}, {})
