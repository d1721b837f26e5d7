"""How probable what was seen at one place is, for each character that may be meant.

Let t be the character meant, s the one struck, c what was seen. Then

    P(c | t) = sum over s of  P(c | s)  P(s | t)

P(s | t) is 1 - m on s = t and m spread evenly over the rest of the alphabet, m
being the share of slips where a mark was struck by hand, and 0 elsewhere.

P(c | s). A clear character is a set of one. For a set S of k out of n
characters, with misreading rate e and q(w | s) the share of the misreadings of
s that say w:

    s in S      (1 - e) / k
    otherwise   e * (n - 1) / (k (n - k)) * sum over w in S of q(w | s)

which is 1 - e and e q(c | s) for k = 1, and e / (n - k) outside where q is even.
Summed over all sets of k characters it gives C(n, k) / n, for every s: the size
of the set itself says nothing. e never exceeds (n - k) / n, where it says
nothing at all. Where the orientation is unsure, S and S turned are mixed.

A place that is worn away, obliterated or lost gives 1 for every t. A place read
as never struck, or as a character that this alphabet has not, gives e / n for
every t: a misreading, and no favour to any character.

Several observations of one place are independent given s, but for a share r of
the misreadings that they have in common. With g = r * min(e_1, e_2, ...)

    P(c_1, c_2, ... | s) = g * sum over w of q(w | s) prod_i A_i(w, s)
                           + (1 - g) * prod_i P(c_i | s, e_i')

A_i(w, s) is (n - 1) / (k (n - k)) where the set holds w and not s, else 0: all
say the same wrong thing. e_i' = (e_i - g) / (1 - g), so that each observation
alone keeps exactly its own P(c_i | s).
"""

from dataclasses import dataclass
from functools import lru_cache
from math import prod

from witnessmark.casefile.words import Legibility, Orientation, Seen
from witnessmark.reading.confusion import Confusion, misread_shares, shipped_confusion, turn
from witnessmark.reading.kept import kept_beside
from witnessmark.reading.rates import shipped_value
from witnessmark.reading.records import Cell, CellKind, Reading, ReadingRates

SILENT = frozenset({CellKind.WORN, CellKind.OBLITERATED, CellKind.GAP})
"""Cells that say nothing about the character."""


@dataclass(frozen=True, slots=True)
class Observation:
    """One person's cell of one place, with how it was read."""

    cell: Cell
    legibility: Legibility = Legibility.CLEAR
    orientation: Orientation = Orientation.UPRIGHT
    seen: Seen = Seen.IN_PERSON


def observation_of(reading: Reading, cell: Cell) -> Observation:
    """A cell with the legibility, orientation and way of seeing of its reading."""
    return Observation(cell, reading.legibility, reading.orientation, reading.seen)


@dataclass(frozen=True, slots=True)
class _Sighting:
    """What an observation says in one alphabet: the characters (as seen, and turned)."""

    sets: tuple[str, ...]
    error: float


def place_likelihood(
    observations: tuple[Observation, ...],
    alphabet: str,
    struck_by_hand: bool,
    rates: ReadingRates,
    confusion: Confusion | None = None,
) -> tuple[float, ...]:
    """P(all that was seen at this place | t meant), for each t in the alphabet's order.

    See the module for the formula. Without observations, or where they say
    nothing, it is 1 for every t. Constant factors have no meaning of their own.
    """
    if confusion is None and len(observations) == 1:
        [one] = observations
        cell = one.cell
        how = (cell.kind, cell.characters, one.legibility, one.orientation, one.seen)
        known, question = _of_one(rates), (how, alphabet, struck_by_hand)
        found = known.get(question)
        if found is None:
            if len(known) >= ANSWERS_KEPT:
                known.clear()
            found = _likelihood(observations, alphabet, struck_by_hand, rates, shipped_confusion())
            known[question] = found
        return found
    table = confusion or shipped_confusion()
    return _likelihood(observations, alphabet, struck_by_hand, rates, table)


type _How = tuple[CellKind, str, Legibility, Orientation, Seen]

ANSWERS_KEPT = 8192


@kept_beside
def _of_one(rates: ReadingRates) -> dict[tuple[_How, str, bool], tuple[float, ...]]:
    """What single observations say, with the shipped confusions, under these rates."""
    return {}


