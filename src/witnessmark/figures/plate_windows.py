"""The windows of a plate drawn: fields flow in their window, windows stand in their grid."""

from dataclasses import dataclass, field

from witnessmark.codebook.marks import Mark
from witnessmark.figures.drawing import (
    INK,
    MONO_WIDTH,
    SOFT,
    box,
    disc,
    group,
    line,
    num,
    width_of,
    words,
    wrapped,
)
from witnessmark.figures.plate_codes import PlateCode

READ_SIZE = 13.0
READ_LINE = 15.0
HEAD_SIZE = 9.5
HEAD_LINE = 11.0
CAPITAL = 0.64
"""Width of an average capital, as a share of the size of the letters."""

PAD = 5.0
BADGE = 7.0
BADGE_ROOM = 19.0
LEAST_FIELD = 22.0
ROUNDING = 0.01
GAP = 6.0
LEAST_COLUMN = 46.0
USUAL_COLUMN = 116.0

_WHITE = "#ffffff"


def badge(x: float, y: float, number: int) -> list[str]:
    """The number that ties a field to its explanation, in a ring."""
    return [
        disc(x, y, BADGE, fill=_WHITE, stroke=SOFT),
        words(x, y + 3.3, str(number), size=9.5, anchor="middle"),
    ]


def _head_width(text: str) -> float:
    """The width of the longest word of a heading."""
    return max((width_of(word, HEAD_SIZE, CAPITAL) for word in text.split()), default=0.0)


def natural_width(code: PlateCode) -> float:
    """The width a field takes on one line, in points."""
    shown = len(code.read) + (len(code.before) + 1 if code.before else 0)
    return max(LEAST_FIELD, shown * READ_SIZE * MONO_WIDTH + 8, _head_width(code.heading) + 6)


@dataclass(slots=True)
class _HeadedFields:
    """Fields that stand beside each other in one line under one heading."""

    heading: str
    codes: list[tuple[PlateCode, float]] = field(default_factory=list)

    @property
    def width(self) -> float:
        return sum(width for _, width in self.codes)


@dataclass(frozen=True, slots=True)
class Window:
    """One window, or a mark's whole line where it has none."""

    codes: tuple[PlateCode, ...]

    @property
    def natural(self) -> float:
        """The width at which nothing wraps."""
        return sum(natural_width(code) for code in self.codes) + 2 * PAD

    def height(self, width: float) -> float:
        """The height of the window at this width."""
        return sum(_line_height(runs, width - 2 * PAD) for runs in self._lines(width)) + 4

    def draw(self, x: float, y: float, width: float, height: float, is_boxed: bool) -> str:
        """The window with its characters as read, each field over its number."""
        parts = []
        if is_boxed:
            parts.append(box(x, y, width, height, fill=_WHITE, stroke=SOFT, stroke_width=0.9))
        top = y + 2
        for runs in self._lines(width):
            parts += _draw_line(runs, x + PAD, top, width - 2 * PAD)
            top += _line_height(runs, width - 2 * PAD)
        title = "; ".join(f"{code.number} {code.name}: {code.read or '-'}" for code in self.codes)
        return group(parts, title)

    def _lines(self, width: float) -> list[list[_HeadedFields]]:
        """The fields in lines that fit, those under one heading in a run."""
        inner = width - 2 * PAD
        lines: list[list[_HeadedFields]] = [[]]
        filled = 0.0
        heading = ""
        for code in self.codes:
            wide = min(natural_width(code), inner)
            if lines[-1] and filled + wide > inner + ROUNDING:
                lines.append([])
                filled = 0.0
            is_new = bool(code.heading) and code.heading != heading
            if is_new or not lines[-1]:
                lines[-1].append(_HeadedFields(code.heading if is_new else ""))
            heading = code.heading or heading
            lines[-1][-1].codes.append((code, wide))
            filled += wide
        return lines


def _heads(runs: list[_HeadedFields], inner: float) -> list[list[str]]:
    """The heading of each run in lines; the last one has the rest of the window."""
    heads = []
    room = inner
    for run in runs:
        wide = room if run is runs[-1] else run.width
        heads.append(wrapped(run.heading, wide - 4, HEAD_SIZE, CAPITAL) if run.heading else [])
        room -= run.width
    return heads


def _read_lines(code: PlateCode, width: float) -> list[tuple[str, bool]]:
    """The characters of a field in lines; True marks text that stands there and says nothing."""
    room = width - 8
    lines: list[tuple[str, bool]] = []
    shown = f"{code.before} {code.read}".strip()
    if code.before and width_of(shown, READ_SIZE, MONO_WIDTH) > room + 0.1:
        lines += [(text, True) for text in wrapped(code.before, room, READ_SIZE, MONO_WIDTH)]
    return lines + [(text, False) for text in _cut(code.read, room)]


def _cut(text: str, room: float) -> list[str]:
    """The characters in lines of so many points; spaces stay where they stand."""
    most = max(1, int((room + 0.1) / (READ_SIZE * MONO_WIDTH)))
    return [text[at : at + most] for at in range(0, len(text), most)]


