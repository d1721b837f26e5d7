"""Days in words, as they are written in a letter, whatever the language of the machine."""

from datetime import date

from witnessmark.catalogue import as_said, marked, said
from witnessmark.dates import DateSpan, PartialDate

MONTHS = (
    marked("January"),
    marked("February"),
    marked("March"),
    marked("April"),
    marked("May"),
    marked("June"),
    marked("July"),
    marked("August"),
    marked("September"),
    marked("October"),
    marked("November"),
    marked("December"),
)


def date_text(day: date) -> str:
    """A day as it is written in a letter, whatever the language of the machine.

    >>> date_text(date(2026, 5, 4))
    '4 May 2026'
    """
    month = as_said(MONTHS[day.month - 1])
    return said("{day} {month} {year}", day=day.day, month=month, year=day.year)


def day_text(day: date) -> str:
    """A day of no certain year.

    >>> day_text(date(2026, 5, 4))
    '4 May'
    """
    return said("{day} {month}", day=day.day, month=as_said(MONTHS[day.month - 1]))


def span_words(span: DateSpan) -> str:
    """A day, or the first and the last of several."""
    if span.first == span.last:
        return date_text(span.first)
    if (span.first.year, span.first.month) == (span.last.year, span.last.month):
        return said("{day} to {last}", day=span.first.day, last=date_text(span.last))
    return said("{first} to {last}", first=date_text(span.first), last=date_text(span.last))


def partial_words(text: str) -> str:
    """A date as exact as somebody typed it, in words; what is no date stands as it is.

    >>> partial_words("1957-10"), partial_words("1957-10-04"), partial_words("spring")
    ('October 1957', '4 October 1957', 'spring')
    """
    try:
        known = PartialDate.parse(text)
    except ValueError:
        return text
    if known.month is None:
        return str(known.year)
    if known.day is None:
        month = as_said(MONTHS[known.month - 1])
        return said("{month} {year}", month=month, year=known.year)
    return date_text(date(known.year, known.month, known.day))
