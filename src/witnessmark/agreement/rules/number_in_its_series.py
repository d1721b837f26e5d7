"""A number lies in a series that the maker used for this works, model and year.

Works, model and year are those that the number's own mark names, or else those that are known.
If the number lies outside, the series it does lie in is named. A number that lies only beyond
those known to have been reached (`beyond`) is undecided, with the book's reason. If the book
knows of an exception for the number, it is named and removes the difference, but only where the
number was clearly read as lying within the exception, because a masked or half-worn number
could be any car's. If the book has no series, or none for a model that the car may be, or the
number lies only above the first of a series whose last number is not known, the rule is silent.
So it is where the series depends on a code beside the number that was not read.
A number that lies where those of other models alone lie (`alone`) differs from the model that is
known, whatever is known of that model's own series.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product

from witnessmark.agreement.items import each_claimed, said_of, shown_on
from witnessmark.agreement.known_exceptions import exceptions_of
from witnessmark.agreement.model_by_number import model_likelihoods, row_range
from witnessmark.agreement.numbering import NumberRange, inside_share
from witnessmark.agreement.of_car import without
from witnessmark.agreement.phrases import (
    all_of,
    finding,
    of_item,
    one_of,
    range_text,
    sentence,
    subject,
    year_text,
)
from witnessmark.agreement.records import AgreementRule, CarMarks, Finding, FindingKind, Outcome
from witnessmark.agreement.shares import DIFFER_TO, outcome_of
from witnessmark.agreement.showing import LIKELY, Showing, weakest
from witnessmark.agreement.telling import (
    car_meant,
    items_it_names,
    subjects_that_tell,
    telling,
    value_name,
)
from witnessmark.catalogue import in_a_row, marked, said
from witnessmark.codebook import (
    MODEL,
    Applies,
    CarContext,
    CodeBook,
    ItemKind,
    KnownException,
    Series,
)
from witnessmark.decoding import meet
from witnessmark.decoding.conditions import Said, conditions_told, holding, possible
from witnessmark.decoding.kept import kept

RULE = AgreementRule(__name__, marked("number in its series"), FindingKind.SERIES, rank=50)


def compare(car: CarMarks) -> tuple[Finding, ...]:
    """One finding for every whole number, read or claimed, of an item that has series."""
    findings: list[Finding] = []
    for item in car.book.items:
        rows = tuple(row for row in car.book.series if row.item == item.id)
        if item.kind is not ItemKind.NUMBER or not rows:
            continue
        shown = (each for each in said_of(car, item.id) if each.is_whole and each.is_read)
        findings.extend(_number(car, showing, rows) for showing in shown)
    return tuple(findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rows:
    """The series of a number: those of its car, those of it past what is known to have been
    reached, where it lies among all of them, and in which of it that a code not read decides.
    `beside` are the codes of its mark that decide it; `of_others`, where the number cannot be
    of the model that is known, are that one's name and those of the models of which it can be."""

    then: tuple[Series, ...]
    beyond: tuple[Series, ...]
    inside: tuple[Series, ...]
    elsewhere: tuple[Series, ...]
    undecided: tuple[Series, ...]
    are_all: bool
    beside: tuple[Showing, ...]
    of_others: tuple[str, ...]

    @property
    def is_above_all(self) -> bool:
        """Does it lie only above the first of series whose last number is not known?"""
        return bool(self.inside) and all(row.is_open for row in self.inside)

    @property
    def named(self) -> tuple[Series, ...]:
        """The rows that the finding rests on."""
        return self.inside or self.beyond or self.elsewhere or self.then


