"""`no-papers`: a Sprint whose frame is pitted, whose card is lost and whose leaf is missing."""

from math import log10

from tests.worked.opened import conclusion, log10_lr, opinion_of, text_of
from witnessmark.weighing import Asked, Standing

BEYOND = log10(3)


def test_nothing_on_the_car_speaks_against_it() -> None:
    opinion = opinion_of("no-papers")
    assert [f for f in opinion.findings if f.outcome.value == "differ"] == []
    assert opinion.answer.misfits == ()
    assert all(each.log10_lr > -BEYOND for each in opinion.weighed)


def test_identity_comes_out_near_one_and_stays_open() -> None:
    found = conclusion(opinion_of("no-papers"), Asked.IDENTITY)
    assert abs(found.log10_lr) < BEYOND
    assert found.standing is Standing.OPEN


def test_what_was_asked_in_vain_or_is_lost_is_not_offered_again() -> None:
    offered = {look.target for look in opinion_of("no-papers").looks}
    assert not offered & {
        "ledger-at-archive", "card-at-register", "despatch_ledger", "build_card"
    }  # fmt: skip


def test_the_report_names_what_speaks_of_the_frame_beyond_the_car() -> None:
    text = text_of("no-papers")
    after = text[text.index("\n-- What cannot be established, and what bears on it\n") :]
    assert "Open: Identity: frame; " in after
    assert "Magneto-optical examination of the frame rail by a laboratory" in after


def test_the_engine_speaks_so_far_for_the_car() -> None:
    assert log10_lr(opinion_of("no-papers"), Asked.CORE, "engine") > BEYOND


def test_a_statement_about_what_is_open_stays_open() -> None:
    said = {each.about: each.outcome for each in opinion_of("no-papers").disclosure}
    assert said["frame"] == "open"
    assert "differs" not in said.values()


def test_what_is_lost_or_out_of_reach_stands_under_the_limits() -> None:
    limits = [each.sentence for each in opinion_of("no-papers").limitations]
    assert "The despatch ledger entry is lost." in limits
    assert "The build card is lost." in limits
    assert any("axle casing was not accessible" in each for each in limits)
