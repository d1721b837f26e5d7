"""What is said of a question is said once: it has a figure, or it stands under what cannot be
established, on every page of a report."""

import re
from collections import defaultdict
from dataclasses import replace
from functools import cache

import pytest

from tests.examined import ratios_alone
from tests.worked.opened import DEMO, case_of
from tests.worked.situations.car import Car, says, unseen
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Casefile
from witnessmark.codebook import CodeBook, MarkKind
from witnessmark.examination import car_marks
from witnessmark.examination.looks import looks_left
from witnessmark.examination.papers import HELD
from witnessmark.outline.records import Bullets, Card, Heading, Table
from witnessmark.report.sections.client import CONCLUSIONS_SHOWN, concluded
from witnessmark.report.sections.client_open import (
    QUESTIONS_SHOWN,
    Front,
    inside,
    not_established,
)
from witnessmark.report.sections.summary import settling_section, summary_section
from witnessmark.wording import Names
from witnessmark.wording.conclusions import heading

DEMONSTRATED = tuple(sorted(each.parent.name for each in DEMO.glob("*/case.json")))
CARS = (*STANDARD, *DEMONSTRATED)
ENGINE_MARKS = {
    "jaguar": ("engine_stamp", "head_stamp"),
    "sprint": ("engine_number", "engine_casting"),
}


def case_and_book(car: str) -> tuple[Casefile, CodeBook]:
    """A standard or demonstration car by its name, and its book."""
    case = case_of(car) if car in DEMONSTRATED else casefile(STANDARD[car])
    return case, book_of(case.book)


@cache
def front_of(car: str) -> Front:
    """What the pages of a car are made from: its ratios, without what drives them."""
    case, book = case_and_book(car)
    opinion = ratios_alone(case, book)
    return Front(opinion, book, Names(opinion.names), defaultdict(int))


@pytest.mark.parametrize("car", CARS)
def test_a_question_is_a_card_or_it_cannot_be_established_and_never_both_or_neither(
    car: str,
) -> None:
    front = front_of(car)
    blocks = summary_section(front.opinion, front.book).blocks
    cards = [each.text.heading for each in blocks if isinstance(each, Card)]
    listed, under = [], ""
    for each in settling_section(front.opinion, front.book).blocks:
        if isinstance(each, Heading):
            under = each.text
        elif isinstance(each, Bullets) and under in ("Cannot be established", "Not examined"):
            listed += [line.partition(": whether ")[0] for line in each.items if "whether" in line]
    asked = [heading(each, front.names) for each in front.opinion.weighed]
    assert cards
    assert sorted(cards + listed) == sorted(asked)


@pytest.mark.parametrize("car", CARS)
def test_the_first_page_has_a_figure_for_it_or_names_it_below(car: str) -> None:
    front = front_of(car)
    (table,) = (each for each in concluded(front) if isinstance(each, Table))
    figures = [row for row in table.rows if row[-1].text]
    told = " ".join(not_established(front)).lower()
    held = [each for each in front.opinion.weighed if each.standing.has_figure]
    untold = [each for each in front.opinion.weighed if not each.standing.has_figure]
    assert len(figures) == min(len(held), CONCLUSIONS_SHOWN)
    for each in held:
        assert not re.search(rf"whether {re.escape(inside(each.pair.first).lower())}[;.]", told)
    assert told.count("whether ") == min(len(untold), QUESTIONS_SHOWN)


@pytest.mark.parametrize("car", CARS)
def test_of_what_was_read_a_source_would_still_speak_only_on_metal(
    car: str,
) -> None:
    front = front_of(car)
    case, book = case_and_book(car)
    # The case need not list a paper that was read.
    unlisted = replace(case, papers=tuple(p for p in case.papers if p.state not in HELD))
    read = {each.mark for each in front.opinion.decodings}
    vain = {name for paper in case.papers for name in paper.asked_in_vain}
    left = {each.target for each in looks_left(car_marks(unlisted, book), front.opinion.answer)}
    for each in book.settlements:
        mark = book.mark(each.speaks_of)
        if mark is not None and mark.id in read and each.applies.covers(front.opinion.context):
            # What stands on metal a laboratory may read otherwise.
            is_left = mark.kind is not MarkKind.PAPER and each.id not in vain
            assert (each.id in left) is is_left


def settled(car: Car) -> str:
    """What is told of the questions that a car leaves."""
    book = book_of(car.book)
    blocks = settling_section(ratios_alone(casefile(car), book), book).blocks
    return "\n".join(line for each in blocks if isinstance(each, Bullets) for line in each.items)


EMPTY = "{number}||{tub}|{gearbox}|Opalescent Dark Blue|Red|14.11.1962|26.11.1962"
LEDGER = "{number}|4||M|{body}|17|120555"


@pytest.mark.parametrize(
    ("car", "paper", "empty", "told"),
    [
        ("jaguar", "certificate_38", EMPTY, "Engine block: the archive certificate "),
        ("sprint", "despatch_ledger", LEDGER, "Engine block: the despatch ledger entry "),
    ],
)
def test_of_a_paper_that_was_read_it_is_told_what_it_says_or_that_it_does_not_answer(
    car: str, paper: str, empty: str, told: str
) -> None:
    whole = STANDARD[car].but(*(unseen(mark) for mark in ENGINE_MARKS[car]))
    assert f"{told}reads " in settled(whole)
    assert f"{told}was read and does not answer this." in settled(whole.but(says(paper, empty)))
