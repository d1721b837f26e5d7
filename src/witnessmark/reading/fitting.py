"""A text that fits its mark as it stands: each window of it cut by its shape.

A text of which anything has to be said (a sign, a small letter, a word beside the fields,
too few characters, too many) fits none, and is read sign by sign in notation.py.
"""

from dataclasses import dataclass

from witnessmark.codebook.marks import Mark
from witnessmark.reading.layout import MARKS_KEPT, lines_of
from witnessmark.reading.records import Cell, Layout, Placed
from witnessmark.reading.shapes import Cut, ShapedLine

LONGEST = 200
"""A longer text is read sign by sign."""

APART_A_LINE = 2


@dataclass(frozen=True, slots=True)
class Fitting:
    """A text that fits its mark as it stands: its cells, how they lie, and how it is written."""

    cells: tuple[Cell, ...]
    layout: Layout
    normalised: str


class ShapedMark:
    """The lines of a mark, one for each window that bars part, with their shapes."""

    def __init__(self, mark: Mark) -> None:
        lines = lines_of(mark)
        self.has_windows = mark.windows
        own = lines.by_window if mark.windows else (lines.whole,)
        self.lines = tuple(
            ShapedLine(line, lines.alphabet, window if mark.windows else None, len(own) > 1)
            for window, line in enumerate(own)
        )

    def fitting(self, text: str) -> Fitting | None:
        """A text that fits the mark as it stands; None for any that is read sign by sign."""
        if len(text) > LONGEST:
            return None
        cuts = self._cuts(text.split("|") if self.has_windows else [text])
        return None if cuts is None else _together(cuts)

    def _cuts(self, texts: list[str]) -> list[Cut] | None:
        """Each window cut by itself; None where one does not fit, or nothing was typed."""
        if len(texts) != len(self.lines):
            return None
        found: list[Cut] = []
        start, apart, is_empty = 1, 0, True
        for line, text in zip(self.lines, texts, strict=True):
            cut = line.cut(text, start, apart)
            if cut is None:
                return None
            found.append(cut)
            is_empty = is_empty and not cut.cells
            apart = 0 if is_empty else APART_A_LINE
            start += len(text) + 1
        return None if is_empty else found


def _together(cuts: list[Cut]) -> Fitting:
    """The windows of a text as one."""
    if len(cuts) == 1:
        [cut] = cuts
        layout = Layout(cut.placed, cut.spelt, strain=cut.strain, is_cut=True)
        return Fitting(cut.cells, layout, cut.loose if cut.spelt or cut.hangs else cut.tight)
    cells: list[Cell] = []
    placed: list[Placed] = []
    spelt: list[Cell] = []
    strain, hangs = 0.0, False
    for cut in cuts:
        cells += cut.cells
        placed += cut.placed
        spelt += cut.spelt
        strain += cut.strain
        hangs = hangs or cut.hangs
    layout = Layout(tuple(placed), tuple(spelt), strain=strain, is_cut=True)
    is_loose = bool(spelt) or hangs
    normalised = " | ".join([cut.loose if is_loose else cut.tight for cut in cuts])
    return Fitting(tuple(cells), layout, normalised)


_SHAPED: dict[int, tuple[Mark, ShapedMark]] = {}


def fitting(text: str, mark: Mark) -> Fitting | None:
    """A text that fits this mark as it stands; None for any that is read sign by sign."""
    known = _SHAPED.get(id(mark))
    if known is None or known[0] is not mark:
        if len(_SHAPED) >= MARKS_KEPT:
            _SHAPED.clear()
        known = _SHAPED[id(mark)] = (mark, ShapedMark(mark))
    return known[1].fitting(text)
