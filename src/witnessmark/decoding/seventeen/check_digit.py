"""The check digit: value times weight, added up, the remainder of the division compared.

With every character clear it agrees or it does not. With some unsure it says
what could stand there (candidates.py). A number that does not agree is never
called wrong: a market without the rule asks for no check digit.
"""

from witnessmark.catalogue import one_of, said
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.candidates import candidate_note
from witnessmark.decoding.seventeen.number import Vin
from witnessmark.decoding.seventeen.rules import CHECK, LENGTH, NumberRules
from witnessmark.decoding.seventeen.structure import not_permitted
from witnessmark.decoding.seventeen.sums import (
    CheckSum,
    check_sum,
    mending_exchanges,
    mending_look_alikes,
    unseen_exchanges,
    unseen_look_alikes,
)
from witnessmark.decoding.seventeen.words import any_position, pairs
from witnessmark.decoding.seventeen.year import FIRST_TESTED_YEAR, years_said


def check_notes(number: Vin) -> tuple[Note, ...]:
    """What the check digit says, or why it is not tested."""
    untested = _untested(number)
    if untested is not None:
        return (untested,)
    if number.unsure():
        return (candidate_note(number),)
    read = "".join(number.read(position) for position in range(1, LENGTH + 1))
    compared = check_sum(number.rules, read)
    return _agrees(number, compared, read) if compared.agrees else _differs(number, compared, read)


def _untested(number: Vin) -> Note | None:
    """Why the check digit is not tested; nothing where it is."""
    given, years = number.asked.context.model_year, years_said(number)
    if given is not None and given < FIRST_TESTED_YEAR:
        return _too_old(number, said("the model year taken as given is {year}", year=given))
    if years and max(years) < FIRST_TESTED_YEAR:
        said_there = one_of([str(year) for year in years])
        return _too_old(number, said("the year code says {years}", years=said_there))
    if not_permitted(number):
        sentence = said("Not tested: a character was read that no number under the rule has.")
        return number.note(NoteKind.CHECK, sentence, "permitted-characters")
    if number.read(CHECK) and number.read(CHECK) not in number.rules.digits:
        return _no_check_digit(number)
    return None


def _too_old(number: Vin, reason: str) -> Note:
    sentence = said(
        "The check digit is not tested: {reason}, and the rule begins with model year {year}.",
        reason=reason,
        year=FIRST_TESTED_YEAR,
    )
    return number.note(NoteKind.CHECK, sentence, "seventeen-from-1981")


def _no_check_digit(number: Vin) -> Note:
    here = (
        said(
            "A number under the United States rule has a digit or X there: look at it again, and "
            "at the certification label for the market that the car was built for."
        )
        if number.is_north_american
        else said("A number for a European market normally has a filler there.")
    )
    sentence = said(
        "Position {position} reads {character}, which is no check digit: not tested.",
        position=CHECK,
        character=number.read(CHECK),
    )
    return number.note(NoteKind.CHECK, f"{sentence} {here}", "check-optional")


def _agrees(number: Vin, compared: CheckSum, read: str) -> tuple[Note, ...]:
    summed = _sum_in_words(number, compared)
    sentence = said("The check digit agrees: {sum}.", sum=summed)
    pass_shows = said(
        "That shows a well-formed number and says nothing about the metal it is on: an "
        "invented number passes 1 time in {times}.",
        times=len(number.rules.digits),
    )
    return (
        number.by_table(NoteKind.CHECK, sentence, "weights"),
        number.note(NoteKind.CHECK, pass_shows, "what-a-pass-shows"),
        number.note(NoteKind.CHECK, _what_it_cannot_see(number, read), "same-value"),
    )


def _differs(number: Vin, compared: CheckSum, read: str) -> tuple[Note, ...]:
    summed = _sum_in_words(number, compared)
    sentence = said("The check digit does not agree: {sum}.", sum=summed)
    slips = _slips(number, read)
    means = _in_north_america(slips) if number.is_north_american else _elsewhere(slips)
    decides = said(
        "What would decide: a second reading, the same number elsewhere on the car and on its "
        "papers, and the certification label, which shows the market that it was built for."
    )
    return (
        number.by_table(NoteKind.CHECK, f"{sentence} {means}", "weights"),
        number.note(NoteKind.CHECK, decides, "check-optional"),
    )


def _in_north_america(slips: str) -> str:
    means = said(
        "A number under the United States rule carries a check digit, so one of its "
        "characters may not be what was read or meant; a car built for a market without the "
        "rule need not carry one."
    )
    if slips:
        again = said("A single slip would account for it: {slips}. Look there again.", slips=slips)
    else:
        again = said("No single look-alike and no exchange of neighbours accounts for it.")
    return f"{means} {again}"


def _elsewhere(slips: str) -> str:
    means = said(
        "A number for a market without the rule carries none, so this says nothing by itself."
    )
    if not slips:
        return means
    again = said(
        "If it should carry one, a single slip would account for it: {slips}. Look there again.",
        slips=slips,
    )
    return f"{means} {again}"


def _slips(number: Vin, read: str) -> str:
    """The single slips that would account for a difference, by their positions alone; empty
    where there is none."""
    alike = mending_look_alikes(number.rules, read)
    exchanged = mending_exchanges(number.rules, read)
    found = []
    if alike:
        found.append(
            said("a look-alike taken for another in {position}", position=any_position(alike))
        )
    if exchanged:
        found.append(said("an exchange of positions {pairs}", pairs=pairs(exchanged)))
    return one_of(found)


def _what_it_cannot_see(number: Vin, read: str) -> str:
    """The slips that this number's check digit cannot see, and those that none can."""
    rules = number.rules
    blind, exchanged = unseen_look_alikes(rules, read), unseen_exchanges(rules, read)
    general = said(
        "No check digit detects one character taken for another of the same value: "
        "{characters}. Position {position} itself has weight {weight}.",
        characters=_columns(rules),
        position=CHECK,
        weight=rules.weights[CHECK - 1],
    )
    if blind and exchanged:
        here = said(
            "In this number it would miss a look-alike of the same value in {position} and "
            "an exchange of the neighbours {pairs}.",
            position=any_position(blind),
            pairs=pairs(exchanged),
        )
    elif blind:
        here = said(
            "In this number it would miss a look-alike of the same value in {position}.",
            position=any_position(blind),
        )
    elif exchanged:
        here = said(
            "In this number it would miss an exchange of the neighbours {pairs}.",
            pairs=pairs(exchanged),
        )
    else:
        here = ""
    return f"{general} {here}".strip()


def _columns(rules: NumberRules) -> str:
    """The characters that share a value, value by value."""
    columns: dict[int, list[str]] = {}
    for character, value in rules.values.items():
        columns.setdefault(value, []).append(character)
    return ", ".join("/".join(each) for _, each in sorted(columns.items()) if len(each) > 1)


def _sum_in_words(number: Vin, compared: CheckSum) -> str:
    values: dict[str, object] = {
        "total": compared.total,
        "remainder": compared.remainder,
        "divisor": len(number.rules.digits),
        "position": CHECK,
        "character": compared.read,
    }
    if compared.wanted == str(compared.remainder):
        return said(
            "the sum is {total}, which leaves {remainder} on division by {divisor}, and position "
            "{position} reads {character}",
            **values,
        )
    return said(
        "the sum is {total}, which leaves {remainder} on division by {divisor}, written "
        "{written}, and position {position} reads {character}",
        written=compared.wanted,
        **values,
    )
