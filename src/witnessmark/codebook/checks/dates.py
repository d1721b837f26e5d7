"""Forms of date: their parts place a day, their letters have rows, their fields fit."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_marks import (
    CodeLength,
    DateNotPlaced,
    DatePartTwice,
    DatePartWidth,
    DateWidth,
    LetterValue,
    OutsideAlphabet,
)
from witnessmark.codebook.dates import is_number, token_widths
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import DateForm, DatePart, DateToken
from witnessmark.codebook.records import CodeRow
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem

DIGITS = "0123456789"
FIXED_WIDTHS = {DatePart.YEAR_DIGIT: 1, DatePart.YEAR_TWO: 2, DatePart.YEAR_FOUR: 4}
MOST_WIDTHS = {DatePart.DAY: 2, DatePart.MONTH: 2, DatePart.WEEK: 2, DatePart.DAY_COUNT: 6}
LETTERS = {DatePart.MONTH_LETTER: 24, DatePart.WEEK_LETTER: 5}
"""The parts that are read by a table, with the greatest value of a row."""


def check_dates(draft: Draft) -> Iterator[Problem]:
    """Every form of date, and every field that follows one."""
    for form in draft.date_forms:
        yield from _check_parts(form)
        yield from _check_letters(form, draft)
        yield from _check_placeholders(form)
    yield from _check_fields(draft)


def _check_parts(form: Placed[DateForm]) -> Iterator[Problem]:
    """Widths of the parts, each part once, and whether they place a date."""
    sound = True
    said: set[DatePart] = set()
    for token, entry in zip(form.record.tokens, form.entry.entries("tokens"), strict=True):
        if entry.faulty:
            sound = False
            continue
        if token.part is not DatePart.LITERAL and token.part in said:
            sound = False
            yield DatePartTwice(entry.source("part"), token.part)
        said.add(token.part)
        wanted = _wanted_width(token)
        if wanted:
            sound = False
            yield DatePartWidth(entry.source("width"), token.part, token.width, wanted)
    reason = _not_placed(form.record)
    if reason and sound and "tokens" not in form.entry.faulty and form.record.tokens:
        yield DateNotPlaced(form.entry.source("tokens"), form.record.id, reason)


def _wanted_width(token: DateToken) -> str:
    """What the width should be, or an empty text if it is right."""
    least = token.least_width or token.width
    if token.part is DatePart.LITERAL:
        return "" if token.text and token.width == len(token.text) else "text, and its width"
    if token.part in FIXED_WIDTHS:
        fixed = FIXED_WIDTHS[token.part]
        return "" if token.width == least == fixed else f"width = {fixed}"
    if token.part in LETTERS:
        return "" if 1 <= least <= token.width else "width = that of its codes"
    most = MOST_WIDTHS[token.part]
    return "" if 1 <= least <= token.width <= most else f"1 to {most}, least_width no more"


def _not_placed(form: DateForm) -> str:
    """Why the parts of a form do not give a date, or an empty text."""
    parts = {token.part for token in form.tokens}
    if DatePart.DAY_COUNT in parts:
        return "" if form.start else "a day count needs start"
    has_month = parts & {DatePart.MONTH, DatePart.MONTH_LETTER}
    if parts & {DatePart.DAY, DatePart.WEEK_LETTER} and not has_month:
        return "a day or a week of the month needs the month"
    if parts <= {DatePart.LITERAL}:
        return "nothing in it says when"
    return ""


def _check_letters(form: Placed[DateForm], draft: Draft) -> Iterator[Problem]:
    """Month and week letters have a table, whose values are months or weeks."""
    for token, entry in zip(form.record.tokens, form.entry.entries("tokens"), strict=True):
        if token.part not in LETTERS:
            continue
        if not token.table and "table" not in entry.faulty:
            reason = f"a {token.part} needs a table"
            yield DateNotPlaced(entry.place, form.record.id, reason)
        most = LETTERS[token.part]
        for row in draft.codes:
            if row.record.table != token.table:
                continue
            value = row.record.value
            if row.entry.is_written("value") and not (is_number(value) and 1 <= int(value) <= most):
                yield LetterValue(row.entry.source("value"), value, token.part, 1, most)
            lengths = tuple(token_widths(token))
            if row.record.code and token.width and len(row.record.code) not in lengths:
                place = row.entry.source("code")
                yield CodeLength(place, row.record.code, form.record.id, lengths)


def code_widths(form: DateForm) -> tuple[int, ...]:
    """The lengths that a code of the form can have, in order."""
    found = {0}
    for token in form.tokens:
        # Length by length: all combinations of many parts would never come to an end.
        found = {length + width for length in found for width in token_widths(token)}
    return tuple(sorted(found))


def _check_placeholders(form: Placed[DateForm]) -> Iterator[Problem]:
    """A placeholder is as long as a code of the form."""
    lengths = code_widths(form.record)
    for entry in form.entry.entries("placeholders"):
        code = entry.text("code")
        if code and len(code) not in lengths:
            place = entry.source("code")
            yield DateWidth(
                place, f"the placeholder {code!r}", (len(code),), form.record.id, lengths
            )


def _check_fields(draft: Draft) -> Iterator[Problem]:
    """A field that follows a form has its lengths and its characters."""
    forms = {form.record.id: form.record for form in draft.date_forms}
    codes = tuple(row.record for row in draft.codes)
    for mark in draft.marks:
        for field in draft.fields(mark):
            record, entry = field.record, field.entry
            form = forms.get(record.date_form)
            if form is None:
                continue
            wanted = code_widths(form)
            if record.widths and record.widths != wanted:
                thing = f"the field {record.id!r}"
                yield DateWidth(entry.source("widths"), thing, record.widths, form.id, wanted)
            needed = _characters(form, codes)
            foreign = "".join(c for c in needed if c not in record.alphabet)
            if foreign and record.alphabet:
                owner = f"the field {record.id!r}"
                yield OutsideAlphabet(entry.source("alphabet"), form.id, foreign, owner)


def _characters(form: DateForm, codes: tuple[CodeRow, ...]) -> str:
    """The characters that codes of this form can have, each once."""
    found: list[str] = []
    for token in form.tokens:
        if token.part is DatePart.LITERAL:
            found += token.text
        elif token.part in LETTERS:
            found += [c for row in codes if row.table == token.table for c in row.code]
        else:
            found += DIGITS
    for placeholder in form.placeholders:
        found += placeholder.code
    return "".join(dict.fromkeys(found))
