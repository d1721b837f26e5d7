"""After one reading was changed the rest is not worked out again, and no answer differs from one
that is made afresh. Work is counted, not seconds."""

from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from unittest.mock import patch

import pytest

from tests.examination.cars import VERSION, demonstration_book, sprint
from tests.worked.situations.document import book_of
from tests.worked.situations.document import casefile as of_standard
from tests.worked.situations.standard import STANDARD
from witnessmark.agreement import car
from witnessmark.casefile import Casefile
from witnessmark.codebook import CodeBook
from witnessmark.examination import examine, quick_answer
from witnessmark.weighing import Answer, forget
from witnessmark.weighing.kept_alike import MOST_BOOKS, of_book

QUICK = ("beetle", "jaguar")
"""Cars of shipped books that are weighed in a few hundredths of a second."""
OF_SHIPPED_BOOKS = ("camaro", "mustang", "beetle", "jaguar", "sprint")


def read_otherwise(case: Casefile, mark: str, text: str) -> Casefile:
    readings = tuple(
        replace(each, text=text) if each.mark == mark else each for each in case.readings
    )
    assert readings != case.readings
    return replace(case, readings=readings)


def ratios(answer: Answer) -> list[tuple[str, str, str]]:
    return [(c.question, c.about, repr(c.log10_lr)) for c in answer.conclusions]


def afresh(case: Casefile, book: CodeBook) -> list[tuple[str, str, str]]:
    forget(book)
    return ratios(quick_answer(case, book))


def worked_out(book: CodeBook) -> Counter[str]:
    """How many answers about a book were worked out so far, by their kind."""
    return Counter({kind: latest.worked_out for kind, latest in of_book(book).items()})


def test_only_what_was_changed_is_weighed_again():
    """Of a frame, an engine and a plate: one of three pieces, with its terms and cells."""
    case, book = sprint(), demonstration_book()
    forget(book)
    quick_answer(case, book)
    first = worked_out(book)
    assert first["terms"] >= 3
    quick_answer(case, book)
    assert worked_out(book) == first
    quick_answer(read_otherwise(case, "engine_number", "L 40048"), book)
    more = worked_out(book) - first
    assert {kind: more[kind] for kind in ("pieces", "terms", "cells")} == {
        "pieces": 1,
        "terms": 1,
        "cells": 1,
    }
    assert not {"weeks", "spreads"} & more.keys()


def test_a_reading_as_before_is_not_decoded_again():
    case, book = sprint(), demonstration_book()
    changed = read_otherwise(case, "frame_number", "4 700144")
    quick_answer(case, book)
    with patch.object(car, "decode", wraps=car.decode) as asked:
        quick_answer(changed, book)
    assert [call.args[2].id for call in asked.call_args_list] == ["frame_number"]


@pytest.mark.parametrize("name", QUICK)
def test_what_is_kept_changes_no_ratio(name):
    """A reading changed and changed back."""
    case, book = of_standard(STANDARD[name]), book_of(STANDARD[name].book)
    first = case.readings[0]
    changed = read_otherwise(case, first.mark, f"{first.text[:-1]}?")
    expected = [afresh(each, book) for each in (case, changed)]
    forget(book)
    found = [ratios(quick_answer(each, book)) for each in (case, changed, case)]
    assert found == [*expected, expected[0]]


def test_an_opinion_at_once_has_the_ratios_of_the_whole():
    case, book = sprint(), demonstration_book()
    whole = examine(case, book, VERSION, steady=False)
    soon = examine(case, book, VERSION, steady=False, at_once=True)
    assert ratios(soon.answer) == ratios(whole.answer) == ratios(quick_answer(case, book))
    assert soon.answer.misfits == whole.answer.misfits
    assert (soon.is_at_once, whole.is_at_once) == (True, False)
    assert whole.looks
    assert not soon.looks
    assert not any(each.contributions for each in soon.answer.conclusions)
    without = replace(whole, answer=soon.answer, looks=(), is_at_once=True)
    assert soon == without


@pytest.mark.prove
@pytest.mark.parametrize("name", OF_SHIPPED_BOOKS)
def test_an_opinion_at_once_has_the_ratios_of_the_whole_by_every_book(name):
    case, book = of_standard(STANDARD[name]), book_of(STANDARD[name].book)
    forget(book)
    soon = examine(case, book, VERSION, steady=False, at_once=True)
    forget(book)
    assert ratios(soon.answer) == ratios(examine(case, book, VERSION, steady=False).answer)


def test_several_threads_get_the_same_answers():
    case, book = sprint(), demonstration_book()
    cases = [read_otherwise(case, "engine_number", f"L 4004{k}") for k in (1, 2, 3, 4)]
    expected = [afresh(each, book) for each in cases]
    forget(book)
    with ThreadPoolExecutor(4) as threads:
        found = list(threads.map(lambda each: ratios(quick_answer(each, book)), cases * 2))
    assert found == expected * 2


def test_a_process_that_weighs_by_many_books_keeps_the_answers_of_the_last_few():
    """Entries are counted; a book that was forgotten gives the same answer again."""
    case, book = sprint(), demonstration_book()
    books = [replace(book, summary=f"copy {n}") for n in range(MOST_BOOKS + 2)]
    found = [ratios(quick_answer(case, each)) for each in books]
    kept = [sum(latest.worked_out for latest in of_book(each).values()) for each in books]
    assert kept[:2] == [0, 0]
    assert all(kept[2:])
    assert ratios(quick_answer(case, books[0])) == found[0]
    assert not of_book(books[2])
