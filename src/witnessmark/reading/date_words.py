"""A date as people write it, put as the mark's own form of date writes it.

JUNE 1970 on a label whose form is month/year is 06/70. Only forms that write the
month in figures are helped: what the letter of a month is stands in a code book.
"""

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from witnessmark.catalogue import said
from witnessmark.codebook import DatePart, DateToken
from witnessmark.reading.records import Change

MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip

_NAMES = "|".join(f"{name}|{name[:3]}" for name in MONTHS) + "|sept"
_WORDS = re.compile(
    rf"(?:(?<![0-9A-Z])(?P<before>\d{{1,2}})(?:ST|ND|RD|TH)?[\s.,/-]*)?"
    rf"(?<![A-Z])(?P<month>{_NAMES})(?![A-Z])\.?[\s.,/-]*"
    rf"(?:(?P<after>\d{{1,2}})(?:ST|ND|RD|TH)?(?!\d)(?=[\s,.-]+\d)[\s,.-]*)?"
    rf"(?P<year>(?:19|20)?\d\d(?!\d))?",
    re.IGNORECASE,
)
_FIGURES = re.compile(
    r"(?<![0-9A-Z])(?P<month>0?[1-9]|1[0-2])\s*[-./ ]\s*(?P<year>(?:19|20)?\d\d)(?!\d)",
    re.IGNORECASE,
)
_IN_FIGURES = (DatePart.DAY, DatePart.MONTH, DatePart.YEAR_TWO, DatePart.YEAR_FOUR)
_IN_FIGURES_TOO = (*_IN_FIGURES, DatePart.YEAR_DIGIT, DatePart.LITERAL)


@dataclass(frozen=True, slots=True)
class TypedText:
    """A text with the column, from 1, at which each of its characters was typed."""

    text: str
    columns: tuple[int, ...]
    changes: tuple[Change, ...] = ()


@lru_cache(maxsize=256)
def _groups(count: int) -> re.Pattern[str]:
    """So many numbers with one sign between two of them."""
    between = r"\s*[-./ ]\s*"
    numbers = between.join([r"(\d{1,4})"] * count)
    return re.compile(rf"(?<![0-9A-Z/.-]){numbers}(?![0-9A-Z])", re.IGNORECASE)


def _in_groups(text: str, tokens: tuple[DateToken, ...]) -> TypedText | None:
    """Numbers parted by signs, each as wide as the form writes it, with the form's own signs."""
    numbers = [token for token in tokens if token.part is not DatePart.LITERAL]
    match = _groups(len(numbers)).search(text)
    if match is None:
        return None
    groups = iter(match.groups())
    written = ""
    for token in tokens:
        if token.part is DatePart.LITERAL:
            written += token.text
            continue
        group = next(groups)
        is_year = token.part not in (DatePart.DAY, DatePart.MONTH)
        if is_year and len(group) == 2 and token.width == 4:
            group = f"19{group}"
        group = group[-token.width :] if is_year else group.zfill(token.width)
        if len(group) != token.width:
            return None
        written += group
    return None if written == match.group() else _replaced(text, match, written)


def may_be_helped(tokens: tuple[DateToken, ...]) -> bool:
    """Is this a form of date in figures that names the month and more?"""
    parts = [token.part for token in tokens]
    return DatePart.MONTH in parts and len(parts) > 1 and set(parts) <= set(_IN_FIGURES_TOO)


def as_forms_write(text: str, forms: tuple[tuple[DateToken, ...], ...]) -> TypedText:
    """The text with its first date written as one of these forms has it; else as it is."""
    for tokens in forms:
        if any(token.part is DatePart.LITERAL for token in tokens):
            found = _in_groups(text, tokens)
            if found is not None:
                return found
        is_month_and_year = {t.part for t in tokens if t.part is not DatePart.LITERAL} in (
            {DatePart.MONTH, DatePart.YEAR_TWO},
            {DatePart.MONTH, DatePart.YEAR_FOUR},
        )
        for pattern in (_WORDS, *((_FIGURES,) if is_month_and_year else ())):
            for match in pattern.finditer(text):
                written = _written(match, tokens)
                if written and written != match.group():
                    return _replaced(text, match, written)
                if written:
                    break
    return TypedText(text, ())


def as_windows_write(text: str, forms: tuple[tuple[tuple[DateToken, ...], ...], ...]) -> TypedText:
    """The same where | part the windows: each window is helped by its own forms alone."""
    start = 0
    for part, own in zip(text.split("|"), forms, strict=False):
        found = as_forms_write(part, own)
        if found.changes:
            end = start + len(part)
            columns = (
                *range(1, start + 1),
                *(start + column for column in found.columns),
                *range(end + 1, len(text) + 1),
            )
            changes = tuple(replace(each, column=start + each.column) for each in found.changes)
            return TypedText(text[:start] + found.text + text[end:], columns, changes)
        start += len(part) + 1
    return TypedText(text, ())


def _written(match: re.Match[str], tokens: tuple[DateToken, ...]) -> str:
    """The date of a match as a form writes it; empty where a part of it is not stated."""
    stated = match.groupdict()
    year = stated["year"] or ""
    day = stated.get("before") or stated.get("after") or ""
    word = stated["month"].casefold()
    month = (
        word.zfill(2)
        if word.isdigit()
        else f"{1 + next(k for k, m in enumerate(MONTHS) if m.startswith(word[:3])):02}"
    )
    whole = year if len(year) != 2 else f"19{year}"
    texts = [
        {
            DatePart.LITERAL: token.text,
            DatePart.MONTH: month,
            DatePart.DAY: day and day.zfill(token.width),
            DatePart.YEAR_FOUR: whole,
        }.get(token.part, year[-token.width :])
        for token in tokens
    ]
    return "".join(texts) if all(texts) else ""


def _replaced(text: str, match: re.Match[str], written: str) -> TypedText:
    start, end = match.span()
    while end > start and text[end - 1].isspace():
        end -= 1
    columns = (
        *range(1, start + 1),
        *(start + 1 + min(k, end - start - 1) for k in range(len(written))),
        *range(end + 1, len(text) + 1),
    )
    reason = said("a date, written in the form that this mark uses")
    change = Change(start + 1, text[start:end], written, reason)
    return TypedText(text[:start] + written + text[end:], columns, (change,))
