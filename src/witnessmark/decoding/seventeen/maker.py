"""The maker code: the part of the world that it is of, and where it stands in the number."""

from collections.abc import Iterator

from witnessmark.catalogue import said
from witnessmark.decoding.options import written
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import Vin, noted

FEW = "9"
"""The character of position 3 that means a maker of few vehicles."""


def maker_notes(number: Vin) -> Iterator[Note]:
    """Whether positions 12 to 14 belong to the maker code, and which region position 1 names,
    for each character that it can be."""
    if FEW in number.cell(3).characters:
        yield number.note(NoteKind.MAKER, _of_few_vehicles(number), "positions-1-3")
    for row in map(number.rules.regions.get, number.cell(1).characters):
        if row is not None:
            sentence = _stands_for(row.code, row.meaning, is_read=bool(number.read(1)))
            yield noted(NoteKind.MAKER, sentence, row.citation)


def _of_few_vehicles(number: Vin) -> str:
    if number.read(3):
        return said(
            "Position 3 is a {few}, which under the United States rule always means a "
            "low-volume maker: the maker code is {first} with {second} of positions 12 to 14, "
            "and the sequence is positions 15 to 17 alone.",
            few=FEW,
            first=written(number.cells[0:3]),
            second=written(number.cells[11:14]),
        )
    return said(
        "If position 3 is a {few}, the maker is a low-volume one: the maker code is then "
        "positions 1 to 3 with 12 to 14, and the sequence positions 15 to 17 alone.",
        few=FEW,
    )


def _stands_for(character: str, region: str, *, is_read: bool) -> str:
    if is_read:
        return said(
            "Position 1 reads {character}, which stands for {region}. Blocks of maker codes "
            "change hands between countries over time.",
            character=character,
            region=region,
        )
    return said(
        "If position 1 is {character}, it stands for {region}. Blocks of maker codes change "
        "hands between countries over time.",
        character=character,
        region=region,
    )
