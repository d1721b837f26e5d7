"""A fault in what was typed or tabled: a record with a place and a sentence.

Problems are collected to the end and shown together. Each kind is a class of
its own in the room that finds it; the class writes its sentence once. A problem
never judges the car.

    case.json:4:12: 'maybe' is not a site state
        "state": "maybe"
                 ^^^^^^^
    expected one of: read, absent, not accessible, not looked for
"""

from dataclasses import dataclass

from witnessmark.source import Source

LINE_SHOWN = 160
"""Longest stretch of a line that is shown, in characters."""


@dataclass(frozen=True, slots=True)
class Problem:
    """The base of every problem: subclasses say `sentence` and `expected`."""

    source: Source

    def sentence(self) -> str:
        """What is wrong, without the place."""
        raise NotImplementedError

    def expected(self) -> str:
        """What would have been right, or an empty text."""
        return ""

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
