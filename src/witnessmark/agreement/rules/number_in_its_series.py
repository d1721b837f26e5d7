"""A number lies in a series that the maker used for this works, model and year.

Chassis number 550123 lies in the series 550001 to 550480 of 1955. A number
outside differs, and the finding names the series it does lie in, if any, and
any exception that the book knows for it: a pilot car, a slip at the works. An
exception takes the difference away and adds nothing.
"""

from witnessmark.agreement.items import claimed, showings
from witnessmark.agreement.known_exceptions import exceptions_of
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.phrases import (
    all_of,
    car_meant,
    finding,
    of_item,
    one_of,
    range_text,
    sentence,
    subject,
    year_text,
)
from witnessmark.agreement.records import CarMarks, Finding, Outcome
from witnessmark.agreement.shares import outcome_of
from witnessmark.agreement.showing import LIKELY, Showing, weakest
from witnessmark.catalogue import said
from witnessmark.codebook.records import ItemKind, KnownException, Series

RULE = "number_in_its_series"


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every whole number, read or claimed, of an item that has series."""
    findings: list[Finding] = []
    for item in car.book.items:
        rows = tuple(row for row in car.book.series if row.item == item.id)
        if item.kind is not ItemKind.NUMBER or not rows:
            continue
        claim = claimed(car, item.id)
        shown = (*showings(car, item.id), *(() if claim is None else (claim,)))
        findings.extend(_number(car, showing, rows) for showing in shown if _stands(showing))
    return tuple(findings)


def _stands(showing: Showing) -> bool:
    """Does the number stand in full, with something of it read?"""
    return showing.is_whole and any(place.is_read for place in showing.places)


def _number(car: CarMarks, showing: Showing, rows: tuple[Series, ...]) -> Finding:
    then = [row for row in rows if row.applies.covers(car.context)]
    inside = [row for row in then if _share(showing, row) >= LIKELY]
    elsewhere = [] if inside else [row for row in rows if _share(showing, row) >= LIKELY]
    exceptions = exceptions_of(car, showing)
    share = inside_share(showing, map(_range, then)) if then else None
    outcome = Outcome.SILENT if share is None else outcome_of(share)
    if exceptions and outcome in (Outcome.DIFFER, Outcome.UNDECIDED):
        outcome = Outcome.SILENT
    rows_named = [row.citation for row in inside or elsewhere or then]
    citations = (*showing.grounds(), *rows_named, *(row.citation for row in exceptions))
    return finding(
        RULE,
        showing.item.id,
        outcome,
        (subject(showing),),
        _observation(showing, then, inside, elsewhere, exceptions),
        _inference(showing, outcome, bool(then), car_meant(car.context)),
        weakest(*citations),
        agreement_share=None if outcome is Outcome.SILENT else share,
    )


def _share(showing: Showing, row: Series) -> float:
    return inside_share(showing, (_range(row),)) or 0.0


def _range(row: Series) -> NumberRange:
    return NumberRange(row.first, row.last)


def _observation(
    showing: Showing,
    then: list[Series],
    inside: list[Series],
    elsewhere: list[Series],
    exceptions: tuple[KnownException, ...],
) -> str:
    parts = [of_item(showing)]
    if len(inside) > 1:
        parts.append(said("It can lie in {series}.", series=one_of(map(_series, inside))))
    elif inside:
        parts.append(said("The book has the series {series}.", series=_series(inside[0])))
    elif then:
        parts.append(said("The book has for this car {series}.", series=all_of(map(_series, then))))
    if elsewhere:
        parts.append(said("The number lies in {series}.", series=one_of(map(_series, elsewhere))))
    parts.extend(
        said("Known exception: {exception}", exception=sentence(row.meaning)) for row in exceptions
    )
    return " ".join(parts)


def _series(row: Series) -> str:
    years = year_text(row.applies)
    about = "; ".join(filter(None, (row.meaning, "" if years in row.meaning else years)))
    return f"{range_text(row.first, row.last)} ({about})"


def _inference(showing: Showing, outcome: Outcome, is_known: bool, car: str) -> str:
    if not is_known:
        return said("The book knows no series of this number for {car}: it is silent.", car=car)
    item = showing.item.name
    match outcome:
        case Outcome.AGREE:
            return said("The {item} is consistent with the series for {car}.", item=item, car=car)
        case Outcome.DIFFER:
            return said(
                "The {item} is not consistent with the series for {car}.", item=item, car=car
            )
        case Outcome.UNDECIDED:
            return said(
                "I could not determine whether the number lies in the series for {car}.", car=car
            )
        case Outcome.SILENT:
            return said(
                "The known exception may explain where the number lies, so this says nothing."
            )
