"""Positions, characters and shares in words."""

from collections.abc import Sequence


def listed(words: Sequence[str], last: str = "and") -> str:
    """A list for people.

    >>> listed(["4", "5", "6"]), listed(["B", "8"], "or"), listed(["1"])
    ('4, 5 and 6', 'B or 8', '1')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def positions(numbers: Sequence[int], last: str = "and") -> str:
    """Positions of the number.

    >>> positions([4]), positions([4, 5]), positions([4, 5], "or")
    ('position 4', 'positions 4 and 5', 'position 4 or 5')
    """
    name = "positions" if len(numbers) > 1 and last == "and" else "position"
    return f"{name} {listed([str(each) for each in numbers], last)}"


def percent(share: float) -> str:
    """A share in whole per cent; what is not nothing is never shown as nothing.

    >>> percent(0.5), percent(0.004), percent(0.998), percent(1.0)
    ('50 %', 'under 1 %', 'over 99 %', '100 %')
    """
    if 0 < share < 0.01:
        return "under 1 %"
    if 0.99 < share < 1:
        return "over 99 %"
    return f"{share:.0%}".replace("%", " %")
