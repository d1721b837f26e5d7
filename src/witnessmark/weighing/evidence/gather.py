"""Gathers what was seen of each piece of a car from the case and its decoded marks."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from witnessmark.agreement.known_exceptions import exceptions_on
from witnessmark.agreement.look_class import look_class
from witnessmark.agreement.model_by_number import model_likelihoods
from witnessmark.agreement.of_car import without
from witnessmark.agreement.records import CarMarks
from witnessmark.casefile.records import AttachmentSeen, LookClass, Seen, SiteState
from witnessmark.codebook.date_records import Run
from witnessmark.codebook.marks import Field, Mark, MarkKind
from witnessmark.codebook.pieces import (
    PieceKind,
    Pieces,
    PieceSurface,
    ServiceNumbers,
    is_struck,
)
from witnessmark.codebook.records import MODEL, CarContext, Item, ItemKind
from witnessmark.decoding import FieldSeen, fields_said
from witnessmark.decoding.days_seen import days_seen
from witnessmark.decoding.records import Decoding
from witnessmark.decoding.seen import see
from witnessmark.reading import CellKind, ReadingRates, rates_with, shipped_rates
from witnessmark.weighing.evidence.noted import (
    ABSENT,
    READ,
    REMOVED,
    UNLISTED,
    CodeSeen,
    DateSeen,
    NumberSeen,
    PieceSeen,
    SurfaceSeen,
)
from witnessmark.weighing.evidence.numbers import copied
from witnessmark.weighing.evidence.rules import rules_of

AGAIN_ERROR = 0.0002
"""A clear character read again, or by a second person blind to the first, that is wrong."""
LEAST_OF_BEST = 3e-6
"""Days with less of the likeliest one's likelihood count among all others."""
SURFACE = "surface"
"""The feature that tells how the metal itself looks."""
FIXING_WORDS = frozenset(
    ("fixing", "fixings", "rivet", "rivets", "hole", "holes", "screw", "screws", "edge", "label")
)
"""Words of features that tell how a plate is held, and not of the plate itself."""
NAMED = 0.05
"""A code of a set that has less of the likeliest one's likelihood is not named by its field."""
ORDER = tuple(Seen)
LOOKS = tuple(LookClass)


def pieces_seen(car: CarMarks, pieces: Pieces) -> tuple[PieceSeen, ...]:
    """Every piece of the car with what was noted of it; those of which nothing was, too.

    A part that is fitted to no assembly (a tire, a hose) is read and told, and not weighed.
    """
    again = {each.mark for each in car.casefile.readings if each.again}
    looks = {kind: _looks(car, kind) for kind in PieceKind}
    found = []
    for piece in pieces.pieces:
        if piece.kind is PieceKind.FITTED and not piece.assembly:
            continue
        on = pieces.marks_on(piece.id)
        surfaces = _surfaces(car, on, piece.kind, again, looks[piece.kind])
        if piece.service_numbers is ServiceNumbers.WORKS:
            # What the works leave beside a number looks as theirs, though the metal does not.
            disturbed = [s.id for s in surfaces if s.look is LookClass.DISTURBED]
            signs = {s for s in disturbed if _is_disturbed_beside(car, s) is False}
            surfaces = tuple(replace(s, has_signs=s.id in signs) for s in surfaces)
        found.append(PieceSeen(piece, surfaces or (SurfaceSeen(id=piece.id, marks=()),)))
    return tuple(found)


def _surfaces(
    car: CarMarks,
    standings: tuple[PieceSurface, ...],
    kind: PieceKind,
    again: set[str],
    looks: dict[str, tuple[LookClass, Seen]],
) -> tuple[SurfaceSeen, ...]:
    marks: dict[str, list[Mark]] = {}
    for standing in standings:
        mark = car.book.mark(standing.mark)
        assert mark is not None
        marks.setdefault(standing.surface, []).append(mark)
    found = [
        _surface(car, each, tuple(on), kind=kind, again=again, looks=looks)
        for each, on in marks.items()
    ]
    found.sort(key=lambda s: (not s.numbers, not any(is_struck(m) for m in s.marks)))
    return tuple(found)


