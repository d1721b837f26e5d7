"""One cell as the alphabet of its place writes it, and what that changed."""

from dataclasses import replace
from unicodedata import category, normalize

from witnessmark.reading.alphabet import LOOKALIKES, plain
from witnessmark.reading.records import Cell, CellKind, Change


def in_alphabet(cell: Cell, alphabet: str, where: str, changes: list[Change]) -> Cell:
    """One cell as this alphabet writes it; each character that differs is a change."""
    written: list[str] = []
    for typed in cell.characters:
        character = _plain_shape(typed, alphabet)
        written += [each for each in character if each not in written]
        reasons = [_respelling(typed, character, where)] if typed != character else []
        if alphabet and not set(character) <= set(alphabet):
            reasons.append(f"not among the characters of {where}: kept as seen")
        if reasons:
            changes.append(Change(cell.column, typed, character, "; ".join(reasons)))
    kind = CellKind.ONE_OF if len(written) > 1 else CellKind.CLEAR
    if kind is cell.kind and "".join(written) == cell.characters:
        return cell
    return replace(cell, kind=kind, characters="".join(written))


def _plain_shape(typed: str, alphabet: str) -> str:
    """The character in this alphabet; wide, raised and small forms as their plain ones."""
    character = plain(typed, alphabet)
    if set(character) <= set(alphabet):
        return character
    folded = "-" if category(typed) == "Pd" else normalize("NFKC", typed)
    if len(folded) != 1 or folded == typed:
        return character
    folded = plain(folded, alphabet)
    return folded if set(folded) <= set(alphabet) else character


def _respelling(typed: str, written: str, where: str) -> str:
    """Why a character is written otherwise than typed."""
    capital = typed.upper()
    if len(written) > 1:
        return f"{where} has no {capital}: read as {' or '.join(written)}"
    if written in LOOKALIKES.get(capital, ""):
        kind, other = ("letter", "digit") if capital.isalpha() else ("digit", "letter")
        return f"{where} has no {kind} {capital}: read as the {other} {written}"
    if capital == written:
        return "a small letter, read as a capital"
    return "another form of the same character"
