"""Where letters and digits stand: the older structure, the current one, characters never used.

Nothing here says that a number is wrong. A place that does not fit is named, to
be looked at again.
"""

from witnessmark.catalogue import said
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import DIGIT, LETTER, Vin, noted
from witnessmark.decoding.seventeen.rules import LENGTH, SEVENTH, YEAR
from witnessmark.decoding.seventeen.words import positions

LAST_OF_CARS, LAST_OF_OTHERS = 5, 4
"""How many of the last characters are digits."""


def structure_notes(number: Vin) -> tuple[Note, ...]:
    """What the places of letters and digits say."""
    return (
        *_never_used(number),
        *_not_permitted(number),
        *_not_in_a_year(number),
        *_of_the_older_rule(number),
        *_of_the_current_rule(number),
        *_last_digits(number),
    )


def _never_used(number: Vin) -> tuple[Note, ...]:
    """I, O and Q that were typed, and stand in the reading as the digit they look like."""
    column = {cell.column: p for p, cell in enumerate(number.cells, start=1)}
    notes = []
    for change in number.asked.reading.changes:
        typed = change.typed.upper()
        position = column.get(change.column)
        if position is not None and typed in number.rules.never_used:
            sentence = said(
                "At position {position} {typed} was typed, which the rule never uses; it was taken "
                "as {taken}, which looks like it. Look at it again: a number not under this rule "
                "may well have the letter.",
                position=position,
                typed=typed,
                taken=change.normalised,
            )
            notes.append(number.note(NoteKind.STRUCTURE, sentence, "never-i-o-q"))
    return tuple(notes)


def not_permitted(number: Vin) -> tuple[int, ...]:
    """Positions that clearly read a character which no number under the rule has."""
    return tuple(
        position
        for position in range(1, LENGTH + 1)
        if number.read(position) and number.read(position) not in number.rules.kinds
    )


def _not_permitted(number: Vin) -> tuple[Note, ...]:
    found = not_permitted(number)
    if not found:
        return ()
    sentence = said(
        "The rule permits capital letters without I, O and Q, and digits; what was read in "
        "{positions} is none of these.",
        positions=positions(found),
    )
    return (number.note(NoteKind.STRUCTURE, sentence, "permitted-characters"),)


def _not_in_a_year(number: Vin) -> tuple[Note, ...]:
    read = number.read(YEAR)
    if read not in number.rules.never_in_year:
        return ()
    sentence = said(
        "Under the rule position {position} is never {character}.", position=YEAR, character=read
    )
    return (number.note(NoteKind.STRUCTURE, sentence, "never-u-z-0-in-10"),)


def _of_the_older_rule(number: Vin) -> tuple[Note, ...]:
    """With a digit in position 7: letters in 4 and 5, a digit in 6."""
    if number.seventh != DIGIT:
        return ()
    letters = tuple(p for p in (4, 5) if number.kind(p) == DIGIT)
    digits = tuple(p for p in (6,) if number.kind(p) == LETTER)
    notes = []
    if letters:
        sentence = said(
            "A digit was read in {positions}, where cars and light vehicles under the older rule "
            "(a digit in position 7) have a letter.",
            positions=positions(letters),
        )
        notes.append(number.note(NoteKind.STRUCTURE, sentence, "positions-4-5-old"))
    if digits:
        sentence = said(
            "A letter was read in {positions}, where cars and light vehicles under the older rule "
            "(a digit in position 7) have a digit.",
            positions=positions(digits),
        )
        notes.append(number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-old"))
    if not notes and all(number.kind(p) for p in (4, 5, 6)):
        sentence = said(
            "Letters in positions 4 and 5, digits in 6 and 7: as the older rule has it."
        )
        notes.append(number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-old"))
    return tuple(notes)


def _of_the_current_rule(number: Vin) -> tuple[Note, ...]:
    if number.seventh != LETTER:
        return ()
    sentence = said(
        "A letter in position {position}, as the current rule has it; 4 to 6 are free there.",
        position=SEVENTH,
    )
    return (number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-now"),)


def _last_digits(number: Vin) -> tuple[Note, ...]:
    """Letters among the last characters; of that the book may speak from memory alone."""
    count = LAST_OF_CARS if number.follows_the_rule_for_cars else LAST_OF_OTHERS
    last = range(LENGTH - count + 1, LENGTH + 1)
    found = tuple(position for position in last if number.kind(position) == LETTER)
    if not found:
        return ()
    citation = number.rules.said("last-digits", number.asked.mark.citation)
    sentence = said(
        "A letter was read in {positions}; the last {count} characters are digits.",
        positions=positions(found),
        count=count,
    )
    if not citation.basis.weighs:
        sentence += " " + said("From memory: it explains and weighs nothing.")
    return (noted(NoteKind.STRUCTURE, sentence, citation),)
