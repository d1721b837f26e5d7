"""Rows against rows: overlaps, gaps between ranges, identity bearers."""

from collections.abc import Callable, Iterator
from itertools import combinations

from witnessmark.codebook.checks.problems_names import WrongItemKind
from witnessmark.codebook.checks.problems_rows import (
    AloneOfAll,
    NoCodeOf,
    NoIdentityBearer,
    NumberForm,
    OverlappingRows,
    OverlappingSeries,
    ReversedRange,
    SeriesGap,
    ThirdIdentityBearer,
)
from witnessmark.codebook.conditions import can_both_hold
from witnessmark.codebook.coverage import BookCars, year_ranges
from witnessmark.codebook.date_records import Lag, Point
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.marks import Field
from witnessmark.codebook.records import (
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Rule,
    Series,
)
from witnessmark.codebook.site_records import Feature, Remark, Settlement, Site
from witnessmark.dates import PartialDate
from witnessmark.documents.entries import Placed
from witnessmark.problem import Problem
from witnessmark.source import Source

MOST_BACK = 500
"""Rows of one name are compared with this many before them: no real code has more."""

Row = CodeRow | Rule | Lag | Site | Feature | KnownException | Settlement | Remark | Point


def check_rows(draft: Draft) -> Iterator[Problem]:
    """Overlaps, ranges of numbers, identity bearers."""
    cars = draft.cars
    yield from (
        *_overlaps("the code", "code", draft.codes, lambda r: (r.table, r.code), cars),
        *_overlaps("the rule", "id", draft.rules, lambda r: r.id, cars),
        *_overlaps("the lag", "id", draft.lags, lambda r: r.id, cars),
        # A site may have a general row and one for a works, which then goes first.
        *_overlaps("the site", "id", draft.sites, lambda r: (r.id, bool(r.applies.works)), cars),
        *_overlaps("the feature", "id", draft.features, lambda r: (r.site, r.id), cars),
        *_overlaps("the exception", "id", draft.exceptions, lambda r: r.id, cars),
        *_overlaps("the settlement", "id", draft.settlements, lambda r: r.id, cars),
        *_overlaps("the remark", "id", draft.remarks, lambda r: r.id, cars),
        *_overlaps("the point", "id", draft.points, lambda r: r.id, cars),
    )
    yield from _check_series(draft)
    yield from _check_exceptions(draft)
    yield from _check_points(draft)
    yield from _check_bearers(draft)


def _overlaps[R: Row](
    thing: str,
    column: str,
    rows: tuple[Placed[R], ...],
    name: Callable[[R], object],
    cars: BookCars,
) -> Iterator[Problem]:
    """Rows of one name that hold for the same car, each against the first such before it."""
    groups: dict[object, list[Placed[R]]] = {}
    for row in rows:
        if not row.entry.text(column):
            continue
        group = groups.setdefault(name(row.record), [])
        for before in group[-MOST_BACK:]:
            if _are_disputed(before.record, row.record):
                continue
            if cars.meet(before.record.applies, row.record.applies):
                source = row.entry.source(column)
                text = row.entry.text(column)
                yield OverlappingRows(source, thing, text, whole_line(before.entry.place))
                break
        group.append(row)


def _are_disputed(one: Row, other: Row) -> bool:
    """Do sources disagree about this code, and does the book say so on both rows?"""
    if not (isinstance(one, CodeRow) and isinstance(other, CodeRow)):
        return False
    return one.disputed and other.disputed


def whole_line(place: Source) -> Source:
    """A row's place without the column: the row as a whole is meant."""
    return Source(place.name, place.line)


def _check_series(draft: Draft) -> Iterator[Problem]:
    """Ranges: written as their item, in order, without overlaps and missing years.

    Numbers that a maker left out between two ranges are no fault.
    """
    by_item: dict[str, list[Placed[Series]]] = {}
    for row in draft.series:
        item = draft.items_by_id.get(row.record.item)
        if item is None:
            continue
        if item.kind is not ItemKind.NUMBER:
            place = row.entry.source("item")
            yield WrongItemKind(place, item.id, item.kind, "an item of kind number")
            continue
        if row.record.alone and not row.record.applies.models:
            yield AloneOfAll(row.entry.source("alone"))
        faults = tuple(_number_faults(row, item))
        yield from faults
        by_item.setdefault(item.id, [])
        if not faults:
            yield from _shared_numbers(row, by_item[item.id], item, draft.cars)
        by_item[item.id].append(row)
    partial = {each.record.id for each in draft.items if each.record.has_gaps}
    for item_id, rows in by_item.items():
        if item_id not in partial:
            yield from _missing_years(item_id, rows)


def _number_faults(
    row: Placed[Series] | Placed[KnownException] | Placed[Point], item: Item
) -> Iterator[Problem]:
    """Faults in how `first` and `last` are written."""
    is_written = True
    for key in ("first", "last"):
        number = row.entry.text(key)
        fits = len(number) == (item.length or len(number)) and set(number) <= set(item.alphabet)
        if not fits and number:
            place = row.entry.source(key)
            yield NumberForm(place, item.id, number, item.length or len(number), item.alphabet)
        is_written = is_written and fits and bool(number)
    first, last = row.record.first, row.record.last
    if is_written and _order(first, item) > _order(last, item):
        yield ReversedRange(row.entry.source("last"), first, last)


