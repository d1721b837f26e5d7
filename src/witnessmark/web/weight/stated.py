"""What the examiner has taken otherwise in a case: rows with another value, rows vouched for; what
each was, what it is, who said so, when, and why."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from witnessmark import store
from witnessmark.casefile import Override, Vouched
from witnessmark.catalogue import said
from witnessmark.entry import CaseDraft, Entered
from witnessmark.source import NOWHERE
from witnessmark.web.shared.desk import Bench
from witnessmark.weighing import assumed_rows
from witnessmark.wording.amounts import capital, rate_text, sentence
from witnessmark.wording.conclusions import row_words

OVERRIDES, VOUCHED = "circumstances.overrides", "circumstances.vouched"


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedRow:
    """One row that is taken otherwise: `was` is empty of one that is vouched for."""

    row: str
    words: str
    was: str
    now: str
    reason: str
    who: str
    when: datetime | None


def value_text(value: float, figures: int = 4) -> str:
    """The value of a row in so many figures, so that two that were typed are told apart.

    >>> value_text(0.000261), value_text(2.5)
    ('0.0261 %', '× 2.5')
    """
    if value >= 1:
        return rate_text(value)
    return said("{percent} %", percent=plain_number(value * 100, figures))


def plain_number(value: float, figures: int = 4) -> str:
    """So many figures, without an exponent.

    >>> plain_number(0.00001), plain_number(45.0)
    ('0.00001', '45')
    """
    return f"{float(f'{value:.{figures}g}'):.9f}".rstrip("0").rstrip(".")


def overridden(bench: Bench) -> dict[str, StatedRow]:
    """The assumed rows that have another value in this case, by their ids."""
    shipped = {each.id: each.value for each in assumed_rows()}
    entered = _entered(bench, "overrides")
    return {
        each.row: StatedRow(
            row=each.row,
            words=capital(row_words(each.row)),
            was=value_text(shipped[each.row]),
            now=value_text(each.value),
            reason=sentence(each.reason),
            who=entered[each.row].who,
            when=entered[each.row].at,
        )
        for each in bench.casefile.circumstances.overrides
        if each.row in shipped
    }


def vouched_for(bench: Bench) -> tuple[StatedRow, ...]:
    """The rows of the book from memory that somebody answers for."""
    people = {each.id: each.name for each in bench.casefile.assignment.examiners}
    entered = _entered(bench, "vouched")
    return tuple(
        StatedRow(
            row=each.row,
            words=each.row,
            was="",
            now=people.get(each.by, each.by),
            reason=sentence(each.reason),
            who=entered[each.row].who,
            when=entered[each.row].at,
        )
        for each in bench.casefile.circumstances.vouched
    )


def _entered(bench: Bench, section: str) -> Mapping[str, store.KeptRevision]:
    """The revision in which each entry came to say what it says, by its row."""
    left = {each["row"]: each for each in _rows(bench.kept.text, section)}
    found = dict.fromkeys(left, bench.kept)
    if not left:
        return found
    for kept in reversed(store.revisions(bench.case)):
        if kept.number > bench.number:
            continue
        there = list(_rows(kept.text, section))
        left = {row: each for row, each in left.items() if each in there}
        found |= dict.fromkeys(left, kept)
    return found


def _rows(text: str, section: str) -> Iterator[dict[str, Any]]:
    yield from json.loads(text).get("circumstances", {}).get(section) or ()


# ------------------------------------------------------------------------ entered and taken back


def enter_override(draft: CaseDraft, fields: Mapping[str, Entered]) -> tuple[str, ...]:
    """Another value for an assumed row, in place of an earlier one; tells what it was and is."""
    row = str(fields["row"].value)
    was = _value(draft, row)
    _remove(draft, OVERRIDES, row)
    draft.add(OVERRIDES, Override, fields)
    if draft.problems or was is None:
        return ()
    now = draft.casefile.circumstances.overrides[-1].value
    return (f"{capital(row_words(row))}: {value_text(now)}, before {value_text(was)}",)


def take_back_override(draft: CaseDraft, row: str) -> tuple[str, ...]:
    """The value that the model has again."""
    if not _remove(draft, OVERRIDES, row):
        return ()
    return (f"{capital(row_words(row))}: {value_text(_value(draft, row) or 0.0)} again",)


def enter_vouched(draft: CaseDraft, fields: Mapping[str, Entered]) -> tuple[str, ...]:
    """A row from memory that somebody answers for."""
    row = str(fields["row"].value)
    _remove(draft, VOUCHED, row)
    draft.add(VOUCHED, Vouched, fields)
    return (f"{row}, by {fields['by'].value}",)


def withdraw_vouched(draft: CaseDraft, row: str) -> tuple[str, ...]:
    """The row is from memory again."""
    return (row,) if _remove(draft, VOUCHED, row) else ()


def as_number(given: Entered, *, is_share: bool = False) -> Entered:
    """A number where one was typed, of a share from per cent; anything else is told by the check
    of the field."""
    try:
        number = float(given.value)
    except ValueError:
        return given
    return replace(given, value=float(f"{number / 100:.6g}") if is_share else number)


def _value(draft: CaseDraft, row: str) -> float | None:
    """What a row is taken as now."""
    shipped = {each.id: each.value for each in assumed_rows()}
    own = {each.row: each.value for each in draft.casefile.circumstances.overrides}
    return own.get(row, shipped.get(row))


def _remove(draft: CaseDraft, section: str, row: str) -> bool:
    """Without the entry of this row; whether there was one."""
    _, _, name = section.partition(".")
    rows = [each.row for each in getattr(draft.casefile.circumstances, name)]
    if row in rows:
        draft.remove(section, rows.index(row))
    return row in rows


def trial_fields(row: str, value: Entered) -> dict[str, Entered]:
    """What is entered for a trial, which nobody is to read."""
    return {
        "row": Entered(row, NOWHERE),
        "value": value,
        "reason": Entered("a trial", NOWHERE),
    }
