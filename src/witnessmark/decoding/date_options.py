"""A field with a form of date: every date that the cells allow.

Unlike a code table a form of date allows almost every text, so the characters
that were read are taken as read: a set gives each of its characters, a worn
place each that the form can have there. What a misread digit could do is left
to the weighing.
"""

from collections.abc import Iterator
from itertools import islice, product
from math import prod

from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.dates import read_date_code
from witnessmark.codebook.marks import DateForm, DatePart, DateToken, Placeholder
from witnessmark.codebook.records import CodeRow, Run
from witnessmark.dates import DateSpan, year_span
from witnessmark.decoding.align import AlignedField
from witnessmark.decoding.kept import table_rows
from witnessmark.decoding.options import Asked, FieldOption, not_listed, number_option, written
from witnessmark.decoding.rates import NOT_LISTED_ROW, shipped_value
from witnessmark.decoding.records import FieldMeaning
from witnessmark.reading.records import Cell

MOST_CODES = 400
"""Most codes that are read one by one: every day of a year, and a little more."""

SEPARATE_CODES = 12
"""More codes than this are given as one meaning with all their spans."""

SPANS_SHOWN = 3
"""More spans than this are told as the first and the last of them."""


def date_options(asked: Asked, aligned: AlignedField) -> tuple[FieldOption, ...]:
    """What the field may say: dates, a placeholder, or a code that the form has not."""
    field = aligned.field
    form = asked.book.date_form(field.date_form)
    if form is None:
        return (number_option(asked, aligned),)
    cells = aligned.cells.cells
    codes = list(islice(_codes(form, asked.book, cells, field.alphabet), MOST_CODES + 1))
    if len(codes) > MOST_CODES:
        return (FieldOption(1.0, _wide(aligned, form)),)
    tables = _letters(form, asked.book)
    runs = asked.book.runs_for(asked.context) if form.within_run else ()
    meanings = [_read(aligned, form, code, tables, runs) for code in codes]
    found = [meaning for meaning in meanings if meaning is not None]
    refused = 1.0 - len(found) / _texts(cells, field.alphabet)
    if not found:
        return (FieldOption(1.0, not_listed(field, cells)),)
    unlisted = shipped_value(NOT_LISTED_ROW) * max(refused, 0.0)
    if len(found) > SEPARATE_CODES:
        found = [_merged(aligned, form, found)]
    share = (1.0 - unlisted) / len(found)
    options = [FieldOption(share, meaning) for meaning in found]
    if unlisted:
        options.append(FieldOption(unlisted, not_listed(field, cells)))
    return tuple(options)


def _letters(form: DateForm, book: CodeBook) -> tuple[CodeRow, ...]:
    """The rows of the letters that the form uses."""
    names = dict.fromkeys(token.table for token in form.tokens if token.table)
    return tuple(row for name in names for row in table_rows(book, name))


def _codes(form: DateForm, book: CodeBook, cells: tuple[Cell, ...], alphabet: str) -> Iterator[str]:
    """The texts that the cells allow and the form could have; each may still be no date."""
    placed = _placed_tokens(form, len(cells))
    choices = []
    for place, cell in enumerate(cells):
        if cell.characters:
            choices.append(cell.characters)
        else:
            token = placed[place] if placed else None
            choices.append(_characters(token, place, placed, book, alphabet))
    return ("".join(text) for text in product(*choices))


def _placed_tokens(form: DateForm, length: int) -> list[DateToken]:
    """The part of the form at each place, empty where widths do not settle it."""
    tokens = [token for token in form.tokens for _ in range(token.width)]
    return tokens if len(tokens) == length else []


def _characters(
    token: DateToken | None, place: int, placed: list[DateToken], book: CodeBook, alphabet: str
) -> str:
    """The characters that a worn place of this part can have."""
    if token is None:
        return alphabet
    first = placed.index(token)
    leads = place == first and token.width > 1
    if token.part is DatePart.LITERAL:
        return token.text[(place - first) % max(len(token.text), 1)] if token.text else alphabet
    if token.table:
        codes = (row.code for row in table_rows(book, token.table))
        return "".join(dict.fromkeys(code for code in codes if len(code) == 1)) or alphabet
    if leads and token.part is DatePart.DAY:
        return "0123"
    if leads and token.part is DatePart.MONTH:
        return "01"
    if leads and token.part is DatePart.WEEK:
        return "012345"
    return "0123456789"


def _texts(cells: tuple[Cell, ...], alphabet: str) -> int:
    """How many texts the cells allow, whatever the form."""
    return prod(len(cell.characters) or len(alphabet) or 1 for cell in cells)


def _read(
    aligned: AlignedField,
    form: DateForm,
    code: str,
    tables: tuple[CodeRow, ...],
    runs: tuple[Run, ...],
) -> FieldMeaning | None:
    """The meaning of one code; None if the form cannot explain it."""
    for placeholder in form.placeholders:
        if placeholder.code == code:
            return _placeholder(aligned, placeholder)
    spans = read_date_code(form, code, tables, runs)
    return _meaning(aligned, form, code, spans) if spans else None


def _placeholder(aligned: AlignedField, placeholder: Placeholder) -> FieldMeaning:
    return FieldMeaning(
        field=aligned.field.id,
        code=placeholder.code,
        says=aligned.field.says,
        value="",
        meaning=placeholder.meaning,
        basis=placeholder.citation.basis,
        source=placeholder.citation.source,
        placeholder=True,
    )


def _meaning(
    aligned: AlignedField, form: DateForm, code: str, spans: tuple[DateSpan, ...]
) -> FieldMeaning:
    return FieldMeaning(
        field=aligned.field.id,
        code=code,
        says=aligned.field.says,
        value=_told(spans),
        meaning=_meant(spans),
        basis=form.citation.basis,
        source=form.citation.source,
        spans=spans,
    )


def _merged(aligned: AlignedField, form: DateForm, found: list[FieldMeaning]) -> FieldMeaning:
    """Many codes as one meaning, with all their days."""
    spans = sorted({span for meaning in found for span in meaning.spans})
    return _meaning(aligned, form, written(aligned.cells.cells), tuple(spans))


def _wide(aligned: AlignedField, form: DateForm) -> FieldMeaning:
    """Too many codes to read one by one: any day of the form's years."""
    spans = (year_span(form.first_year, form.last_year),)
    return _meaning(aligned, form, written(aligned.cells.cells), spans)


def _meant(spans: tuple[DateSpan, ...]) -> str:
    """The spans in the language of the page: all of a few, else how many between which days."""
    if len(spans) > SPANS_SHOWN:
        return said(
            "one of {number} dates from {first} to {last}",
            number=len(spans),
            first=spans[0].first.isoformat(),
            last=max(span.last for span in spans).isoformat(),
        )
    text = _span_meant(spans[0])
    for span in spans[1:]:
        text = said("{words} or {last}", words=text, last=_span_meant(span))
    return text


def _span_meant(span: DateSpan) -> str:
    first, last = span.first.isoformat(), span.last.isoformat()
    return first if first == last else said("{first} to {last}", first=first, last=last)


def _told(spans: tuple[DateSpan, ...]) -> str:
    """The spans in words that are the same in every language of a page."""
    if len(spans) <= SPANS_SHOWN:
        return " or ".join(str(span) for span in spans)
    last = max(span.last for span in spans)
    return f"one of {len(spans)} dates from {spans[0].first.isoformat()} to {last.isoformat()}"