def _order(number: str, item: Item) -> tuple[int, ...]:
    """Sorts numbers as the item's alphabet does, shorter ones first."""
    return (len(number), *(item.alphabet.index(character) for character in number))


def _shared_numbers(
    row: Placed[Series], before: list[Placed[Series]], item: Item, cars: BookCars
) -> Iterator[Problem]:
    """The first earlier range that shares numbers and cars with this one."""
    first, last = _ends(row.record, item)
    for other in before[-MOST_BACK:]:
        if tuple(_number_faults(other, item)):
            continue
        low, high = _ends(other.record, item)
        if not (first <= high and low <= last):
            continue
        is_one = can_both_hold(row.record.also, other.record.also)
        if is_one and cars.meet(row.record.applies, other.record.applies):
            yield OverlappingSeries(
                row.entry.source("first"), item.id, whole_line(other.entry.place)
            )
            return


def _ends(row: Series, item: Item) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Where a range begins and ends; of one whose end is not known its first number is certain."""
    return _order(row.first, item), _order(row.last or row.first, item)


def _missing_years(item_id: str, rows: list[Placed[Series]]) -> Iterator[Problem]:
    """Years between the first and last of an item's ranges for which none stands."""
    held = {
        year
        for row in rows
        for year in range(row.record.applies.first_year, row.record.applies.last_year + 1)
    }
    missing = set(range(min(held, default=0), max(held, default=0))) - held
    if missing:
        following = [row for row in rows if row.record.applies.first_year > min(missing)]
        yield SeriesGap(following[0].entry.source("first_year"), item_id, year_ranges(missing))


def _check_exceptions(draft: Draft) -> Iterator[Problem]:
    """Exceptions are written as their item is: a number, a code that a mark has, a date."""
    for row in draft.exceptions:
        item = draft.items_by_id.get(row.record.item)
        if item is not None and item.kind is ItemKind.NUMBER:
            yield from _number_faults(row, item)
        elif item is not None:
            fields = tuple(f for m in draft.marks for f in m.record.fields if f.says == item.id)
            known = _codes(draft, fields)
            for key in ("first", "last"):
                code = row.entry.text(key)
                is_date = item.kind is ItemKind.DATE and _is_date(code, fields)
                if code and code not in known and not is_date:
                    yield NoCodeOf(row.entry.source(key), code, item.id, item.kind)


def _codes(draft: Draft, fields: tuple[Field, ...]) -> frozenset[str]:
    """The codes that these fields can have, those in the place of a date among them."""
    tables, forms = {f.table for f in fields}, {f.date_form for f in fields}
    rows = (row.record.code for row in draft.codes if row.record.table in tables)
    placed = (
        code for f in draft.date_forms if f.record.id in forms for code in f.record.placeholders
    )
    return frozenset(rows) | {each.code for each in placed}


def _is_date(text: str, fields: tuple[Field, ...]) -> bool:
    """Is it a date as exact as it is known, or as long and written as one of the fields is?"""
    try:
        PartialDate.parse(text)
    except ValueError:
        return any(len(text) in f.widths and set(text) <= set(f.alphabet) for f in fields)
    return True


def _check_points(draft: Draft) -> Iterator[Problem]:
    """Points are of numbers, written as their item is, and their days are in order."""
    for row in draft.points:
        item = draft.items_by_id.get(row.record.item)
        if item is not None and item.kind is not ItemKind.NUMBER:
            place = row.entry.source("item")
            yield WrongItemKind(place, item.id, item.kind, "an item of kind number")
        elif item is not None:
            yield from _number_faults(row, item)
        if not all(map(row.entry.is_written, ("date_first", "date_last"))):
            continue
        first, last = row.record.date_first, row.record.date_last
        if PartialDate.parse(last).span().last < PartialDate.parse(first).span().first:
            yield ReversedRange(row.entry.source("date_last"), first, last)


def _check_bearers(draft: Draft) -> Iterator[Problem]:
    """Every car has one assembly that bears its identity, or two that both do."""
    bearers = [each for each in draft.assemblies if each.record.identity_bearer]
    for index, bearer in enumerate(bearers):
        met = [
            other
            for other in bearers[:index][-MOST_BACK:]
            if draft.cars.meet(other.record.applies, bearer.record.applies)
        ]
        pairs = combinations(met, 2)
        if any(draft.cars.meet(one.record.applies, other.record.applies) for one, other in pairs):
            source = bearer.entry.source("identity_bearer")
            others = tuple(each.record.id for each in met)
            yield ThirdIdentityBearer(source, bearer.record.id, others)
    for left in draft.cars.left_out(
        draft.ground.whole, [bearer.record.applies for bearer in bearers]
    ):
        yield NoIdentityBearer(draft.top.source("id"), left)
