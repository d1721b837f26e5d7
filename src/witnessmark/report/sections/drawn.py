"""Figures as blocks of an outline: those that there are, in their order."""

from collections.abc import Iterable

from witnessmark.figures import Figure
from witnessmark.outline.records import Drawing


def drawings(figures: Iterable[Figure | None]) -> tuple[Drawing, ...]:
    """The figures that there are, as blocks."""
    return tuple(Drawing(each.svg, each.title, each.caption) for each in figures if each)
