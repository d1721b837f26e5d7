"""A conclusion is said in the right direction, with its bounds, and without what is never said."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.casefile.records import PaperState, SiteState
from witnessmark.weighing.records import (
    Assumption,
    BestSet,
    LikelihoodRatio,
    LookOutcome,
    MarkGroup,
    NextLook,
    PropositionPair,
)
from witnessmark.wording import (
    CAUTIONS,
    INTEREST_STATEMENT,
    REFERRAL_SENTENCES,
    REFERRALS,
    STANDING_LIMITATIONS,
    Names,
    best_set_sentence,
    grouping_sentence,
    never_said,
    next_look_text,
    paper_sentence,
    site_sentence,
    unseen_sentence,
)
from witnessmark.wording.conclusions import (
    bounds_sentence,
    capped_sentence,
    leading_sentence,
    weight_sentence,
)
from witnessmark.wording.letters import visible
from witnessmark.wording.settling import needs_sentence
from witnessmark.wording.sites import PAPER_SENTENCES, SITE_SENTENCES

PAIR = PropositionPair("this frame left the factory as the claimed car", "it did not.")


def ratio(point: float, low: float = -1, high: float = 3) -> LikelihoodRatio:
    """A likelihood ratio from plain numbers."""
    return LikelihoodRatio(point, low, high)


def test_above_two_the_findings_are_more_probable_if_the_first_holds():
    assert weight_sentence(PAIR, ratio(math.log10(21))) == (
        "The findings are about 21 times more probable if this frame left the factory as the "
        "claimed car than under the second proposition (it did not)."
    )


def test_below_one_half_the_sentence_is_turned_round_and_names_the_second():
    assert weight_sentence(PAIR, ratio(-math.log10(150))) == (
        "The findings are about 150 times more probable under the second proposition (it did "
        "not) than if this frame left the factory as the claimed car."
    )


def test_near_one_neither_is_supported():
    assert weight_sentence(PAIR, ratio(0.1)).startswith(
        "The findings do not support one proposition over the other"
    )


@given(st.floats(-4, 4))
def test_a_ratio_is_never_said_to_be_a_probability_of_the_car(log10_lr):
    said = weight_sentence(PAIR, ratio(log10_lr))
    assert said.startswith("The findings")
    assert not never_said(said)


def test_bounds_are_said_in_figures_and_in_words():
    assert bounds_sentence(ratio(1.3, -0.5, 2.13)) == (
        "With every assumed rate wrong by a factor of three in odds, each in its worst direction, "
        "the ratio would lie between 1/3.2 and 140: from “weak support for the second "
        "proposition” to “moderately strong support for the first proposition”."
    )


def test_the_leading_assumption_is_said_in_the_plain_words_of_its_row():
    row = Assumption("deceit.not_own.skilled", 0.3, "A cautious default.", False, 0.92, 1.84)
    assert leading_sentence(row) == (
        "Leading assumption: bearers that are not the car's own and were renumbered by a careful "
        "hand, 30 % (assumed). With it alone wrong by a factor of three in odds: 8.3 to 70."
    )


def test_an_assumption_that_the_examiner_replaced_is_said_to_be_the_examiners():
    row = Assumption("deceit.not_own.skilled", 0.1, "My records.", True, 1.0, 1.0)
    assert "10 % (the examiner’s own value)" in leading_sentence(row)


def test_a_ratio_that_met_the_cap_says_so_and_another_does_not():
    assert "held at 10,000" in capped_sentence(LikelihoodRatio(4.0, 2.0, 4.0, is_capped=True))
    assert capped_sentence(ratio(4.0)) == ""


def look(*outcomes: tuple[str, float]) -> NextLook:
    """A look with the ratio that each outcome would give."""
    made = tuple(LookOutcome(name, 1 / len(outcomes), log10) for name, log10 in outcomes)
    return NextLook("ledger", "paper", "Read the ledger", 0.4, 30, "", 0, "none", False, made)


def test_what_would_settle_it_says_what_it_would_need_to_say():
    assert needs_sentence(look(("it names this body", 2.0), ("it names another", -1.5))) == (
        "This would support the first proposition if it names this body. The ratio would then be "
        "about 100. This would support the second proposition if it names another. The ratio "
        "would then be about 1/31."
    )


def test_a_look_that_leaves_the_ratio_within_three_settles_nothing():
    assert needs_sentence(look(("agrees", 0.47), ("differs", -0.47))) == ""
    assert needs_sentence(look()) == ""


def test_a_next_look_says_what_it_tells_and_what_it_costs():
    said = next_look_text(look(("it agrees", 1.0)), Names())
    assert (said.prompt, said.bits, said.bits_per_minute) == (
        "Read the ledger.",
        "0.4 bits",
        "0.013 a minute",
    )
    assert (said.minutes, said.dismantling) == ("30 minutes", "nothing to dismantle")
    assert said.outcomes == "LR afterwards: 10 if it agrees."


def test_an_empty_best_set_says_that_nothing_can_be_had():
    assert best_set_sentence(BestSet(60, 0, 0.0, ()), ()) == (
        "In 60 minutes no look can be had that would tell anything."
    )


def test_the_marks_of_one_car_are_listed_with_their_number():
    group = MarkGroup("claimed car", ("brass_plate", "frame_number"))
    assert grouping_sentence(group, Names()) == (
        "These two marks speak of the claimed car: brass plate and frame number."
    )
    alone = MarkGroup("a third car", ("engine_number",))
    assert grouping_sentence(alone, Names()) == (
        "This one mark speaks of a third car: engine number."
    )


def test_every_site_state_and_paper_state_has_its_own_sentence():
    assert len({SITE_SENTENCES[state] for state in SiteState}) == len(SiteState)
    assert len({PAPER_SENTENCES[state] for state in PaperState}) == len(PaperState)
    assert paper_sentence(PaperState.LOST).startswith("Said to be lost")


def test_what_was_not_seen_stands_with_its_reason_or_says_that_none_was_noted():
    assert site_sentence(SiteState.NOT_ACCESSIBLE, "heater in the way").endswith(
        "it says nothing either way. Heater in the way."
    )
    assert unseen_sentence("bulkhead", SiteState.NOT_LOOKED_FOR, "") == (
        "Bulkhead was not looked for (no reason was noted)."
    )


@pytest.mark.parametrize("words", ["a Fake.", "GENUINE", "it was\nforged", "beyond  doubt"])
def test_what_is_never_said_is_found_in_any_case_and_across_line_ends(words):
    assert never_said(f"In my opinion {words}")


@pytest.mark.parametrize("words", ["ingenuineness", "fakery-free", "improvement", "steel"])
def test_a_word_that_only_holds_another_is_not_taken_for_it(words):
    assert not never_said(words)


def test_what_somebody_else_said_may_be_quoted():
    typed = "guaranteed genuine"
    text = f"The seller writes: {typed}. The findings do not support it."
    assert never_said(text)
    assert not never_said(text, quoted=(typed,))


def test_our_own_fixed_sentences_say_nothing_that_is_never_said():
    fixed = [each.sentence for each in CAUTIONS]
    fixed += [f"{each.whom}: {each.matter}" for each in REFERRALS]
    fixed += [*REFERRAL_SENTENCES, *STANDING_LIMITATIONS, INTEREST_STATEMENT]
    fixed += [*SITE_SENTENCES.values(), *PAPER_SENTENCES.values()]
    assert {said.words for text in fixed for said in never_said(text)} == set()


def test_the_usual_cautions_are_all_there():
    text = " ".join(f"{each.heading} {each.sentence}" for each in CAUTIONS).lower()
    for word in ("jack", "fuel", "asbestos", "lead", "abraded", "etch", "removed", "mask"):
        assert word in text


def test_a_matter_is_referred_to_those_it_belongs_to():
    whom = " ".join(each.whom for each in REFERRALS).lower()
    for word in ("lawyer", "police", "title", "licensed appraiser"):
        assert word in whom


@given(st.text())
def test_every_character_is_shown_or_named(text):
    shown = visible(text)
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert visible(shown) == shown


def test_a_character_that_turns_the_line_round_is_named():
    assert visible("105\u202e512\x00") == "105‹U+202E›512‹U+0000›"


def test_marks_that_speak_of_no_car_are_told_by_what_they_are_consistent_with():
    made = MarkGroup("made later", ("brass_plate", "frame_number"))
    assert grouping_sentence(made, Names()) == (
        "These two marks are most consistent with having been struck or made later: brass plate "
        "and frame number."
    )
    assert grouping_sentence(MarkGroup("undecided", ("brass_plate",)), Names()) == (
        "This one mark cannot be placed with one car rather than another: brass plate."
    )
