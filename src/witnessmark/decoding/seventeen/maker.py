"""The maker code: three characters, or six of a maker of few vehicles."""

from witnessmark.catalogue import said
from witnessmark.decoding.options import written
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import Number

FEW = "9"
"""The character of position 3 that means a maker of few vehicles."""


def maker_notes(number: Number) -> tuple[Note, ...]:
    """Where the maker code stands, if positions 12 to 14 belong to it or may do."""
    third = number.cell(3).characters
    if FEW not in third:
        return ()
    if number.read(3):
        sentence = said(
            "Position 3 is a {few}, which under the United States rule always means a maker of "
            "few vehicles: the maker code is {first} with {second} of positions 12 to 14, and the "
            "sequence is positions 15 to 17 alone.",
            few=FEW,
            first=written(number.cells[0:3]),
            second=written(number.cells[11:14]),
        )
    else:
        sentence = said(
            "If position 3 is a {few}, the maker is one of few vehicles: the maker code is then "
            "positions 1 to 3 with 12 to 14, and the sequence positions 15 to 17 alone.",
            few=FEW,
        )
    return (number.note("maker", sentence, "positions-1-3"),)
