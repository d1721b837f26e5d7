"""A walk through JSON text that remembers where everything stands.

It goes into lists and objects as deep as any document has them and no deeper, so that
no depth of brackets can exhaust the program, and on after every fault that leaves the
structure intact. Such a fault (a NaN, half a character) is patched in `readable`, so that
the fields can still be checked in the same go. Strings and numbers are turned to values
elsewhere.
"""

import json
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from itertools import count
from typing import NoReturn

from witnessmark.documents.json_places import JsonPlaces, first_unreadable, places_of
from witnessmark.documents.lines import KeyPath, Span, edited
from witnessmark.documents.problems import TooDeep
from witnessmark.documents.problems_json import (
    DuplicateKey,
    JsonSlip,
    MalformedJson,
    NotANumber,
    NumberTooLong,
    TooManyProblems,
    TooManyValues,
    UnreadableCharacter,
)
from witnessmark.problem import Problem
from witnessmark.source import Source

DEEPEST = 60
"""Most lists and objects inside one another."""
MOST_VALUES = 100_000
"""Most values in one text; a large case has some thousand."""
MOST_PROBLEMS = 100
"""Most problems that one text is shown."""
LONGEST_NUMBER = 300
"""Most characters of a number; above some thousand Python refuses to read one."""

_SPACE = re.compile(r"[ \t\n\r]*+")
# Raw control characters except line ends are let through here and reported later.
_STRING_BODY = re.compile(r'"(?:[^"\\\n\r]++|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*+')
_WORD = re.compile(r"[-+.0-9A-Za-z_]++")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")
_NOT_FINITE = {"nan", "inf", "infinity"}
_CLOSING = {"{": "}", "[": "]"}
_A_VALUE = "a text in double quotes, a number, true, false, null, a list or an object"


@dataclass(frozen=True, slots=True)
class JsonScan:
    """What a walk found.

    `readable` is the text with every patch applied, or None where the text
    stops being JSON; `patched` are the paths of the values that were patched.
    """

    places: JsonPlaces
    problems: tuple[Problem, ...]
    readable: str | None
    patched: frozenset[KeyPath]


SCANS_KEPT = 4
"""A save is walked through by whoever checks it, whoever keeps it and whoever shows it: once."""


@lru_cache(SCANS_KEPT)
def scan_json(text: str, name: str) -> JsonScan:
    """Walk through the text; `name` is the file as the user would write it."""
    walk = _Walk(places_of(name, text))
    readable = edited(text, walk.patches) if walk.is_whole() else None
    return JsonScan(walk.places, tuple(walk.problems), readable, frozenset(walk.patched))


class _BreaksOffError(Exception):
    """The text stops being JSON, or is given up; why has been reported."""


