"""The list under a drawing of the car: number, name, where, and how it ended."""

from dataclasses import dataclass

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import said
from witnessmark.figures.drawing import LINE, SOFT, WIDTH, line, words, wrapped
from witnessmark.figures.place_markers import RADIUS, draw_marker, state_words

SIZE = 9.5
LINE_HEIGHT = 12.0
PAD = 6.0
NAME_AT, WHERE_AT, STATE_AT = 26.0, 136.0, 406.0
STRONG = 0.54
"""Width of an average strong letter, as a share of the size of the letters."""


@dataclass(frozen=True, slots=True)
class SitePlace:
    """A numbered place on a car, as a figure shows it.

    `along`, `across` and `up` are per cent of length from the front, width from the
    car's own left and height from the ground; None where the book does not say.
    `state` is None on a sheet that is still to be filled in: an open square.
    """

    number: int
    name: str
    along: int | None
    across: int | None
    up: int | None
    state: SiteState | None
    where: str = ""

    @property
    def is_above(self) -> bool:
        """Can it be shown from above?"""
        return self.along is not None and self.across is not None

    @property
    def is_beside(self) -> bool:
        """Can it be shown from the side?"""
        return self.along is not None and self.up is not None


def list_head(places: tuple[SitePlace, ...], top: float) -> tuple[list[str], float]:
    """The heads of the columns and the line under them; gives where the rows begin."""
    heads = [words(NAME_AT, top + 12, said("place"), size=SIZE, fill=SOFT)]
    if any(place.where for place in places):
        heads.append(words(WHERE_AT, top + 12, said("where it is"), size=SIZE, fill=SOFT))
    if any(place.state for place in places):
        heads.append(words(STATE_AT, top + 12, said("how it ended"), size=SIZE, fill=SOFT))
    return [*heads, line(0, top + 17, WIDTH, top + 17, stroke=SOFT)], top + 17


def row_height(place: SitePlace) -> float:
    """How tall the row of a place is, in points."""
    tallest = max(len(lines) for lines in _columns(place))
    return max(tallest * LINE_HEIGHT, 2 * RADIUS + 1) + PAD


def list_row(place: SitePlace, top: float) -> list[str]:
    """One place: its marker, name, where it is and its state, wrapped in their columns."""
    parts = draw_marker(RADIUS + 2, top + RADIUS + 4, place.state, str(place.number))
    name, where, state = _columns(place)
    y = top + 14
    for x, lines, strong in (
        (NAME_AT, name, True),
        (WHERE_AT, where, False),
        (STATE_AT, state, False),
    ):
        parts += [
            words(x, y + LINE_HEIGHT * at, text, size=SIZE, strong=strong)
            for at, text in enumerate(lines)
            if text
        ]
    bottom = top + row_height(place)
    return [*parts, line(0, bottom, WIDTH, bottom, stroke=LINE, width=0.5)]


def _columns(place: SitePlace) -> tuple[list[str], list[str], list[str]]:
    """The lines of the three columns; the last one stays empty where nothing is noted yet."""
    right = STATE_AT if place.state else WIDTH
    where = wrapped(place.where, right - WHERE_AT - 10, SIZE) if place.where else []
    if not place.is_above and not place.is_beside:
        where += wrapped(said("(place not in the book)"), right - WHERE_AT - 10, SIZE)
    name_right = WHERE_AT if where else right
    name = wrapped(place.name, name_right - NAME_AT - 8, SIZE, STRONG)
    state = wrapped(state_words(place.state), WIDTH - STATE_AT, SIZE) if place.state else []
    return name, where, state