def _likelihood(
    observations: tuple[Observation, ...],
    alphabet: str,
    struck_by_hand: bool,
    rates: ReadingRates,
    table: Confusion,
) -> tuple[float, ...]:
    misstrike = rates.misstrike if struck_by_hand else 0.0
    even = 1.0
    sightings = []
    for observation in observations:
        if observation.cell.kind in SILENT:
            continue
        sighting = _sighting(observation, alphabet, rates, table)
        if sighting is None:
            even *= error_rate(observation, rates) / max(len(alphabet), 1)
        else:
            sightings.append(sighting)
    shared = rates.shared if len(sightings) > 1 else 0.0
    likelihood = _meant(tuple(sightings), alphabet, misstrike, shared, table)
    return likelihood if even == 1.0 else tuple(even * each for each in likelihood)


def error_rate(observation: Observation, rates: ReadingRates) -> float:
    """e: the share of such cells that are misread, from legibility and way of seeing."""
    error = next(e for legibility, e in rates.error if legibility is observation.legibility)
    factor = next(f for seen, f in rates.seen_factor if seen is observation.seen)
    return min(error * factor, 1.0)


def _sighting(
    observation: Observation, alphabet: str, rates: ReadingRates, confusion: Confusion
) -> _Sighting | None:
    """What the cell says in this alphabet; None for a misreading that favours no character."""
    candidates = observation.cell.characters
    inside = "".join(t for t in alphabet if t in candidates) if candidates else ""
    if not inside:
        return None
    sets: tuple[str, ...] = (inside,)
    if observation.orientation is Orientation.UNSURE:
        sets = (inside, turn(inside, alphabet, confusion))
    size = len(alphabet)
    error = min(error_rate(observation, rates), (size - len(inside)) / size)
    return _Sighting(sets, error)


@lru_cache(maxsize=8192)
def _meant(
    sightings: tuple[_Sighting, ...],
    alphabet: str,
    misstrike: float,
    shared: float,
    confusion: Confusion,
) -> tuple[float, ...]:
    """P(sightings | t) for each t: summed over the character struck."""
    if not sightings:
        return (1.0,) * len(alphabet)
    misread = misread_shares(alphabet, confusion)
    common = shared * min(sighting.error for sighting in sightings)
    alone = [
        _given_struck(sighting, alphabet, _own_error(sighting.error, common), misread)
        for sighting in sightings
    ]
    struck = [(1.0 - common) * prod(each) for each in zip(*alone, strict=True)]
    if common:
        same_wrong = _same_wrong(sightings, alphabet, misread)
        struck = [each + common * wrong for each, wrong in zip(struck, same_wrong, strict=True)]
    size = len(alphabet)
    if not misstrike or size == 1:
        return tuple(struck)
    slip = misstrike / (size - 1)
    total = sum(struck)
    return tuple((1.0 - misstrike) * each + slip * (total - each) for each in struck)


def _own_error(error: float, common: float) -> float:
    """The rate of misreadings that are not shared, given that no shared one happened."""
    return (error - common) / (1.0 - common) if common < 1.0 else 0.0


def _given_struck(
    sighting: _Sighting, alphabet: str, error: float, misread: tuple[tuple[float, ...], ...]
) -> list[float]:
    """P(c | s) for each s, the two ways up mixed where the orientation is unsure."""
    shares = _ways_up(sighting)
    total = [0.0] * len(alphabet)
    for characters, share in zip(sighting.sets, shares, strict=True):
        places = [alphabet.index(each) for each in characters]
        outside = error * _outside_scale(len(alphabet), len(places))
        right = (1.0 - error) / len(places)
        for s, row in enumerate(misread):
            seen = right if s in places else outside * sum(row[w] for w in places)
            total[s] += share * seen
    return total


def _same_wrong(
    sightings: tuple[_Sighting, ...], alphabet: str, misread: tuple[tuple[float, ...], ...]
) -> list[float]:
    """Sum over w of q(w | s) prod_i A_i(w, s), for each s."""

    def all_say(wrong: str, struck: str) -> float:
        return prod(
            sum(
                share * _outside_scale(len(alphabet), len(characters))
                for characters, share in zip(sighting.sets, _ways_up(sighting), strict=True)
                if wrong in characters and struck not in characters
            )
            for sighting in sightings
        )

    return [
        sum(
            share * all_say(wrong, struck)
            for wrong, share in zip(alphabet, row, strict=True)
            if share
        )
        for struck, row in zip(alphabet, misread, strict=True)
    ]


def _ways_up(sighting: _Sighting) -> tuple[float, ...]:
    """The shares of the sets of a sighting: all of one, or as seen and turned."""
    if len(sighting.sets) == 1:
        return (1.0,)
    turned = shipped_value("reading.turned")
    return (1.0 - turned, turned)


def _outside_scale(size: int, inside: int) -> float:
    """(n - 1) / (k (n - k)), or 0 where the set holds the whole alphabet."""
    return (size - 1) / (inside * (size - inside)) if inside < size else 0.0
