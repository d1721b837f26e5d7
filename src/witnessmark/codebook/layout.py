"""Can a text struck without windows be split into its fields in two ways?

The fields are walked twice at once, character by character, over every choice
of widths. If two different choices can reach the end on the same characters,
the text they spell shows that the layout is ambiguous.
"""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, replace

from witnessmark.codebook.marks import Field


@dataclass(frozen=True, slots=True)
class Split:
    """A text with two readings; `index` is the first field at which they part."""

    text: str
    one: str
    other: str
    index: int


@dataclass(frozen=True, slots=True)
class _At:
    """A place in one walk: field, width chosen for it, characters of it already taken."""

    field: int
    width: int
    taken: int


@dataclass(frozen=True, slots=True)
class _Pair:
    """Both walks after the same characters; `parted` is the field where they parted, or -1."""

    one: _At
    other: _At
    parted: int


def split_two_ways(fields: tuple[Field, ...]) -> Split | None:
    """The shortest text that these fields explain in two ways, or None."""
    starts = [
        pair
        for one in _starts(fields, 0)
        for other in _starts(fields, 0)
        for pair in _pairs(one, other, -1)
    ]
    came: dict[_Pair, tuple[_Pair, str] | None] = dict.fromkeys(starts)
    waiting = deque(came)
    while waiting:
        pair = waiting.popleft()
        if pair.one.field == pair.other.field == len(fields):
            if pair.parted >= 0:
                return _told(fields, pair, came)
            continue
        if len(fields) in (pair.one.field, pair.other.field):
            continue
        shared = _characters(fields, pair.one) & _characters(fields, pair.other)
        if not shared:
            continue
        for one in _after(fields, pair.one):
            for other in _after(fields, pair.other):
                for following in _pairs(one, other, pair.parted):
                    if following not in came:
                        came[following] = (pair, min(shared))
                        waiting.append(following)
    return None


def _starts(fields: tuple[Field, ...], index: int) -> Iterator[_At]:
    """Every way to begin at this field, leaving out optional ones."""
    while index < len(fields):
        field = fields[index]
        yield from (_At(index, width, 0) for width in field.widths if width > 0)
        if not field.optional:
            return
        index += 1
    yield _At(len(fields), 0, 0)


def _after(fields: tuple[Field, ...], at: _At) -> Iterator[_At]:
    """Where the walk can stand one character further on."""
    field = fields[at.field]
    if at.taken + 1 < len(field.before) + at.width:
        yield replace(at, taken=at.taken + 1)
    else:
        yield from _starts(fields, at.field + 1)


def _characters(fields: tuple[Field, ...], at: _At) -> frozenset[str]:
    """The characters that can come next."""
    field = fields[at.field]
    if at.taken < len(field.before):
        return frozenset(field.before[at.taken])
    return frozenset(field.alphabet)


def _pairs(one: _At, other: _At, parted: int) -> Iterator[_Pair]:
    """The pair, once for both orders, with the field where the walks have parted."""
    if parted < 0 and one != other:
        parted = min(one.field, other.field)
    first, second = sorted((one, other), key=lambda at: (at.field, at.width, at.taken))
    yield _Pair(first, second, parted)


def _told(
    fields: tuple[Field, ...], end: _Pair, came: dict[_Pair, tuple[_Pair, str] | None]
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