def _rows(car: CarMarks, showing: Showing, rows: tuple[Series, ...]) -> _Rows:
    known, cars = car.known_of(showing.mark), car.cars_of(showing.mark)
    beside = _beside(car, showing, rows)
    told = _said(beside)
    every = [row for row in rows if row.applies.covers(known) and meet(row.applies, cars)]
    of_car = [row for row in every if any(holding((row,), each) for each in told)]
    may_be = (row for row in every if any(possible((row,), each) for each in told))
    open_to = [row for row in may_be if row not in of_car]
    then = tuple(row for row in of_car if not row.is_beyond)
    lies = partial(_share, car.book, showing)
    inside = tuple(row for row in then if lies(row) >= LIKELY)
    beyond = tuple(row for row in of_car if row.is_beyond and lies(row) >= LIKELY)
    closed = [row for row in rows if not (row.is_beyond or row.is_open)]
    others = [row for row in closed if any(holding((row,), each) for each in told)]
    others = [row for row in others if lies(row) >= LIKELY]
    return _Rows(
        then=then,
        beyond=beyond,
        inside=inside,
        elsewhere=() if inside or beyond else tuple(others),
        undecided=tuple(row for row in open_to if lies(row) >= LIKELY),
        are_all=not open_to and _are_all(car.book, known, cars, then),
        beside=beside,
        of_others=_of_others(car, showing, known),
    )


def _of_others(car: CarMarks, showing: Showing, known: CarContext) -> tuple[str, ...]:
    """The name of the model that is known, and those of the others of which alone it can be."""
    beside_model = without(car.book, known, MODEL)
    found = model_likelihoods(car.book, showing.item, showing.places, beside_model)
    least = DIFFER_TO * max(found.values(), default=0.0)
    if known.model is None or known.model not in found or found[known.model] > least:
        return ()
    models = (known.model, *(each for each, own in found.items() if each and own > least))
    return tuple(value_name(car, MODEL, each) for each in models)


def _beside(car: CarMarks, showing: Showing, rows: tuple[Series, ...]) -> tuple[Showing, ...]:
    """What stands beside the number of the items on which its series depend: on its own mark,
    for a number on another piece is another number, or in the claim with it."""
    items = dict.fromkeys(each.item for row in rows for each in row.also)
    if not items:
        return ()
    if showing.is_claim:
        shown = [each for item in items for each in each_claimed(car, item)]
    else:
        shown = [s for s in shown_on(car, showing.mark) if s.item.id in items]
    return tuple(each for each in shown if each.values)


def _said(beside: tuple[Showing, ...]) -> tuple[Said, ...]:
    """The values that these items can have, once for each of those that a car has several of;
    one that is not listed is none of a series. What several fields show of one item is what
    they agree on, or else either."""
    found: dict[str, list[frozenset[str]]] = {}
    for each in beside:
        values = frozenset(v.value if v.is_listed else "" for v in each.likely())
        had = found.setdefault(each.item.id, [])
        if had and not each.item.many:
            had[0] = had[0] & values or had[0] | values
        else:
            had.append(values)
    return tuple(dict(zip(found, each, strict=True)) for each in product(*found.values()))


def _are_all(book: CodeBook, known: CarContext, cars: Applies, then: tuple[Series, ...]) -> bool:
    """Do these series hold for every model that it can be? Of one without a series nothing
    is known, and a number outside those of others says nothing against it."""
    open_to = [m for m in book.models if m.applies.covers(known) and known.model in (None, m.id)]
    models = {m.id for m in open_to if not cars.models or m.id in cars.models}
    covered = {model for row in then for model in row.applies.models or models}
    return models <= covered


def _number(car: CarMarks, showing: Showing, rows: tuple[Series, ...]) -> Finding:
    found = _rows(car, showing, rows)
    exceptions = exceptions_of(car, showing)
    ranges = (row_range(row, showing.item) for row in found.then)
    share = inside_share(showing, ranges) if found.then else None
    outcome = _outcome(found, share)
    if exceptions and outcome in (Outcome.DIFFER, Outcome.UNDECIDED):
        outcome = Outcome.SILENT
    rows_named = [row.citation for row in found.named]
    beside = (ground for each in found.beside for ground in each.grounds())
    citations = (*showing.grounds(), *rows_named, *beside, *(row.citation for row in exceptions))
    own = items_it_names(car, showing.mark)
    known = car.known_of(showing.mark)
    told = telling(car, showing.mark, known, (row.applies for row in rows), own)
    inference = _inference(showing, found, outcome, car_meant(car, told))
    return finding(
        RULE,
        showing.item.id,
        outcome,
        subjects=(subject(showing), *subjects_that_tell(car, told)),
        observation=in_a_row(_observation(car, showing, found, exceptions)),
        inference=inference,
        citation=weakest(*citations),
        agreement_share=None if outcome is Outcome.SILENT else share,
        brief=in_a_row((of_item(showing), inference)),
    )


