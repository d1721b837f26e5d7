"""Values: rules, codes of standing items, kinds of items, outcomes and sketches, lags."""

from collections.abc import Iterator

from witnessmark.casefile.words import LookClass
from witnessmark.codebook.checks.cell_parts import cell_parts
from witnessmark.codebook.checks.lag_circles import lag_circles
from witnessmark.codebook.checks.problems_names import NotInBook, UnknownValue, WrongItemKind
from witnessmark.codebook.checks.problems_rows import (
    ConditionForm,
    LagOrder,
    LagToItself,
    LongOutcome,
    NoIdentification,
    OutcomeForm,
    OutcomeLook,
    RepeatedCondition,
    RepeatedOutcome,
    RequiredOfMany,
    SketchForm,
    SketchOfNoOutcome,
    TooManyOutcomes,
    UndrawnOutcomes,
    UnknownSketch,
)
from witnessmark.codebook.draft import STANDING_ITEMS, Draft
from witnessmark.codebook.records import ItemKind, RuleKind
from witnessmark.codebook.sketches import sketches
from witnessmark.documents.entries import Entry
from witnessmark.problem import Problem

MOST_OUTCOMES = 12
"""A question with more answers is several questions."""
MOST_LETTERS = 80
"""Letters of an outcome that fit beside its box."""
LOOKS = tuple(look.value for look in LookClass)


def check_values(draft: Draft) -> Iterator[Problem]:
    """What rows say, against what can be said."""
    for check in (_check_items, _check_codes, _check_rules, _check_lags, _check_outcomes):
        yield from check(draft)


def _check_items(draft: Draft) -> Iterator[Problem]:
    """Standing items keep their kind, and one number identifies the car."""
    standing = {item.id: item.kind for item in STANDING_ITEMS}
    for item in draft.items:
        kind = standing.get(item.record.id)
        if kind is not None and kind is not item.record.kind and item.entry.is_written("kind"):
            found, wanted = item.record.kind, f"kind = {kind.value!r}"
            yield WrongItemKind(item.entry.source("kind"), item.record.id, found, wanted)
        if item.record.many and (kind is not None or item.record.kind is not ItemKind.CODE):
            place, wanted = item.entry.source("many"), "many = true for codes of the book's own"
            yield WrongItemKind(place, item.record.id, item.record.kind, wanted)
    naming = [
        item
        for item in draft.items
        if item.record.identification and item.record.kind is ItemKind.NUMBER
    ]
    if len(naming) != 1:
        place = naming[-1].entry.source("identification") if naming else draft.top.source("id")
        yield NoIdentification(place, len(naming))


def standing_values(draft: Draft, item: str) -> tuple[str, ...]:
    """The values that a standing item can have; none for other items."""
    match item:
        case "model":
            return tuple(each.record.id for each in draft.models)
        case "works" | "body_works":
            return tuple(each.record.id for each in draft.works if each.record.role == item)
        case "model_year":
            years = range(draft.ground.first_year, draft.ground.last_year + 1)
            return tuple(str(year) for year in years)
    return ()


def _check_codes(draft: Draft) -> Iterator[Problem]:
    """Codes of standing items say a model, works or year that the book has."""
    said: dict[str, str] = {}
    for mark in draft.marks:
        for field in mark.record.fields:
            if field.table and any(item.id == field.says for item in STANDING_ITEMS):
                said.setdefault(field.table, field.says)
    known = {item: standing_values(draft, item) for item in set(said.values())}
    for row in draft.codes:
        item = said.get(row.record.table, "")
        if item and row.entry.is_written("value") and row.record.value not in known[item]:
            place = row.entry.source("value")
            yield UnknownValue(place, row.record.value, known[item], item)


def _known_values(draft: Draft) -> dict[str, set[str]]:
    """The values that the book can say, by item of kind code."""
    in_table: dict[str, set[str]] = {}
    for row in draft.codes:
        in_table.setdefault(row.record.table, set()).add(row.record.value)
    known = {item.id: set(standing_values(draft, item.id)) for item in draft.all_items()}
    for mark in draft.marks:
        for field in mark.record.fields:
            values = known.setdefault(field.says, set())
            values |= in_table.get(field.table, set())
            if field.empty is not None:
                values.add(field.empty.value)
    return known


