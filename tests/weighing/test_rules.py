"""Rules between codes bind claimed items: what the works did not build together counts once."""

from dataclasses import replace

import numpy as np

from tests.worked.situations.car import Car, Change, claims, says, unseen
from tests.worked.situations.changes import core_unseen, only, without_papers
from tests.worked.situations.document import book_of, casefile
from tests.worked.situations.standard_shipped import CAMARO, NUMBERED
from tests.worked.situations.standard_small import COACHBUILT
from witnessmark.agreement import CarMarks, compare
from witnessmark.codebook import Basis
from witnessmark.examination import car_marks
from witnessmark.weighing import Asked, answer, rate_values
from witnessmark.weighing.network.build import noted
from witnessmark.weighing.network.ties import configured
from witnessmark.weighing.pieces.items import IMPLIED

A_SIX = says("number_plate", "123379N{number}")
PLAINER = says("engine_stamp", type="SA")


def marks(car: Car, *changes: Change) -> CarMarks:
    changed = car.but(*changes)
    return car_marks(casefile(changed), book_of(changed.book))


def lrs(seen: CarMarks) -> dict[str, float]:
    """Every ratio by question and what it is about."""
    found = answer(seen, compare(seen), with_contributions=False, with_next_looks=False)
    return {f"{each.question} {each.about}": 10**each.log10_lr for each in found.conclusions}


def from_memory(seen: CarMarks, rule: str) -> CarMarks:
    """The same car by a book that has one rule from memory."""
    rules = tuple(
        replace(each, citation=replace(each.citation, basis=Basis.MEMORY))
        if each.id == rule
        else each
        for each in seen.book.rules
    )
    return replace(seen, book=replace(seen.book, rules=rules))


def test_a_number_that_cannot_be_the_claimed_models_speaks_against_what_it_excludes() -> None:
    """A six by its number, claimed with an eight: a hundredfold against the engine, and hardly
    against the body."""
    six, right = lrs(marks(CAMARO, without_papers, A_SIX)), lrs(marks(CAMARO, without_papers))
    assert six["item engine"] < right["item engine"] / 100
    assert right["identity body"] / 2 < six["identity body"] <= right["identity body"]


def test_it_speaks_where_nobody_saw_the_engine() -> None:
    bare = marks(CAMARO, only("number_plate", "hidden_number_cowl"), A_SIX)
    assert lrs(bare)["item engine"] < 1 / 30
    assert noted(bare).items["series"].claimed == IMPLIED


def test_what_follows_by_a_firm_rule_is_answered_though_nobody_read_it() -> None:
    """The plate names the package, and no mark the type of engine; it stays claimed."""
    unread = marks(NUMBERED, without_papers, core_unseen("engine"))
    assert 3 < lrs(unread)["item engine_type"] < lrs(unread)["item package"]
    without = marks(NUMBERED, without_papers, core_unseen("engine"), unseen("body_plate"))
    assert "engine_type" not in noted(without).items


def test_a_rule_from_memory_binds_nothing() -> None:
    six = from_memory(marks(CAMARO, without_papers, A_SIX), "six-plate-six-engine")
    assert "series" not in noted(six).items
    assert lrs(six)["item engine"] > 10


def test_codes_that_fit_the_claim_add_no_item() -> None:
    assert set(noted(marks(CAMARO)).items) <= set(CAMARO.claim)


def test_a_plainer_engine_with_the_right_number_speaks_against_the_package() -> None:
    """The plate alone does not outvote the engine's own stamp."""
    plainer = lrs(marks(NUMBERED, without_papers, PLAINER))
    assert plainer["item engine_type"] < 1 / 10
    assert plainer["item package"] < 1 / 3


def test_what_rules_bind_stays_certain_together() -> None:
    """Over all states of all items they sum to 1, dressed or not, whatever a rule forbids."""
    known = noted(marks(CAMARO, without_papers, A_SIX))
    found = configured(known.items, known.ties, rate_values())
    assert known.ties
    for before in found.before.values():
        np.testing.assert_allclose(before.sum(axis=-1), 1.0)


def test_items_that_are_right_do_not_clear_a_dressed_car() -> None:
    """A car is dressed in one or two items: a further claimed one that agrees adds little."""
    few = marks(NUMBERED, without_papers, core_unseen("engine"), claims(paint="", trim=""))
    many = marks(NUMBERED, without_papers, core_unseen("engine"))
    assert lrs(many)["item package"] < 2 * lrs(few)["item package"]


def test_what_a_code_of_the_number_does_to_an_excluded_item_is_told() -> None:
    six = marks(CAMARO, without_papers, A_SIX)
    found = answer(six, compare(six), with_next_looks=False)
    engine = found.conclusion(Asked.ITEM, "engine")
    assert engine is not None
    told = {each.about: each.log10_lr_change for each in engine.contributions}
    assert told["number_plate"] < -1


def test_a_block_is_dated_by_the_day_of_its_frame() -> None:
    """However long the body took: the book has its lag to the frame's week."""
    late = (says("body_week", "036"), unseen("despatch_ledger"))
    car = replace(COACHBUILT, built="1936-02-04")
    assert (
        lrs(marks(car, *late))["core engine"]
        > lrs(marks(car, *late, unseen("chassis_week")))["core engine"]
    )
    early = says("block_casting", "15G4")
    assert lrs(marks(COACHBUILT, early))["core engine"] < lrs(marks(COACHBUILT))["core engine"] / 4
