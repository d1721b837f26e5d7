"""A fault in what was typed or tabled: a record with a place and a sentence.

Problems are collected to the end and shown together. Each kind is a class of
its own in the room that finds it; the class writes its sentence once, with its
own fields by their names. A problem never judges the car.

    class NotASite(Problem):
        found: str
        states: tuple[str, ...]
        says = "{found!q} is not a site state"
        wants = "one of: {states!l}"

    case.json:4:12: 'maybe' is not a site state
        "state": "maybe"
                 ^^^^^^^
    expected one of: read, absent, not accessible, not looked for
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from string import Formatter
from typing import Any, Self, dataclass_transform

from witnessmark.source import Source

LINE_SHOWN = 160
"""Longest stretch of a line that is shown, in characters."""

VALUE_SHOWN = 60
"""Longest value that a sentence repeats, in characters."""


def shown(value: object) -> str:
    """A value as a sentence repeats it: quoted, on one line, cut when long."""
    text = str(value)
    return repr(text if len(text) <= VALUE_SHOWN else text[: VALUE_SHOWN - 1] + "…")


class _Filling(Formatter):
    """Fills a record's fields into a sentence.

    `{name}` is the value, `{name!r}` the value in quotes, `{name!q}` quoted and cut
    when long, `{name!l}` several values with commas, `{name!o}` with "or", `{name!n}` how
    many there are, `{name!p}` the place of a source, `{name!u}` a character's code point; a
    form such as `:02X` or `:g` may follow, as everywhere in Python.
    """

    def get_value(self, key: int | str, args: Sequence[Any], kwargs: Mapping[str, Any]) -> Any:
        return getattr(args[0], str(key))

    def convert_field(self, value: Any, conversion: Any) -> Any:
        """The value as the conversion after `!` prints it."""
        match conversion:
            case "q":
                return shown(value)
            case "l":
                return ", ".join(value)
            case "o":
                return " or ".join(map(str, value))
            case "n":
                return len(value)
            case "p":
                return value.place()
            case "u":
                return f"U+{ord(value):04X}"
        return super().convert_field(value, conversion)


_FILLING = _Filling()


@dataclass_transform(frozen_default=True)
class _Kinds:
    """Makes a frozen record of every class below it, when the first of its kind is met: a
    program loads a hundred kinds and meets none of most."""

    def __new__(cls, *_fields: object, **_named: object) -> Self:
        for kind in reversed(cls.__mro__):
            if issubclass(kind, Problem) and "__dataclass_fields__" not in kind.__dict__:
                dataclass(frozen=True)(kind)
        return super().__new__(cls)


@dataclass(frozen=True)
class Problem(_Kinds):
    """The base of every problem: a kind declares its fields, `says` and `wants`.

    Both are written out, so that they are found for the catalogue, and name fields or
    properties of the record; where they hang on a value they are a property that
    chooses between sentences that are written out.
    """

    source: Source

    @property
    def says(self) -> str:
        """What is wrong, without the place; fields in braces."""
        raise NotImplementedError

    @property
    def wants(self) -> str:
        """What would have been right, or an empty text; fields in braces."""
        return ""

    def sentence(self) -> str:
        """What is wrong, without the place."""
        return _FILLING.vformat(self.says, (self,), {})

    def expected(self) -> str:
        """What would have been right, or an empty text."""
        return _FILLING.vformat(self.wants, (self,), {})

    def render(self) -> str:
        """Place, sentence, the line with a mark under the fault, what was expected."""
        source = self.source
        place = source.place()
        lines = [f"{place}: {self.sentence()}" if place else self.sentence()]
        if source.text and source.column is not None:
            lines.extend(_marked(source))
        if self.expected():
            lines.append(f"expected {self.expected()}")
        return "\n".join(lines)


def _marked(source: Source) -> list[str]:
    """The line and the mark under it; a long line is cut around the fault."""
    column = max(source.column or 1, 1)
    start = max(0, column - 1 - LINE_SHOWN // 2) if len(source.text) > LINE_SHOWN else 0
    shown = source.text[start : start + LINE_SHOWN]
    shown = "".join(c if c.isprintable() else " " for c in shown)
    offset = column - 1 - start
    width = max(1, min(source.width, max(1, len(shown) - offset)))
    return ["    " + shown, "    " + " " * offset + "^" * width]


def render_all(problems: tuple[Problem, ...]) -> str:
    """All problems, one after the other, in the order of their places."""

    def order(problem: Problem) -> tuple[str, int, int]:
        source = problem.source
        return (source.name, source.line or 0, source.column or 0)

    return "\n".join(problem.render() for problem in sorted(problems, key=order))
