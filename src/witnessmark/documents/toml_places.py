"""Where each key and value of a TOML text stands.

The parser gives values without places. This scanner walks
over a text that the parser has already accepted and notes, for every key,
value, list element and table header, from where to where it goes. It reads no
values. A place that it does not know falls back to the nearest thing around it.
"""

import re
from collections.abc import Callable, Mapping
from functools import cached_property
from itertools import count

import tomli

from witnessmark.documents.lines import KeyPath, Lines, Span
from witnessmark.source import Source

_BLANK = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_SPACE = re.compile(r"[ \t]*+")
_KEY = re.compile(r"""[A-Za-z0-9_-]++|"(?:\\.|[^"\\\n])*+"|'[^'\n]*+'""")
_STRING = re.compile(
    r'''"""(?:\\.|"{1,2}(?!")|[^"\\])*+""""{0,2}|'''
    r"""'''(?:'{1,2}(?!')|[^'])*+''''{0,2}|"""
    r""""(?:\\.|[^"\\\n])*+"|'[^'\n]*+'""",
    re.S,
)
_BARE = re.compile(r"[^,\]}#\n]++")


class TomlPlaces:
    """The places of a text that the parser has accepted, which is gone through for them when the
    first is asked for.

    `written`: the paths that stand under another name in a text of the format before.

    >>> TomlPlaces("book.toml", 'id = "x"').value(("id",)).column
    6
    """

    def __init__(self, name: str, text: str) -> None:
        self.lines = Lines(name, text)
        self.written: Mapping[KeyPath, KeyPath] = {}

    @cached_property
    def spots(self) -> "_Scanner":
        """The spot of each key, value and table header by its path."""
        return _Scanner(self.lines.text)

    def key(self, path: KeyPath) -> Source:
        """Where the key of this path is written."""
        return self._source(self.spots.keys, self.written.get(path, path))

    def value(self, path: KeyPath) -> Source:
        """Where the value of this path is written."""
        return self._source(self.spots.values, self.written.get(path, path))

    def table(self, path: KeyPath) -> Source:
        """The header of a table, or the first thing that belongs to it; the first line for the
        text as a whole."""
        return self._source(self.spots.tables, path) if path else Source(self.lines.name, 1)

    def _source(self, spots: Mapping[KeyPath, Span], path: KeyPath) -> Source:
        """The spot of this path, or the nearest: of the path otherwise, or of what holds it."""
        span = spots.get(path) or self._around(path)
        return self.lines.source(span.start, span.end)

    def _around(self, path: KeyPath) -> Span:
        for length in range(len(path), 0, -1):
            for spots in (self.spots.values, self.spots.tables, self.spots.keys):
                if path[:length] in spots:
                    return spots[path[:length]]
        return Span(0, min(1, len(self.lines.text)))


class _Scanner:
    """Walks once over the text; `at` is the offset of the next character."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.keys: dict[KeyPath, Span] = {}
        self.values: dict[KeyPath, Span] = {}
        self.tables: dict[KeyPath, Span] = {}
        self.at = 0
        self.table: KeyPath = ()
        self.counts: dict[KeyPath, int] = {}
        self.document()

    def document(self) -> None:
        """Header or pair, one after the other, to the end or to what cannot be followed."""
        self._skip(_BLANK)
        while self.at < len(self.text):
            before = self.at
            if self.text[self.at] == "[":
                self._header()
            else:
                self._pair(self.table)
            self._skip(_BLANK)
            if self.at == before:
                return

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        self.at = match.end() if match else self.at

    def _next(self, sign: str) -> bool:
        """Step over this sign if it comes next."""
        found = self.text.startswith(sign, self.at)
        self.at += len(sign) if found else 0
        return found

    def _header(self) -> None:
        start = self.at
        is_list = self._next("[[")
        if not is_list:
            self._next("[")
        keys, _ = self._key()
        self._next("]]" if is_list else "]")
        path: KeyPath = ()
        for key in keys[:-1]:
            path = self._resolved((*path, key))
        path = (*path, keys[-1]) if keys else path
        if is_list:
            self.counts[path] = self.counts.get(path, 0) + 1
            self.tables.setdefault(path, Span(start, self.at))
        self.table = self._resolved(path)
        self.tables[self.table] = Span(start, self.at)

    def _resolved(self, path: KeyPath) -> KeyPath:
        """A list of tables stands for its last element."""
        return (*path, self.counts[path] - 1) if path in self.counts else path

    def _key(self) -> tuple[tuple[str, ...], Span]:
        """A key, dotted or not, and its spot."""
        self._skip(_SPACE)
        start = end = self.at
        keys: list[str] = []
        while match := _KEY.match(self.text, self.at):
            keys.append(_key_name(match[0]))
            self.at = end = match.end()
            self._skip(_SPACE)
            if not self._next("."):
                break
            self._skip(_SPACE)
        return tuple(keys), Span(start, end)

    def _pair(self, table: KeyPath) -> None:
        keys, spot = self._key()
        for length in range(1, len(keys)):
            self.keys.setdefault((*table, *keys[:length]), spot)
        path = (*table, *keys)
        self.keys[path] = spot
        self._next("=")
        self._skip(_SPACE)
        self._value(path)

    def _value(self, path: KeyPath) -> None:
        start = self.at
        if self._next("["):
            self._members("]", lambda number: self._value((*path, number)))
        elif self._next("{"):
            self._members("}", lambda _: self._pair(path))
        else:
            self._skip(_STRING if self.text[start : start + 1] in ('"', "'") else _BARE)
        end = start + len(self.text[start : self.at].rstrip())
        self.values[path] = Span(start, end)

    def _members(self, closing: str, walk: Callable[[int], None]) -> None:
        """Each element of a list or pair of a table, numbered from 0, up to what closes them."""
        self._skip(_BLANK)
        for number in count():
            before = self.at
            if before >= len(self.text) or self._next(closing):
                return
            walk(number)
            self._skip(_BLANK)
            self._next(",")
            self._skip(_BLANK)
            if self.at == before:
                return


def _key_name(written: str) -> str:
    """A key without its quotes."""
    if written[0] == "'":
        return written[1:-1]
    if written[0] == '"':
        return str(tomli.loads(f"key = {written}")["key"])
    return written
