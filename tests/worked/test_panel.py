"""`panel`: an honest drophead with a service panel and an exchange engine, both told of."""

from dataclasses import replace
from math import log10

from tests.worked.opened import (
    case_of,
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
    unsteadied,
)
from witnessmark.casefile import OriginSaid
from witnessmark.weighing import Asked
from witnessmark.wording import referral_heading

BEYOND = log10(3)


def test_no_part_but_the_engine_is_spoken_against() -> None:
    for each in opinion_of("panel").weighed:
        if each.question is not Asked.STAMP:
            assert (each.log10_lr < -BEYOND) == (each.about == "engine"), each.about
    assert log10_lr(opinion_of("panel"), Asked.IDENTITY) > 1


def test_what_differs_is_the_engine_and_nothing_else() -> None:
    differ = [f for f in opinion_of("panel").findings if f.outcome.value == "differ"]
    assert {f.topic for f in differ} == {"engine_number", "casting-to-despatch"}
    assert all(
        any(s.mark in ("engine_number", "engine_casting") for s in f.subjects) for f in differ
    )


def test_the_engine_is_not_the_one_it_was_built_with_and_a_service_piece() -> None:
    engine = conclusion(opinion_of("panel"), Asked.CORE, "engine")
    assert engine.log10_lr < -2
    first = [each.about for each in engine.contributions[:2]]
    assert first == ["engine_number", "engine_casting"]
    assert engine.ways[0].name == "service, made"


def test_nothing_the_owner_said_differs_the_replaced_parts_included() -> None:
    said = {each.about: each.outcome for each in opinion_of("panel").disclosure}
    found = (said["frame"], said["engine"], said["wing_chassis_tail"])
    assert found == ("agrees", "as declared", "as declared")
    assert "differs" not in said.values()


def test_the_same_car_sold_as_untouched_would_differ() -> None:
    """So that the test above can fail: it is the disclosure that agrees, not the parts."""
    casefile = case_of("panel")
    statements = tuple(replace(each, origin=OriginSaid.FIRST) for each in casefile.claim.statements)
    claim = replace(casefile.claim, statements=statements)
    opinion = unsteadied(replace(casefile, claim=claim))
    said = {each.about: each.outcome for each in opinion.disclosure}
    assert (said["engine"], said["wing_chassis_tail"]) == ("differs", "differs")


def test_the_code_of_an_exchange_engine_is_told() -> None:
    assert "factory exchange engine, supplied against a returned one" in text_of("panel").lower()


def test_the_posterior_follows_from_the_odds_that_were_stated() -> None:
    identity = conclusion(opinion_of("panel"), Asked.IDENTITY)
    assert identity.prior_odds == 20
    assert identity.posterior_odds is not None
    assert log10(identity.posterior_odds) > log10(20) + BEYOND


def test_the_report_accuses_nobody_and_refers_to_nobody() -> None:
    text = text_of("panel").lower()
    assert referral_heading().lower() not in text
    for word in ("deceit", "deceive", "dishonest", "conceal", "tamper", "suspicio"):
        assert word not in text, word


def test_the_absence_is_told_with_the_reason_and_without_an_inference_against_anybody() -> None:
    text = text_of("panel")
    assert "smooth primer where the tail of the chassis number would stand" in text
    assert "Sent the restorer's bill for the wing, which names the service panel." in text
