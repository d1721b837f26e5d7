"""Which characters are taken for one another.

`tables/confusion.csv` names the pairs, each with its basis and source; how much
more a named pair is confused than one that nobody names is assumed and stands
in `tables/rates.csv`. A pair of class `turned` is exchanged only where the
reader is unsure which way up the mark stands.
"""

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from witnessmark.codebook import Basis
from witnessmark.reading.rates import TABLES, shipped_value

TURNED = "turned"
UNNAMED_WEIGHT = 1.0
"""The weight of a pair that no row names: the unit in which the others are given."""


@dataclass(frozen=True, slots=True)
class ConfusedPair:
    """Two characters that are taken for one another, with who says so."""

    first: str
    second: str
    weight_class: str
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True, eq=False)
class Confusion:
    """The weights by which a wrong character is chosen, against 1 for any other.

    `weights` maps both orders of each confused pair; `turned` maps a character
    to the one it looks like upside down. Compared by identity, so that what is
    computed from it can be remembered.
    """

    weights: dict[tuple[str, str], float]
    turned: dict[str, str]


@cache
def confused_pairs() -> tuple[ConfusedPair, ...]:
    """All rows of reading/tables/confusion.csv, as shipped."""
    with (TABLES / "confusion.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(
            ConfusedPair(
                row["first"], row["second"], row["class"], Basis(row["basis"]), row["source"]
            )
            for row in csv.DictReader(lines)
        )


@cache
def shipped_confusion() -> Confusion:
    """The confusion table as shipped."""
    weights: dict[tuple[str, str], float] = {}
    turned: dict[str, str] = {}
    for pair in confused_pairs():
        if pair.weight_class == TURNED:
            turned |= {pair.first: pair.second, pair.second: pair.first}
        else:
            weight = shipped_value(f"reading.confusion.{pair.weight_class}")
            weights[pair.first, pair.second] = weights[pair.second, pair.first] = weight
    return Confusion(weights, turned)


@lru_cache(maxsize=256)
def misread_shares(alphabet: str, confusion: Confusion) -> tuple[tuple[float, ...], ...]:
    """q[s][w]: of the misreadings of character s, the share that say w.

    Square, in the order of the alphabet; each row sums to 1 and is 0 on the
    diagonal (an alphabet of one character has no misreading: its row is 0).

    >>> misread_shares("AB", Confusion({}, {}))
    ((0.0, 1.0), (1.0, 0.0))
    """
    rows = []
    for struck in alphabet:
        weights = [
            0.0 if struck == wrong else confusion.weights.get((struck, wrong), UNNAMED_WEIGHT)
            for wrong in alphabet
        ]
        total = sum(weights) or 1.0
        rows.append(tuple(weight / total for weight in weights))
    return tuple(rows)


def turn(characters: Iterable[str], alphabet: str, confusion: Confusion) -> str:
    """The characters as they look upside down; one that turns into none of these stays.

    >>> turn("69", "0123456789", shipped_confusion())
    '96'
    """
    turned = (confusion.turned.get(each, each) for each in characters)
    return "".join(
        new if new in alphabet else old for old, new in zip(characters, turned, strict=True)
    )
