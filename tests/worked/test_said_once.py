"""What is said of a question is said once: it has a figure, or it stands under what cannot be
established, on every page of a report."""

from dataclasses import replace
from functools import cache

import pytest

from tests.examined import ratios_alone
from tests.worked.opened import DEMO, case_of, opinion_of
from tests.worked.situations.car import Car, says, unseen
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard import STANDARD
from witnessmark.casefile import Casefile
from witnessmark.codebook import CodeBook, MarkKind
from witnessmark.examination import car_marks
from witnessmark.examination.looks import looks_left
from witnessmark.examination.papers import HELD
from witnessmark.outline.records import Bullets, Facts, Table
from witnessmark.report.sections.answered import concluded
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.open import open_section
from witnessmark.report.sections.strength import strength_section
from witnessmark.weighing import Standing
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.conclusions import about_words

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
def matter_of(car: str) -> Matter:
    """What the pages of a car are made from: of a standard car its ratios, without what drives
    them; of a demonstration car the Opinion that other tests have as well."""
    case, book = case_and_book(car)
    is_shared = car in DEMONSTRATED
    return Matter(opinion_of(car) if is_shared else ratios_alone(case, book), book)


@pytest.mark.parametrize("car", CARS)
def test_a_question_has_a_figure_or_it_cannot_be_established_and_never_both_or_neither(
    car: str,
) -> None:
    matter = matter_of(car)
    weighed = matter.opinion.weighed
    (table,) = (b for b in strength_section(matter).blocks if isinstance(b, Table))
    figures = [row[0].text for row in table.rows]
    told = {
        fact.label: fact.text
        for block in open_section(matter).blocks
        if isinstance(block, Facts)
        for fact in block.facts
    }
    held = [capital(about_words(e, matter.names)) for e in weighed if e.standing.has_figure]
    assert figures == held
    for label, standing in (
        ("Cannot be established", Standing.CANNOT_BE_ESTABLISHED),
        ("Not examined", Standing.NOT_EXAMINED),
    ):
        names = [about_words(e, matter.names) for e in weighed if e.standing is standing]
        assert (label in told) == bool(names)
        assert told.get(label, "").startswith(sentence("; ".join(names)))


@pytest.mark.parametrize("car", CARS)
def test_the_first_page_has_a_row_for_every_question_or_names_it_below(car: str) -> None:
    matter = matter_of(car)
    table, *notes = concluded(matter)
    assert isinstance(table, Table)
    rows = {row[0].text.lower(): [cell.text for cell in row] for row in table.rows}
    below = " ".join(note.text for note in notes).lower()
    for each in matter.opinion.weighed:
        name = about_words(each, matter.names).lower()
        aside = (r for n, r in rows.items() if name in n and r[2] == "no answer")
        row = rows.get(name) or next(aside, None)
        assert row or name in below
        if row and not each.standing.has_figure:
            assert row[2:4] == ["no answer", ""]


@pytest.mark.parametrize("car", CARS)
def test_of_what_was_read_a_source_would_still_speak_only_on_metal(car: str) -> None:
    opinion = matter_of(car).opinion
    case, book = case_and_book(car)
    # The case need not list a paper that was read.
    unlisted = replace(case, papers=tuple(p for p in case.papers if p.state not in HELD))
    read = {each.mark for each in opinion.decodings}
    vain = {name for paper in case.papers for name in paper.asked_in_vain}
    left = {each.target for each in looks_left(car_marks(unlisted, book), opinion.answer)}
    for each in book.settlements:
        mark = book.mark(each.speaks_of)
        if mark is not None and mark.id in read and each.applies.covers(opinion.context):
            # What stands on metal a laboratory may read otherwise.
            is_left = mark.kind is not MarkKind.PAPER and each.id not in vain
            assert (each.id in left) is is_left


def settled(car: Car) -> str:
    """What is told of the questions that a car leaves."""
    book = book_of(car.book)
    blocks = open_section(Matter(ratios_alone(casefile(car), book), book)).blocks
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
