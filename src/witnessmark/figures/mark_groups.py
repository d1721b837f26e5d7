"""Which marks speak of one car: a box for each car, with the marks and their probable source.

The bar beside a mark is as long as the share of its most probable source; the
words below say which source that is.
"""

from dataclasses import dataclass, replace

from witnessmark.casefile.records import SiteState
from witnessmark.catalogue import counted, said
from witnessmark.examination import Opinion
from witnessmark.figures.drawing import (
    FIRST,
    INK,
    PAGE_HEIGHT,
    SOFT,
    WIDTH,
    box,
    figure,
    group,
    words,
)
from witnessmark.figures.records import Figure
from witnessmark.figures.text_block import TextBlock, text_block
from witnessmark.weighing.records import MarkGroup, MarkState, StateShare
from witnessmark.wording import Names, listed, share_text
from witnessmark.wording.amounts import capital, sentence

INSET = 10.0
BAR_LEFT, BAR_WIDTH = 300.0, 104.0
NAME_WIDTH = BAR_LEFT - INSET - 12
GAP = 9.0
CLAIMED_CAR = "claimed car"
NEXT_SHOWN = 0.01
"""A second source is named from this share on."""


@dataclass(frozen=True, slots=True)
class _MarkRow:
    """One mark: its name, the share of its most probable source and what that is in words."""

    name: TextBlock
    source: TextBlock
    share: float | None

    @property
    def height(self) -> float:
        return self.name.height + self.source.height + 5


@dataclass(frozen=True, slots=True)
class _CarBox:
    """The box of one car, or a part of it where its marks need more than a page."""

    title: TextBlock
    rows: tuple[_MarkRow, ...]
    is_claimed: bool

    @property
    def height(self) -> float:
        return self.title.height + 16 + sum(row.height for row in self.rows)

    def parts(self, top: float) -> list[str]:
        ink, edge = (INK, 2.0) if self.is_claimed else (SOFT, 0.9)
        parts = [
            box(1, top, WIDTH - 2, self.height, stroke=ink, stroke_width=edge),
            *self.title.at(INSET, top + 6),
        ]
        y = top + self.title.height + 12
        for row in self.rows:
            parts.extend(_drawn(row, y))
            y += row.height
        return [group(parts, " ".join(self.title.lines))]


@dataclass(frozen=True, slots=True)
class _Aside:
    """Marks that stand in no box: a heading and their names."""

    title: TextBlock
    names: TextBlock

    @property
    def height(self) -> float:
        return self.title.height + self.names.height

    def parts(self, top: float) -> list[str]:
        return [*self.title.at(0, top), *self.names.at(0, top + self.title.height)]


def mark_groups(opinion: Opinion) -> Figure | None:
    """The marks by the car they speak of, as one drawing; None where no mark was placed."""
    drawn = mark_groups_sheets(opinion, float("inf"))
    return drawn[0] if drawn else None


def mark_groups_sheets(opinion: Opinion, height: float = PAGE_HEIGHT) -> tuple[Figure, ...]:
    """The same on as many drawings as it needs to stay below a height in points."""
    if not opinion.weighing.groups:
        return ()
    intro = text_block(_sentence(), WIDTH, fill=SOFT)
    first = intro.height + 8
    parts, y = intro.at(0, 0), first
    sheets: list[Figure] = []
    pieces: list[_CarBox | _Aside] = [*_boxes(opinion, height - first - GAP), *_asides(opinion)]
    for piece in pieces:
        if y > first and y + piece.height > height:
            sheets.append(_sheet(len(sheets), opinion, y, parts))
            parts, y = intro.at(0, 0), first
        parts += piece.parts(y)
        y += piece.height + GAP
    return (*sheets, _sheet(len(sheets), opinion, y, parts))


def _sheet(number: int, opinion: Opinion, height: float, parts: list[str]) -> Figure:
    name, title = "mark-groups", said("Which marks speak of one car")
    if number:
        name, title = f"{name}-{number + 1}", said("{title} (continued)", title=title)
    return figure(name, title, _caption(opinion), height, parts)


def _boxes(opinion: Opinion, room: float) -> list[_CarBox]:
    """A box for each car; one that is taller than `room` is cut between its marks."""
    names = Names(opinion.names)
    states = {each.mark: each for each in opinion.weighing.mark_states}
    boxes: list[_CarBox] = []
    for each in opinion.weighing.groups:
        is_claimed = each.car == CLAIMED_CAR
        title = group_title(each, names)
        current = _CarBox(text_block(title, WIDTH - 2 * INSET, strong=True), (), is_claimed)
        for row in (_row(mark, states.get(mark), names) for mark in each.marks):
            if current.rows and current.height + row.height > room:
                boxes.append(current)
                again = said("{title} (continued)", title=title)
                head = text_block(again, WIDTH - 2 * INSET, strong=True)
                current = _CarBox(head, (), is_claimed)
            current = replace(current, rows=(*current.rows, row))
        boxes.append(current)
    return boxes