def _surface(
    car: CarMarks,
    surface: str,
    marks: tuple[Mark, ...],
    kind: PieceKind,
    again: set[str],
    looks: dict[str, tuple[LookClass, Seen]],
) -> SurfaceSeen:
    weighed = [mark for mark in marks if mark.argues and not car.is_echo(mark.id)]
    read = [mark for mark in weighed if car.of(mark.id)]
    ways = [each.reading.seen for mark in read for each in car.of(mark.id)]
    look = looks.get(surface)
    identity = {item.id for item in car.book.items if item.identification}
    found = SurfaceSeen(
        id=surface,
        marks=marks,
        bears_identity=any(fld.says in identity for mark in marks for fld in mark.fields),
        look=look[0] if look else None,
        look_how=look[1] if look else Seen.IN_PERSON,
        how=min(ways, key=ORDER.index, default=Seen.IN_PERSON),
        is_again=any(mark.id in again for mark in read),
        is_gone=kind is PieceKind.PLATE and not read and _state(car, surface) is SiteState.ABSENT,
    )
    if found.is_gone:
        return found
    if kind is PieceKind.STRUCTURE:
        found = replace(found, is_seamed=_is_disturbed_beside(car, surface))
        if not weighed:
            # A place that the book has from memory explains, whatever it looks like.
            return replace(found, look=None, is_seamed=None)
    if kind is PieceKind.PLATE:
        found = _with_fixings(car, found)
    for mark in weighed:
        found = _with_mark(car, found, mark, mark.id in again)
    forms = {mark.id: mark.other_form_of or mark.id for mark in marks}
    return replace(found, numbers=_lacking_once(found.numbers, forms))


def _lacking_once(numbers: tuple[NumberSeen, ...], forms: dict[str, str]) -> tuple[NumberSeen, ...]:
    """A place that could bear a number in this form or in that lacks it once, and not at all
    where it bears one of them. `forms`: mark to the mark of which it is another form."""
    kept: dict[str, list[NumberSeen]] = {}
    for number in sorted(numbers, key=lambda each: each.status is ABSENT):
        beside = kept.setdefault(forms[number.mark], [])
        if number.status is not ABSENT or not beside:
            beside.append(number)
    return tuple(each for each in numbers if each in kept[forms[each.mark]])


def _with_mark(car: CarMarks, found: SurfaceSeen, mark: Mark, is_again: bool) -> SurfaceSeen:
    """The surface with what one mark on it shows."""
    disturbed = found.look is LookClass.DISTURBED
    once, twice = _rates_of(car)
    rates = twice if is_again else once
    numbers, codes, dates = list(found.numbers), list(found.codes), list(found.dates)
    for fld in fields_said(car.book, mark):
        item = car.book.item(fld.says)
        seen = car.seen(mark, fld)
        # A window that a car need not have filled says nothing where it is empty.
        if item is None or (fld.optional and (seen is None or seen.is_empty)):
            continue
        if seen is not None and is_again:
            seen = see(car.book, mark, fld, seen.readings, rates)
        if item.kind is ItemKind.NUMBER and item.length:
            numbers += _number(
                car,
                mark,
                found.id,
                item=item,
                seen=seen,
                rates=rates,
                is_again=is_again,
                disturbed=disturbed,
            )
            codes += _model_by_number(car, mark, item, seen)
        elif seen is not None and fld.table:
            codes += _code(car, mark, fld, seen)
        elif seen is not None and fld.date_form:
            dates += _date(car, mark, fld, seen, is_again)
    return replace(found, numbers=tuple(numbers), codes=tuple(codes), dates=tuple(dates))


def _rates_of(car: CarMarks) -> tuple[ReadingRates, ReadingRates]:
    """The rates of a mark read once, and of one read again. The works' slips are weighed apart."""
    once = rates_with(car.rates or shipped_rates(), "reading.misstrike", 0.0)
    return once, rates_with(once, "reading.error.clear", AGAIN_ERROR)


def _state(car: CarMarks, site: str) -> SiteState | None:
    return next((visit.state for visit in car.casefile.sites if visit.site == site), None)


