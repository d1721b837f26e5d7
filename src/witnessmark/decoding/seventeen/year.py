"""The year code of position 10, whose 30-year cycle position 7 can tell.

A digit in position 7 means 1980 to 2009 and a letter 2010 to 2039, for cars and
light vehicles of the United States scheme and for nothing else. Where position 1
names North America the number is of that scheme. Elsewhere an agreeing check digit
is evidence that it is, 11 to 1, and the years have the shares that follow from it
(tables/rates.csv: `decoding.scheme_elsewhere`). Where it does not agree, or was not
tested, position 7 says nothing and both years of a code stay as they are.
"""

from collections.abc import Hashable, Iterator
from dataclasses import replace

from witnessmark.catalogue import in_a_row, one_of, percent, said
from witnessmark.codebook import Basis
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.rates import shipped_value
from witnessmark.decoding.records import Note, NoteKind
from witnessmark.decoding.seventeen.number import DIGIT, Vin
from witnessmark.decoding.seventeen.rules import SEVENTH, YEAR
from witnessmark.reading import kept_beside

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


@kept_beside
def _plain(option: FieldOption) -> FieldOption:
    """An option without the years for which its row is listed: they are what it says."""
    meaning = option.meaning
    if meaning.plain in ("", meaning.meaning):
        return option
    return FieldOption(option.share, replace(meaning, meaning=meaning.plain), option.applies)


def year_notes(number: Vin) -> Iterator[Note]:
    """Which year or years the code means, and why."""
    code = number.read(YEAR)
    if not code and number.seventh:
        sentence = said("Position {position} is unsure.", position=YEAR)
        yield _by_position_7(number, sentence, by_the_seventh(number.seventh))
    elif code and code not in number.rules.years:
        sentence = said(
            "Position {position} reads {code}, which is not a model-year code.",
            position=YEAR,
            code=code,
        )
        yield number.note(NoteKind.YEAR, f"{sentence} {_elsewhere()}", "position-10-elsewhere")
    elif code:
        yield from _of_a_code(number, code)


def _by_position_7(number: Vin, *sentences: str) -> Note:
    return number.note(NoteKind.YEAR, in_a_row(sentences), "position-7-rule")


def _of_a_code(number: Vin, code: str) -> Iterator[Note]:
    """Which year or years a code of the book means, and what position 7 says of it."""
    years, given = years_said(number), number.asked.context.model_year
    told = said(
        "Position {position} reads {code}: model year {years}.",
        position=YEAR,
        code=code,
        years=one_of([str(year) for year in years]),
    )
    if number.seventh:
        yield _by_position_7(number, told, by_the_seventh(number.seventh))
    elif by_check := seventh_by_check(number):
        yield from _by_the_check_digit(number, told, by_check, years)
    else:
        yield _by_position_7(number, told, _why_open(number), _other_dates())
        if number.is_of_a_car and number.is_chinese and number.agrees:
            sentence = said(
                "Numbers from China carry a check digit under a rule of their own, so one that "
                "agrees does not show the United States scheme."
            )
            yield number.note(NoteKind.YEAR, sentence, "check-digit-of-china")
    if not number.is_north_american:
        yield number.note(NoteKind.YEAR, _elsewhere(), "position-10-elsewhere")
    if given is not None and given not in years:
        other = said(
            "The model year taken as given, {year}, is not one that this code can mean here.",
            year=given,
        )
        yield number.by_table(NoteKind.YEAR, other, "years")


def _by_the_check_digit(
    number: Vin, told: str, seventh: str, years: tuple[int, ...]
) -> Iterator[Note]:
    """What position 7 says if the number is of the scheme that its check digit agrees with,
    and on what that rests."""
    (named, *_) = (year for year in years if in_cycle(year, seventh))
    if seventh == DIGIT:
        means = said(
            "Position {position} is a digit, which means {year} if the number follows the "
            "United States scheme, with which its check digit agrees, and nothing if it does "
            "not.",
            position=SEVENTH,
            year=named,
        )
    else:
        means = said(
            "Position {position} is a letter, which means {year} if the number follows the "
            "United States scheme, with which its check digit agrees, and nothing if it does "
            "not.",
            position=SEVENTH,
            year=named,
        )
    evidence = said(
        "A check digit that agrees favours that scheme by {times} to 1; beforehand, {percent} "
        "of numbers like this one are assumed to follow it.",
        times=len(number.rules.digits),
        percent=percent(shipped_value(SCHEME_ROW)),
    )
    yield _by_position_7(number, told, means, _other_dates())
    yield Note(NoteKind.YEAR, evidence, Basis.ASSUMED, SCHEME_SOURCE)


def _other_dates() -> str:
    return said(
        "What would decide: the certification label, dates on other parts, and the title's history."
    )


def by_the_seventh(seventh: str) -> str:
    """What position 7 says of the cycle in a number of the United States scheme for cars."""
    if seventh == DIGIT:
        return said(
            "Position {position} is a digit, which in cars and light vehicles of the United "
            "States scheme means 1980 to 2009. The calendar year of building may differ.",
            position=SEVENTH,
        )
    return said(
        "Position {position} is a letter, which in cars and light vehicles of the United "
        "States scheme means 2010 to 2039. The calendar year of building may differ.",
        position=SEVENTH,
    )


def _why_open(number: Vin) -> str:
    if not number.is_of_a_car:
        reason = said("trailers, heavy vehicles and motorcycles may have a letter or a digit there")
    elif not number.is_north_american:
        reason = said("it holds for the United States scheme, which position 1 does not show here")
    else:
        reason = said("that position is unsure")
    return said(
        "The rule for position {position} does not tell them apart: {reason}.",
        position=SEVENTH,
        reason=reason,
    )


def _elsewhere() -> str:
    return said("Outside North America position {position} may be anything.", position=YEAR)