def _asides(opinion: Opinion) -> list[_Aside]:
    return [
        _Aside(text_block(title, WIDTH, strong=True), text_block(text, WIDTH))
        for title, text in apart(opinion)
    ]


def _row(mark: str, state: MarkState | None, names: Names) -> _MarkRow:
    sources = state.sources if state is not None else ()
    return _MarkRow(
        text_block(capital(names.mark(mark)), NAME_WIDTH, most=2),
        text_block(source_words(sources), WIDTH - 2 * INSET - 12, fill=SOFT),
        sources[0].probability if sources else None,
    )


def _drawn(row: _MarkRow, top: float) -> list[str]:
    """Name, bar and share on one line, the source in words below."""
    parts = row.name.at(INSET, top)
    if row.share is not None:
        filled = BAR_WIDTH * min(1.0, max(0.0, row.share))
        parts.extend(
            [
                box(BAR_LEFT, top + 2, BAR_WIDTH, 8, fill="#ffffff", stroke=SOFT),
                box(BAR_LEFT, top + 2, filled, 8, fill=FIRST),
                words(WIDTH - INSET, top + 9.5, share_text(row.share), anchor="end", strong=True),
            ]
        )
    return [*parts, *row.source.at(INSET + 12, top + row.name.height)]


def group_title(each: MarkGroup, names: Names) -> str:
    """The car that a group of marks speaks of, as the head of its box."""
    of_assembly = "donor of the "
    if each.car == CLAIMED_CAR:
        return said("Speaking of the claimed car")
    if each.car.startswith(of_assembly):
        part = names.assembly(each.car.removeprefix(of_assembly))
        return said("Speaking of another car, from which the {part} came", part=part)
    own = {
        "a third car": said("Speaking of some third car"),
        "undecided": said("Cannot be placed with one car rather than another"),
        "made later": said("Most consistent with having been struck or made later"),
        "never numbered": said("On parts that were never numbered"),
    }
    return own.get(each.car) or said("Speaking of: {car}", car=each.car)


def source_words(sources: tuple[StateShare, ...]) -> str:
    """Where a mark's characters most probably come from, and what comes next."""
    if not sources:
        return said("no share was worked out")
    first = _source(sources[0].state)
    following = [each for each in sources[1:2] if each.probability >= NEXT_SHOWN]
    if not following:
        return first
    return said(
        "{source}; next most probable: {following}, {share}",
        source=first,
        following=_source(following[0].state),
        share=share_text(following[0].probability),
    )


def _source(state: str) -> str:
    own = {
        "own": said("made at the factory for the claimed car"),
        "donor": said("made at the factory for the car from which this part came"),
        "other": said("made at the factory for some third car"),
        "blank": said("never numbered"),
        "made": said("struck or made later"),
    }
    return own.get(state, state)


def apart(opinion: Opinion) -> tuple[tuple[str, str], ...]:
    """Marks that stand in no box, as (heading, names): read but not placed, and not read."""
    names = Names(opinion.names)
    placed = {mark for each in opinion.weighing.groups for mark in each.marks}
    read = dict.fromkeys(each.mark for each in opinion.decodings)
    lost = opinion.illegible_marks
    unplaced = tuple(names.mark(mark) for mark in read if mark not in (*placed, *lost))
    found = [
        (said("Read, and not placed with any car by a number"), unplaced),
        (said("Found, and no character could be made out"), tuple(map(names.mark, lost))),
    ]
    for state, heading in _unread_headings().items():
        marks = tuple(
            names.mark(mark)
            for site in opinion.sites
            for mark in site.marks
            if site.state is state and mark not in (*read, *placed, *lost)
        )
        found.append((heading, marks))
    return tuple((title, sentence(listed(marks))) for title, marks in found if marks)


def _unread_headings() -> dict[SiteState, str]:
    """Why a mark was not read; what was found and is illegible stands apart already."""
    return {
        SiteState.READ: said("Looked at, and nothing was read"),
        SiteState.ABSENT: said("Looked at, and nothing was there"),
        SiteState.NOT_ACCESSIBLE: said("Not read, since it could not be reached"),
        SiteState.NOT_LOOKED_FOR: said("Not read, since it was not looked for"),
    }


def _sentence() -> str:
    return said(
        "Each box holds the marks that most probably speak of one car; the bar and the "
        "percentage are the share of a mark’s most probable source, at the odds and the "
        "assumed rates of this report."
    )


def _caption(opinion: Opinion) -> str:
    names = Names(opinion.names)
    groups = [
        said(
            "{title}: {marks}.",
            title=group_title(each, names),
            marks=listed(tuple(names.mark(mark) for mark in each.marks)),
        )
        for each in opinion.weighing.groups
    ]
    aside = [said("{title}: {marks}", title=title, marks=marks) for title, marks in apart(opinion)]
    count = counted("{number} group.", "{number} groups.", len(groups))
    return " ".join((_sentence(), count, *groups, *aside))
