"""The year code of position 10, whose 30-year cycle position 7 can tell.

A digit in position 7 means 1980 to 2009 and a letter 2010 to 2039, for cars and
light vehicles of the United States scheme and for nothing else: everywhere else
both years of a code stay open.
"""

from dataclasses import replace

from witnessmark.decoding.options import FieldOption
from witnessmark.decoding.records import Note
from witnessmark.decoding.seventeen.number import CARS, DIGIT, Number, noted
from witnessmark.decoding.seventeen.rules import SEVENTH, YEAR
from witnessmark.decoding.seventeen.words import listed

FIRST_YEAR_OF_LETTERS = 2010
"""From this model year on position 7 is a letter."""

OTHER_DATES = (
    "What would decide: the certification label, dates on other parts, and the title's history."
)


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
    said = meaning.meaning.removesuffix(f" (listed for {meaning.value})")
    return replace(option, meaning=replace(meaning, meaning=said))


def year_notes(number: Number) -> tuple[Note, ...]:
    """Which year or years the code means, and why."""
    code = number.read(YEAR)
    if not code:
        return _of_an_unsure_code(number)
    if code not in number.rules.years:
        sentence = f"Position {YEAR} reads {code}, which is no code of a model year. {_elsewhere()}"
        return (number.note("year", sentence, "position-10-elsewhere"),)
    years = years_said(number)
    said = f"Position {YEAR} reads {code}: model year {listed([str(y) for y in years], 'or')}."
    if number.seventh:
        sentence = f"{said} {_by_the_seventh(number)}"
        notes = [number.note("year", sentence, "position-7-rule")]
    else:
        sentence = f"{said} {_why_open(number)} {OTHER_DATES}"
        notes = [number.note("year", sentence, "position-7-rule")]
        if not number.is_north_american:
            notes.append(number.note("year", _elsewhere(), "position-10-elsewhere"))
    return (*notes, *_of_the_given_year(number, years))


def _of_an_unsure_code(number: Number) -> tuple[Note, ...]:
    if not number.seventh:
        return ()
    sentence = f"Position {YEAR} is not sure. {_by_the_seventh(number)}"
    return (number.note("year", sentence, "position-7-rule"),)


def _by_the_seventh(number: Number) -> str:
    cycle = "1980 to 2009" if number.seventh == DIGIT else "2010 to 2039"
    return (
        f"Position {SEVENTH} is a {number.seventh}, which in cars and light vehicles of the United "
        f"States scheme means {cycle}. The calendar year of building may be another."
    )


def _why_open(number: Number) -> str:
    if number.asked.mark.id != CARS:
        reason = "trailers, heavy vehicles and motorcycles may have a letter or a digit there"
    elif not number.is_north_american:
        reason = "it holds for the United States scheme, which position 1 does not show here"
    else:
        reason = "that position is not sure"
    return f"The rule of position {SEVENTH} does not tell them apart: {reason}."


def _elsewhere() -> str:
    return f"Outside North America position {YEAR} may be anything."


def _of_the_given_year(number: Number, years: tuple[int, ...]) -> tuple[Note, ...]:
    given = number.asked.context.model_year
    if given is None or given in years:
        return ()
    sentence = f"The model year taken as given, {given}, is none that this code can mean here."
    return (noted("year", sentence, number.rules.cited("years", number.asked.mark.citation)),)
