"""The turns of phrase that every rule uses: what stands where, then what it fits.

Observation and inference are two sentences. "Consistent with" and "not
consistent with" speak of the two things that were compared; what the readings
leave open is "I could not determine". Nothing here judges a car or a person.
"""

from collections.abc import Iterable

from witnessmark import catalogue
from witnessmark.agreement.records import AgreementRule, Finding, Outcome, Subject
from witnessmark.agreement.showing import CodeValue, DateValue, Showing
from witnessmark.catalogue import counted, either, from_to, in_a_row, marked, said, whole_sentence
from witnessmark.codebook import Applies, Basis, Citation, CodeBook
from witnessmark.decoding import span_meant

_NAMED_AT_MOST = 3

NOTHING_TO_COMPARE = marked("There is nothing here that can be compared.")
"""The inference of a finding whose two sides have nothing in common."""


def finding(
    rule: AgreementRule,
    topic: str,
    outcome: Outcome,
    subjects: Iterable[Subject],
    observation: str,
    inference: str,
    citation: Citation,
    *,
    agreement_share: float | None = None,
    strength: str = "",
    brief: str = "",
) -> Finding:
    """A finding with its sentences in order; one from memory says so."""
    if citation.basis is Basis.MEMORY:
        from_memory = said("The book has this from memory: it explains but carries no weight.")
        inference = in_a_row(filter(None, (inference, from_memory)))
    return Finding(
        rule=rule.id,
        by=rule,
        topic=topic,
        outcome=outcome,
        subjects=tuple(subjects),
        observation=observation,
        inference=inference,
        basis=citation.basis,
        source=citation.source,
        agreement_share=agreement_share,
        strength=strength,
        brief=brief,
    )


def subject(showing: Showing) -> Subject:
    """The subject that a showing is."""
    return Subject(showing.mark, showing.field, showing.shown)


def sentence(text: str) -> str:
    """The text with a capital and a full stop.

    >>> sentence("the plate reads 12")
    'The plate reads 12.'
    """
    return whole_sentence(text)


def all_of(words: Iterable[str]) -> str:
    """Words in a row, at most as many as a reader takes in.

    >>> all_of(["a", "b", "c"]), all_of("abcdef")
    ('a, b and c', 'a, b, c and 3 more')
    """
    return catalogue.all_of(_short(words))


def one_of(words: Iterable[str]) -> str:
    """Words of which one holds, at most as many as a reader takes in.

    >>> one_of(["a", "b"]), one_of("abcdef")
    ('a or b', 'a, b, c or 3 more')
    """
    return catalogue.one_of(_short(words))


def _short(words: Iterable[str]) -> list[str]:
    row = list(words)
    if len(row) > _NAMED_AT_MOST + 1:
        left = len(row) - _NAMED_AT_MOST
        row[_NAMED_AT_MOST:] = [counted("{number} more", "{number} more", left)]
    return row


def says(showing: Showing) -> str:
    """What a showing says, as a clause: "the chassis plate reads S2 (Solent Sprint)"."""
    if showing.is_claim:
        value = showing.values[0].meaning if showing.values else showing.shown
        return said("the claim says {value}", value=value)
    if showing.is_empty:
        return _left_empty(showing)
    meaning = means(showing)
    if not meaning:
        return said("the {mark} reads {text}", mark=showing.name, text=showing.shown)
    return said(
        "the {mark} reads {text} ({meaning})",
        mark=showing.name,
        text=showing.shown,
        meaning=meaning,
    )


def _left_empty(showing: Showing) -> str:
    return said("the {mark} was left empty at {field}", mark=showing.name, field=showing.field_name)


def of_item(showing: Showing, *others: Showing) -> str:
    """What showings of one item say, in a sentence that begins with the item."""
    clauses = in_a_row((says(each) for each in (showing, *others)), "; ")
    return sentence(item_clause(showing, clauses))


def item_clause(showing: Showing, clauses: str) -> str:
    """The item of a showing and what is said of it: "paint: the plate reads 14"."""
    return said("{item}: {clauses}", item=showing.item.name, clauses=clauses)


def means(showing: Showing) -> str:
    """What a code or date that was read may mean, such as "1968-07-04, or no date: the holiday
    of 4 July"; empty for a number."""
    if showing.dates:
        days = days_meant(showing.dates)
        other = showing.placeholder
        return said("{days}, or no date: {meaning}", days=days, meaning=other) if other else days
    if showing.placeholder:
        return showing.placeholder
    likely = showing.likely()
    if likely and not likely[0].is_listed:
        return said("not listed in this book")
    return one_of(_value(showing, value) for value in likely)


def days_meant(dates: tuple[DateValue, ...]) -> str:
    """The days a date code may mean, the likeliest first."""
    spans = dict.fromkeys(day.span for day in sorted(dates, key=lambda d: (-d.share, d.span)))
    return one_of(span_meant(span) for span in spans)


def range_text(first: object, last: object) -> str:
    """Numbers, years or days from a first to a last."""
    return said("{first} to {last}", first=first, last=last)


def place_text(from_end: int, length: int) -> str:
    """A place counted as people count, from the left: "place 3 of 6"."""
    return said("place {place} of {length}", place=length - from_end, length=length)


def year_text(applies: Applies) -> str:
    """The years of a row: "1952 to 1956", or one year."""
    return from_to(applies.first_year, applies.last_year)


def for_whom(applies: Applies, book: CodeBook) -> str:
    """Years, works and models of a row: "1952 to 1956, only Ellery Coachworks"."""
    years = year_text(applies)
    only = [row.name for row in book.works if row.id in applies.works]
    only += [row.name for row in book.models if row.id in applies.models]
    return said("{years}, only {names}", years=years, names=either(only)) if only else years


def the_named(showing: Showing) -> str:
    """The mark of a showing, or the claim, as a sentence names it: "the chassis plate"."""
    return said("the claim") if showing.is_claim else said("the {mark}", mark=showing.name)


def on_mark(name: str, mark: str) -> str:
    """A field or an item with its mark, or the mark alone whose name holds the other's.

    >>> on_mark("week code", "gearbox stamping"), on_mark("week code", "week code of 1958")
    ('week code on the gearbox stamping', 'week code of 1958')
    """
    if f" {name.casefold()} " in f" {mark.casefold()} ":
        return mark
    return said("{field} on the {mark}", field=name, mark=mark)


def why_nothing(showing: Showing) -> str:
    """Why a showing says nothing that can be compared, as a clause."""
    mark, text, field = showing.name, showing.shown, showing.field_name
    if showing.is_claim:
        return said("the claim says {text}, which this book cannot compare", text=text)
    if showing.is_empty:
        return _left_empty(showing)
    if showing.placeholder:
        meaning = showing.placeholder
        return said("the {mark} reads {text}: {meaning}", mark=mark, text=text, meaning=meaning)
    if showing.lacks:
        return counted(
            "the {mark} reads {text}, {number} character short",
            "the {mark} reads {text}, {number} characters short",
            showing.lacks,
            mark=mark,
            text=text,
        )
    if any(sign not in "?~_…/ " for sign in text):
        return said(
            "the {mark} reads {text}, which this book does not explain", mark=mark, text=text
        )
    return said("the {mark} cannot be read at {field} ({text})", mark=mark, field=field, text=text)


def _value(showing: Showing, value: CodeValue) -> str:
    if value.is_listed:
        return value.meaning
    return said("{code}, not listed in this book", code=showing.as_read(value.code))
