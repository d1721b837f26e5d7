"""Cars of the demonstration book, built from readings as an examiner would type them."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from witnessmark.agreement import CarMarks, Finding
from witnessmark.agreement.car import marks_of_car
from witnessmark.casefile import Casefile, Claim, Legibility, MarkReading, Paper, Title
from witnessmark.codebook import Basis, CarContext, Citation, CodeBook, find_book, open_book

SPRINT = {
    "chassis_number": "700137",
    "model": "solent-sprint",
    "model_year": "1955",
    "works": "tarvane",
    "body_works": "marrick",
}
"""The claim of most tests: a Solent Sprint of 1955, number 700137, body by Marrick."""


@pytest.fixture(scope="session")
def book() -> CodeBook:
    """The demonstration book."""
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    opened = open_book(folder)
    assert opened.book is not None, [p.render() for p in opened.problems]
    return opened.book


@pytest.fixture(scope="session")
def car(book):
    """Build a car from its claim and its readings: `car({...}, frame_number="4 700137")`.

    A mark read twice takes a tuple of texts.
    """

    def build(
        claim: Mapping[str, str] = SPRINT,
        *,
        built: str | None = None,
        title: str = "",
        papers: tuple[Paper, ...] = (),
        legibility: Legibility = Legibility.CLEAR,
        of_book: CodeBook = book,
        **readings: str | tuple[str, ...],
    ) -> CarMarks:
        typed = tuple(
            MarkReading(mark=mark, text=text, legibility=legibility)
            for mark, texts in readings.items()
            for text in ((texts,) if isinstance(texts, str) else texts)
        )
        casefile = Casefile(
            id="test",
            book=of_book.id,
            claim=Claim(items=dict(claim), built=built),
            readings=typed,
            papers=papers,
            title_paper=Title(number=title),
        )
        return car_marks(casefile, of_book)

    return build


def car_marks(casefile: Casefile, book: CodeBook) -> CarMarks:
    """A case with each of its readings decoded."""
    assert all(book.mark(typed.mark) for typed in casefile.readings), casefile.readings
    claim = casefile.claim.items
    context = CarContext(
        model_year=int(claim["model_year"]) if "model_year" in claim else None,
        model=claim.get("model"),
        works=frozenset(claim[key] for key in ("works", "body_works") if key in claim),
    )
    return marks_of_car(casefile, book, context)


@pytest.fixture(scope="session")
def book_from_memory(book):
    """The demonstration book as if every row of it were from memory."""
    memory = Citation(Basis.MEMORY, "heard at a meeting")

    def moved(rows):
        return tuple(replace(row, citation=memory) for row in rows)

    return replace(
        book,
        codes=moved(book.codes),
        series=moved(book.series),
        rules=moved(book.rules),
        lags=moved(book.lags),
        marks=moved(book.marks),
    )


@pytest.fixture(scope="session")
def about():
    """The findings whose subjects are exactly these marks, in any order."""

    def select(findings: tuple[Finding, ...], *marks: str, topic: str = "") -> list[Finding]:
        return [
            each
            for each in findings
            if {s.mark for s in each.subjects} == set(marks) and topic in ("", each.topic)
        ]

    return select
