"""How a character is written in an alphabet, and how badly one fits a place."""

from functools import lru_cache

from witnessmark.reading.records import Cell, CellKind

LOOKALIKES = {"O": "0Q", "0": "O", "I": "1", "1": "I", "Q": "0"}
"""Characters of the same shape: where an alphabet has only others, the one means these."""

# What it costs to put a cell in a place. Only the order of all such costs
# matters: see layout_search.py.
RESPELT, FOREIGN = 0.1, 2.6


def plain(character: str, alphabet: str) -> str:
    """The character as this alphabet writes it; itself where the alphabet has no such.

    Two characters where either can be meant.

    >>> plain("o", "0123456789"), plain("o", "ABCO"), plain("k", "ABC"), plain("o", "0ABQ")
    ('0', 'O', 'K', '0Q')
    """
    if character in alphabet:
        return character
    capital = character.upper()
    for form in (capital, character.lower()):
        if len(form) == 1 and form in alphabet:
            return form
    forms = "".join(form for form in LOOKALIKES.get(capital, "") if form in alphabet)
    return forms or (capital if len(capital) == 1 else character)


def misfit(cell: Cell, alphabet: str) -> float:
    """What it costs to put this cell in a place of this alphabet; a … never fits one place."""
    if cell.kind is CellKind.GAP:
        return FOREIGN
    return _misfit(cell.characters, alphabet)


@lru_cache(maxsize=1 << 14)
def _misfit(characters: str, alphabet: str) -> float:
    """What it costs that one of these characters stands in a place of this alphabet."""
    if not characters or any(each in alphabet for each in characters):
        return 0.0
    if any(set(plain(each, alphabet)) <= set(alphabet) for each in characters):
        return RESPELT
    return FOREIGN
