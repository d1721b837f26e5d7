"""A mark as it was read, laid out as it is on the metal: its windows with the number of each code.

What the codes say is told in a table beside it, under the same numbers.
"""

from dataclasses import dataclass

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Mark, MarkKind
from witnessmark.decoding.records import Decoding
from witnessmark.figures.drawing import (
    INK,
    MONO_WIDTH,
    PALE,
    SOFT,
    box,
    disc,
    figure,
    group,
    line,
    width_of,
    words,
    wrapped,
)
from witnessmark.figures.plate_codes import PlateCode, plate_codes
from witnessmark.figures.plate_windows import CAPITAL, PlacedWindow, lay_out_plate
from witnessmark.figures.records import Figure
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital

FLAT = (MarkKind.PLATE, MarkKind.LABEL, MarkKind.PAPER)
"""Kinds of mark that have an edge of their own."""

EDGE, PAD, GAP = 7.0, 4.0, 4.0
READ_SIZE, READ_LINE = 12.0, 15.5
HEAD_SIZE, HEAD_LINE = 9.5, 11.0
LEAST_FIELD = 18.0
BADGE = 7.0
BADGE_LINE = 2 * BADGE + 5
LEAST_PLATE = 96.0


@dataclass(frozen=True, slots=True)
class _PlateLine:
    """Fields of a window that stand in one line, each with its width in points."""

    codes: tuple[tuple[PlateCode, float], ...]
    heads: tuple[tuple[float, tuple[str, ...]], ...]
    """Headings in lines, each with where it begins."""

    @property
    def head(self) -> float:
        """Points that the headings take."""
        return HEAD_LINE * max((len(lines) for _, lines in self.heads), default=0)

    @property
    def height(self) -> float:
        return self.head + self.read + BADGE_LINE

    @property
    def read(self) -> float:
        """Points that the characters take."""
        return READ_LINE * max(len(_cut(code, width)) for code, width in self.codes)


def data_plate(
    mark: Mark,
    decoding: Decoding,
    book: CodeBook,
    names: Names,
    room: float,
    at_issue: frozenset[str] = frozenset(),
) -> Figure:
    """The mark in a drawing of `room` points across, as wide as its windows need; the windows of
    the fields `at_issue` have a frame and a word of their own."""
    codes = plate_codes(mark, decoding, book)
    edge = EDGE if mark.kind in FLAT else 1.0
    parts: list[str] = []
    right, y = LEAST_PLATE, edge
    for row in lay_out_plate(mark, codes, room - 2 * edge):
        runs = [_runs(each) for each in row]
        framed = [any(code.field in at_issue for code in each.codes) for each in row]
        height = max(sum(run.height for run in each) for each in runs) + HEAD_LINE * any(framed)
        for placed, lines, is_framed in zip(row, runs, framed, strict=True):
            x = edge + placed.x
            parts.append(_window(lines, x, y, placed.width, height, is_boxed=mark.windows))
            if is_framed:
                parts += _frame(x, y, placed.width, height)
            right = max(right, x + placed.width + edge)
        y += height + GAP
    bottom = y - GAP + edge
    if mark.kind in FLAT:
        rounding = 0.0 if mark.kind is MarkKind.PAPER else 5.0
        whole = box(
            1, 1, right - 2, bottom - 2, fill=PALE, stroke=INK, stroke_width=1.4, radius=rounding
        )
        parts.insert(0, whole)
    title = said("{mark}, as read", mark=capital(names.mark(mark.id)))
    caption = said(
        "Its windows with the characters as read; the numbers refer to the list of what each says."
    )
    framed_names = [c.name for c in codes if c.field in at_issue]
    if framed_names:
        caption = f"{caption} {said('At issue: {fields}.', fields=', '.join(framed_names))}"
    return figure(f"plate-{mark.id}", title, caption, bottom, parts, width=room)


