"""Can a text struck without windows be split into its fields in two ways?

The fields are walked twice at once, character by character, over every choice
of widths. If two different walks can reach the end on the same characters, the
text they spell shows that the layout is ambiguous.
"""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from witnessmark.codebook.marks import Field


@dataclass(frozen=True, slots=True)
class Split:
    """A text with two readings; `index` is the first field at which they part."""

    text: str
    one: str
    other: str
    index: int


@dataclass(frozen=True, slots=True, order=True)
class _At:
    """A place in one walk: the field, and how many of its characters are already taken.

    Whether the field ends there or goes on is chosen with each step.
    """

    field: int
    taken: int


@dataclass(frozen=True, slots=True)
class _WalkPair:
    """Both walks after the same characters; `parted` is the field where they parted, or -1."""

    one: _At
    other: _At
    parted: int


@lru_cache(maxsize=512)
def split_two_ways(fields: tuple[Field, ...]) -> Split | None:
    """The shortest text that these fields explain in two ways, or None."""
    end = _At(len(fields), 0)
    starts = tuple(_starts(fields, 0))
    came: dict[_WalkPair, tuple[_WalkPair, str] | None] = dict.fromkeys(
        _pairs(fields, starts, starts, -1)
    )
    waiting = deque(came)
    while waiting:
        pair = waiting.popleft()
        if pair.one == end:
            if pair.parted >= 0:
                return _told(fields, pair, came)
            continue
        character = min(_characters(fields, pair.one) & _characters(fields, pair.other))
        ones, others = tuple(_after(fields, pair.one)), tuple(_after(fields, pair.other))
        for following in _pairs(fields, ones, others, pair.parted):
            if following not in came:
                came[following] = (pair, character)
                waiting.append(following)
    return None


def _starts(fields: tuple[Field, ...], index: int) -> Iterator[_At]:
    """Every way to begin at this field, leaving out optional ones."""
    for following in range(index, len(fields)):
        yield _At(following, 0)
        if not fields[following].optional:
            return
    yield _At(len(fields), 0)


def _after(fields: tuple[Field, ...], at: _At) -> Iterator[_At]:
    """Where the walk can stand one character further on."""
    field = fields[at.field]
    own = at.taken + 1 - len(field.before)
    if own < max(field.widths, default=0):
        yield _At(at.field, at.taken + 1)
    if own in field.widths:
        yield from _starts(fields, at.field + 1)


def _characters(fields: tuple[Field, ...], at: _At) -> frozenset[str]:
    """The characters that can come next; none at the end."""
    if at.field == len(fields):
        return frozenset()
    field = fields[at.field]
    return frozenset(field.before[at.taken] if at.taken < len(field.before) else field.alphabet)


def _pairs(
    fields: tuple[Field, ...], ones: tuple[_At, ...], others: tuple[_At, ...], parted: int
) -> Iterator[_WalkPair]:
    """The pairs that can go on together, or have ended together; once for both orders."""
    for one in ones:
        for other in others:
            both_end = one.field == other.field == len(fields)
            if both_end or _characters(fields, one) & _characters(fields, other):
                at = min(one.field, other.field) if parted < 0 and one != other else parted
                yield _WalkPair(min(one, other), max(one, other), at)


def _told(
    fields: tuple[Field, ...], end: _WalkPair, came: dict[_WalkPair, tuple[_WalkPair, str] | None]
) -> Split:
    """The text that leads to this end, and two of the ways in which it falls apart."""
    characters: list[str] = []
    pair = end
    while (origin := came[pair]) is not None:
        pair, character = origin
        characters.append(character)
    text = "".join(reversed(characters))
    ways = ["|".join(filter(None, way)) for way in _ways(fields, text)]
    return Split(text, ways[0], ways[1], end.parted)


def _ways(fields: tuple[Field, ...], text: str) -> tuple[tuple[str, ...], ...]:
    """Up to two ways to split the text, each with the text of every field."""
    # By (field, offset), from the end: dead ends are never walked into.
    ways: dict[tuple[int, int], tuple[tuple[str, ...], ...]] = {(len(fields), len(text)): ((),)}
    for index in range(len(fields) - 1, -1, -1):
        field = fields[index]
        for offset in range(len(text) + 1):
            found: list[tuple[str, ...]] = []
            for width in (*((0,) if field.optional else ()), *field.widths):
                piece = text[offset : offset + width + (len(field.before) if width else 0)]
                if _fits(field, piece, width):
                    rest = ways.get((index + 1, offset + len(piece)), ())
                    found += [(piece, *way) for way in rest]
            ways[index, offset] = tuple(found[:2])
    return ways[0, 0]


def _fits(field: Field, piece: str, width: int) -> bool:
    """Can this text stand in the field at this width?"""
    if width == 0:
        return piece == ""
    own = piece.removeprefix(field.before)
    return piece.startswith(field.before) and len(own) == width and set(own) <= set(field.alphabet)
