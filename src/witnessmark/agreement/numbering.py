"""Whether a number lies in ranges of numbers, with the doubt of its places kept.

The share is a probability at even odds between the likeliest number inside and
the likeliest number outside. A worn place that decides leaves it at one half;
one that does not decide, such as the last figure far from either end, changes
nothing.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from witnessmark.agreement.showing import Showing
from witnessmark.decoding import PlaceSeen


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
    counted = spans(ranges, alphabet)
    inside, outside = best_inside(places, counted), best_outside(places, counted, alphabet)
    return inside / (inside + outside) if inside + outside > 0 else None


def best_inside(places: tuple[PlaceSeen, ...], counted: list[range]) -> float:
    """The greatest product of likelihoods of a number in any of these `spans`; 0 without one."""
    return max((_best(places, span) for span in counted), default=0.0)


def best_outside(places: tuple[PlaceSeen, ...], counted: list[range], alphabet: str) -> float:
    """The greatest product of likelihoods of a number in none of these `spans`."""
    return best_inside(places, _gaps(counted, len(alphabet) ** len(places) - 1))


def spans(ranges: Iterable[NumberRange], alphabet: str) -> list[range]:
    """The ranges as counted, in order of their low ends."""
    counted = (_span(each, alphabet) for each in ranges)
    return sorted((s for s in counted if s is not None), key=lambda s: (s.start, s.stop))


def _span(each: NumberRange, alphabet: str) -> range | None:
    """The range as counted in the base of its alphabet, None where it is written with
    characters of another."""
    if not each.first or not each.last or set(each.first + each.last) - set(alphabet):
        return None
    return range(_count(each.first, alphabet), _count(each.last, alphabet) + 1)


def _count(number: str, alphabet: str) -> int:
    count = 0
    for character in number:
        count = count * len(alphabet) + alphabet.index(character)
    return count


def _gaps(spans: list[range], last: int) -> list[range]:
    """What the spans, in order of their low ends, leave between 0 and `last`."""
    gaps, after = [], 0
    for span in spans:
        if span.start > after:
            gaps.append(range(after, span.start))
        after = max(after, span.stop)
    return [*gaps, range(after, last + 1)] if after <= last else gaps


def _best(places: tuple[PlaceSeen, ...], span: range) -> float:
    """The greatest product of likelihoods of a number in the span.

    Both ends begin alike; where they part, the number goes between them and is
    free from there on, or it follows one end and stays on the right side of it.
    """
    base = len(places[0].likelihood)
    low = _figures(span.start, len(places), base)
    high = _figures(span.stop - 1, len(places), base) or (base - 1,) * len(places)
    if low is None:
        return 0.0
    free = _free(places)
    alike, part = 1.0, 0
    while part < len(places) and low[part] == high[part]:
        alike *= places[part].likelihood[low[part]]
        part += 1
    if part == len(places):
        return alike
    here = places[part].likelihood
    return alike * max(
        max(here[low[part] + 1 : high[part]], default=0.0) * free[part + 1],
        here[low[part]] * _beyond(places, low, free, part + 1, upward=True),
        here[high[part]] * _beyond(places, high, free, part + 1, upward=False),
    )


def _free(places: tuple[PlaceSeen, ...]) -> list[float]:
    """The greatest product from each place on, nothing given."""
    free = [1.0]
    for place in reversed(places):
        free.append(free[-1] * max(place.likelihood))
    return free[::-1]


def _beyond(
    places: tuple[PlaceSeen, ...],
    end: tuple[int, ...],
    free: list[float],
    start: int,
    *,
    upward: bool,
) -> float:
    """The greatest product of the places from `start` that equal the end or lie beyond it."""
    best, alike = 0.0, 1.0
    for at in range(start, len(places)):
        here, figure = places[at].likelihood, end[at]
        beyond = here[figure + 1 :] if upward else here[:figure]
        best = max(best, alike * max(beyond, default=0.0) * free[at + 1])
        alike *= here[figure]
    return max(best, alike)


def _figures(count: int, length: int, base: int) -> tuple[int, ...] | None:
    """A counted number as figures of this length; None where it does not fit."""
    figures = []
    for _ in range(length):
        count, figure = divmod(count, base)
        figures.append(figure)
    return None if count else tuple(reversed(figures))
