"""One cell as the alphabet of its place writes it, and what that changed."""

from dataclasses import replace
from unicodedata import category, normalize

from witnessmark.catalogue import as_said, either, in_a_row, marked, said
from witnessmark.reading.alphabet import LOOKALIKES, plain
from witnessmark.reading.records import Cell, CellKind, Change

_LETTER_AS_DIGIT = marked("{where} has no letter {sign}: read as the digit {other}")
_DIGIT_AS_LETTER = marked("{where} has no digit {sign}: read as the letter {other}")


def in_alphabet(cell: Cell, alphabet: str, where: str, changes: list[Change]) -> Cell:
    """One cell as this alphabet writes it; each character that differs is a change."""
    written: list[str] = []
    for typed in cell.characters:
        character = _plain_shape(typed, alphabet)
        written += [each for each in character if each not in written]
        reasons = [_respelling(typed, character, where)] if typed != character else []
        if alphabet and not set(character) <= set(alphabet):
            reasons.append(said("not among the characters of {where}: kept as seen", where=where))
        if reasons:
            changes.append(Change(cell.column, typed, character, in_a_row(reasons, "; ")))
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
        return said(
            "{where} has no {sign}: read as {signs}",
            where=where,
            sign=capital,
            signs=either(written),
        )
    if written in LOOKALIKES.get(capital, ""):
        message = _LETTER_AS_DIGIT if capital.isalpha() else _DIGIT_AS_LETTER
        return as_said(message, where=where, sign=capital, other=written)
    if capital == written:
        return said("a small letter, read as a capital")
    return said("another form of the same character")