def _outcome(found: _Rows, share: float | None) -> Outcome:
    """By the share; a number that lies only past those known asks for a reason."""
    outcome = Outcome.SILENT if share is None else outcome_of(share)
    if found.beyond and outcome is not Outcome.AGREE:
        return Outcome.UNDECIDED
    if outcome is Outcome.AGREE and found.is_above_all:
        return Outcome.SILENT
    if found.of_others:
        return Outcome.DIFFER
    if outcome is Outcome.DIFFER and not found.are_all:
        return Outcome.SILENT
    return outcome


def _share(book: CodeBook, showing: Showing, row: Series) -> float:
    """How far a number lies in one series, for as many characters as were seen so."""
    question = (showing.item, showing.is_whole, showing.places)
    rows: dict[NumberRange, float] = kept(book, "numbers in series", question, dict)
    run = row_range(row, showing.item)
    if run not in rows:
        rows[run] = inside_share(showing, (run,)) or 0.0
    return rows[run]


def _observation(
    car: CarMarks, showing: Showing, found: _Rows, exceptions: tuple[KnownException, ...]
) -> Iterator[str]:
    yield of_item(showing)
    if len(found.inside) > 1:
        yield said("It can lie in {series}.", series=one_of(map(_series, found.inside)))
    elif found.inside:
        yield said("The book has the series {series}.", series=_series(found.inside[0]))
    elif found.then:
        series = all_of(map(_series, found.then))
        yield said("For this car the book has {series}.", series=series)
    if found.elsewhere:
        series = one_of(map(_series, found.elsewhere))
        yield said("The number lies in {series}.", series=series)
    for each in found.undecided:
        condition = conditions_told(car.book, each)
        yield said(
            "With {condition} it lies in {series}.", condition=condition, series=_series(each)
        )
    for row in exceptions:
        yield said("Known exception: {exception}", exception=sentence(row.meaning))


def _series(row: Series) -> str:
    years = year_text(row.applies)
    about = in_a_row(filter(None, (row.meaning, "" if years in row.meaning else years)), "; ")
    numbers = range_text(row.first, row.last or said("one that is not known"))
    return said("{text} ({days})", text=numbers, days=about)


def _inference(showing: Showing, found: _Rows, outcome: Outcome, car: str) -> str:
    item = showing.item.name
    match outcome:
        case Outcome.AGREE:
            return said("The {item} is consistent with the series for {car}.", item=item, car=car)
        case Outcome.DIFFER if found.of_others:
            return said(
                "The {item} is consistent with {models}, not with {model}.",
                item=item,
                models=one_of(found.of_others[1:]),
                model=found.of_others[0],
            )
        case Outcome.DIFFER:
            return said(
                "The {item} is not consistent with the series for {car}.", item=item, car=car
            )
        case Outcome.UNDECIDED if found.beyond:
            why = sentence(found.beyond[0].meaning)
            return said(
                "{reason} I could not determine whether the series ran that far.", reason=why
            )
        case Outcome.UNDECIDED:
            return said(
                "I could not determine whether the number lies in the series for {car}.", car=car
            )
        case Outcome.SILENT if found.undecided:
            return said("What decides its series was not read: it is silent.")
        case Outcome.SILENT if found.is_above_all:
            return said("The book does not know how far the series ran: it is silent.")
        case Outcome.SILENT if not found.then:
            return said("The book has no series of this number for {car}: it is silent.", car=car)
        case Outcome.SILENT if not found.are_all:
            return said(
                "The book has series for other models only, and the model is not known: it is "
                "silent."
            )
        case Outcome.SILENT:
            return said(
                "The known exception may explain where the number lies, so nothing follows "
                "from this."
            )
