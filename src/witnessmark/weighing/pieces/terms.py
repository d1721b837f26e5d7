"""Terms: the ways in which a piece came to be and to be noted, each with its weight.

A piece is a list of terms. Those that share days, number groups and tie are one cell of its
factor; over the cells pieces are bound to each other by days, numbers and papers.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import StrEnum

from witnessmark.weighing.arrays import Array
from witnessmark.weighing.pieces.axes import ONE
from witnessmark.weighing.pieces.origins import Hand, Origin

type Group = tuple[int, int, int, int]
"""Marks of one number, as bits: that show the claimed car's, the other car's, the piece's own
further car's, and that copy what stands on the core."""
type Groups = dict[str, Group]
type Vectors = dict[str, Array]


class HowNoted(StrEnum):
    """Whether what was noted stands there, is of another place or car, or was taken from the
    claim."""

    STANDS = "stands"
    IRRELEVANT = "irrelevant"
    LEAK = "leak"


@dataclass(frozen=True, slots=True, eq=False)
class SurfaceWay:
    """One way in which a surface came to be noted: its weight, whose numbers its marks show,
    the likelihood of its codes by what the car was built with, and how it was noted."""

    weight: Array
    groups: Groups = field(default_factory=dict)
    vectors: Vectors = field(default_factory=dict)
    how: HowNoted = HowNoted.STANDS


class DayTie(StrEnum):
    """What the day of a piece is to the papers that name it, and that of a paper to the piece."""

    NONE = ""
    RECORD = "record"
    FURTHER = "further"
    STRUCK = "struck"
    GENUINE = "genuine"
    COPIED = "copied"
    LIKE = "like"


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class Term:
    """One way. `prior` is its probability before looking, `weight` that of what was noted
    under it; `own_days` and `other_days` the curves over the claimed and the other car's week
    (None where even). `origin` and `hand` say what it is, `tie` what its day is to papers."""

    prior: Array
    weight: Array
    groups: Groups = field(default_factory=dict)
    vectors: Vectors = field(default_factory=dict)
    own_days: Array | None = None
    other_days: Array | None = None
    origin: Origin = Origin.FIRST
    hand: Hand = Hand.MADE
    tie: DayTie = DayTie.NONE


def key_of(groups: Groups) -> tuple[tuple[str, Group], ...]:
    """Equal for equal groups."""
    return tuple(sorted((item, group) for item, group in groups.items() if any(group)))


def joined(one: Groups, other: Groups) -> Groups:
    """The groups of marks of two surfaces together."""
    found = dict(one)
    for item, group in other.items():
        was = found.get(item, (0, 0, 0, 0))
        a, b, c, d = (x | y for x, y in zip(was, group, strict=True))
        found[item] = (a, b, c, d)
    return found


def times(one: Vectors, other: Vectors) -> Vectors:
    """The likelihoods of codes of two surfaces together."""
    if not one or not other:
        return one or other
    found = dict(one)
    for item, vector in other.items():
        found[item] = found[item] * vector if item in found else vector
    return found


def product(surfaces: Iterable[tuple[SurfaceWay, ...]]) -> tuple[SurfaceWay, ...]:
    """Every way of several surfaces together; ways that nothing tells apart are one."""
    found: tuple[SurfaceWay, ...] = (SurfaceWay(ONE),)
    for shown in surfaces:
        if len(shown) == 1 and shown[0].weight is ONE:
            continue
        found = merged(
            SurfaceWay(
                a.weight * b.weight, joined(a.groups, b.groups), times(a.vectors, b.vectors), a.how
            )
            for a in found
            for b in shown
        )
    return found


def shared(
    parts: Iterable[tuple[Array | float, Iterable[SurfaceWay]]],
) -> tuple[SurfaceWay, ...]:
    """The ways of several acts as one, each by the share of its act."""
    return merged(
        replace(each, weight=share * each.weight) for share, ways in parts for each in ways
    )


def merged(shown: Iterable[SurfaceWay]) -> tuple[SurfaceWay, ...]:
    """Ways with the same groups and codes as one."""
    kept: dict[object, SurfaceWay] = {}
    for each in shown:
        vectors = tuple((item, v.tobytes()) for item, v in sorted(each.vectors.items()))
        key = (key_of(each.groups), vectors)
        known = kept.get(key)
        kept[key] = each if known is None else replace(known, weight=known.weight + each.weight)
    return tuple(kept.values())
