"""The sum of a number and what position 9 should read, in whole remainders."""

from dataclasses import dataclass

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
