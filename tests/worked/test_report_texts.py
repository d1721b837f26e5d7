"""The report on each of the four cars says everything, in order, and nothing it must not."""

import pytest

from tests.worked.opened import CARS, opinion_of, outline_of, text_of
from witnessmark.weighing.records import Standing
from witnessmark.wording import (
    CAUTIONS,
    REFERRAL_HEADING,
    STANDING_LIMITATIONS,
    Names,
    conclusion_text,
    never_said,
    standing_sentence,
    verbal_equivalent,
)

every_car = pytest.mark.parametrize("car", CARS)

SECTIONS = [
    "What is claimed",
    "Summary",
    "What cannot be established, and what would settle it",
    "What to look at next",
    "Scope, consent and conditions",
    "Sites",
    "Readings",
    "Findings",
    "Each conclusion in full",
    "Which marks speak of one car",
    "Photographs and documents",
    "Papers and title",
    "Code book",
    "Cautions for the next look",
    REFERRAL_HEADING,
    "Limitations",
    "Statement and signature",
]


@every_car
def test_every_section_stands_in_its_order(car: str) -> None:
    """The page on whom to refer to only where metal was noted as disturbed."""
    sections = [section.title for section in outline_of(car).sections]
    wanted = [s for s in SECTIONS if s != REFERRAL_HEADING or car == "altered"]
    assert sections == wanted


@every_car
def test_every_conclusion_has_its_pair_its_ratio_its_words_and_its_bounds(car: str) -> None:
    text, opinion = text_of(car), opinion_of(car)
    for conclusion in opinion.weighing.conclusions:
        said = conclusion_text(conclusion, opinion.weighing, Names(opinion.names))
        assert f"First proposition: {said.first}" in text
        assert f"Second proposition: {said.second}" in text
        assert said.words == verbal_equivalent(conclusion.lr.log10_lr).phrase()
        assert (
            f"LR {said.lr} (log10 {said.log10_lr}), bounds {said.lr_low} to {said.lr_high}: "
            f"{said.words}" in text
        )
        assert said.sentence in text
        assert said.bounds in text


@every_car
def test_bounds_enclose_and_nothing_is_certain(car: str) -> None:
    for conclusion in opinion_of(car).weighing.conclusions:
        lr = conclusion.lr
        assert -4 <= lr.log10_lr_low <= lr.log10_lr <= lr.log10_lr_high <= 4
        assert lr.log10_lr_low < lr.log10_lr_high


@every_car
def test_nothing_stands_in_it_that_is_never_said(car: str) -> None:
    """Not even in what client and owner have typed."""
    assert never_said(text_of(car)) == ()


@every_car
def test_every_finding_is_told_by_what_was_seen_before_what_it_fits(car: str) -> None:
    """What agrees may be told together; what differs or is open stands alone."""
    text = text_of(car)
    for finding in opinion_of(car).findings:
        if finding.outcome.value in ("differ", "undecided"):
            assert finding.observation in text
            assert text.index(finding.observation) < text.index(
                finding.inference, text.index(finding.observation)
            )


@every_car
def test_every_site_its_state_and_its_reason_stand_there(car: str) -> None:
    text = text_of(car)
    for site in opinion_of(car).sites:
        assert site.where in text
        assert site.reason in text
    for limit in opinion_of(car).limitations:
        assert limit.sentence in text


@every_car
def test_every_reading_stands_as_it_was_typed(car: str) -> None:
    for reading in opinion_of(car).casefile.readings:
        assert reading.text in text_of(car)


@every_car
def test_whoever_made_a_statement_finds_it_in_their_words_with_what_was_found(car: str) -> None:
    text = text_of(car)
    for each in opinion_of(car).disclosure:
        assert f"{each.says} | {each.found} | {each.outcome.capitalize()}" in text


@every_car
def test_cautions_and_standing_limits_stand_in_every_report(car: str) -> None:
    text = text_of(car)
    assert all(caution.sentence in text for caution in CAUTIONS)
    assert all(limit in text for limit in STANDING_LIMITATIONS)


@every_car
def test_a_question_that_is_not_answered_says_so(car: str) -> None:
    for conclusion in opinion_of(car).weighing.conclusions:
        if conclusion.standing is not Standing.ANSWERED:
            assert standing_sentence(conclusion) in text_of(car)


@every_car
def test_a_posterior_stands_only_where_odds_were_stated(car: str) -> None:
    """The insurer's examiner stated them for `panel`, for identity alone."""
    stated = [c for c in opinion_of(car).weighing.conclusions if c.prior_odds is not None]
    assert [c.question.value for c in stated] == (["identity"] if car == "panel" else [])
    assert ("the posterior odds are" in text_of(car)) == (car == "panel")


@every_car
def test_client_case_and_day_and_the_books_version_stand_there(car: str) -> None:
    text, case = text_of(car), opinion_of(car).casefile
    assert f"Client: {case.assignment.client}" in text
    assert f"Case: {case.id}" in text
    assert "25 November 2026" in text
    assert f"version {opinion_of(car).book.version}" in text
