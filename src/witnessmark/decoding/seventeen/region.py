"""The part of the world that the first character names."""

from witnessmark.catalogue import said
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import Number, noted


def region_notes(number: Number) -> tuple[Note, ...]:
    """The region of each character that position 1 can be."""
    notes = []
    for character in number.cell(1).characters:
        row = number.rules.regions.get(character)
        if row is not None:
            sentence = _stands_for(character, row.meaning, is_read=bool(number.read(1)))
            notes.append(noted("region", sentence, row.citation))
    return tuple(notes)


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
