"""The check digit: value times weight, added up, the remainder of the division compared.

With every character clear it agrees or it does not. With some unsure it says
what could stand there (candidates.py). A number that does not agree is never
called wrong: a market without the rule asks for no check digit.
"""

from witnessmark.codebook.records import Citation
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.candidates import candidate_notes
from witnessmark.decoding.seventeen.number import Number, noted
from witnessmark.decoding.seventeen.rules import CHECK, LENGTH
from witnessmark.decoding.seventeen.structure import not_permitted
from witnessmark.decoding.seventeen.sums import CheckSum, check_sum
from witnessmark.decoding.seventeen.swaps import mending_positions, swap_notes
from witnessmark.decoding.seventeen.words import listed, positions
from witnessmark.decoding.seventeen.year import years_said

FIRST_TESTED_YEAR = 1981
"""The first model year of the rule."""


def check_notes(number: Number) -> tuple[Note, ...]:
    """What the check digit says, or why it is not tested."""
    untested = _untested(number)
    if untested:
        return untested
    if number.unsure():
        return candidate_notes(number)
    read = "".join(number.read(position) for position in range(1, LENGTH + 1))
    compared = check_sum(number.rules, read)
    outcome = _agrees(number, compared) if compared.agrees else _differs(number, compared, read)
    return (*outcome, *swap_notes(number, read))


def _untested(number: Number) -> tuple[Note, ...]:
    """Why the check digit is not tested; nothing where it is."""
    given = number.asked.context.model_year
    years = years_said(number)
    if given is not None and given < FIRST_TESTED_YEAR:
        return (_too_old(number, f"the model year taken as given is {given}"),)
    if years and max(years) < FIRST_TESTED_YEAR:
        return (_too_old(number, f"the year code says {listed([str(y) for y in years], 'or')}"),)
    if not_permitted(number):
        sentence = "Not tested: a character was read that no number under the rule has."
        return (number.note("check", sentence, "permitted-characters"),)
    if number.read(CHECK) and number.read(CHECK) not in number.rules.digits:
        return (_no_check_digit(number),)
    return ()


def _too_old(number: Number, reason: str) -> Note:
    sentence = (
        f"The check digit is not tested: {reason}, and the rule begins with model year "
        f"{FIRST_TESTED_YEAR}."
    )
    return number.note("check", sentence, "seventeen-from-1981")


def _no_check_digit(number: Number) -> Note:
    here = (
        "A number under the United States rule has a digit or X there: look at it again, and at "
        "the certification label for the market that the car was built for."
        if number.is_north_american
        else "A number for a European market normally has a filler there."
    )
    sentence = (
        f"Position {CHECK} reads {number.read(CHECK)}, which is no check digit: not tested. {here}"
    )
    return number.note("check", sentence, "check-optional")


def _agrees(number: Number, compared: CheckSum) -> tuple[Note, ...]:
    sentence = f"The check digit agrees: {_sum_in_words(number, compared)}."
    pass_shows = (
        "That shows a well-formed number and nothing about the metal that it stands on: an "
        f"invented number passes 1 time in {len(number.rules.digits)}."
    )
    return (
        noted("check", sentence, _citation(number)),
        number.note("check", pass_shows, "what-a-pass-shows"),
    )


def _differs(number: Number, compared: CheckSum, read: str) -> tuple[Note, ...]:
    if number.is_north_american:
        means = (
            "A number under the United States rule carries a check digit, so one of its "
            "characters may not be what was read or meant; a car built for a market without the "
            f"rule need not carry one. {_where_again(number, read)}"
        )
    else:
        means = (
            "A number for a market without the rule carries none, so that this says nothing by "
            "itself."
        )
    sentence = f"The check digit does not agree: {_sum_in_words(number, compared)}. {means}"
    decides = (
        "What would decide: a second reading, the same number elsewhere on the car and on its "
        "papers, and the certification label, which shows the market that it was built for."
    )
    return (
        noted("check", sentence, _citation(number)),
        number.note("check", decides, "check-optional"),
    )


def _where_again(number: Number, read: str) -> str:
    mending = mending_positions(number.rules, read)
    if not mending:
        return "No single look-alike taken for another accounts for it."
    return (
        f"A look-alike taken for another in {positions(mending, 'or')} would account for it: read "
        "there again."
    )


def _sum_in_words(number: Number, compared: CheckSum) -> str:
    digit = str(compared.remainder)
    written = "" if compared.wanted == digit else f", written {compared.wanted}"
    return (
        f"the sum is {compared.total}, which leaves {digit} on division by "
        f"{len(number.rules.digits)}{written}, and position {CHECK} reads {compared.read}"
    )


def _citation(number: Number) -> Citation:
    return number.rules.cited("weights", number.asked.mark.citation)
