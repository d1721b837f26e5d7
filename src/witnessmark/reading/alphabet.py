"""How a character is written in an alphabet, and how badly one fits a place."""

from witnessmark.reading.records import Cell, CellKind

LOOKALIKES = {"O": "0", "0": "O", "I": "1", "1": "I"}
"""Characters of the same shape: where an alphabet has only one, the other means it."""

# What it costs to put a cell in a place. Only the order of all such costs
# matters: see layout_search.py.
RESPELT, FOREIGN = 0.1, 1.5


def plain(character: str, alphabet: str) -> str:
    """The character as this alphabet writes it; itself where the alphabet has no such.

    >>> plain("o", "0123456789"), plain("o", "ABCO"), plain("k", "ABC")
    ('0', 'O', 'K')
    """
    if character in alphabet:
        return character
    capital = character.upper()
    for form in (capital, character.lower(), LOOKALIKES.get(capital, "")):
        if len(form) == 1 and form in alphabet:
            return form
    return capital if len(capital) == 1 else character


def misfit(cell: Cell, alphabet: str) -> float:
    """What it costs to put this cell in a place of this alphabet; a … never fits one place."""
    if cell.kind is CellKind.GAP:
        return FOREIGN
    if not cell.characters or any(each in alphabet for each in cell.characters):
        return 0.0
    if any(plain(each, alphabet) in alphabet for each in cell.characters):
        return RESPELT
    return FOREIGN
