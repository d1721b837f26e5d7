"""The car from above and from the side, with the places at which it bears marks.

The state of a place is told by the shape round its number; a table beside the drawing lists
every place by its number, those that the code book does not give too.
"""

from dataclasses import dataclass

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.examination.place_records import PlaceOutcome
from witnessmark.figures.car_outline import (
    BREADTH,
    HEIGHT,
    LENGTH,
    BodyShape,
    Frame,
    body_shape,
    outline_from_above,
    outline_from_the_left,
)
from witnessmark.figures.drawing import (
    SOFT,
    WIDTH,
    figure,
    line,
    path,
    width_of,
    words,
    wrapped,
)
from witnessmark.figures.place_markers import (
    Box,
    Pin,
    draw_marker,
    draw_markers,
    set_apart,
    state_words,
)
from witnessmark.figures.records import Figure

SIZE = 9.5
LINE_HEIGHT = 12.0
LEFT = (WIDTH - LENGTH) / 2
ABOVE = Frame(LEFT, 20.0, BREADTH)
BESIDE = Frame(LEFT, 166.0, HEIGHT)
AREA_ABOVE = Box(0, 2, WIDTH, 148)
AREA_BESIDE = Box(0, 150, WIDTH, 276)
VIEWS_END = 272.0


@dataclass(frozen=True, slots=True)
class SitePlace:
    """A numbered place on a car, as a figure shows it.

    `along`, `across` and `up` are per cent of length from the front, width from the
    car's own left and height from the ground; None where the book does not say.
    `state` is None on a sheet that is still to be filled in: an open square.
    """

    number: int
    along: int | None
    across: int | None
    up: int | None
    state: SiteState | None

    @property
    def is_above(self) -> bool:
        """Can it be shown from above?"""
        return self.along is not None and self.across is not None

    @property
    def is_beside(self) -> bool:
        """Can it be shown from the side?"""
        return self.along is not None and self.up is not None


def car_sites(opinion: Opinion, book: CodeBook) -> Figure | None:
    """The sites of this car and how each ended; None where the book tells no place of any."""
    places = tuple(_place(each, opinion, book) for each in opinion.places)
    title = said("Where this car bears its marks, and what was seen there")
    shape = body_shape(opinion.context, book, opinion.casefile.claim.items.get("body", ""))
    return site_map(places, title, _caption(opinion.places), shape)


def site_map(
    places: tuple[SitePlace, ...],
    title: str,
    caption: str,
    shape: BodyShape = BodyShape.CLOSED,
    *,
    noted: bool = True,
) -> Figure | None:
    """Places on the car, with how exact the drawing is; None where no view can show any."""
    if not any(each.is_above or each.is_beside for each in places):
        return None
    parts, y = _views(places, shape, _notes(places) if noted else [])
    key, y = _legend(places, y)
    return figure("car-sites", title, caption, y, [*parts, *key])


def _place(outcome: PlaceOutcome, opinion: Opinion, book: CodeBook) -> SitePlace:
    """A site with its place, where the book has a row of it for this car."""
    site = book.site(outcome.site, opinion.context)
    if site is None:
        return SitePlace(outcome.number, None, None, None, outcome.state)
    return SitePlace(outcome.number, site.along, site.across, site.up, outcome.state)


def _caption(places: tuple[PlaceOutcome, ...]) -> str:
    """How many places ended in each of the five ways."""
    states = [place.state for place in places]
    return counted(
        "The one place where such a car bears marks: {read} read, {illegible} found and "
        "illegible, {absent} absent, {closed} not accessible, {unsought} not looked for.",
        "The {number} places where such a car bears marks: {read} read, {illegible} found "
        "and illegible, {absent} absent, {closed} not accessible, {unsought} not looked "
        "for.",
        len(places),
        illegible=states.count(SiteState.FOUND_ILLEGIBLE),
        read=states.count(SiteState.READ),
        absent=states.count(SiteState.ABSENT),
        closed=states.count(SiteState.NOT_ACCESSIBLE),
        unsought=states.count(SiteState.NOT_LOOKED_FOR),
    )