class _Walk:
    """One walk from the first character to the last, or to the first break."""

    def __init__(self, places: JsonPlaces) -> None:
        self.places, self.text = places, places.text
        self.offset = 0
        self.token_end = 0  # end of the last thing read, before any space
        self.open: list[int] = []  # where each list or object begins that is open
        self.problems: list[Problem] = []
        self.patches: list[tuple[Span, str]] = []
        self.patched: set[KeyPath] = set()

    def is_whole(self) -> bool:
        """Walk; True where the whole text has the structure of JSON."""
        try:
            self._value((), self._next())
            self._skip_space()
            if self.offset < len(self.text):
                self._break(JsonSlip.GOES_ON, "nothing more")
        except _BreaksOffError:
            return False
        return True

    def _skip_space(self) -> None:
        self.token_end = self.offset
        space = _SPACE.match(self.text, self.offset)
        self.offset = space.end() if space else self.offset

    def _next(self) -> str:
        """The character behind any space."""
        self._skip_space()
        if self.offset < len(self.text):
            return self.text[self.offset]
        if not self.open:
            self._break(JsonSlip.EMPTY, 'a case: { "format": "witnessmark-case", … }')
        closing = _CLOSING[self.text[self.open[-1]]]
        self._break(JsonSlip.ENDS, f"{closing}, {self._opened()}", True)

    def _value(self, path: KeyPath, char: str) -> None:
        if len(self.places.values) >= MOST_VALUES:
            self._give_up(TooManyValues(self._here(), MOST_VALUES))
        if char in _CLOSING:
            self._enter(path, char)
            return
        if char == '"':
            span = self.places.values[path] = self._string()
            if not self._is_readable(span):
                self._patch(span, '""', path)
        else:
            self._word(path, char)
        self._go_on()

    def _enter(self, path: KeyPath, bracket: str) -> None:
        if len(self.open) >= DEEPEST:
            self._give_up(TooDeep(self._here(), DEEPEST))
        self.places.values[path] = Span(self.offset, self.offset + 1)
        self.open.append(self.offset)
        self.offset += 1
        if bracket == "{":
            seen: dict[str, int] = {}
            self._members("}", lambda char, _: self._field(path, char, seen))
        else:
            self._members("]", lambda char, n: self._value((*path, n), char))
        self.open.pop()

    def _members(self, closing: str, read: Callable[[str, int], None]) -> None:
        """Each member up to the bracket that closes them; `read` takes its first character and
        its number from 0."""
        char = self._next()
        if char == closing:
            self.offset += 1
            return
        for number in count():
            read(char, number)
            if not self._has_comma(closing):
                return
            char = self._next()
            if char == closing:
                self._break(JsonSlip.COMMA_TOO_MANY, f"{closing} without a comma before it")

    def _has_comma(self, closing: str) -> bool:
        """After a value: step over a comma or the closing bracket; is it a comma?"""
        char = self._next()
        if char not in (",", closing):
            if char in "}]":
                self._break(JsonSlip.WRONG_BRACKET, f"{closing}, {self._opened()}")
            if char == "/":
                self._break(JsonSlip.COMMENT, f"a comma or {closing}")
            self._break(JsonSlip.COMMA_MISSING, f"a comma or {closing}", True)
        self.offset += 1
        return char == ","

    def _field(self, path: KeyPath, char: str, seen: dict[str, int]) -> None:
        """A name and its value; `seen` holds where those before it in this object begin."""
        if char == "/":
            self._break(JsonSlip.COMMENT, "a field name in double quotes")
        if char != '"':
            self._break(JsonSlip.KEY_UNQUOTED, 'a name such as "id", or }')
        span = self._string()
        key = str(json.loads(self.text[span.start : span.end], strict=False))
        if not self._is_readable(span):
            self.patches.append((span, '"?"'))
        if key in seen:
            line = self.places.lines.index(seen[key]) + 1
            self.problems.append(DuplicateKey(self.places.at(span), key, line))
        seen.setdefault(key, span.start)
        self.places.keys[(*path, key)] = span
        self._go_on()
        if self._next() != ":":
            self._break(JsonSlip.COLON_MISSING, "a colon between name and value", True)
        self.offset += 1
        self._value((*path, key), self._next())

    def _word(self, path: KeyPath, char: str) -> None:
        """true, false, null, a number, or something that only looks like one."""
        match = _WORD.match(self.text, self.offset)
        if match is None:
            slips = {"'": JsonSlip.TEXT_UNQUOTED, "/": JsonSlip.COMMENT}
            self._break(slips.get(char, JsonSlip.NOT_A_VALUE), _A_VALUE)
        word, span = match[0], Span(*match.span())
        if word.lstrip("+-").lower() in _NOT_FINITE:
            self.problems.append(NotANumber(self.places.at(span), word))
            self._patch(span, "null", path)
        elif _NUMBER.fullmatch(word):
            if len(word) > LONGEST_NUMBER or not math.isfinite(float(word)):
                self.problems.append(NumberTooLong(self.places.at(span), len(word)))
                self._patch(span, "0", path)
        elif word not in ("true", "false", "null"):
            slip = JsonSlip.TEXT_UNQUOTED if word[0].isalpha() else JsonSlip.NOT_A_VALUE
            self._break(slip, _A_VALUE, width=len(word))
        self.places.values[path] = span
        self.offset = span.end

    def _string(self) -> Span:
        """The quoted text that starts here."""
        start = self.offset
        body = _STRING_BODY.match(self.text, start)
        end = body.end() if body else start + 1
        if self.text[end : end + 1] == '"':
            self.offset = end + 1
            return Span(start, end + 1)
        if self.text[end : end + 1] == "\\" and self.text[end + 1 : end + 2] not in ("", "\n"):
            self.offset = end
            self._break(JsonSlip.ESCAPE, r"one of \" \\ \/ \b \f \n \r \t \u00e9", width=2)
        slip = JsonSlip.TEXT_NOT_CLOSED if end < len(self.text) else JsonSlip.ENDS
        wanted = 'a " at the end of the text' if end < len(self.text) else 'the closing "'
        self._break(slip, wanted, width=end - start)

    def _is_readable(self, span: Span) -> bool:
        """Report a character in a quoted text that no text may hold."""
        unreadable = first_unreadable(self.text[span.start : span.end])
        if unreadable is None:
            return True
        start = span.start + unreadable.offset
        source = self.places.at(Span(start, start + unreadable.width))
        self.problems.append(UnreadableCharacter(source, unreadable.code_point))
        return False

    def _opened(self) -> str:
        top = self.open[-1]
        return f"since {self.text[top]} was opened on line {self.places.lines.index(top) + 1}"

    def _break(self, slip: JsonSlip, wanted: str, behind: bool = False, width: int = 1) -> NoReturn:
        """Report where it breaks: here, or behind the last thing that was right."""
        offset = self.token_end if behind else self.offset
        source = self.places.at(Span(offset, offset + width))
        self._give_up(MalformedJson(source, slip, wanted))

    def _give_up(self, problem: Problem) -> NoReturn:
        self.problems.append(problem)
        raise _BreaksOffError

    def _go_on(self) -> None:
        """Nobody reads more problems than so many."""
        if len(self.problems) >= MOST_PROBLEMS:
            self._give_up(TooManyProblems(self._here(), MOST_PROBLEMS))

    def _patch(self, span: Span, text: str, path: KeyPath) -> None:
        self.patches.append((span, text))
        self.patched.add(path)

    def _here(self) -> Source:
        return self.places.at(Span(self.offset, self.offset + 1))
