"""The places of a number that is known as it is written."""

from witnessmark.codebook.records import Item
from witnessmark.decoding import PlaceSeen


def certain_places(text: str, item: Item) -> tuple[PlaceSeen, ...]:
    """The places of a number that is known as written: one likelihood is 1, the rest 0."""
    last = len(text) - 1
    return tuple(
        PlaceSeen(last - i, character, tuple(float(character == t) for t in item.alphabet))
        for i, character in enumerate(text)
    )
