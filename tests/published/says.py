"""What a field of an answer should say: a check of its value, code, meaning or dates.

A date may stand in an answer as spans, as a list of dates, or in its value.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

Span = tuple[date, date]

ANY = "some field"
"""Stands for whichever field says it."""


@dataclass(frozen=True)
class Says:
    """What is expected of one field: a check, and how the table shows it."""

    shown: str
    holds: Callable[[Mapping[str, Any]], bool]


def value(wanted: str) -> Says:
    """The canonical value."""
    return Says(wanted, lambda each: each.get("value") == wanted)


def code(wanted: str) -> Says:
    """The characters that the field was given."""
    return Says(f"code {wanted}", lambda each: each.get("code") == wanted)


def meaning(pattern: str) -> Says:
    """Words of the meaning."""
    return Says(f"“{pattern}”", lambda each: bool(re.search(pattern, str(each.get("meaning")))))


def span(first: str, last: str = "") -> Says:
    """One date and no other: a day, or the days from first to last."""
    wanted = (date.fromisoformat(first), date.fromisoformat(last or first))
    shown = f"{first} to {last}" if last else first
    return Says(shown, lambda each: spans_of(each) == [wanted])


def spans(*days: str) -> Says:
    """These days and no others, in any order."""
    wanted = {(date.fromisoformat(day), date.fromisoformat(day)) for day in days}
    return Says(" or ".join(days), lambda each: set(spans_of(each)) == wanted)


def first_of(day: str) -> Says:
    """This day first, whatever else stays possible."""
    wanted = date.fromisoformat(day)
    return Says(f"{day} first", lambda each: [s[0] for s in spans_of(each)][:1] == [wanted])


def among(day: str, *years: int) -> Says:
    """This day among the dates, all of which lie in these years."""
    wanted = date.fromisoformat(day)

    def holds(each: Mapping[str, Any]) -> bool:
        found = [first for first, _ in spans_of(each)]
        return wanted in found and {first.year for first in found} <= set(years)

    return Says(f"{day}, in {' or '.join(map(str, years))} alone", holds)


def within(*years: int) -> Says:
    """Dates, all of them in these years."""

    def holds(each: Mapping[str, Any]) -> bool:
        found = {first.year for first, _ in spans_of(each)}
        return bool(found) and found <= set(years)

    return Says(f"in {' or '.join(map(str, years))} alone", holds)


def never(pattern: str) -> Says:
    """Neither code nor value is of this form."""

    def holds(each: Mapping[str, Any]) -> bool:
        return not any(re.search(pattern, str(each.get(key))) for key in ("code", "value"))

    return Says(f"not {pattern}", holds)


def both(*parts: Says) -> Says:
    """All of these."""
    return Says(
        ", ".join(part.shown for part in parts),
        lambda each: all(part.holds(each) for part in parts),
    )


def spans_of(each: Mapping[str, Any]) -> list[Span]:
    """The dates of a field, wherever the answer has them; none where it only counts them."""
    for key in ("spans", "dates"):
        if isinstance(each.get(key), list) and each[key]:
            return [_span(item) for item in each[key]]
    told = str(each.get("value", ""))
    parts = [part.strip() for part in re.split(r" or |, ", told)]
    return [_span(part) for part in parts] if _is_dated(parts) else []


def _is_dated(parts: list[str]) -> bool:
    return all(re.fullmatch(r"\d{4}-\d\d-\d\d( to \d{4}-\d\d-\d\d)?", part) for part in parts)


def _span(item: object) -> Span:
    """A span written as a pair, as a mapping with first and last, or in words."""
    if isinstance(item, str):
        ends = item.split(" to ")
    elif isinstance(item, Mapping):
        ends = [str(item["first"]), str(item.get("last", item["first"]))]
    else:
        assert isinstance(item, list), item
        ends = [str(end) for end in item]
    return date.fromisoformat(ends[0]), date.fromisoformat(ends[-1])
