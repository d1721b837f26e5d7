"""The lines of a text, and the place of any stretch of it."""

import re
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from witnessmark.source import Source

type KeyPath = tuple[str | int, ...]
"""The way to a value: keys, and the index of each list element from 0."""

_LINE_END = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a text, in characters: `start` is in it, `end` is not."""

    start: int
    end: int


@dataclass(frozen=True)
class Lines:
    """The physical lines of a text, and where each starts once that is asked for.

    >>> Lines("case.json", '{"id": 3}').source(7, 8).place()
    'case.json:1:8'
    """

    name: str
    text: str

    @cached_property
    def texts(self) -> list[str]:
        """The lines without their ends."""
        return _LINE_END.split(self.text) if "\r" in self.text else self.text.split("\n")

    @cached_property
    def starts(self) -> list[int]:
        """The offset at which each line starts."""
        return [0, *(end.end() for end in _LINE_END.finditer(self.text))]

    def index(self, at: int) -> int:
        """The line, from 0, in which an offset lies, or which ends there."""
        return bisect_right(self.starts, at) - 1

    def source(self, start: int, end: int) -> Source:
        """The place of a stretch, cut at the end of its first line."""
        index = self.index(start)
        text = self.texts[index]
        column = start - self.starts[index] + 1
        width = min(end - start, len(text) - column + 1)
        return Source(self.name, index + 1, column, max(1, width), text)


def edited(text: str, edits: Iterable[tuple[Span, str]]) -> str:
    """The text with other words in each of these stretches, of which no two overlap.

    >>> edited("a b c", [(Span(4, 5), "z"), (Span(0, 1), "x")])
    'x b z'
    """
    parts, at = [], 0
    for span, new in sorted(edits, key=lambda edit: edit[0].start):
        parts += [text[at : span.start], new]
        at = span.end
    return "".join((*parts, text[at:]))
