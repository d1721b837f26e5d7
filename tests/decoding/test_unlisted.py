"""The share that no listed code explains, against counting every text of the alphabet."""

from dataclasses import replace
from itertools import product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.decoding.rates import CLEAR_STAYS_ROW, NEAR_ROW, NOT_LISTED_ROW, shipped_value
from witnessmark.reading import (
    CellKind,
    observation_of,
    parse_reading,
    place_likelihood,
    shipped_rates,
)

DIGITS = "0123456789"
CELL = st.sampled_from([*DIGITS, "?", "[38]", "[147]"])
CODE = st.text(alphabet=DIGITS, min_size=2, max_size=2)


@given(cells=st.lists(CELL, min_size=2, max_size=2), codes=st.sets(CODE, min_size=1, max_size=6))
def test_it_is_what_counting_all_hundred_texts_gives(book, decoded, cells, codes):
    """Prior: the listed codes even; half of the others near a listed one, half anywhere; and
    what was read clear stays what it is in nine of ten."""
    if cells == ["?", "?"]:
        return
    rows = [row for row in book.codes if row.table != "paints"]
    model = next(row for row in book.codes if row.table == "paints")
    listed = [replace(model, code=code, value=code) for code in sorted(codes)]
    small = replace(book, codes=(*rows, *listed))
    text = f"SP|700143|{''.join(cells)}"
    decoding = decoded("plate", text, book=small)
    paint = {
        meaning.value if meaning.listed else "not listed": 0.0
        for alternative in decoding.alternatives
        for meaning in alternative.fields[2:3]
    }
    for alternative in decoding.alternatives:
        meaning = alternative.fields[2]
        paint[meaning.value if meaning.listed else "not listed"] += alternative.share
    expected = counted(book.mark("plate"), text, codes)
    for code, share in paint.items():
        assert share == pytest.approx(expected[code], rel=0.01, abs=0.001)


def counted(mark, text, codes):
    """The shares by enumeration of every text of two digits."""
    reading = parse_reading(text, mark)
    rows = [
        place_likelihood((observation_of(reading, cell),), DIGITS, True, shipped_rates())
        for cell in reading.cells
        if cell.window == 2
    ]
    likelihood = {
        "".join(t): prod(row[DIGITS.index(c)] for row, c in zip(rows, t, strict=True))
        for t in product(DIGITS, repeat=2)
    }
    unlisted = [t for t in likelihood if t not in codes]
    near = [t for t in unlisted for code in codes if differ(t, code) == 1]
    share, near_share = shipped_value(NOT_LISTED_ROW), shipped_value(NEAR_ROW)
    weights = {code: (1 - share) / len(codes) * likelihood[code] for code in codes}
    weights["not listed"] = share * (
        near_share * sum(likelihood[t] for t in near) / len(near)
        + (1 - near_share) * sum(likelihood[t] for t in unlisted) / len(unlisted)
    )
    stays = shipped_value(CLEAR_STAYS_ROW)
    cells = [cell for cell in reading.cells if cell.window == 2]
    if all(cell.kind is CellKind.CLEAR for cell in cells):
        read = "".join(cell.characters for cell in cells)
        own = read if read in codes else "not listed"
        rest = sum(weights.values()) - weights[own]
        if own == "not listed":
            weights[own] = max(weights[own], rest * stays / (1 - stays))
        elif rest:
            most = weights[own] * (1 - stays) / stays
            shrunk = min(1.0, most / rest)
            weights = {k: w if k == own else w * shrunk for k, w in weights.items()}
    total = sum(weights.values())
    return {code: weight / total for code, weight in weights.items()}


def differ(first, second):
    """In how many places."""
    return sum(a != b for a, b in zip(first, second, strict=True))
