"""`panel`: an honest drophead with a service panel and an exchange engine, both told of."""

from math import log10

from witnessmark.weighing.nodes import CharacterSource
from witnessmark.weighing.weigh import prepare

from tests.worked.opened import (
    book_and_version,
    case_of,
    conclusion,
    log10_lr,
    opinion_of,
    text_of,
    without_its_bounds,
)
from witnessmark.agreement import compare
from witnessmark.casefile.records import OriginSaid, SiteState
from witnessmark.examination import car_marks
from witnessmark.weighing import Question
from witnessmark.wording import REFERRAL_HEADING

BEYOND = log10(3)


def test_frame_plate_papers_body_gearbox_and_axle_are_supported() -> None:
    opinion = opinion_of("panel")
    for each in opinion.weighing.conclusions:
        assert (each.lr.log10_lr > BEYOND) == (each.about != "engine"), each.about


def test_what_differs_is_the_engine_and_nothing_else() -> None:
    differ = [f for f in opinion_of("panel").findings if f.outcome.value == "differ"]
    assert {f.topic for f in differ} == {"engine_number", "casting-to-despatch"}
    assert all(
        any(s.mark in ("engine_number", "engine_casting") for s in f.subjects) for f in differ
    )


def test_the_engine_is_not_the_one_it_was_built_with() -> None:
    engine = conclusion(opinion_of("panel"), Question.ASSEMBLY, "engine")
    assert engine.lr.log10_lr < -2
    first = [c.item.id for c in engine.contributions[:2]]
    assert first == ["reading:engine_number", "date:engine_casting.date"]


def test_it_was_replaced_far_likelier_than_struck_later() -> None:
    """Of two rivals the one against which the ratio is smaller explains the findings better."""
    engine = conclusion(opinion_of("panel"), Question.ASSEMBLY, "engine")
    assert engine.replaced is not None
    assert engine.struck_later is not None
    assert engine.replaced.log10_lr < engine.struck_later.log10_lr - log10(5)
    states = {state.mark: state.sources for state in opinion_of("panel").weighing.mark_states}
    by_source = {share.state: share.probability for share in states["engine_number"]}
    assert by_source["donor"] > 0.9
    assert by_source["made"] < 0.05


def test_the_blank_wing_is_most_probably_a_part_that_was_never_numbered() -> None:
    car = car_marks(case_of("panel"), book_and_version()[0])
    calculator, _ = prepare(car, compare(car))
    nodes = calculator.network.nodes
    place = next(k for k, node in enumerate(nodes) if node.id == "wing_chassis_tail")
    share = calculator.run(calculator.ones(1)).variables[f"S:{place}"][0]
    sources = [state.source for state in nodes[place].states]
    blank = share[sources.index(CharacterSource.BLANK)] / share.sum()
    assert blank > 0.75


def test_a_number_that_is_absent_from_a_bolted_panel_does_not_speak_against_the_body() -> None:
    """It is weighed, and the honest explanation takes it up."""
    for question, about in ((Question.ASSEMBLY, "body"), (Question.IDENTITY, "frame")):
        contributions = conclusion(opinion_of("panel"), question, about).contributions
        absent = next(c for c in contributions if c.item.id == "absence:wing_chassis_tail")
        assert absent.log10_lr_change > -0.1


def test_the_same_number_absent_from_a_welded_panel_is_no_everyday_matter() -> None:
    """So that the test above can fail: the seat pan is not bolted."""
    casefile = case_of("panel")
    gone = casefile.model_copy(
        update={
            "sites": tuple(
                site.model_copy(update={"state": SiteState.ABSENT})
                if site.site == "seat_pan"
                else site
                for site in casefile.sites
            ),
            "readings": tuple(r for r in casefile.readings if r.mark != "seat_chassis_tail"),
            "looks": tuple(look for look in casefile.looks if look.site != "seat_pan"),
        }
    )
    body = log10_lr(without_its_bounds(gone), Question.ASSEMBLY, "body")
    assert body < log10_lr(opinion_of("panel"), Question.ASSEMBLY, "body") - 0.5


def test_everything_the_owner_said_agrees_the_replaced_parts_too() -> None:
    said = {each.about: each.outcome for each in opinion_of("panel").disclosure}
    assert said == {
        "frame": "agrees",
        "body": "agrees",
        "wing_chassis_tail": "agrees",
        "engine": "agrees",
        "gearbox": "agrees",
        "axle": "agrees",
    }


def test_the_same_car_sold_as_untouched_would_differ() -> None:
    """So that the test above can fail: it is the disclosure that agrees, not the parts."""
    casefile = case_of("panel")
    statements = tuple(
        each.model_copy(update={"origin": OriginSaid.FIRST}) for each in casefile.claim.statements
    )
    claim = casefile.claim.model_copy(update={"statements": statements})
    opinion = without_its_bounds(casefile.model_copy(update={"claim": claim}))
    said = {each.about: each.outcome for each in opinion.disclosure}
    assert (said["engine"], said["wing_chassis_tail"]) == ("differs", "differs")


def test_the_marks_fall_into_the_car_and_the_engine_that_it_was_given() -> None:
    groups = {group.car: group.marks for group in opinion_of("panel").weighing.groups}
    assert set(groups) == {"claimed car", "donor of the engine"}
    assert groups["donor of the engine"] == ("engine_number",)


def test_the_code_of_an_exchange_engine_is_told() -> None:
    assert "factory exchange engine, supplied against a returned one" in text_of("panel").lower()


def test_the_posterior_follows_from_the_odds_that_were_stated() -> None:
    identity = conclusion(opinion_of("panel"), Question.IDENTITY)
    assert identity.prior_odds == 20
    assert identity.posterior_odds is not None
    assert log10(identity.posterior_odds) > log10(20) + BEYOND


def test_the_report_accuses_nobody_and_refers_to_nobody() -> None:
    text = text_of("panel").lower()
    assert REFERRAL_HEADING.lower() not in text
    for word in ("deceit", "deceive", "dishonest", "conceal", "tamper", "suspicio", "to pass as"):
        assert word not in text, word
    assert "the part was replaced without pretence" in text


def test_the_absence_is_told_with_the_reason_and_without_an_inference_against_anybody() -> None:
    text = text_of("panel")
    assert "smooth primer where the tail of the chassis number would stand" in text
    assert "Sent the restorer's bill for the wing, which names the service panel." in text
