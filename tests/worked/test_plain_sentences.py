"""Sentences of the demonstration reports say a name once, and name things as the book does."""

import re

import pytest

from tests.worked.opened import annex_of, opinion_of, text_of
from witnessmark.examination import Opinion
from witnessmark.wording import Names

CARS = ("altered", "clean", "no-papers", "panel")


def claimed_ids(opinion: Opinion) -> list[str]:
    """The claimed values that the book gives another name."""
    names = Names(opinion.names)
    items = opinion.casefile.claim.items
    return [value for item, value in items.items() if names.value(value, item) != value]


@pytest.mark.parametrize("car", CARS)
def test_what_is_claimed_stands_under_the_name_that_the_book_gives_it(car: str) -> None:
    ids = claimed_ids(opinion_of(car))
    assert ids
    shown = re.findall(rf"the claim (?:{'|'.join(map(re.escape, ids))})\b", text_of(car))
    assert shown == []


def test_a_claimed_paint_is_named_and_a_claimed_year_stays_a_year() -> None:
    text = text_of("panel")
    assert "Paint: Saxe Blue\n" in text
    assert "Model year: 1958\n" in text
    assert "despatch ledger entry 15; the claim Saxe Blue." in annex_of("panel")


@pytest.mark.parametrize("car", CARS)
def test_a_mark_that_is_named_for_its_field_is_named_once(car: str) -> None:
    assert re.findall(r"\b(\w+ \w+) on the \1\b", text_of(car)) == []
    assert re.findall(r"\b(\w+ number): [^\n|]{1,12}, \1\b", text_of(car), re.IGNORECASE) == []


def test_the_date_of_a_mark_is_weighed_under_the_name_of_the_mark() -> None:
    text = text_of("altered")
    assert "The casting date of the block is later than the day on which the car was" in text


def test_findings_on_a_combination_bear_the_rule_in_the_words_of_the_book() -> None:
    assert "The book’s rule “Ellery never bodied the Sprint” (two findings): " in annex_of("clean")


def test_the_hyphen_of_an_outcome_stays() -> None:
    assert "three-cornered white" in text_of("clean")


@pytest.mark.parametrize(("car", "is_stated"), [("clean", False), ("panel", True)])
def test_the_report_says_where_the_examiner_states_no_prior_odds(car: str, is_stated: bool) -> None:
    text = text_of(car)
    assert ("Prior odds for identity: " in text) == is_stated
    assert ("No prior odds" in text) != is_stated
