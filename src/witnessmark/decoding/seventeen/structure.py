"""Where letters and digits stand: the older structure, the current one, characters never used.

Nothing here says that a number is wrong. A place that does not fit is named, to
be looked at again.
"""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.catalogue import in_a_row, said
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import DIGIT, LETTER, Vin
from witnessmark.decoding.seventeen.rules import LENGTH, SEVENTH, YEAR
from witnessmark.decoding.seventeen.words import positions

LAST_OF_CARS, LAST_OF_OTHERS = 5, 4
"""How many of the last characters are digits."""


def structure_notes(number: Vin) -> Iterator[Note]:
    """What the places of letters and digits say."""
    yield from _of_characters(number)
    yield from _of_the_older_rule(number)
    if number.seventh == LETTER:
        sentence = said(
            "A letter in position {position}, as under the current rule, which leaves 4 to 6 free.",
            position=SEVENTH,
        )
        yield number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-now")
    yield from _last_digits(number)


def _of_characters(number: Vin) -> Iterator[Note]:
    """Characters that the rule never uses, or never there. I, O and Q that were typed stand in
    the reading as the digit they look like."""
    column = {cell.column: p for p, cell in enumerate(number.cells, start=1)}
    for change in number.asked.reading.changes:
        typed = change.typed.upper()
        if change.column in column and typed in number.rules.never_used:
            sentence = said(
                "At position {position} {typed} was typed, which the rule never uses; it was taken "
                "as {taken}, which looks like it. Look at it again: a number not under this rule "
                "may well have the letter.",
                position=column[change.column],
                typed=typed,
                taken=change.normalised,
            )
            yield number.note(NoteKind.STRUCTURE, sentence, "never-i-o-q")
    if found := not_permitted(number):
        sentence = said(
            "The rule permits digits and capital letters other than I, O and Q; what was read "
            "in {positions} is none of these.",
            positions=positions(found),
        )
        yield number.note(NoteKind.STRUCTURE, sentence, "permitted-characters")
    read = number.read(YEAR)
    if read in number.rules.never_in_year:
        never = said(
            "Under the rule position {position} is never {character}.",
            position=YEAR,
            character=read,
        )
        yield number.note(NoteKind.STRUCTURE, never, "never-u-z-0-in-10")


def not_permitted(number: Vin) -> tuple[int, ...]:
    """Positions that clearly read a character which no number under the rule has."""
    return tuple(
        position
        for position in range(1, LENGTH + 1)
        if number.read(position) and number.read(position) not in number.rules.kinds
    )


def _of_the_older_rule(number: Vin) -> Iterator[Note]:
    """With a digit in position 7: letters in 4 and 5, a digit in 6."""
    if number.seventh != DIGIT:
        return
    letters = tuple(p for p in (4, 5) if number.kind(p) == DIGIT)
    digits = tuple(p for p in (6,) if number.kind(p) == LETTER)
    if letters:
        sentence = said(
            "A digit was read in {positions}, where cars and light vehicles under the older rule "
            "(a digit in position 7) have a letter.",
            positions=positions(letters),
        )
        yield number.note(NoteKind.STRUCTURE, sentence, "positions-4-5-old")
    if digits:
        sentence = said(
            "A letter was read in {positions}, where cars and light vehicles under the older rule "
            "(a digit in position 7) have a digit.",
            positions=positions(digits),
        )
        yield number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-old")
    if not (letters or digits) and all(number.kind(p) for p in (4, 5, 6)):
        sentence = said("Letters in positions 4 and 5, digits in 6 and 7: as under the older rule.")
        yield number.note(NoteKind.STRUCTURE, sentence, "positions-6-7-old")


def _last_digits(number: Vin) -> Iterator[Note]:
    """Letters among the last characters; of that the book may speak from memory alone."""
    count = LAST_OF_CARS if number.follows_the_rule_for_cars else LAST_OF_OTHERS
    last = range(LENGTH - count + 1, LENGTH + 1)
    found = tuple(position for position in last if number.kind(position) == LETTER)
    if found:
        sentence = said(
            "A letter was read in {positions}; the last {count} characters are digits.",
            positions=positions(found),
            count=count,
        )
        note = number.note(NoteKind.STRUCTURE, sentence, "last-digits")
        if not note.basis.weighs:
            memory = said("From memory: it explains but carries no weight.")
            note = replace(note, sentence=in_a_row((note.sentence, memory)))
        yield note
