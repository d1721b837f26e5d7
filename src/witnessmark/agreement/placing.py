"""The cells of a number's field, put at the places of the whole number.

mark reads    "last 4" of six places        0 1 5 5
whole number                            ? ? 0 1 5 5
from the end                            5 4 3 2 1 0
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from witnessmark.agreement.showing import Place
from witnessmark.codebook.marks import Field, HowMade, Mark
from witnessmark.codebook.records import Item
from witnessmark.decoding.records import FieldCells
from witnessmark.reading import Observation, observation_of, place_likelihood, shipped_rates
from witnessmark.reading.records import Cell, Reading, ReadingRates


@dataclass(frozen=True, slots=True)
class FieldRead:
    """One reading of a mark, and the cells that one field has in it."""

    reading: Reading
    cells: FieldCells


def places(
    readings: Iterable[FieldRead], mark: Mark, field: Field, item: Item
) -> tuple[Place, ...]:
    """The places of the whole number that this field shows, all readings pooled.

    A reading that lacks characters at no known place says nothing here.
    """
    seen: dict[int, list[Observation]] = defaultdict(list)
    for each in readings:
        if each.cells.missing:
            continue
        for from_end, cell in _placed(each.cells.cells, field, item):
            seen[from_end].append(observation_of(each.reading, cell))
    by_hand = mark.how_made is HowMade.STRUCK_BY_HAND
    return tuple(
        _place(from_end, tuple(seen[from_end]), item.alphabet, by_hand)
        for from_end in sorted(seen, reverse=True)
    )


def certain_places(text: str, item: Item) -> tuple[Place, ...]:
    """The places of a number that is known as written: one likelihood is 1, the rest 0."""
    last = len(text) - 1
    return tuple(
        Place(last - i, character, tuple(float(character == t) for t in item.alphabet))
        for i, character in enumerate(text)
    )


def _place(
    from_end: int, observations: tuple[Observation, ...], alphabet: str, by_hand: bool
) -> Place:
    signs = "/".join(sorted({observation.cell.sign() for observation in observations}))
    likelihood = _likelihood(observations, alphabet, by_hand, _rates())
    return Place(from_end, signs, likelihood)


@lru_cache(maxsize=1)
def _rates() -> ReadingRates:
    return shipped_rates()


@lru_cache(maxsize=8192)
def _likelihood(
    observations: tuple[Observation, ...], alphabet: str, by_hand: bool, rates: ReadingRates
) -> tuple[float, ...]:
    """Several rules ask for the same places: each is computed once."""
    return place_likelihood(observations, alphabet, by_hand, rates)


def _placed(cells: tuple[Cell, ...], field: Field, item: Item) -> list[tuple[int, Cell]]:
    """Each cell with its distance from the end of the whole number."""
    after = 0
    if field.part.startswith("first"):
        after = item.length - len(cells)
        if item.length == 0 or after < 0:
            return []
    last = after + len(cells) - 1
    return [(last - i, cell) for i, cell in enumerate(cells)]
