"""A code that was read was in use at this works, for this model and year.

If the book lists it only for other years, works or models, it differs, and these are named. A
code that the book does not list is silent: it is no fault of the car. A paint code that the
book lists for 1953 to 1955 differs on a car claimed to be of 1957. If a list known to have gaps
gives the code for other cars only, that settles nothing.
"""

from witnessmark.agreement.items import all_showings
from witnessmark.agreement.phrases import (
    finding,
    for_whom,
    of_item,
    one_of,
    subject,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import AGREE_FROM
from witnessmark.agreement.showing import Showing, weakest
from witnessmark.agreement.telling import car_meant, subjects_that_tell, telling
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.codebook import CodeRow
from witnessmark.decoding import table_rows

MOSTLY = 0.5
"""From this share on, what was read is most likely a code that the book does not list."""

RULE = AgreementRule(__name__, marked("code of its years"), FindingKind.CODE, rank=40)

INFERENCES = {
    Outcome.AGREE: marked("Code {codes} is consistent with {car}."),
    Outcome.DIFFER: marked("Code {codes} is not consistent with {car}."),
    Outcome.UNDECIDED: marked(
        "I could not determine from this reading whether the code was in use then."
    ),
}
HAS_GAPS = marked(
    "This list is known to have gaps, so finding the code there for other cars only settles "
    "nothing."
)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every code that was read on a mark."""
    return tuple(
        _code(car, showing)
        for showing in all_showings(car)
        if showing.table and showing.likely() and not showing.is_empty
    )


def _code(car: CarMarks, showing: Showing) -> Finding:
    """Set the likely codes of one field against the rows of its table."""
    rows = {v.code: _rows(car, showing.table, v.code) for v in showing.values if v.is_listed}
    fitting = {
        code: [row for row in found if row.applies.covers(car.known)]
        for code, found in rows.items()
    }
    now = sum(v.share for v in showing.values if v.is_listed and fitting[v.code])
    other = sum(v.share for v in showing.values if v.is_listed and not fitting[v.code])
    unlisted = sum(v.share for v in showing.values if not v.is_listed)
    outcome = _outcome(now, other, unlisted)
    has_gaps = outcome is Outcome.DIFFER and _has_gaps(car, showing)
    if has_gaps:
        outcome = Outcome.UNDECIDED
    likely = {} if outcome is Outcome.SILENT else dict.fromkeys(v.code for v in showing.likely())
    named = [row for code in likely for row in fitting.get(code) or rows.get(code, ())]
    listed = [row.applies for code in likely for row in rows.get(code, ())]
    told = telling(car, showing.mark, car.known, listed)
    inference = (
        as_said(HAS_GAPS) if has_gaps else _inference(outcome, showing, car_meant(car, told))
    )
    return finding(
        RULE,
        showing.item.id,
        outcome,
        subjects=(subject(showing), *subjects_that_tell(car, told)),
        observation=_observation(car, showing, named),
        inference=inference,
        citation=weakest(showing.citation, *(row.citation for row in named)),
        agreement_share=None if outcome is Outcome.SILENT else min(1.0, now),
        brief=in_a_row((of_item(showing), inference)),
    )


def _observation(car: CarMarks, showing: Showing, named: list[CodeRow]) -> str:
    """What was read, and for which cars the book lists it."""
    if not named:
        return of_item(showing)
    rows_named = dict.fromkeys(
        said("{code} for {cars}", code=row.code, cars=for_whom(row.applies, car.book))
        for row in named
    )
    of_book = said("The book lists {codes}.", codes=in_a_row(rows_named, "; "))
    return in_a_row((of_item(showing), of_book))


def _has_gaps(car: CarMarks, showing: Showing) -> bool:
    """Is the table of this field known to have gaps?"""
    mark = car.book.mark(showing.mark)
    fields = mark.fields if mark else ()
    return any(field.has_gaps for field in fields if field.id == showing.field)


def _rows(car: CarMarks, table: str, code: str) -> tuple[CodeRow, ...]:
    return tuple(row for row in table_rows(car.book, table) if row.code == code)


def _outcome(now: float, other: float, unlisted: float) -> Outcome:
    """Of the codes that the reading allows: in use then, in use at other times, not listed."""
    if unlisted >= MOSTLY:
        return Outcome.SILENT
    if now >= AGREE_FROM:
        return Outcome.AGREE
    return Outcome.DIFFER if other >= AGREE_FROM else Outcome.UNDECIDED


def _inference(outcome: Outcome, showing: Showing, car: str) -> str:
    if outcome is Outcome.SILENT:
        return said(
            "The book does not list code {code}: it is silent, and the car is not at fault.",
            code=showing.as_read(showing.values[0].code),
        )
    codes = one_of(dict.fromkeys(showing.as_read(value.code) for value in showing.likely()))
    return as_said(INFERENCES[outcome], codes=codes, car=car)
