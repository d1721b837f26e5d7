"""The year code of position 10, whose 30-year cycle position 7 can tell.

A digit in position 7 means 1980 to 2009 and a letter 2010 to 2039, for cars and
light vehicles of the United States scheme and for nothing else: everywhere else
both years of a code stay open.
"""

from dataclasses import replace

from witnessmark.catalogue import said
from witnessmark.decoding.code_options import listed_for
from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import CARS, DIGIT, Number, noted
from witnessmark.decoding.seventeen.rules import SEVENTH, YEAR
from witnessmark.decoding.seventeen.words import one_of

FIRST_YEAR_OF_LETTERS = 2010
"""From this model year on position 7 is a letter."""


def in_cycle(year: int, seventh: str) -> bool:
    """Does this year lie in the cycle that position 7 names? Every year, where it names none.

    >>> in_cycle(2005, "digit"), in_cycle(2005, "letter"), in_cycle(2005, "")
    (True, False, True)
    """
    return not seventh or (year < FIRST_YEAR_OF_LETTERS) is (seventh == DIGIT)


def years_said(number: Number) -> tuple[int, ...]:
    """The model years that a clear code in position 10 can mean here; none for no code."""
    years = number.rules.years.get(number.read(YEAR), ())
    return tuple(year for year in years if in_cycle(year, number.seventh))


def kept_years(options: tuple[FieldOption, ...], number: Number | None) -> tuple[FieldOption, ...]:
    """The options of the year field that position 7 allows, the shares of each code kept."""
    seventh = number.seventh if number else ""
    kept: list[FieldOption] = []
    kinds = dict.fromkeys((option.meaning.code, option.meaning.listed) for option in options)
    for kind in kinds:
        same = [o for o in options if (o.meaning.code, o.meaning.listed) == kind]
        holding = [option for option in same if _holds(option, seventh)] or same
        total, left = sum(o.share for o in same), sum(o.share for o in holding)
        scale = total / left if left else 1.0
        kept += [replace(option, share=option.share * scale) for option in holding]
    return tuple(sorted(map(_plain, kept), key=lambda option: -option.share))


def _holds(option: FieldOption, seventh: str) -> bool:
    value = option.meaning.value
    return not (value.isascii() and value.isdigit()) or in_cycle(int(value), seventh)


def _plain(option: FieldOption) -> FieldOption:
    """Without the years for which the row is listed: they are what it says."""
    meaning = option.meaning
    text = listed_for("\0", meaning.value)
    before, _, after = text.partition("\0")
    plain = meaning.meaning.removeprefix(before).removesuffix(after)
    return replace(option, meaning=replace(meaning, meaning=plain))


def year_notes(number: Number) -> tuple[Note, ...]:
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
        return (number.note("year", f"{sentence} {_elsewhere()}", "position-10-elsewhere"),)
    years = years_said(number)
    told = said(
        "Position {position} reads {code}: model year {years}.",
        position=YEAR,
        code=code,
        years=one_of([str(year) for year in years]),
    )
    if number.seventh:
        sentence = f"{told} {_by_the_seventh(number)}"
        notes = [number.note("year", sentence, "position-7-rule")]
    else:
        sentence = f"{told} {_why_open(number)} {_other_dates()}"
        notes = [number.note("year", sentence, "position-7-rule")]
        if not number.is_north_american:
            notes.append(number.note("year", _elsewhere(), "position-10-elsewhere"))
    return (*notes, *_of_the_given_year(number, years))


def _of_an_unsure_code(number: Number) -> tuple[Note, ...]:
    if not number.seventh:
        return ()
    sentence = said("Position {position} is not sure.", position=YEAR)
    return (number.note("year", f"{sentence} {_by_the_seventh(number)}", "position-7-rule"),)


def _other_dates() -> str:
    return said(
        "What would decide: the certification label, dates on other parts, and the title's history."
    )


def _by_the_seventh(number: Number) -> str:
    if number.seventh == DIGIT:
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


def _why_open(number: Number) -> str:
    if number.asked.mark.id != CARS:
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


def _of_the_given_year(number: Number, years: tuple[int, ...]) -> tuple[Note, ...]:
    given = number.asked.context.model_year
    if given is None or given in years:
        return ()
    sentence = said(
        "The model year taken as given, {year}, is none that this code can mean here.", year=given
    )
    return (noted("year", sentence, number.rules.cited("years", number.asked.mark.citation)),)
