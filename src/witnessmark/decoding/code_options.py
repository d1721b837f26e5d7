"""A field with a code table: every listed code against what was read, and "not listed".

The prior of a field's code: `decoding.not_listed` for a code that no row has,
`decoding.outside` for those that are listed only for other years, works or
models than given, the rest even over the codes that hold for this car. Of the
codes that no row has, a share (`decoding.not_listed_near`) differs from a listed
code in one place, the rest is even over all texts that the alphabet allows.

Each code is multiplied with P(cells | code), place by place. A code that was read
clear stays what it is with `decoding.clear_stays` at least, whether or not the book
has it; one with a character that the field cannot have is not listed.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import prod

from witnessmark.casefile.records import Legibility
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.field_codes import ListedCode, field_codes
from witnessmark.decoding.options import Asked, FieldOption, not_listed
from witnessmark.decoding.rates import (
    CLEAR_STAYS_ROW,
    NEAR_ROW,
    NOT_LISTED_ROW,
    OUTSIDE_ROW,
    shipped_value,
)
from witnessmark.reading.records import Cell, CellKind

LEAST_SHARE = 1e-5
"""A listed code with a smaller share than this is not among a field's options."""


@dataclass(frozen=True, slots=True)
class _Places:
    """One way to count the cells of a field: P(cell | t) for each of its places."""

    likelihoods: tuple[tuple[float, ...], ...]
    alphabet: str

    def of(self, code: str) -> float:
        """P(cells | code)."""
        index = _index(self.alphabet)
        return prod(row[index[each]] for row, each in zip(self.likelihoods, code, strict=True))


def code_options(asked: Asked, aligned: AlignedField) -> tuple[FieldOption, ...]:
    """What the field may say, the likeliest first, "not listed" in its place among them."""
    field, cells = aligned.field, aligned.cells.cells
    codes = field_codes(asked, field)
    if any(is_foreign(cell, codes.alphabet) for cell in cells):
        return (FieldOption(1.0, not_listed(field, cells)),)
    ways = _ways(asked, aligned, codes.alphabet)
    fitting = [each for each in codes.listed if len(each.code) in ways]
    inside = sum(not each.is_outside for each in fitting)
    outside = len(fitting) - inside
    unlisted = shipped_value(NOT_LISTED_ROW)
    outside_share = shipped_value(OUTSIDE_ROW) if outside else 0.0
    weights = []
    for each in fitting:
        prior = (
            outside_share / outside
            if each.is_outside
            else (1.0 - unlisted - outside_share) / inside
        )
        weights.append(prior * ways[len(each.code)].of(each.code))
    other = unlisted * _none_of(ways, tuple(each.code for each in fitting))
    if weights and asked.reading.legibility is Legibility.CLEAR:
        weights, other = _kept_as_read(cells, fitting, weights, other)
    total = (sum(weights) + other) or 1.0
    options = [
        FieldOption(weight / total / len(each.meanings), meaning)
        for each, weight in zip(fitting, weights, strict=True)
        if weight / total > LEAST_SHARE
        for meaning in each.meanings
    ]
    options.append(FieldOption(other / total if weights else 1.0, not_listed(field, cells)))
    return tuple(sorted(options, key=lambda option: -option.share))


def is_foreign(cell: Cell, alphabet: str) -> bool:
    """Was a character read there for certain that the field cannot have?"""
    return cell.kind is CellKind.CLEAR and cell.characters not in alphabet


def _kept_as_read(
    cells: tuple[Cell, ...], listed: list[ListedCode], weights: list[float], other: float
) -> tuple[list[float], float]:
    """The weights of the listed codes and of all others, where every place was read clear: what
    was read keeps `decoding.clear_stays` of all at least."""
    if not all(cell.kind is CellKind.CLEAR for cell in cells):
        return weights, other
    stays = shipped_value(CLEAR_STAYS_ROW)
    read = "".join(cell.characters for cell in cells)
    own = sum(w for each, w in zip(listed, weights, strict=True) if each.code == read)
    if not own:
        return weights, max(other, sum(weights) * stays / (1.0 - stays))
    rest = sum(weights) + other - own
    shrunk = min(1.0, own * (1.0 - stays) / stays / rest) if rest else 1.0
    kept = [w if each.code == read else w * shrunk for each, w in zip(listed, weights, strict=True)]
    return kept, other * shrunk


@lru_cache(maxsize=512)
def _index(alphabet: str) -> dict[str, int]:
    return {character: place for place, character in enumerate(alphabet)}


def _ways(asked: Asked, aligned: AlignedField, alphabet: str) -> dict[int, _Places]:
    """The lengths that the code can have by what was read, each with its places.

    Usually one. A typed … may stand for fewer places than the longest width
    needs; places never struck at the end are no part of a shorter code.
    """
    cells = aligned.cells.cells
    shorter = _struck(cells)
    if len(shorter) < len(cells) and len(shorter) in aligned.field.widths:
        cells = shorter
    rows = tuple(asked.place(cell, alphabet) for cell in cells)
    ways = {len(rows): _Places(rows, alphabet)}
    for fewer in range(1, aligned.lost + 1):
        length = len(rows) - fewer
        if length > 0 and length in aligned.field.widths:
            kept = rows[: aligned.lost_at] + rows[aligned.lost_at + fewer :]
            ways[length] = _Places(kept, alphabet)
    return ways


def _struck(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """Without the places at either end that were never struck."""
    struck = [place for place, cell in enumerate(cells) if cell.kind is not CellKind.NEVER_STRUCK]
    return cells[struck[0] : struck[-1] + 1] if struck else cells


def _none_of(ways: dict[int, _Places], codes: tuple[str, ...]) -> float:
    """P(cells | a code that no row has), averaged over the lengths it can have."""
    values = [
        _unlisted_likelihood(places, tuple(code for code in codes if len(code) == length))
        for length, places in ways.items()
    ]
    return sum(values) / len(values) if values else 0.0


def _unlisted_likelihood(places: _Places, codes: tuple[str, ...]) -> float:
    """P(cells | a code of this length that no row has), by the two kinds of such codes."""
    length, size = len(places.likelihoods), len(places.alphabet)
    sums = [sum(row) for row in places.likelihoods]
    listed = [places.of(code) for code in codes]
    texts = size**length - len(codes)
    anywhere = max(prod(sums) - sum(listed), 0.0) / texts if texts else 0.0
    neighbours = _neighbours(codes)
    near_texts = len(codes) * length * (size - 1) - sum(neighbours)
    if not near_texts:
        return anywhere
    index = _index(places.alphabet)
    near = -sum(count * value for count, value in zip(neighbours, listed, strict=True))
    for code in codes:
        own = [row[index[each]] for row, each in zip(places.likelihoods, code, strict=True)]
        for place in range(length):
            rest = prod(own[:place]) * prod(own[place + 1 :])
            near += rest * (sums[place] - own[place])
    share = shipped_value(NEAR_ROW)
    return (1.0 - share) * anywhere + share * max(near, 0.0) / near_texts


@lru_cache(maxsize=512)
def _neighbours(codes: tuple[str, ...]) -> tuple[int, ...]:
    """For each code, the number of others that differ from it in one place."""

    def patterns(code: str) -> Iterable[tuple[str, str]]:
        return ((code[:place], code[place + 1 :]) for place in range(len(code)))

    counts = Counter(pattern for code in codes for pattern in patterns(code))
    return tuple(sum(counts[pattern] - 1 for pattern in patterns(code)) for code in codes)
