"""What is entered into a case in memory, and what is taken out of it again."""

import json

import pytest

from witnessmark.casefile import parse_casefile
from witnessmark.codebook import CodeBook, find_book, open_book
from witnessmark.entry import (
    CaseDraft,
    Entered,
    EnteredPair,
    checked,
    decoded,
    enter_readings,
    enter_statements,
)
from witnessmark.source import Source

TEXT = """{
  "format": "witnessmark-case", "format_version": 2, "id": "sprint", "book": "tarvane-1952-1961",
  "claim": {"items": {"model": "solent-sprint", "model_year": "1955"}},
  "notes_of_another": [ 1,  2 ],
  "readings": [
    {"mark": "block_number", "text": "S28117"},
    {"mark": "frame_stamp", "text": "4 700143", "later": "kept"}
  ]
}
"""


@pytest.fixture(scope="module")
def book() -> CodeBook:
    folder = find_book("tarvane-1952-1961")
    assert folder is not None
    found = open_book(folder).book
    assert found is not None
    return found


def drafted(book: CodeBook, text: str = TEXT) -> CaseDraft:
    opened = parse_casefile(text, "case.json")
    assert opened.casefile is not None
    return CaseDraft(opened=opened, casefile=opened.casefile, book=book)


def pair(left: str, right: str) -> EnteredPair:
    return EnteredPair(Entered(left, Source("mark")), Entered(right, Source("text")))


def readings(text: str) -> list[dict[str, str]]:
    found: list[dict[str, str]] = json.loads(text)["readings"]
    return found


def test_an_entry_is_taken_away_and_nothing_else(book: CodeBook) -> None:
    """What nobody knows in the entry behind it stays, and all else to the byte."""
    draft = drafted(book)
    assert draft.remove("readings", 0)
    text, problems = checked(draft)
    assert problems == ()
    assert readings(text) == [{"mark": "frame_stamp", "text": "4 700143", "later": "kept"}]
    assert text.partition('"readings"')[0] == TEXT.partition('"readings"')[0]


@pytest.mark.parametrize("at", [-1, 2])
def test_an_entry_that_is_not_there_is_not_taken_away(book: CodeBook, at: int) -> None:
    draft = drafted(book)
    assert not draft.remove("readings", at)
    assert checked(draft) == (TEXT, ())


def test_what_is_entered_after_a_removal_is_told_and_decoded_alone(book: CodeBook) -> None:
    """The older entry, which has moved up, stays as it was typed."""
    draft = drafted(book)
    draft.remove("readings", 0)
    told = enter_readings(draft, [pair("frame stamp", "4 700144")], {})
    assert told[0] == "Frame stamping: 4 700144"
    assert [each.reading.as_typed for each in decoded(draft)] == ["4 700144"]
    text, problems = checked(draft)
    assert problems == ()
    assert [each["mark"] for each in readings(text)] == ["frame_stamp", "frame_number"]


def test_where_a_value_was_entered_moves_up_with_it(book: CodeBook) -> None:
    draft = drafted(book)
    enter_readings(draft, [pair("frame stamp", "4 700144")], {})
    draft.remove("readings", 1)
    assert draft.places().source(("readings", 1, "text")).name == "text"


def test_an_entry_just_made_is_taken_away_with_what_was_wrong_of_it(book: CodeBook) -> None:
    draft = drafted(book)
    enter_statements(draft, [pair("engine", "Service block of 1961.")], {})
    enter_statements(draft, [pair("nosuchpart", "Never apart.")], {})
    assert [each.source.name for each in checked(draft)[1]] == ["mark"]
    assert draft.remove("claim.statements", 1)
    text, problems = checked(draft)
    assert problems == ()
    assert [each["about"] for each in json.loads(text)["claim"]["statements"]] == ["engine"]


def test_two_removals_of_a_section_count_on(book: CodeBook) -> None:
    """The second names its place as it is after the first."""
    draft = drafted(book)
    assert draft.remove("readings", 0)
    assert draft.remove("readings", 0)
    assert not draft.remove("readings", 0)
    text, problems = checked(draft)
    assert (readings(text), problems) == ([], ())


def test_a_value_at_fault_is_told_where_it_was_entered(book: CodeBook) -> None:
    """Under the name of the field of a page, say."""
    draft = drafted(book)
    seen = {"seen": Entered("dreamt", Source("seen"))}
    assert enter_readings(draft, [pair("frame stamp", "4 700144")], seen) == ()
    (problem,) = checked(draft)[1]
    assert (problem.source.name, len(draft.casefile.readings)) == ("seen", 2)
