"""The sum of a number, what position 9 should read, and which slips that sees.

All in whole remainders. Places are named by their positions alone: nothing here writes a
number out.
"""

from dataclasses import dataclass
from itertools import pairwise

from witnessmark.decoding.seventeen.rules import CHECK, NumberRules


@dataclass(frozen=True, slots=True)
class CheckSum:
    """A sum, its remainder, the character that stands for that, and what was read."""

    total: int
    remainder: int
    wanted: str
    read: str

    @property
    def agrees(self) -> bool:
        """Does position 9 read what the sum asks for?"""
        return self.wanted == self.read


def check_sum(rules: NumberRules, characters: str) -> CheckSum:
    """The check of 17 permitted characters, position 9 among them."""
    total = sum(
        rules.values[character] * weight
        for character, weight in zip(characters, rules.weights, strict=True)
    )
    remainder = total % len(rules.digits)
    return CheckSum(total, remainder, rules.digits[remainder], characters[CHECK - 1])


def unseen_look_alikes(rules: NumberRules, read: str) -> tuple[int, ...]:
    """Positions whose character has a look-alike of the same value."""
    return tuple(
        position
        for position, character in enumerate(read, start=1)
        if position != CHECK
        and any(rules.values[each] == rules.values[character] for each in _alike(rules, character))
    )


def unseen_exchanges(rules: NumberRules, read: str) -> tuple[tuple[int, int], ...]:
    """Pairs of neighbours, different characters, whose exchange leaves the remainder as it is."""
    divisor = len(rules.digits)
    places = list(enumerate(zip(read, rules.weights, strict=True), start=1))
    return tuple(
        (one, other)
        for (one, (first, weight)), (other, (second, next_weight)) in pairwise(places)
        if CHECK not in (one, other)
        and first != second
        and (rules.values[first] - rules.values[second]) * (weight - next_weight) % divisor == 0
    )


def mending_look_alikes(rules: NumberRules, read: str) -> tuple[int, ...]:
    """Positions in which one look-alike in place of what was read makes the check digit agree."""
    return tuple(
        position
        for position, character in enumerate(read, start=1)
        if any(
            check_sum(rules, read[: position - 1] + each + read[position:]).agrees
            for each in _alike(rules, character)
            if each in rules.permitted(position)
        )
    )


def mending_exchanges(rules: NumberRules, read: str) -> tuple[tuple[int, int], ...]:
    """Pairs of neighbours whose exchange makes the check digit agree, both being characters
    that the rule permits where they then stand; position 9 may be one of the two."""
    return tuple(
        (one, other)
        for (one, first), (other, second) in pairwise(enumerate(read, start=1))
        if second in rules.permitted(one)
        and first in rules.permitted(other)
        and check_sum(rules, read[: one - 1] + second + first + read[other:]).agrees
    )


def _alike(rules: NumberRules, character: str) -> frozenset[str]:
    return frozenset(each for each in rules.alike.get(character, ()) if each in rules.values)
