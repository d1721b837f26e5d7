"""How far two showings say the same, from their readings alone.

A share is a probability at even odds between two rivals: that both showings
mean the same, and that they mean what differs most plausibly. So a worn place
leaves a share of one half and a clear difference brings it near nothing; the
number of places that agree never outvotes one that does not.

    numbers   a number that differs at some places of those both show:
                  r(place) = P(what was seen | different there) / P(... | same there)
                           = (sum_t a(t) * sum_t b(t) - sum_t a(t) b(t))
                             / ((n - 1) * sum_t a(t) b(t))     t uniform over n
              it differs wherever r > 1, else at the place with the greatest r;
              or an unrelated number, all characters of it as they come:
                  u = product over places of
                      sum_t a(t) sum_t b(t) / (n * sum_t a(t) b(t))
              share = 1 / (1 + the greater of r and u)
    codes     share = S / (S + D): S the greatest product of shares for one
              value on both, D for two different values
    dates     the same, with spans that overlap or do not
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product
from math import inf, prod

from witnessmark.agreement.records import Outcome
from witnessmark.agreement.showing import Showing
from witnessmark.codebook import ItemKind
from witnessmark.decoding import PlaceSeen

AGREE_FROM = 0.95
"""From this share on two showings agree."""

DIFFER_TO = 0.05
"""Up to this share they differ; between the two it is undecided."""

OPEN_FROM = DIFFER_TO / AGREE_FROM
"""A place with a greater r than this keeps the whole number from agreeing."""


def outcome_of(share: float) -> Outcome:
    """Agree, differ or undecided.

    >>> outcome_of(0.99).value, outcome_of(0.5).value, outcome_of(0.01).value
    ('agree', 'undecided', 'differ')
    """
    if share >= AGREE_FROM:
        return Outcome.AGREE
    return Outcome.DIFFER if share <= DIFFER_TO else Outcome.UNDECIDED


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two showings of one item side by side.

    `share` is None and the outcome silent where one of them says nothing that
    can be compared. `both`, `differing` and `open_at` are the places of a number
    that both show, that speak for a difference, and that leave it open, counted
    from the end.
    """

    outcome: Outcome
    share: float | None = None
    both: tuple[int, ...] = ()
    differing: tuple[int, ...] = ()
    open_at: tuple[int, ...] = ()


def compare_two(first: Showing, second: Showing) -> Comparison:
    """Compare two showings of one item; an empty field says nothing here."""
    if first.is_empty or second.is_empty or not (first.is_read and second.is_read):
        return Comparison(Outcome.SILENT)
    if first.item.kind is ItemKind.NUMBER:
        return number_share(first, second)
    share = (code_share if first.item.kind is ItemKind.CODE else date_share)(first, second)
    if share is None:
        return Comparison(Outcome.SILENT)
    outcome = outcome_of(share)
    # A code that may be no date at all cannot contradict one.
    is_open = outcome is Outcome.DIFFER and (first.placeholder or second.placeholder)
    return Comparison(Outcome.UNDECIDED if is_open else outcome, share)


def number_share(first: Showing, second: Showing) -> Comparison:
    """Compare two numbers place by place where both can be read; silent if nowhere.

    Of two numbers written in full the shorter is taken as if noughts stood
    before it, so that 155 and 0155 agree and 155 and 4155 do not.
    """
    ratios: dict[int, float] = {}
    unrelated = 1.0
    for from_end in sorted({p.from_end for p in first.places + second.places}, reverse=True):
        a, b = first.place(from_end), second.place(from_end)
        if (a is None or b is None) and first.is_whole and second.is_whole:
            a = a or _nought(from_end, first)
            b = b or _nought(from_end, second)
        if a is not None and b is not None and a.is_read and b.is_read:
            ratios[from_end] = _ratio(a, b)
            unrelated *= _unrelated(a, b)
    if not ratios:
        return Comparison(Outcome.SILENT)
    differing = tuple(place for place, ratio in ratios.items() if ratio > 1)
    rival = prod(map(ratios.__getitem__, differing)) if differing else max(ratios.values())
    open_at = tuple(p for p, r in ratios.items() if 1 >= r > OPEN_FROM)
    share = 1 / (1 + max(rival, unrelated))
    return Comparison(outcome_of(share), share, tuple(ratios), differing, open_at)


def code_share(first: Showing, second: Showing) -> float | None:
    """Compare two codes through their values; None where the book lists one of them not.

    Two codes of one table are one where they are written alike, and if the book
    does not list them they are compared place by place.
    """
    same_table = bool(first.table) and first.table == second.table
    if first.listed_share() < 0.5 or second.listed_share() < 0.5:
        is_alike = same_table and len(first.places) == len(second.places)
        return number_share(first, second).share if is_alike else None
    return _of_pairs(
        (x.value == y.value or (same_table and x.code == y.code), x.share * y.share)
        for x, y in product(first.values, second.values)
        if x.is_listed and y.is_listed
    )


def _of_pairs(pairs: Iterable[tuple[bool, float]]) -> float | None:
    """The share at even odds between the likeliest pair that is alike and the likeliest that is
    not; None where none has any."""
    best = {True: 0.0, False: 0.0}
    for is_alike, both in pairs:
        best[is_alike] = max(best[is_alike], both)
    total = sum(best.values())
    return best[True] / total if total > 0 else None


def date_share(first: Showing, second: Showing) -> float | None:
    """Compare two dates: do the days they may mean overlap? None where one has no days."""
    return _of_pairs(
        (x.span.first <= y.span.last and y.span.first <= x.span.last, x.share * y.share)
        for x, y in product(first.dates, second.dates)
    )


def _ratio(a: PlaceSeen, b: PlaceSeen) -> float:
    """How much better the signs are explained by two characters than by one, at one place."""
    together = sum(x * y for x, y in zip(a.likelihood, b.likelihood, strict=True))
    apart = sum(a.likelihood) * sum(b.likelihood) - together
    n = len(a.likelihood)
    if together <= 0:
        return inf
    return max(0.0, apart) / ((n - 1) * together) if n > 1 else 0.0


def _unrelated(a: PlaceSeen, b: PlaceSeen) -> float:
    """How much better two unrelated characters explain the signs than one, at one place."""
    together = sum(x * y for x, y in zip(a.likelihood, b.likelihood, strict=True))
    if together <= 0:
        return inf
    return sum(a.likelihood) * sum(b.likelihood) / (len(a.likelihood) * together)


def _nought(from_end: int, showing: Showing) -> PlaceSeen | None:
    """A nought that is not written before a short number; None if it is not short there."""
    if not showing.places or from_end <= showing.places[0].from_end:
        return None
    alphabet = showing.item.alphabet
    if "0" not in alphabet:
        return None
    return PlaceSeen(from_end, "", tuple(float(t == "0") for t in alphabet))
