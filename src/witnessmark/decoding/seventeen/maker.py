"""The maker code: the part of the world that it is of, and where it stands in the number."""

from witnessmark.catalogue import said
from witnessmark.decoding.options import written
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import Vin, noted

FEW = "9"
"""The character of position 3 that means a maker of few vehicles."""


def maker_notes(number: Vin) -> tuple[Note, ...]:
    """Whether positions 12 to 14 belong to the maker code, and which region position 1 names."""
    return (*_of_few_vehicles(number), *_regions(number))


def _of_few_vehicles(number: Vin) -> tuple[Note, ...]:
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
    return (number.note(NoteKind.MAKER, sentence, "positions-1-3"),)


def _regions(number: Vin) -> tuple[Note, ...]:
    """The region of each character that position 1 can be."""
    rows = [number.rules.regions.get(each) for each in number.cell(1).characters]
    return tuple(
        noted(
            NoteKind.MAKER,
            _stands_for(row.code, row.meaning, is_read=bool(number.read(1))),
            row.citation,
        )
        for row in rows
        if row is not None
    )


def _stands_for(character: str, region: str, *, is_read: bool) -> str:
    if is_read:
        return said(
            "Position 1 reads {character}, which stands for {region}. Blocks of maker codes change "
            "hands between countries as time goes on.",
            character=character,
            region=region,
        )
    return said(
        "If position 1 is {character}, it stands for {region}. Blocks of maker codes change hands "
        "between countries as time goes on.",
        character=character,
        region=region,
    )