def _number(
    car: CarMarks,
    mark: Mark,
    surface: str,
    item: Item,
    seen: FieldSeen | None,
    rates: ReadingRates,
    is_again: bool,
    disturbed: bool,
) -> Iterator[NumberSeen]:
    """What a mark shows of a number: its places, that it is absent, or that it is gone."""
    rows = np.ones((item.length, len(item.alphabet)))
    status = READ
    if seen is None:
        gone = _state(car, surface) is SiteState.ABSENT and not car.of(mark.id)
        if not gone or mark.kind is MarkKind.PAPER:
            return
        status = ABSENT
    elif seen.is_empty:
        status = ABSENT
    elif _is_ground(seen):
        status = REMOVED
    else:
        for place in seen.places:
            if 0 <= place.from_end < item.length:
                rows[item.length - 1 - place.from_end] *= seen.under(place, rates)
    if status is ABSENT and exceptions_on(car, mark.id):
        # The book names cars that never bore it.
        return
    is_bare = status is ABSENT and disturbed
    if is_bare:
        status = REMOVED
    if mark.kind is MarkKind.PAPER:
        rows = copied(rows, item)
    always = mark.always_struck
    yield NumberSeen(
        item=item.id,
        mark=mark.id,
        status=status,
        rows=rows,
        always=always,
        is_again=is_again,
        is_bare=is_bare,
    )


def _is_ground(seen: FieldSeen) -> bool:
    """Was every place of it ground, filled or struck over?"""
    kinds = [kind for place in seen.places for kind in place.kinds]
    return bool(kinds) and all(kind is CellKind.OBLITERATED for kind in kinds)


def _model_by_number(
    car: CarMarks, mark: Mark, item: Item, seen: FieldSeen | None
) -> Iterator[CodeSeen]:
    """What a number shows of the claimed model, by the ranges that are of some models alone, where
    no code of its mark does."""
    claimed = car.casefile.claim.items.get(MODEL, "")
    if not claimed or seen is None or any(fld.says == MODEL for fld in mark.fields):
        return
    beside_model = without(car.book, car.context, MODEL)
    values = model_likelihoods(car.book, item, seen.places, beside_model)
    if claimed not in values:
        return
    values[UNLISTED] = values.pop("")
    if values[claimed] < max(values.values()) and exceptions_on(car, mark.id):
        return
    best = max(values.values())
    yield CodeSeen(MODEL, mark.id, {each: own / best for each, own in values.items()}, True)


def _code(car: CarMarks, mark: Mark, fld: Field, seen: FieldSeen) -> Iterator[CodeSeen]:
    """What a field shows of a claimed item, or of one of which a rule speaks, by value; a row
    from memory is left out. Of a set it shows the values that it names."""
    claim = car.casefile.claim.items
    ruled = {item for rule in rules_of(car.book, car.context) for item in rule.items}
    known = sorted(ruled | claim.keys())
    asked = [name for name in known if name == fld.says or name.startswith(f"{fld.says} ")]
    if not asked or seen.is_empty or seen.lacks:
        return
    rows: dict[str, list[str]] = {}
    for of_car in (True, False):
        for row in car.book.table(fld.table):
            if not row.citation.basis.weighs or row.applies.covers(car.context) is not of_car:
                continue
            if of_car or row.code not in rows:
                rows.setdefault(row.code, []).append(row.value)
    values: dict[str, float] = {}
    for code, likelihood in seen.codes:
        for value in rows.get(code, ()):
            values[value] = max(values.get(value, 0.0), likelihood)
    for item in asked:
        claimed = claim.get(item, "")
        is_named = item == fld.says or _names(values, item.removeprefix(f"{fld.says} "))
        if not is_named or (claimed not in values and (claimed or not values)):
            continue
        shown = values | {UNLISTED: seen.unlisted}
        if shown.get(claimed, 0.0) < max(shown.values()) and exceptions_on(car, mark.id):
            # The book names the car as one that differs.
            continue
        yield CodeSeen(item, mark.id, shown)


