"""What stands at a place by the book's layout, and what each field should say under the claim.

The claim is asked for the values of codes and for its date. The value of a number is never
asked for: a serial is planned from its layout alone.
"""

from dataclasses import replace
from datetime import date, timedelta

from witnessmark.casefile.records import Claim
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import CarContext, ItemKind
from witnessmark.dates import DateSpan, PartialDate
from witnessmark.plan.records import Characters, Claimed, CodeExpected, FieldPlan, MarkPlan

DOT = "·"
"""Stands for one place of a serial."""


def mark_plans(
    book: CodeBook, context: CarContext, claim: Claim, site: str
) -> tuple[MarkPlan, ...]:
    """The marks of a place that this car could carry; those that look alike as one."""
    found: dict[object, MarkPlan] = {}
    for mark in book.marks_for(context):
        if mark.site != site:
            continue
        plan = _plan(book, context, claim, mark)
        key = (mark.windows, mark.kind, tuple(map(_layout, mark.fields)), plan.windows)
        first = found.get(key)
        if first is None:
            found[key] = plan
            continue
        found[key] = replace(
            first,
            ids=(*first.ids, *plan.ids),
            names=tuple(dict.fromkeys((*first.names, *plan.names))),
            works=_joined(first.works, plan.works),
        )
    return tuple(found.values())


def _joined(one: tuple[str, ...], other: tuple[str, ...]) -> tuple[str, ...]:
    """The works of both; none are named where either holds for all."""
    return tuple(dict.fromkeys((*one, *other))) if one and other else ()


def _layout(field: Field) -> object:
    return field.heading, field.row, field.column, field.before, field.widths


def _plan(book: CodeBook, context: CarContext, claim: Claim, mark: Mark) -> MarkPlan:
    works = tuple(each.name for each in book.works if each.id in mark.applies.works)
    return MarkPlan(
        row=mark,
        ids=(mark.id,),
        names=(mark.local_name or mark.name,),
        works=works,
        windows=tuple(
            _window(tuple(field_plan(book, context, claim, field) for field in window))
            for window in mark.windows_in_order()
        ),
    )


def _window(fields: tuple[FieldPlan, ...]) -> tuple[FieldPlan, ...]:
    """The fields of a window; where several share a heading, it stands at the first alone."""
    if len(fields) < 2:
        return fields
    first, *others = (replace(field, shares_window=True) for field in fields)
    return first, *(
        replace(field, heading="") if field.heading == first.heading else field for field in others
    )


def field_plan(book: CodeBook, context: CarContext, claim: Claim, field: Field) -> FieldPlan:
    """One field by its layout, with the codes or days that the claim would have there."""
    item = book.item(field.says)
    plan = FieldPlan(
        row=field,
        item=item.name if item else field.name,
        heading=field.heading,
        characters=_characters(field),
        claimed=Claimed.OPEN,
    )
    if item is None or item.kind is ItemKind.NUMBER:
        return replace(plan, claimed=Claimed.SERIAL, masked=DOT * max(field.widths, default=0))
    if field.date_form:
        days = days_allowed(book, context, claim, field.says)
        return replace(plan, claimed=Claimed.DATE if days else Claimed.OPEN, dates=days)
    value = claim.items.get(field.says, "")
    if item.kind is not ItemKind.CODE or not field.table or not value:
        return plan
    rows = [row for row in book.table(field.table, context) if row.value == value]
    codes = tuple(
        dict.fromkeys(CodeExpected(r.code, r.meaning, not r.citation.basis.weighs) for r in rows)
    )
    empty = field.empty.meaning if field.empty and field.empty.value == value else ""
    claimed = Claimed.CODE if codes or empty else Claimed.OPEN
    return replace(plan, claimed=claimed, expected=codes, empty_means=empty)


def _characters(field: Field) -> Characters:
    figures = any(character.isdigit() for character in field.alphabet)
    letters = any(character.isalpha() for character in field.alphabet)
    if figures and letters:
        return Characters.BOTH
    return Characters.FIGURES if figures else Characters.LETTERS


def days_allowed(book: CodeBook, context: CarContext, claim: Claim, item: str) -> DateSpan | None:
    """The days that a date of this item may have if the car was built as claimed, by the lags.

    None where the book has no lag from it to the car's own date that weighs, or the claim
    gives no year.
    """
    built = _built(book, context, claim)
    if built is None:
        return None
    for lag in book.lags:
        known = lag.applies.covers(context) and lag.citation.basis.weighs
        if known and (lag.earlier, lag.later) == (item, "build_date"):
            first = _before(built.first, lag.most_days)
            return DateSpan(first, _before(built.last, lag.least_days))
    return None


def _before(day: date, days: int) -> date:
    """So many days before; the first day of all where that is out of reach."""
    try:
        return day - timedelta(days=days)
    except OverflowError:
        return date.min


def _built(book: CodeBook, context: CarContext, claim: Claim) -> DateSpan | None:
    """The days on which the car was built, as claimed, or else by its model year."""
    if claim.built:
        return PartialDate.parse(claim.built).span()
    if context.model_year is None:
        return None
    return book.days_built(context, context.model_year, context.model_year)