def _frame(x: float, y: float, width: float, height: float) -> list[str]:
    """A heavy frame round a window, and the word that says why at its foot."""
    return [
        box(x, y, width, height, stroke=INK, stroke_width=2.2),
        words(x + PAD, y + height - 3.5, said("at issue"), size=HEAD_SIZE, strong=True),
    ]


def _runs(placed: PlacedWindow) -> list[_PlateLine]:
    """The fields of a window in lines that fit into it, headings told once."""
    inner = placed.width - 2 * PAD
    lines: list[list[tuple[PlateCode, float]]] = [[]]
    for code in placed.codes:
        wide = max(LEAST_FIELD, width_of(_shown(code), READ_SIZE, MONO_WIDTH) + 6)
        wide = min(inner, wide)
        if lines[-1] and sum(width for _, width in lines[-1]) + wide > inner + 0.01:
            lines.append([])
        lines[-1].append((code, wide))
    told: set[str] = set()
    return [_PlateLine(tuple(each), _heads(each, inner, told)) for each in lines]


def _heads(
    codes: list[tuple[PlateCode, float]], inner: float, told: set[str]
) -> tuple[tuple[float, tuple[str, ...]], ...]:
    """The headings of one line that the window has not told yet, each over its first field."""
    starts: list[tuple[float, str]] = []
    x = 0.0
    for code, width in codes:
        if code.heading and code.heading not in told:
            told.add(code.heading)
            starts.append((x, code.heading))
        x += width
    ends = [*(start for start, _ in starts[1:]), inner][: len(starts)]
    return tuple(
        (start, tuple(wrapped(text, end - start, HEAD_SIZE, CAPITAL)))
        for (start, text), end in zip(starts, ends, strict=True)
    )


def _window(
    runs: list[_PlateLine], x: float, y: float, width: float, height: float, *, is_boxed: bool
) -> str:
    """One window: headings, characters, a stroke under each field and its number."""
    parts = []
    if is_boxed:
        parts.append(box(x, y, width, height, fill="#ffffff", stroke=SOFT, stroke_width=0.9))
    top = y
    for run in runs:
        for start, lines in run.heads:
            parts += [
                words(x + PAD + start, top + HEAD_LINE * at, text, size=HEAD_SIZE, fill=SOFT)
                for at, text in enumerate(lines, 1)
            ]
        parts += _fields(run, x + PAD, top + run.head)
        top += run.height
    told = (
        f"{code.number} {code.name}: {code.read or '-'}" for run in runs for code, _ in run.codes
    )
    return group(parts, "; ".join(told))


def _shown(code: PlateCode) -> str:
    """What stands in a field: the text that says nothing, then the characters as read."""
    return f"{code.before} {code.read}".strip()


def _cut(code: PlateCode, width: float) -> list[str]:
    """The characters of a field in lines of this width; one empty line where there are none."""
    most = max(1, int((width - 5.9) / (READ_SIZE * MONO_WIDTH)))
    shown = _shown(code)
    return [shown[at : at + most] for at in range(0, max(1, len(shown)), most)]


def _fields(run: _PlateLine, x: float, top: float) -> list[str]:
    """The characters of one line of fields, a stroke under each and its number."""
    parts = []
    foot = top + run.read
    for code, width in run.codes:
        parts += [
            words(x + 2, top + READ_LINE * at - 3.5, text, size=READ_SIZE, mono=True)
            for at, text in enumerate(_cut(code, width), 1)
            if text.strip()
        ]
        dash = "" if code.read else "1.6 1.6"
        parts.append(line(x + 1, foot, x + width - 2, foot, stroke=SOFT, dash=dash))
        parts += _badge(x + width / 2, foot + 2.5 + BADGE, code.number)
        x += width
    return parts


def _badge(x: float, y: float, number: int) -> list[str]:
    """The number that ties a field to what it says, in a ring."""
    return [
        disc(x, y, BADGE, fill="#ffffff", stroke=SOFT),
        words(x, y + 3.3, str(number), size=9.5, anchor="middle"),
    ]
