"""Whether a number lies in ranges of numbers, with the doubt of its places kept.

The share is a probability at even odds between the likeliest number inside and
the likeliest number outside. A worn place that decides leaves it at one half;
one that does not decide, such as the last figure far from either end, changes
nothing.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.agreement.showing import Place, Showing


@dataclass(frozen=True, slots=True)
class NumberRange:
    """Numbers from `first` to `last`, both included, as the book writes them."""

    first: str
    last: str


def inside_share(showing: Showing, ranges: Iterable[NumberRange]) -> float | None:
    """The share for a number to lie in any of these ranges; None where it is not whole."""
    if not showing.is_whole or not any(place.is_read for place in showing.places):
        return None
    alphabet, places = showing.item.alphabet, showing.places
    spans = sorted(span for each in ranges if (span := _span(each, alphabet)) is not None)
    inside = max((_best(places, span, len(alphabet)) for span in spans), default=0.0)
    gaps = _gaps(spans, len(alphabet) ** len(places) - 1)
    outside = max((_best(places, gap, len(alphabet)) for gap in gaps), default=0.0)
    return inside / (inside + outside) if inside + outside > 0 else None


@dataclass(frozen=True, slots=True, order=True)
class _Span:
    """Numbers as counted in the base of their alphabet, both ends included."""

    low: int
    high: int


def _span(each: NumberRange, alphabet: str) -> _Span | None:
    """The range as counted; None where it is written with characters of another alphabet."""
    if not each.first or not each.last or set(each.first + each.last) - set(alphabet):
        return None
    return _Span(_count(each.first, alphabet), _count(each.last, alphabet))


def _count(number: str, alphabet: str) -> int:
    count = 0
    for character in number:
        count = count * len(alphabet) + alphabet.index(character)
    return count


def _gaps(spans: list[_Span], last: int) -> list[_Span]:
    """What the spans, in order of their low ends, leave between 0 and `last`."""
    gaps, after = [], 0
    for span in spans:
        if span.low > after:
            gaps.append(_Span(after, span.low - 1))
        after = max(after, span.high + 1)
    return [*gaps, _Span(after, last)] if after <= last else gaps


def _best(places: tuple[Place, ...], span: _Span, base: int) -> float:
    """The greatest product of likelihoods of a number in the span.

    Walks the places from the left and keeps the best beginning for each way of
    still touching the low end, the high end, both or neither.
    """
    low, high = _figures(span.low, len(places), base), _figures(span.high, len(places), base)
    if low is None:
        return 0.0
    high = high or (base - 1,) * len(places)
    best = {(True, True): 1.0}
    for place, floor, ceiling in zip(places, low, high, strict=True):
        after: dict[tuple[bool, bool], float] = {}
        for (at_low, at_high), share in best.items():
            for figure in range(floor if at_low else 0, (ceiling if at_high else base - 1) + 1):
                touching = (at_low and figure == floor, at_high and figure == ceiling)
                reached = share * place.likelihood[figure]
                after[touching] = max(after.get(touching, 0.0), reached)
        best = after
    return max(best.values(), default=0.0)


def _figures(count: int, length: int, base: int) -> tuple[int, ...] | None:
    """A counted number as figures of this length; None where it does not fit."""
    figures = []
    for _ in range(length):
        count, figure = divmod(count, base)
        figures.append(figure)
    return None if count else tuple(reversed(figures))