def _names(values: dict[str, float], value: str) -> bool:
    """Can a field be read as this value?"""
    return values.get(value, 0.0) >= NAMED * max(values.values(), default=0.0) > 0.0


def _date(
    car: CarMarks, mark: Mark, fld: Field, seen: FieldSeen, is_again: bool
) -> Iterator[DateSeen]:
    """The days of a date code; none where its form is from memory, or the code is no date."""
    form = car.book.date_form(fld.date_form)
    if form is None or not form.citation.basis.weighs or _is_placeholder(car.of(mark.id), fld.id):
        return
    days = days_seen(car.book, mark, fld, seen, _runs_of(car, mark))
    if days is None:
        return
    all_days = np.asarray(days.likelihood)
    chosen = np.flatnonzero(all_days >= LEAST_OF_BEST * all_days.max())
    rest = float(all_days.sum() - all_days[chosen].sum()) / max(len(all_days) - len(chosen), 1)
    named = f"{fld.name}, {mark.name}" if fld.name not in mark.name else mark.name
    yield DateSeen(
        item=fld.says,
        mark=mark.id,
        field=fld.id,
        name=named,
        days=chosen + days.first,
        likelihood=all_days[chosen],
        floor=rest,
        is_cast=mark.kind is MarkKind.CASTING,
        is_again=is_again,
    )


def _is_placeholder(decodings: Iterable[Decoding], field_id: str) -> bool:
    """Can everybody's best readings be a code that stands where a date should and is none?"""
    return all(
        any(
            meaning.placeholder
            for alternative in decoding.alternatives[:2]
            for meaning in alternative.fields
            if meaning.field == field_id
        )
        for decoding in decodings
    )


def _runs_of(car: CarMarks, mark: Mark) -> tuple[Run, ...]:
    """The runs that this mark may speak of: those of the car that it names itself, if it does."""
    named = {each.of_car for each in car.of(mark.id)}
    year = named.pop().model_year if len(named) == 1 else None
    return car.book.runs_for(CarContext(year)) if year is not None else car.book.runs


def _is_disturbed_beside(car: CarMarks, site: str) -> bool | None:
    """Was something other than the surface itself, a seam, an edge, the rear side, disturbed?
    None where nobody looked at any of it."""
    seen = {
        look_class(car, look)
        for look in car.casefile.looks
        if look.site == site and look.feature != SURFACE
    }
    if LookClass.DISTURBED in seen:
        return True
    return False if LookClass.FACTORY in seen else None


def _with_fixings(car: CarMarks, found: SurfaceSeen) -> SurfaceSeen:
    """A plate with how it is held apart from how it looks itself, where both were seen."""
    seen: dict[bool, list[LookClass]] = {True: [], False: []}
    for look in car.casefile.looks:
        kind = look_class(car, look)
        if kind is not None and look.site == found.id and found.look is not None:
            seen[_is_fixing(look.feature)].append(kind)
    if not (seen[True] and seen[False]):
        return found
    held, itself = (max(seen[which], key=LOOKS.index) for which in (True, False))
    return replace(found, look=itself, fixings=held)


def _is_fixing(feature: str) -> bool:
    return bool(FIXING_WORDS & set(feature.split("_")))


def _looks(car: CarMarks, piece: PieceKind) -> dict[str, tuple[LookClass, Seen]]:
    """Site to its most disturbed look, and the best way in which somebody saw it so; about a
    structure's mark a seam is one thing and the metal another."""
    is_metal = piece is PieceKind.STRUCTURE
    found: dict[str, tuple[LookClass, Seen]] = {}
    detached = {s.site for s in car.casefile.sites if s.attachment is not AttachmentSeen.IN_PLACE}
    for look in car.casefile.looks:
        kind = look_class(car, look)
        if kind is None or look.site in detached:
            continue
        if is_metal and kind is LookClass.DISTURBED and look.feature != SURFACE:
            continue
        known = found.get(look.site)
        rank = (LOOKS.index(kind), -ORDER.index(look.seen))
        if known is None or rank > (LOOKS.index(known[0]), -ORDER.index(known[1])):
            found[look.site] = (kind, look.seen)
    return found
