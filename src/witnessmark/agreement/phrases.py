"""The turns of phrase that every rule uses: what stands where, then what it fits.

Observation and inference are two sentences. "Consistent with" and "not
consistent with" speak of the two things that were compared; what the readings
leave open is "I could not determine". Nothing here judges a car or a person.
"""

from collections.abc import Iterable

from witnessmark.agreement.records import Finding, Outcome, Subject
from witnessmark.agreement.showing import CodeValue, DateValue, Showing
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import Applies, Basis, CarContext, Citation

FROM_MEMORY = "The book has this from memory: it explains and does not argue."

NOT_LISTED = "not listed in this book"

_NAMED_AT_MOST = 3


def finding(
    rule: str,
    topic: str,
    outcome: Outcome,
    subjects: Iterable[Subject],
    observation: str,
    inference: str,
    citation: Citation,
    *,
    agreement_share: float | None = None,
    strength: str = "",
) -> Finding:
    """A finding with its sentences in order; one from memory says so."""
    if citation.basis is Basis.MEMORY:
        inference = f"{inference} {FROM_MEMORY}".strip()
    return Finding(
        rule=rule,
        topic=topic,
        outcome=outcome,
        subjects=tuple(subjects),
        observation=observation,
        inference=inference,
        basis=citation.basis,
        source=citation.source,
        agreement_share=agreement_share,
        strength=strength,
    )


def subject(showing: Showing) -> Subject:
    """The subject that a showing is."""
    return Subject(showing.mark, showing.field, showing.shown)


def sentence(text: str) -> str:
    """The text with a capital and a full stop.

    >>> sentence("the plate reads 12")
    'The plate reads 12.'
    """
    text = text.strip()
    ending = "" if text.endswith((".", "…")) else "."
    return text[:1].upper() + text[1:] + ending


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a row, at most as many as a reader takes in.

    >>> listed(["a", "b", "c"]), listed("abcdef", "or")
    ('a, b and c', 'a, b, c or 3 more')
    """
    row = list(words)
    if len(row) > _NAMED_AT_MOST + 1:
        row[_NAMED_AT_MOST:] = [f"{len(row) - _NAMED_AT_MOST} more"]
    if len(row) < 2:
        return "".join(row)
    return f"{', '.join(row[:-1])} {last} {row[-1]}"


def says(showing: Showing) -> str:
    """What a showing says, as a clause: "the chassis plate reads S2 (Solent Sprint)"."""
    if showing.is_claim:
        return f"the claim says {showing.values[0].meaning if showing.values else showing.shown}"
    if showing.is_empty:
        return f"the {showing.name} was left empty at {showing.field_name}"
    meaning = means(showing)
    return f"the {showing.name} reads {showing.shown}" + (f" ({meaning})" if meaning else "")


def means(showing: Showing) -> str:
    """What a code or date that was read may mean; empty for a number."""
    if showing.placeholder:
        return showing.placeholder
    if showing.dates:
        return days_meant(showing.dates)
    likely = showing.likely()
    if likely and not likely[0].is_listed:
        return NOT_LISTED
    return listed((_value(value) for value in likely), "or")


def days_meant(dates: tuple[DateValue, ...]) -> str:
    """The days a date code may mean, the likeliest first."""
    spans = dict.fromkeys(str(day.span) for day in sorted(dates, key=lambda d: (-d.share, d.span)))
    return listed(spans, "or")


def place_text(from_end: int, length: int) -> str:
    """A place counted as people count, from the left: "place 3 of 6"."""
    return f"place {length - from_end} of {length}"


def year_text(applies: Applies) -> str:
    """The years of a row: "1952 to 1956", or one year."""
    if applies.first_year == applies.last_year:
        return str(applies.first_year)
    return f"{applies.first_year} to {applies.last_year}"


def for_whom(applies: Applies, book: CodeBook) -> str:
    """Years, works and models of a row: "1952 to 1956, only Ellery Coachworks"."""
    years = year_text(applies)
    only = [row.name for row in book.works if row.id in applies.works]
    only += [row.name for row in book.models if row.id in applies.models]
    return f"{years}, only {' or '.join(only)}" if only else years


def car_meant(context: CarContext) -> str:
    """The car that the book was asked about, as the end of a sentence."""
    if context == CarContext():
        return "the years and works of this book"
    return "the works, model and year claimed"


def why_nothing(showing: Showing) -> str:
    """Why a showing says nothing that can be compared, as a clause."""
    if showing.is_claim:
        return f"the claim says {showing.shown}, which this book cannot compare"
    if showing.is_empty:
        return f"the {showing.name} was left empty at {showing.field_name}"
    if showing.placeholder:
        return f"the {showing.name} reads {showing.shown}: {showing.placeholder}"
    if showing.lacks:
        short = "1 character" if showing.lacks == 1 else f"{showing.lacks} characters"
        return f"the {showing.name} reads {showing.shown}, {short} short"
    if any(sign not in "?~_…/ " for sign in showing.shown):
        return f"the {showing.name} reads {showing.shown}, which this book does not explain"
    return f"the {showing.name} cannot be read at {showing.field_name} ({showing.shown})"


def _value(value: CodeValue) -> str:
    return value.meaning if value.is_listed else f"{value.code}, {NOT_LISTED}"
