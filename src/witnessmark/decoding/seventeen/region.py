"""The part of the world that the first character names."""

from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import Number, noted


def region_notes(number: Number) -> tuple[Note, ...]:
    """The region of each character that position 1 can be."""
    notes = []
    for character in number.cell(1).characters:
        row = number.rules.regions.get(character)
        if row is not None:
            begins = (
                f"Position 1 reads {character}, which stands"
                if number.read(1)
                else f"If position 1 is {character}, it stands"
            )
            sentence = (
                f"{begins} for {row.meaning}. Blocks of maker codes change hands between "
                "countries as time goes on."
            )
            notes.append(noted("region", sentence, row.citation))
    return tuple(notes)
