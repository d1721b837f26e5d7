"""The year code of position 10, whose 30-year cycle position 7 can tell.

A digit in position 7 means 1980 to 2009 and a letter 2010 to 2039, for cars and
light vehicles of the United States scheme and for nothing else. Where position 1
names North America the number is of that scheme. Elsewhere an agreeing check digit
is evidence that it is, 11 to 1, and the years have the shares that follow from it
(tables/rates.csv: `decoding.scheme_elsewhere`). Where it does not agree, or was not
tested, position 7 says nothing and both years of a code stay as they are.
"""

from collections.abc import Hashable
from dataclasses import replace

from witnessmark.catalogue import said
from witnessmark.codebook.records import Basis
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.rates import shipped_value
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import DIGIT, Vin, noted
from witnessmark.decoding.seventeen.rules import SEVENTH, YEAR
from witnessmark.decoding.seventeen.words import one_of, percent
from witnessmark.reading.kept import KeptBeside

FIRST_YEAR_OF_LETTERS = 2010
"""From this model year on position 7 is a letter."""

FIRST_TESTED_YEAR = 1981
"""The first model year of the rule."""

SCHEME_ROW = "decoding.scheme_elsewhere"
SCHEME_SOURCE = f"assumed share, row {SCHEME_ROW}"


def in_cycle(year: int, seventh: str) -> bool:
    """Does this year lie in the cycle that position 7 names? Every year, where it names none.

    >>> in_cycle(2005, "digit"), in_cycle(2005, "letter"), in_cycle(2005, "")
    (True, False, True)
    """
    return not seventh or (year < FIRST_YEAR_OF_LETTERS) is (seventh == DIGIT)


def years_said(number: Vin) -> tuple[int, ...]:
    """The model years that a clear code in position 10 can mean here; none for no code."""
    years = number.rules.years.get(number.read(YEAR), ())
    return tuple(year for year in years if in_cycle(year, number.seventh))


def seventh_by_check(number: Vin) -> str:
    """letter or digit in position 7, where an agreeing check digit alone speaks for the scheme
    in which that names the cycle; else an empty text."""
    is_open = number.is_of_a_car and not (number.is_north_american or number.is_chinese)
    if not is_open or not number.agrees:
        return ""
    seventh = number.kind(SEVENTH)
    years = [y for y in number.rules.years.get(number.read(YEAR), ()) if in_cycle(y, seventh)]
    # A number of 1980 need have no check digit, so that one cannot speak for its scheme.
    return seventh if years and max(years) >= FIRST_TESTED_YEAR else ""


def share_of_the_scheme(number: Vin) -> float:
    """P(of the United States scheme for cars | position 1 from elsewhere, check digit agrees).

    One of that scheme agrees, and of others one in as many as there are check characters.
    """
    before = shipped_value(SCHEME_ROW)
    by_chance = 1.0 / len(number.rules.digits)
    return before / (before + (1.0 - before) * by_chance)


def said_of_the_cycle(number: Vin) -> tuple[str, float]:
    """letter or digit in position 7, and the share with which that tells the cycle of the year:
    1 by position 1, less by the check digit alone, 0 where nothing shows the scheme."""
    if number.seventh:
        return number.seventh, 1.0
    by_check = seventh_by_check(number)
    return by_check, share_of_the_scheme(number) if by_check else 0.0


def weighed_years(
    options: tuple[FieldOption, ...], seventh: str, believed: float
) -> tuple[FieldOption, ...]:
    """The options of the year field as position 7 has them, the share of each code kept."""
    if not believed:
        return tuple(map(_plain, options))
    whole: dict[Hashable, float] = {}
    inside: dict[Hashable, float] = {}
    for option in options:
        code = (option.meaning.code, option.meaning.listed)
        whole[code] = whole.get(code, 0.0) + option.share
        if _holds(option, seventh):
            inside[code] = inside.get(code, 0.0) + option.share
    weighed = []
    for option in map(_plain, options):
        code = (option.meaning.code, option.meaning.listed)
        if not inside.get(code) or inside[code] == whole[code]:
            weighed.append(option)
            continue
        share = (1.0 - believed) * option.share
        if _holds(option, seventh):
            share += believed * option.share * whole[code] / inside[code]
        if share:
            weighed.append(FieldOption(share, option.meaning, option.applies))
    return tuple(sorted(weighed, key=lambda option: -option.share))


def _holds(option: FieldOption, seventh: str) -> bool:
    value = option.meaning.value
    return not (value.isascii() and value.isdigit()) or in_cycle(int(value), seventh)


def _without_years(option: FieldOption) -> FieldOption:
    meaning = option.meaning
    if meaning.plain in ("", meaning.meaning):
        return option
    return FieldOption(option.share, replace(meaning, meaning=meaning.plain), option.applies)


_plain = KeptBeside("without years", _without_years).of
"""An option without the years for which its row is listed: they are what it says."""


