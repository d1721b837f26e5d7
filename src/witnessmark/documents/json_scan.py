"""A walk through JSON text that remembers where everything stands.

It keeps its own stack, so that no depth of brackets can exhaust the program's,
and goes on after every fault that leaves the structure intact. Such a fault (a
NaN, half a character) is patched in `readable`, so that the fields can still be
checked in the same go. Strings and numbers are turned to values elsewhere.
"""

import json
import math
import re
from dataclasses import dataclass, field
from enum import Enum, auto

from witnessmark.documents.json_places import JsonPlaces, places_of
from witnessmark.documents.json_text import first_unreadable
from witnessmark.documents.lines import KeyPath, Span
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


def scan_json(text: str, name: str) -> JsonScan:
    """Walk through the text; `name` is the file as the user would write it."""
    walk = _Walk(places_of(name, text, {}, {}), text)
    is_whole = walk.run()
    places = places_of(name, text, walk.values, walk.keys)
    readable = _apply(text, walk.patches) if is_whole else None
    return JsonScan(places, tuple(walk.problems), readable, frozenset(walk.patched))


class _Next(Enum):
    """What may come next."""

    VALUE = auto()
    VALUE_OR_END = auto()
    KEY = auto()
    KEY_OR_END = auto()
    COLON = auto()
    AFTER = auto()
    DONE = auto()
    BROKEN = auto()


@dataclass(slots=True)
class _Open:
    """A list or object that is open: its bracket, its path, where we are in it."""

    bracket: str
    offset: int
    path: KeyPath
    at: str | int
    seen: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Patch:
    span: Span
    text: str


