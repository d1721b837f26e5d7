"""`witnessmark book search` and `witnessmark book guess`."""

import json


def test_search_prints_the_rows_with_years_and_basis(type_in):
    ended = type_in("book", "search", "fathom green")
    assert (ended.code, ended.err) == (0, "")
    assert "Fathom Green" in ended.out
    assert "published" in ended.out


def test_search_keeps_to_twenty_rows_unless_all_are_asked_for(type_in):
    short, whole = (type_in("book", "search", "H", *more).out for more in ((), ("--all",)))
    assert "more rows: --all" in short
    assert len(whole) > len(short)
    assert "--all" not in whole


def test_what_is_not_listed_is_not_said_to_be_never_used(type_in):
    out = " ".join(type_in("book", "search", "zzzz").out.split())
    assert "does not say that the maker never used it" in out


def test_guess_says_what_speaks_for_the_first_answer(type_in):
    ended = type_in("book", "guess", "L 40047")
    assert (ended.code, ended.err) == (0, "")
    assert "1. engine number" in ended.out
    assert "L: two-litre engine of the Sprint [invented]" in ended.out
    assert "not what the car is" in " ".join(ended.out.split())


def test_both_give_json_and_can_ask_one_book(type_in):
    asked = ("--book", "tarvane-1952-1961", "--json")
    hits = json.loads(type_in("book", "search", "brass plate", *asked).out)
    assert {hit["book"] for hit in hits} == {"tarvane-1952-1961"}
    (first, *_) = json.loads(type_in("book", "guess", "L 40047", *asked).out)
    assert first["marks"] == ["engine_number"]


def test_a_book_that_there_is_not_is_refused(type_in):
    ended = type_in("book", "guess", "123", "--book", "nowhere")
    assert ended.code == 2
    assert "'nowhere' is not a code book" in ended.err
