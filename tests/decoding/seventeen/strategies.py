"""Numbers that the rule permits, drawn from its own tables; no car's number stands here."""

from hypothesis import strategies as st

PERMITTED = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ"
YEARS = "ABCDEFGHJKLMNPRSTVWXY123456789"
COLUMNS = ("0", "1AJ", "2BKS", "3CLT", "4DMU", "5ENV", "6FW", "7GPX", "8HY", "9RZ")
VALUES = {character: value for value, column in enumerate(COLUMNS) for character in column}
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)


def checked(characters: str) -> str:
    """The same 17 characters with the check character that they ask for, counted here anew."""
    total = sum(VALUES[c] * w for c, w in zip(characters, WEIGHTS, strict=True))
    return f"{characters[:8]}{'0123456789X'[total % 11]}{characters[9:]}"


@st.composite
def numbers(draw, first=PERMITTED):
    """A number whose check digit agrees."""
    front = draw(st.sampled_from(first)) + draw(st.text(PERMITTED, min_size=7, max_size=7))
    rear = draw(st.sampled_from(YEARS)) + draw(st.text(PERMITTED, min_size=7, max_size=7))
    return checked(f"{front}0{rear}")


POSITIONS = tuple(p for p in range(1, 18) if p != 9)
"""Every position but the check digit's."""


def with_character(number: str, position: int, character: str) -> str:
    """The number with another character, or sign of the notation, in one position."""
    return number[: position - 1] + character + number[position:]
