"""A car of no make in a few lines, from above and from its left side, front at the left.

Points are written as a code book writes places: per cent of the length from the
front, of the width from the car's own left, of the height from the ground.
"""

from dataclasses import dataclass

from witnessmark.figures.drawing import LINE, PALE, SOFT, disc, line, num, path

LENGTH, BREADTH, HEIGHT = 306.0, 112.0, 96.0
"""Size of the drawn car in points."""

FRONT_AXLE, REAR_AXLE, WHEEL = 18, 79, 21
"""Where the wheels stand along the car, and how high their middle is, in per cent."""

_BODY_ABOVE = "M 0 50 C 0 22 2 8 9 5 L 30 3 L 90 4 C 98 6 100 24 100 50 C 100 76 98 94 90 96 "
_BODY_ABOVE += "L 30 97 L 9 95 C 2 92 0 78 0 50 Z"
_LINES_ABOVE = (
    "M 5 22 C 16 17 26 15 35 15",
    "M 5 78 C 16 83 26 85 35 85",
    "M 36 12 C 40 34 40 66 36 88",
    "M 46 18 C 48 38 48 62 46 82",
    "M 36 12 L 46 18 L 66 18 L 76 12",
    "M 36 88 L 46 82 L 66 82 L 76 88",
    "M 66 18 C 64 38 64 62 66 82",
    "M 76 12 C 73 36 73 64 76 88",
    "M 78 16 C 84 15 90 16 95 22",
    "M 78 84 C 84 85 90 84 95 78",
)
_BODY_BESIDE = "M 0 24 L 0 44 C 1 55 4 59 10 61 L 36 67 L 44 96 C 50 100 60 100 65 96 L 76 69 "
_BODY_BESIDE += "C 84 68 92 66 97 60 C 99 54 100 46 100 40 L 99 24 Z"
_LINES_BESIDE = (
    "M 39 68 L 46 91 L 54 92 L 54 68 Z",
    "M 56 68 L 56 92 L 63 91 L 71 70 Z",
    "M 39 66 L 39 26 L 59 26 L 59 66",
    "M 8 59 C 20 60 30 62 37 66",
    "M 52 58 L 57 58",
)


@dataclass(frozen=True, slots=True)
class Frame:
    """Where one view of the car lies in a figure, in points, and how tall it is."""

    left: float
    top: float
    height: float

    def x(self, along: float) -> float:
        """The place of a share of the length."""
        return self.left + LENGTH * along / 100

    def y(self, per_cent: float) -> float:
        """The place of a share of the height or breadth, counted from below."""
        return self.top + self.height * (100 - per_cent) / 100


def outline_from_above(frame: Frame) -> list[str]:
    """The body, glass and lids of the car; the left side is below."""
    wheels = [
        path(
            _placed(
                f"M {at - 7} {low} L {at + 7} {low} L {at + 7} {low + 10} L {at - 7} {low + 10} Z",
                frame,
            ),
            fill=PALE,
        )
        for at in (FRONT_AXLE, REAR_AXLE)
        for low in (8, 82)
    ]
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in _LINES_ABOVE]
    return [path(_placed(_BODY_ABOVE, frame), stroke=SOFT, width=1.4), *wheels, *lines]


def outline_from_the_left(frame: Frame) -> list[str]:
    """The body, glass, door and wheels of the car, on its ground."""
    radius = frame.height * WHEEL / 100
    middle = frame.y(WHEEL)
    wheels = [
        disc(frame.x(at), middle, each, fill=fill, stroke=SOFT)
        for at in (FRONT_AXLE, REAR_AXLE)
        for each, fill in ((radius, "#ffffff"), (radius * 0.55, PALE))
    ]
    lines = [path(_placed(each, frame), stroke=LINE, width=0.9) for each in _LINES_BESIDE]
    ground = line(frame.x(-4), frame.y(0), frame.x(104), frame.y(0), stroke=LINE, width=1)
    return [path(_placed(_BODY_BESIDE, frame), stroke=SOFT, width=1.4), *lines, *wheels, ground]


def _placed(commands: str, frame: Frame) -> str:
    """Path commands in per cent as path commands in points."""
    placed: list[str] = []
    is_along = True
    for part in commands.split():
        if part.isalpha():
            placed.append(part)
            continue
        placed.append(num(frame.x(float(part)) if is_along else frame.y(float(part))))
        is_along = not is_along
    return " ".join(placed)
