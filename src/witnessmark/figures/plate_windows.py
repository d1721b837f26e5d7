"""Where the windows of a plate stand: in the rows and columns of the book, as wide as they need."""

from dataclasses import dataclass
from itertools import groupby

from witnessmark.codebook.marks import Mark
from witnessmark.figures.drawing import MONO_WIDTH, width_of
from witnessmark.figures.plate_codes import PlateCode

READ_SIZE = 13.0
HEAD_SIZE = 9.5
CAPITAL = 0.64
"""Width of an average capital, as a share of the size of the letters."""

PAD = 5.0
LEAST_FIELD = 22.0
GAP = 6.0
LEAST_COLUMN = 46.0
USUAL_COLUMN = 116.0


@dataclass(frozen=True, slots=True)
class Window:
    """One window, or a mark's whole line where it has none."""

    codes: tuple[PlateCode, ...]

    @property
    def natural(self) -> float:
        """The width at which nothing wraps, in points."""
        return sum(map(_natural_width, self.codes)) + 2 * PAD


@dataclass(frozen=True, slots=True)
class PlacedWindow:
    """A window with its place across the plate, in points."""

    codes: tuple[PlateCode, ...]
    x: float
    width: float


def _natural_width(code: PlateCode) -> float:
    """The width a field takes on one line, in points."""
    shown = len(code.read) + (len(code.before) + 1 if code.before else 0)
    words = (width_of(word, HEAD_SIZE, CAPITAL) for word in code.heading.split())
    return max(LEAST_FIELD, shown * READ_SIZE * MONO_WIDTH + 8, max(words, default=0.0) + 6)


def lay_out_plate(
    mark: Mark, codes: tuple[PlateCode, ...], room: float
) -> tuple[tuple[PlacedWindow, ...], ...]:
    """The windows row by row from the top, in the columns of the mark, within `room` points
    across; the last of a row is as wide as it needs."""
    rows = _rows(mark, codes, room) if codes else []
    widths = _column_widths(rows, room) if codes else []
    placed = []
    for row in rows:
        windows = []
        for column, window in sorted(row.items()):
            x, width = sum(widths[:column]) + GAP * column, widths[column]
            if column == max(row):
                width = max(width, min(window.natural, room - x))
            windows.append(PlacedWindow(window.codes, x, width))
        placed.append(tuple(windows))
    return tuple(placed)


def _rows(mark: Mark, codes: tuple[PlateCode, ...], room: float) -> list[dict[int, Window]]:
    """Each row as its windows by column; a row with too many columns goes on below."""
    if not mark.windows:
        return [{0: Window(codes)}]
    columns = sorted({each.column for each in codes})
    most = max(1, int((room + GAP) / (LEAST_COLUMN + GAP)))
    rows: dict[tuple[int, int], dict[int, Window]] = {}
    for (row, at), own in groupby(codes, key=lambda each: (each.row, each.column)):
        part, column = divmod(columns.index(at), most)
        rows.setdefault((row, part), {})[column] = Window(tuple(own))
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