class _Walk:
    """One walk from the first character to the last, or to the first break."""

    def __init__(self, places: JsonPlaces, text: str) -> None:
        self.places, self.text = places, text
        self.offset = 0
        self.token_end = 0  # end of the last thing read, before any space
        self.open: list[_Open] = []
        self.values: dict[KeyPath, Span] = {}
        self.keys: dict[KeyPath, Span] = {}
        self.problems: list[Problem] = []
        self.patches: list[_Patch] = []
        self.patched: set[KeyPath] = set()

    def run(self) -> bool:
        """Walk; True where the whole text has the structure of JSON."""
        coming = _Next.VALUE
        while coming not in (_Next.DONE, _Next.BROKEN):
            self.token_end = self.offset
            space = _SPACE.match(self.text, self.offset)
            self.offset = space.end() if space else self.offset
            coming = self._step(coming, self.text[self.offset : self.offset + 1])
        return coming is _Next.DONE

    def _step(self, coming: _Next, char: str) -> _Next:
        if coming is _Next.AFTER:
            return self._after(char)
        if not char:
            return self._ends()
        if coming is _Next.COLON:
            if char != ":":
                return self._break(JsonSlip.COLON_MISSING, "a colon between name and value", True)
            self.offset += 1
            return _Next.VALUE
        if coming in (_Next.KEY, _Next.KEY_OR_END):
            return self._key(coming, char)
        if char == "]" and self.open and self.open[-1].bracket == "[":
            if coming is _Next.VALUE_OR_END:
                return self._close()
            return self._break(JsonSlip.COMMA_TOO_MANY, "] without a comma before it")
        return self._value(char)

    def _after(self, char: str) -> _Next:
        """After a value: a comma, a closing bracket, or the end."""
        if not self.open:
            return self._break(JsonSlip.GOES_ON, "nothing more") if char else _Next.DONE
        if not char:
            return self._ends()
        top = self.open[-1]
        if char == ",":
            self.offset += 1
            if isinstance(top.at, str):
                return _Next.KEY
            top.at += 1
            return _Next.VALUE
        closing = _CLOSING[top.bracket]
        if char == closing:
            return self._close()
        if char in "}]":
            return self._break(JsonSlip.WRONG_BRACKET, f"{closing}, {self._opened()}")
        if char == "/":
            return self._break(JsonSlip.COMMENT, f"a comma or {closing}")
        return self._break(JsonSlip.COMMA_MISSING, f"a comma or {closing}", True)

    def _key(self, coming: _Next, char: str) -> _Next:
        top = self.open[-1]
        if char == "}":
            if coming is _Next.KEY_OR_END:
                return self._close()
            return self._break(JsonSlip.COMMA_TOO_MANY, "} without a comma before it")
        if char == "/":
            return self._break(JsonSlip.COMMENT, "a field name in double quotes")
        if char != '"':
            return self._break(JsonSlip.KEY_UNQUOTED, 'a name such as "id", or }')
        span = self._string()
        if span is None:
            return _Next.BROKEN
        key = json.loads(self.text[span.start : span.end], strict=False)
        if not self._is_readable(span):
            self.patches.append(_Patch(span, '"?"'))
        if key in top.seen:
            line = self.places.line_of(top.seen[key])
            self._report(DuplicateKey(self._source(span), key, line))
        top.seen.setdefault(key, span.start)
        top.at = key
        self.keys[(*top.path, key)] = span
        return _Next.COLON if self._goes_on() else _Next.BROKEN

    def _value(self, char: str) -> _Next:
        path = (*self.open[-1].path, self.open[-1].at) if self.open else ()
        if len(self.values) >= MOST_VALUES:
            self._report(TooManyValues(self.places.at(self.offset), MOST_VALUES))
            return _Next.BROKEN
        if char in _CLOSING:
            return self._enter(char, path)
        if char == '"':
            span = self._string()
            if span is None:
                return _Next.BROKEN
            self.values[path] = span
            if not self._is_readable(span):
                self._patch(span, '""', path)
            return _Next.AFTER if self._goes_on() else _Next.BROKEN
        word = _WORD.match(self.text, self.offset)
        if word is None:
            slips = {"'": JsonSlip.TEXT_UNQUOTED, "/": JsonSlip.COMMENT}
            return self._break(slips.get(char, JsonSlip.NOT_A_VALUE), _A_VALUE)
        return self._word(word[0], path)

    def _enter(self, bracket: str, path: KeyPath) -> _Next:
        if len(self.open) >= DEEPEST:
            self._report(TooDeep(self.places.at(self.offset), DEEPEST))
            return _Next.BROKEN
        self.values[path] = Span(self.offset, self.offset + 1)
        self.open.append(_Open(bracket, self.offset, path, "" if bracket == "{" else 0))
        self.offset += 1
        return _Next.KEY_OR_END if bracket == "{" else _Next.VALUE_OR_END

    def _close(self) -> _Next:
        self.open.pop()
        self.offset += 1
        return _Next.AFTER

    def _word(self, word: str, path: KeyPath) -> _Next:
        """true, false, null, a number, or something that only looks like one."""
        span = Span(self.offset, self.offset + len(word))
        if word.lstrip("+-").lower() in _NOT_FINITE:
            self._report(NotANumber(self._source(span), word))
            self._patch(span, "null", path)
        elif _NUMBER.fullmatch(word):
            if len(word) > LONGEST_NUMBER or not math.isfinite(float(word)):
                self._report(NumberTooLong(self._source(span), len(word)))
                self._patch(span, "0", path)
        elif word not in ("true", "false", "null"):
            is_word = word[0].isalpha()
            slip = JsonSlip.TEXT_UNQUOTED if is_word else JsonSlip.NOT_A_VALUE
            return self._break(slip, _A_VALUE, width=len(word))
        self.values[path] = span
        self.offset = span.end
        return _Next.AFTER if self._goes_on() else _Next.BROKEN

    def _string(self) -> Span | None:
        """The quoted text that starts here, or None and a problem."""
        start = self.offset
        body = _STRING_BODY.match(self.text, start)
        end = body.end() if body else start + 1
        if self.text[end : end + 1] == '"':
            self.offset = end + 1
            return Span(start, end + 1)
        if self.text[end : end + 1] == "\\" and self.text[end + 1 : end + 2] not in ("", "\n"):
            self.offset = end
            self._break(JsonSlip.ESCAPE, r"one of \" \\ \/ \b \f \n \r \t \u00e9", width=2)
        else:
            slip = JsonSlip.TEXT_NOT_CLOSED if end < len(self.text) else JsonSlip.ENDS
            wanted = 'a " at the end of the text' if end < len(self.text) else 'the closing "'
            self._break(slip, wanted, width=end - start)
        return None

    def _is_readable(self, span: Span) -> bool:
        """Report a character in a quoted text that no text may hold."""
        unreadable = first_unreadable(self.text[span.start : span.end])
        if unreadable is None:
            return True
        source = self.places.at(span.start + unreadable.offset, unreadable.width)
        self._report(UnreadableCharacter(source, unreadable.code_point))
        return False

    def _ends(self) -> _Next:
        if not self.open:
            return self._break(JsonSlip.EMPTY, 'a case: { "format": "witnessmark-case", … }')
        return self._break(
            JsonSlip.ENDS, f"{_CLOSING[self.open[-1].bracket]}, {self._opened()}", True
        )

    def _opened(self) -> str:
        top = self.open[-1]
        line = self.places.line_of(top.offset)
        return f"since {top.bracket} was opened on line {line}"

    def _break(self, slip: JsonSlip, wanted: str, behind: bool = False, width: int = 1) -> _Next:
        """Report where it breaks: here, or behind the last thing that was right."""
        offset = self.token_end if behind else self.offset
        self._report(MalformedJson(self.places.at(offset, width), slip, wanted))
        return _Next.BROKEN

    def _report(self, problem: Problem) -> None:
        self.problems.append(problem)

    def _goes_on(self) -> bool:
        if len(self.problems) < MOST_PROBLEMS:
            return True
        self._report(TooManyProblems(self.places.at(self.offset), MOST_PROBLEMS))
        return False

    def _patch(self, span: Span, text: str, path: KeyPath) -> None:
        self.patches.append(_Patch(span, text))
        self.patched.add(path)

    def _source(self, span: Span) -> Source:
        return self.places.at(span.start, span.end - span.start)


def _apply(text: str, patches: list[_Patch]) -> str:
    """The text with every patched stretch replaced."""
    parts: list[str] = []
    done = 0
    for patch in patches:
        parts += [text[done : patch.span.start], patch.text]
        done = patch.span.end
    return "".join([*parts, text[done:]])