def year_notes(number: Vin) -> tuple[Note, ...]:
    """Which year or years the code means, and why."""
    code = number.read(YEAR)
    if not code:
        return _of_an_unsure_code(number)
    if code not in number.rules.years:
        sentence = said(
            "Position {position} reads {code}, which is no code of a model year.",
            position=YEAR,
            code=code,
        )
        return (number.note(NoteKind.YEAR, f"{sentence} {_elsewhere()}", "position-10-elsewhere"),)
    years = years_said(number)
    told = said(
        "Position {position} reads {code}: model year {years}.",
        position=YEAR,
        code=code,
        years=one_of([str(year) for year in years]),
    )
    if number.seventh:
        sentence = f"{told} {by_the_seventh(number.seventh)}"
        notes = [number.note(NoteKind.YEAR, sentence, "position-7-rule")]
    elif by_check := seventh_by_check(number):
        notes = _by_the_check_digit(number, told, by_check, years)
    else:
        sentence = f"{told} {_why_open(number)} {_other_dates()}"
        notes = [number.note(NoteKind.YEAR, sentence, "position-7-rule"), *_of_china(number)]
    if not number.is_north_american:
        notes.append(number.note(NoteKind.YEAR, _elsewhere(), "position-10-elsewhere"))
    return (*notes, *_of_the_given_year(number, years))


def _of_china(number: Vin) -> tuple[Note, ...]:
    """Why a check digit that agrees does not tell the years apart there."""
    if not (number.is_of_a_car and number.is_chinese and number.agrees):
        return ()
    sentence = said(
        "Numbers of China carry a check digit by a rule of their own, so that one that agrees "
        "does not show the United States scheme."
    )
    return (number.note(NoteKind.YEAR, sentence, "check-digit-of-china"),)


def _by_the_check_digit(number: Vin, told: str, seventh: str, years: tuple[int, ...]) -> list[Note]:
    """What position 7 says if the number is of the scheme that its check digit agrees with,
    and on what that rests."""
    (named, *_) = (year for year in years if in_cycle(year, seventh))
    if seventh == DIGIT:
        means = said(
            "Position {position} is a digit, which means {year} if the number is of the scheme "
            "that its check digit agrees with, the United States one, and nothing if it is not.",
            position=SEVENTH,
            year=named,
        )
    else:
        means = said(
            "Position {position} is a letter, which means {year} if the number is of the scheme "
            "that its check digit agrees with, the United States one, and nothing if it is not.",
            position=SEVENTH,
            year=named,
        )
    evidence = said(
        "An agreeing check digit speaks {times} to 1 for that scheme; of numbers like this one "
        "{percent} are taken to be of it beforehand.",
        times=len(number.rules.digits),
        percent=percent(shipped_value(SCHEME_ROW)),
    )
    return [
        number.note(NoteKind.YEAR, f"{told} {means} {_other_dates()}", "position-7-rule"),
        Note(NoteKind.YEAR, evidence, Basis.ASSUMED, SCHEME_SOURCE),
    ]


def _of_an_unsure_code(number: Vin) -> tuple[Note, ...]:
    if not number.seventh:
        return ()
    sentence = said("Position {position} is not sure.", position=YEAR)
    return (
        number.note(
            NoteKind.YEAR, f"{sentence} {by_the_seventh(number.seventh)}", "position-7-rule"
        ),
    )


def _other_dates() -> str:
    return said(
        "What would decide: the certification label, dates on other parts, and the title's history."
    )


def by_the_seventh(seventh: str) -> str:
    """What position 7 says of the cycle in a number of the United States scheme for cars."""
    if seventh == DIGIT:
        return said(
            "Position {position} is a digit, which in cars and light vehicles of the United States "
            "scheme means 1980 to 2009. The calendar year of building may be another.",
            position=SEVENTH,
        )
    return said(
        "Position {position} is a letter, which in cars and light vehicles of the United States "
        "scheme means 2010 to 2039. The calendar year of building may be another.",
        position=SEVENTH,
    )


def _why_open(number: Vin) -> str:
    if not number.is_of_a_car:
        reason = said("trailers, heavy vehicles and motorcycles may have a letter or a digit there")
    elif not number.is_north_american:
        reason = said("it holds for the United States scheme, which position 1 does not show here")
    else:
        reason = said("that position is not sure")
    return said(
        "The rule of position {position} does not tell them apart: {reason}.",
        position=SEVENTH,
        reason=reason,
    )


def _elsewhere() -> str:
    return said("Outside North America position {position} may be anything.", position=YEAR)


def _of_the_given_year(number: Vin, years: tuple[int, ...]) -> tuple[Note, ...]:
    given = number.asked.context.model_year
    if given is None or given in years:
        return ()
    sentence = said(
        "The model year taken as given, {year}, is none that this code can mean here.", year=given
    )
    return (
        noted(NoteKind.YEAR, sentence, number.rules.cited("years", number.asked.mark.citation)),
    )
