"""How a character that was struck comes to be read, and how probable what was read is.

A cell is what was noted for one place: a character, "?" for one worn away, "~" for one
struck over, or two characters it may be, as "38". The shares are this world's own.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

DIGITS = "0123456789"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
BOTH = LETTERS + DIGITS

NEAR = {
    "0": "689", "1": "74", "2": "73", "3": "852", "4": "19", "5": "638", "6": "580",
    "7": "12", "8": "360", "9": "048", "E": "FB", "M": "NH", "S": "B", "L": "E", "X": "K",
    "A": "R", "B": "E", "C": "G", "D": "O", "P": "R", "R": "P", "H": "M", "W": "V", "V": "W",
}  # fmt: skip
TRUE_IN_PAIR = 0.95
TO_NEAR = 0.7
SAME_MISTAKE = 0.4
"""How often a second reader makes the first reader's mistake."""
STRUCK_WRONG = 0.003
NOTICED = 0.5
"""Wrong characters that were noticed at the works and struck over."""
CONDITIONS = ("clear", "worn", "poor")
MISREAD = (0.004, 0.03, 0.08)
LOST = (0.003, 0.12, 0.35)
UNSURE = (0.003, 0.08, 0.20)
BY_PHOTOGRAPH = 1.5


def shares(condition: int, photograph: bool, misread: float) -> tuple[float, float, float]:
    """Of the characters of a mark: read wrongly, lost, unsure between two."""
    more = BY_PHOTOGRAPH if photograph else 1.0
    return (
        min(0.3, MISREAD[condition] * more * misread),
        min(0.5, LOST[condition] * more),
        UNSURE[condition],
    )


def _near(character: str, alphabet: str) -> str:
    near = "".join(c for c in NEAR.get(character, "") if c in alphabet)
    return near or alphabet.replace(character, "")


def read(
    character: str, alphabet: str, how: tuple[float, float, float], rng: np.random.Generator
) -> str:
    """One reader's cell for a character that stands on the metal."""
    wrong, lost, unsure = how
    drawn = rng.random()
    others = alphabet.replace(character, "")
    if drawn < wrong:
        near = rng.random() < TO_NEAR
        return str(rng.choice(list(_near(character, alphabet) if near else others)))
    if drawn < wrong + lost:
        return "?"
    if drawn < wrong + lost + unsure:
        if rng.random() < TRUE_IN_PAIR:
            pair = [character, str(rng.choice(list(_near(character, alphabet))))]
        else:
            pair = [str(c) for c in rng.choice(list(others), 2, replace=False)]
        return "".join(sorted(pair))
    return character


@lru_cache(maxsize=100_000)
def _cell(cell: str, alphabet: str, how: tuple[float, float, float]) -> Array:
    """P(cell | character that stands there), shape (alphabet,)."""
    wrong, lost, unsure = how
    size = len(alphabet)
    found = np.zeros(size)
    if cell == "~":
        return found
    if cell == "?":
        return np.full(size, lost)
    for k, character in enumerate(alphabet):
        near = _near(character, alphabet)
        if len(cell) == 1:
            if cell == character:
                found[k] = 1.0 - wrong - lost - unsure
            else:
                found[k] = wrong * (
                    TO_NEAR * (cell in near) / len(near) + (1 - TO_NEAR) / (size - 1)
                )
        elif character in cell:
            other = cell.replace(character, "")
            found[k] = unsure * TRUE_IN_PAIR * (other in near) / len(near)
        else:
            found[k] = unsure * (1 - TRUE_IN_PAIR) * 2 / ((size - 1) * (size - 2))
    return found


@lru_cache(maxsize=200_000)
def likelihood(
    cells: tuple[str, ...], alphabet: str, how: tuple[float, float, float], by_hand: bool
) -> Array:
    """P(the cells of one place, one for each reader | character meant), shape (alphabet,)."""
    stands = _cell(cells[0], alphabet, how)
    if len(cells) == 2:
        second = _cell(cells[1], alphabet, how)
        mistaken = np.array(
            [len(cells[0]) == 1 and cells[0] not in (c, "?", "~") for c in alphabet]
        )
        again = SAME_MISTAKE * mistaken * (cells[0] == cells[1])
        stands = stands * (again + (1.0 - SAME_MISTAKE * mistaken) * second)
    if not by_hand:
        return stands
    over = float(all(cell == "~" for cell in cells))
    others = (stands.sum() - stands) / (len(alphabet) - 1)
    found: Array = (1.0 - STRUCK_WRONG) * stands + STRUCK_WRONG * (
        NOTICED * over + (1.0 - NOTICED) * others
    )
    return found


def read_places(
    text: str,
    alphabet: str,
    how: tuple[float, float, float],
    by_hand: bool,
    readers: int,
    rng: np.random.Generator,
) -> list[tuple[str, ...]]:
    """What each reader noted at each place of a text as meant."""
    found: list[tuple[str, ...]] = []
    for meant in text:
        stands = meant
        if by_hand and rng.random() < STRUCK_WRONG:
            if rng.random() < NOTICED:
                found.append(("~",) * readers)
                continue
            stands = str(rng.choice(list(alphabet.replace(meant, ""))))
        cells = [read(stands, alphabet, how, rng)]
        if readers == 2:
            mistaken = len(cells[0]) == 1 and cells[0] not in (stands, "?")
            again = mistaken and rng.random() < SAME_MISTAKE
            cells.append(cells[0] if again else read(stands, alphabet, how, rng))
        found.append(tuple(cells))
    return found


def as_typed(cell: str) -> str:
    """A cell in the notation of a reading."""
    return f"[{cell}]" if len(cell) == 2 else cell