@dataclass(frozen=True, slots=True)
class _Label:
    """Words beside the car that no marker may cover."""

    x: float
    y: float
    text: str
    anchor: str = "start"

    def box(self) -> Box:
        wide = width_of(self.text, SIZE)
        left = self.x - wide if self.anchor == "end" else self.x
        return Box(left, self.y - SIZE, left + wide, self.y + 3)

    def drawn(self) -> str:
        return words(self.x, self.y, self.text, size=SIZE, fill=SOFT, anchor=self.anchor)


def _views(
    places: tuple[SitePlace, ...], shape: BodyShape, notes: list[str]
) -> tuple[list[str], float]:
    """Both views with their markers, notes below them, and where they end."""
    above = [
        Pin(each.number, each.state, ABOVE.x(each.along), ABOVE.y(each.across))
        for each in places
        if each.along is not None and each.across is not None
    ]
    beside = [
        Pin(each.number, each.state, BESIDE.x(each.along), BESIDE.y(each.up))
        for each in places
        if each.along is not None and each.up is not None
    ]
    parts = [*outline_from_above(ABOVE, shape), *outline_from_the_left(BESIDE, shape)]
    for pins, frame, area, labels in (
        (above, ABOVE, AREA_ABOVE, _labels_above()),
        (beside, BESIDE, AREA_BESIDE, _labels_beside()),
    ):
        front = _front(frame)
        kept_free = (front.box(), *(label.box() for label in labels))
        parts += [label.drawn() for label in (front, *labels)]
        parts.append(_arrow(frame))
        parts += draw_markers(set_apart(pins, area, kept_free))
    y = VIEWS_END
    for text in notes:
        for part in wrapped(text, WIDTH, SIZE):
            y += LINE_HEIGHT
            parts.append(words(0, y, part, size=SIZE, fill=SOFT))
    return parts, y + 4


def _labels_above() -> tuple[_Label, ...]:
    return (
        _Label(0, 11, said("Seen from above")),
        _Label(WIDTH, ABOVE.y(100) + 4, said("right side"), "end"),
        _Label(WIDTH, ABOVE.y(0) + 2, said("left side"), "end"),
    )


def _labels_beside() -> tuple[_Label, ...]:
    return (_Label(0, BESIDE.y(100) - 4, said("Seen from its left side")),)


def _front(frame: Frame) -> _Label:
    return _Label(16, frame.y(50) + 3, said("front"))


def _arrow(frame: Frame) -> str:
    """An arrow that points where the car would drive."""
    y = frame.y(50)
    shaft = line(2, y, 12, y, stroke=SOFT, width=1.2)
    return shaft + path(f"M6 {y - 3:.2f}L2 {y:.2f}L6 {y + 3:.2f}", stroke=SOFT, width=1.2)


def _notes(places: tuple[SitePlace, ...]) -> list[str]:
    """How exact the drawing is, and which places one view lacks."""
    notes = [
        said(
            "No particular car, and not to scale; places as the code book gives them, to "
            "about a tenth of the length."
        )
    ]
    one_sided = sum(each.across is None and each.is_beside for each in places)
    if one_sided:
        notes.append(
            counted(
                "{number} place is shown in the side view only: the code book does not say "
                "how far across it is.",
                "{number} places are shown in the side view only: the code book does not "
                "say how far across they are.",
                one_sided,
            )
        )
    return notes


def _legend(places: tuple[SitePlace, ...], y: float) -> tuple[list[str], float]:
    """The shapes that occur, each beside its words."""
    used = {each.state for each in places}
    if used == {None}:
        return [], y
    parts: list[str] = []
    x, y = 9.0, y + 14
    for state in SiteState:
        if state in used:
            text = state_words(state)
            if x + 16 + width_of(text, 10) > WIDTH:
                x, y = 9.0, y + 22
            parts += [*draw_marker(x, y, state, ""), words(x + 15, y + 3.5, text)]
            x += 36 + width_of(text, 10)
    return parts, y + 12