def _check_rules(draft: Draft) -> Iterator[Problem]:
    """Rules join codes, through values that something says; so do conditions of other rows."""
    known = _known_values(draft)
    kinds = {item.id: item.kind for item in draft.all_items()}
    many = {item.id for item in draft.all_items() if item.many}
    for rule in draft.rules:
        for item_key, values_key in (("if_item", "if_values"), ("then_item", "then_values")):
            item = rule.entry.text(item_key)
            if item not in kinds:
                continue
            if kinds[item] is not ItemKind.CODE:
                place = rule.entry.source(item_key)
                yield WrongItemKind(place, item, kinds[item], "an item of kind code")
                continue
            for index, value in enumerate(rule.entry.texts(values_key)):
                if value not in known[item]:
                    place = rule.entry.source(values_key, index)
                    yield UnknownValue(place, value, tuple(sorted(known[item])), item)
        asked = {rule.record.if_item, rule.record.then_item}
        yield from _check_conditions(rule.entry, asked, known, kinds)
        then = rule.record.then_item
        if rule.record.kind is RuleKind.ALLOWED and then in many:
            yield RequiredOfMany(rule.entry.source("then_item"), then)
    for row in draft.series:
        yield from _check_conditions(row.entry, {row.record.item}, known, kinds)
    for point in draft.points:
        yield from _check_conditions(point.entry, {point.record.item}, known, kinds)


def _check_conditions(
    entry: Entry, asked: set[str], known: dict[str, set[str]], kinds: dict[str, ItemKind]
) -> Iterator[Problem]:
    """Each further condition is written `item=value value`, of an item of kind code that the
    row has not `asked` for."""
    for part in cell_parts(entry, "also"):
        if not part.is_whole:
            yield ConditionForm(part.place, part.text)
        elif part.name not in kinds:
            yield NotInBook(part.name_place(), part.name, tuple(kinds), "item")
        elif kinds[part.name] is not ItemKind.CODE:
            kind = kinds[part.name]
            yield WrongItemKind(part.name_place(), part.name, kind, "an item of kind code")
        elif part.name in asked:
            yield RepeatedCondition(part.name_place(), part.name)
        else:
            values = known[part.name]
            for value in part.said.split():
                if value not in values:
                    place = part.said_place(value)
                    yield UnknownValue(place, value, tuple(sorted(values)), part.name)
        asked.add(part.name)


def _check_lags(draft: Draft) -> Iterator[Problem]:
    """Lags stand between two dates, and their days are in order, also round a circle."""
    for lag in draft.lags:
        for key in ("earlier", "later"):
            item = draft.items_by_id.get(lag.entry.text(key))
            if item is not None and item.kind is not ItemKind.DATE:
                place = lag.entry.source(key)
                yield WrongItemKind(place, item.id, item.kind, "an item of kind date")
        record = lag.record
        if record.earlier and record.earlier == record.later:
            yield LagToItself(lag.entry.source("later"), record.later)
        days = ("least_days", "usual_days", "most_days")
        if not all(lag.entry.is_written(key) for key in days):
            continue
        least, usual, most = record.least_days, record.usual_days, record.most_days
        if not least <= usual <= most or least == most:
            yield LagOrder(lag.entry.source("least_days"), least, usual, most)
    yield from lag_circles(draft)


def _check_outcomes(draft: Draft) -> Iterator[Problem]:
    """Each outcome of a feature is written `outcome=look`, once, and fits onto a sheet."""
    for feature in draft.features:
        seen: set[str] = set()
        parts = tuple(cell_parts(feature.entry, "outcomes"))
        if len(parts) > MOST_OUTCOMES:
            yield TooManyOutcomes(feature.entry.source("outcomes"), len(parts), MOST_OUTCOMES)
            continue
        for part in parts:
            if len(part.name) > MOST_LETTERS:
                yield LongOutcome(part.place, part.name, MOST_LETTERS)
            elif not part.is_whole:
                yield OutcomeForm(part.place, part.text)
            elif part.said not in LOOKS:
                yield OutcomeLook(part.said_place(), part.said, LOOKS)
            elif part.name in seen:
                yield RepeatedOutcome(part.place, part.name)
            seen.add(part.name)
        yield from _check_sketches(feature.entry, seen - {""})


def _check_sketches(entry: Entry, outcomes: set[str]) -> Iterator[Problem]:
    """Each sketch is written `outcome=sketch`, of an outcome of the row, and of all or none."""
    drawn: set[str] = set()
    for part in cell_parts(entry, "sketches"):
        if not part.is_whole:
            yield SketchForm(part.place, part.text)
        elif part.name not in outcomes:
            yield SketchOfNoOutcome(part.name_place(), part.name, tuple(sorted(outcomes)))
        elif part.said not in sketches():
            yield UnknownSketch(part.said_place(), part.said, tuple(sketches()))
        elif part.name in drawn:
            yield RepeatedOutcome(part.place, part.name)
        drawn.add(part.name)
    if drawn and outcomes - drawn:
        yield UndrawnOutcomes(entry.source("sketches"), tuple(sorted(outcomes - drawn)))
