"""What marks read beside what was claimed, in sentences, as the findings show them."""

from dataclasses import dataclass
from datetime import date as day_type

import numpy as np

from witnessmark.agreement.records import Finding, FindingKind, Outcome
from witnessmark.agreement.showing import CLAIM
from witnessmark.catalogue import in_a_row, said
from witnessmark.codebook.records import Item
from witnessmark.day_words import date_text
from witnessmark.weighing.arrays import Days, Places, Which
from witnessmark.weighing.evidence.noted import (
    ABSENT,
    READ,
    REMOVED,
    CodeSeen,
    DateSeen,
    NumberSeen,
)
from witnessmark.weighing.evidence.numbers import claimed_number
from witnessmark.weighing.pieces.noted_car import Noted

PLAUSIBLE = 0.05
"""Days and characters with less of the likeliest one's likelihood are not a reading of the mark."""


@dataclass(frozen=True, slots=True)
class Told:
    """What marks read and what was claimed of it, as the findings show them."""

    known: Noted
    findings: tuple[Finding, ...]

    def number(self, number: NumberSeen) -> str:
        """How a number that is gone, absent or another stands to the claim."""
        mark, apart = mark_name(self.known, number), differing(self.known, number)
        if number.status is ABSENT and number.always:
            return said("The {mark}, which this works always struck, is absent.", mark=mark)
        if number.status is ABSENT:
            return said("The {mark} is absent.", mark=mark)
        if number.status is REMOVED:
            return said("The {mark} was ground off, skimmed or struck over.", mark=mark)
        told = self._number_read(number, mark)
        if apart != 1:
            return told
        once = said("It differs from the claimed number in one character.")
        return in_a_row((told, once))

    def _number_read(self, number: NumberSeen, mark: str) -> str:
        finding = self._against_claim(number.mark, number.item)
        item = self.known.car.book.item(number.item)
        if finding is None or item is None:
            return said("The {mark} names another number than claimed.", mark=mark)
        shown = {subject.mark: subject.shown for subject in finding.subjects}
        return said(
            "The {mark} reads {read}; the claimed {item} is {claimed}.",
            mark=mark,
            read=shown[number.mark],
            item=item.name,
            claimed=shown[CLAIM],
        )

    def code(self, code: CodeSeen, item: Item) -> str:
        """A code, or a number that says the model, that says something else than claimed."""
        finding = self._against_claim(code.mark, code.item)
        if finding is not None:
            return finding.observation
        finding = self._out_of_series(code) if code.by_number else None
        if finding is not None:
            return finding.brief
        mark = self.known.car.book.mark(code.mark)
        return said(
            "The {mark} shows another {item} than claimed.",
            mark=mark.name if mark is not None else code.mark,
            item=item.name,
        )

    def _out_of_series(self, code: CodeSeen) -> Finding | None:
        """The finding that a number of its mark is one of another model."""
        return next(
            (
                each
                for each in self.findings
                if (each.outcome, each.kind) == (Outcome.DIFFER, FindingKind.SERIES)
                and each.subjects[0].mark == code.mark
            ),
            None,
        )

    def _against_claim(self, mark: str, item: str) -> Finding | None:
        """The finding that sets a mark apart from the claim."""
        return next(
            (
                each
                for each in self.findings
                if (each.outcome, each.topic) == (Outcome.DIFFER, item)
                and {mark, CLAIM} == {subject.mark for subject in each.subjects}
            ),
            None,
        )

    def day(self, date: DateSeen, *, last: int | None = None) -> str:
        """What a date reads, and its first day; with `last` its latest up to that day."""
        plausible_days = plausible(date)
        day = int(plausible_days.min())
        if last is not None:
            day = int(max(plausible_days[plausible_days <= last], default=plausible_days.max()))
        shown = (
            subject.shown
            for each in self.findings
            for subject in each.subjects
            if (subject.mark, subject.field) == (date.mark, date.field)
        )
        text = date_text(day_type.fromordinal(day))
        return in_a_row((each for each in (next(shown, ""), text) if each), " = ")


def differing(known: Noted, number: NumberSeen) -> int:
    """At how many places a number was clearly read as something other than the claimed one."""
    item = known.car.book.item(number.item)
    claim = known.car.casefile.claim.items.get(number.item, "")
    claimed = claimed_number(item, claim) if item is not None else None
    if claimed is None or number.status is not READ:
        return 0
    return int(np.count_nonzero(_apart(number, claimed)))


def _apart(number: NumberSeen, claimed: Places) -> Which:
    rows = number.rows
    return rows[np.arange(len(claimed)), claimed] < PLAUSIBLE * rows.max(axis=1)


def mark_name(known: Noted, number: NumberSeen) -> str:
    """What the mark of a number is called."""
    mark = known.car.book.mark(number.mark)
    return mark.name if mark is not None else number.mark


def agree(one: NumberSeen, other: NumberSeen) -> bool:
    """Can both be read as the same number?"""
    together = (one.rows * other.rows).max(axis=1)
    return bool(np.all(together >= PLAUSIBLE * one.rows.max(axis=1) * other.rows.max(axis=1)))


def plausible(date: DateSeen) -> Days:
    """The days that the date can be read as."""
    return date.days[date.likelihood >= PLAUSIBLE * date.likelihood.max()]


def first_day(date: DateSeen) -> int:
    """The first day that the date can be read as, in the years of such cars."""
    return int(plausible(date).min())