def _line_height(runs: list[_HeadedFields], inner: float) -> float:
    heads = max((len(head) for head in _heads(runs, inner)), default=0)
    reads = max((len(_read_lines(*each)) for run in runs for each in run.codes), default=0)
    return heads * HEAD_LINE + max(1, reads) * READ_LINE + BADGE_ROOM + 3


def _draw_line(runs: list[_HeadedFields], x: float, top: float, inner: float) -> list[str]:
    """Headings, characters, a stroke under each field, and its number below the stroke."""
    parts: list[str] = []
    headings = _heads(runs, inner)
    heads = max((len(head) for head in headings), default=0)
    reads = max((len(_read_lines(*each)) for run in runs for each in run.codes), default=0)
    foot = top + heads * HEAD_LINE + max(1, reads) * READ_LINE + 1.5
    for run, head in zip(runs, headings, strict=True):
        for at, text in enumerate(head):
            y = top + HEAD_LINE * (at + 1) - 1
            parts.append(words(x + 2, y, text, size=HEAD_SIZE, fill=SOFT))
        for code, width in run.codes:
            parts += _draw_field(code, x, top + heads * HEAD_LINE, width)
            stroke = "" if code.read else "1.6 1.6"
            parts.append(line(x + 2, foot, x + width - 2, foot, stroke=SOFT, dash=stroke))
            middle = x + width / 2
            parts.append(line(middle, foot, middle, foot + 3, stroke=SOFT))
            parts += badge(middle, foot + 3 + BADGE, code.number)
            x += width
    return parts


def _draw_field(code: PlateCode, x: float, top: float, width: float) -> list[str]:
    """The characters of one field, with the text that stands before them on the metal."""
    parts: list[str] = []
    x += 4
    lines = _read_lines(code, width)
    if code.before and not any(is_before for _, is_before in lines):
        parts.append(_mono(x, top + 12, code.before, SOFT))
        x += width_of(code.before + " ", READ_SIZE, MONO_WIDTH)
    for at, (text, is_before) in enumerate(lines):
        if text.strip():
            y = top + 12 + READ_LINE * at
            parts.append(_mono(x, y, text, SOFT if is_before else INK))
    return parts


def _mono(x: float, y: float, text: str, fill: str) -> str:
    return words(float(num(x)), y, text, size=READ_SIZE, fill=fill, mono=True)


@dataclass(frozen=True, slots=True)
class PlacedWindow:
    """A window with its place on the plate, in points."""

    window: Window
    x: float
    y: float
    width: float
    height: float


def lay_out_plate(
    mark: Mark, codes: tuple[PlateCode, ...], room: float
) -> tuple[PlacedWindow, ...]:
    """The windows in the rows and columns of the mark, within `room` points across."""
    rows = _rows(mark, codes, room)
    widths = _column_widths(rows, room)
    placed: list[PlacedWindow] = []
    y = 0.0
    for row in rows:
        last = max(row)
        sized = []
        for column, window in sorted(row.items()):
            x = sum(widths[:column]) + GAP * column
            width = widths[column]
            if column == last:
                width = max(width, min(window.natural, room - x))
            sized.append((window, x, width))
        height = max(window.height(width) for window, _, width in sized)
        placed += [PlacedWindow(window, x, y, width, height) for window, x, width in sized]
        y += height + GAP
    return tuple(placed)


def _rows(mark: Mark, codes: tuple[PlateCode, ...], room: float) -> list[dict[int, Window]]:
    """Each row as its windows by column; a row with too many columns goes on below."""
    if not mark.windows:
        return [{0: Window(codes)}]
    columns = sorted({each.column for each in mark.fields})
    most = max(1, int((room + GAP) / (LEAST_COLUMN + GAP)))
    rows: dict[tuple[int, int], dict[int, Window]] = {}
    start = 0
    for fields in mark.windows_in_order():
        window = Window(codes[start : start + len(fields)])
        start += len(fields)
        part, column = divmod(columns.index(fields[0].column), most)
        rows.setdefault((fields[0].row, part), {})[column] = window
    return [rows[key] for key in sorted(rows)]


def _column_widths(rows: list[dict[int, Window]], room: float) -> list[float]:
    """Even columns where every window fits one, else as wide as each needs, narrowed to fit."""
    count = max(max(row) for row in rows) + 1
    wanted = [LEAST_COLUMN] * count
    for row in rows:
        for column, window in row.items():
            if column < max(row) or column == count - 1:
                wanted[column] = max(wanted[column], window.natural)
    room -= GAP * (count - 1)
    even = min(room / count, max(USUAL_COLUMN, *wanted))
    if max(wanted) <= even:
        return [even] * count
    return _narrowed(wanted, room)


def _narrowed(wanted: list[float], room: float) -> list[float]:
    """The widths cut to one greatest width, so that they fit together."""
    if sum(wanted) <= room:
        return wanted
    most = room / len(wanted)
    for _ in wanted:
        narrow = [width for width in wanted if width <= most]
        wide = len(wanted) - len(narrow)
        if wide:
            most = (room - sum(narrow)) / wide
    return [min(width, most) for width in wanted]
