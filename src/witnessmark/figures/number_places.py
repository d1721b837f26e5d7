"""Where the numbers of dots can stand so that none covers another number or a dot."""

from dataclasses import dataclass, replace

from witnessmark.figures.drawing import width_of

Frame = tuple[float, float, float, float]
"""Left, top, right and bottom of a rectangle, in points."""

Point = tuple[float, float]
"""x and y, in points."""

SIZE = 10.0
DOT = 4.6
NEAR = 5.0
"""Dots nearer to each other than this are one dot with several numbers."""

RINGS = 12


@dataclass(frozen=True, slots=True)
class NumberPlace:
    """A dot, its number or numbers, and where they are set (left end of the base line)."""

    x: float
    y: float
    label: str
    label_x: float = 0.0
    label_y: float = 0.0
    is_apart: bool = False


def number_places(
    points: list[Point], frame: Frame, drawn_line: tuple[Point, Point] | None = None
) -> list[NumberPlace]:
    """A place for the number of every dot, counted from 1, inside the frame and off a line."""
    places: list[NumberPlace] = []
    dots = _together(points)
    taken = [(dot.x - DOT, dot.y - DOT, dot.x + DOT, dot.y + DOT) for dot in dots]
    taken.extend(_along(*drawn_line) if drawn_line else ())
    for dot in dots:
        placed = _placed(dot, dots, taken, frame)
        places.append(placed)
        taken.append(_around(placed))
    return places


def _along(start: Point, end: Point) -> list[Frame]:
    """Small rectangles that cover a line."""
    length = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
    count = max(1, int(length / 3))
    found = []
    for step in range(count + 1):
        x = start[0] + (end[0] - start[0]) * step / count
        y = start[1] + (end[1] - start[1]) * step / count
        found.append((x - 1, y - 1, x + 1, y + 1))
    return found


def _together(points: list[Point]) -> list[NumberPlace]:
    """Dots, those that would cover each other joined."""
    dots: list[NumberPlace] = []
    for number, (x, y) in enumerate(points, 1):
        for at, dot in enumerate(dots):
            if abs(dot.x - x) < NEAR and abs(dot.y - y) < NEAR:
                dots[at] = replace(dot, label=f"{dot.label}, {number}")
                break
        else:
            dots.append(NumberPlace(x, y, str(number)))
    return dots


def _placed(
    dot: NumberPlace, dots: list[NumberPlace], taken: list[Frame], frame: Frame
) -> NumberPlace:
    """Beside the dot if there is room, else farther out; the first place is the fallback."""
    width = width_of(dot.label, SIZE, 0.6)
    beside = replace(dot, label_x=dot.x + 7, label_y=dot.y + 3.5)
    for ring in range(RINGS):
        out = 7.0 + 11.0 * ring
        for dx, dy in (
            (out, 3.5),
            (-out - width, 3.5),
            (-width / 2, -out),
            (-width / 2, out + 6),
            (out, -out),
            (out, out + 6),
            (-out - width, -out),
            (-out - width, out + 6),
        ):
            tried = replace(dot, label_x=dot.x + dx, label_y=dot.y + dy, is_apart=ring > 0)
            found = _around(tried)
            is_own = tried.is_apart or _nearest(found, dots) is dot
            if (
                is_own
                and _is_inside(found, frame)
                and not any(_meet(found, other) for other in taken)
            ):
                return tried
    return beside


def _nearest(label: Frame, dots: list[NumberPlace]) -> NumberPlace:
    """The dot that a reader takes a number for."""
    x, y = (label[0] + label[2]) / 2, (label[1] + label[3]) / 2
    return min(dots, key=lambda dot: (dot.x - x) ** 2 + (dot.y - y) ** 2)


def _around(place: NumberPlace) -> Frame:
    """The rectangle that a number covers."""
    right = place.label_x + width_of(place.label, SIZE, 0.6)
    return (place.label_x - 1, place.label_y - 8.5, right + 1, place.label_y + 2.5)


def _is_inside(inner: Frame, outer: Frame) -> bool:
    left, top, right, bottom = outer
    return left <= inner[0] and top <= inner[1] and inner[2] <= right and inner[3] <= bottom


def _meet(one: Frame, other: Frame) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
