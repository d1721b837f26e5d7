"""A case begun holds what was said of it, and every place that its book expects."""

from datetime import date

import pytest

from witnessmark.casefile import Casefile, Examiner, SiteState, parse_casefile, render_casefile
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.entry import CaseAsked, Entered, EnteredPair, begun, claimed_items
from witnessmark.problem import Problem
from witnessmark.source import Source

DAY = date(2026, 11, 30)


@pytest.fixture(scope="module")
def book() -> CodeBook:
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    found = open_book(folder).book
    assert found is not None
    return found


def asked(book: CodeBook, *, id: str = "sprint", title: str = "", year: str = "1955") -> CaseAsked:
    """What a page was told, its fields called as there."""
    problems: list[Problem] = []
    year_typed = EnteredPair(
        Entered("model year", Source("year")), Entered(year, Source("year", text=year))
    )
    model = EnteredPair(
        Entered("model", Source("model")), Entered("Solent Sprint", Source("model"))
    )
    items = claimed_items(book, [model, year_typed], problems)
    assert problems == []
    return CaseAsked(
        id=Entered(id, Source("id")),
        book=Entered(book.id, Source("book")),
        opened=DAY,
        title=Entered(title, Source("title")),
        items=items,
        examiners=(Examiner(id="calder", name="Ines Calder"),),
    )


def test_a_case_begun_is_whole(book: CodeBook) -> None:
    """Its text is read as the same case, without a fault."""
    made = begun(book, asked(book, title="A Sprint of 1955"))
    assert isinstance(made, Casefile)
    assert (made.title, made.opened, made.assignment.examiners[0].name) == (
        "A Sprint of 1955",
        DAY,
        "Ines Calder",
    )
    assert made.claim.items == {"model": "solent-sprint", "model_year": "1955"}
    assert {each.state for each in made.sites} == {SiteState.NOT_LOOKED_FOR}
    assert "frame_rail" in {each.site for each in made.sites}
    parsed = parse_casefile(render_casefile(made), "case.json")
    assert (parsed.casefile, parsed.problems) == (made, ())


def test_all_that_is_wrong_is_told_where_it_was_entered(book: CodeBook) -> None:
    """The year by the book, the id by its form, the title by its length."""
    found = begun(book, asked(book, id="no id", title="x" * 50_000, year="1999"))
    assert isinstance(found, tuple)
    assert {each.source.name for each in found} == {"year", "id", "title"}
    assert "'" + "x" * 60 + "...' is too long" in {each.sentence() for each in found}
