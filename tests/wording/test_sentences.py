"""A conclusion is said in the right direction, with its band, and without what is never said."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.never_said import never_said
from witnessmark.casefile import AttachmentSeen, PaperState
from witnessmark.codebook import Basis
from witnessmark.examination.looks import LookKind, LookLeft
from witnessmark.outline.letters import visible
from witnessmark.weighing import (
    Asked,
    Conclusion,
    LeadingRow,
    Misfit,
    MisfitKind,
    Pair,
    Standing,
    Steady,
    Stop,
    Way,
    Weighed,
)
from witnessmark.wording import (
    cautions,
    fee_statement,
    interest_statement,
    look_text,
    misfit_sentence,
    paper_sentence,
    place_sentence,
    referral_sentences,
    referrals,
    standing_limitations,
    standing_sentence,
    stop_sentence,
)
from witnessmark.wording.conclusions import (
    band_sentence,
    capped_sentence,
    leading_sentence,
    split_sentence,
    weight_in_words,
    words_of,
)
from witnessmark.wording.sites import ATTACHMENT_SENTENCES, PAPER_SENTENCES

PAIR = Pair("this frame left the factory as the claimed car", "it did not.")


def weighed(
    point: float, band: tuple[float, float] | None = None, turned: int = 0, **more: object
) -> Weighed:
    """A conclusion about a frame from plain numbers."""
    made = Conclusion(
        question=Asked.IDENTITY, about="frame", pair=PAIR, log10_lr=point, is_examined=True
    )
    conclusion = replace(made, **more)  # type: ignore[arg-type]
    if band is None:
        return Weighed(conclusion)
    return Weighed(
        conclusion,
        Steady(
            question=Asked.IDENTITY,
            about="frame",
            log10_lr=point,
            log10_lr_low=band[0],
            log10_lr_high=band[1],
            turned=turned,
            leading=(),
        ),
        512,
    )


def test_above_two_the_findings_are_more_probable_if_the_first_holds():
    assert weight_in_words(PAIR, math.log10(21)) == (
        "The findings are about 21 times more probable if this frame left the factory as the "
        "claimed car than under the second proposition (it did not)."
    )


def test_below_one_half_the_sentence_is_turned_round_and_names_the_second():
    assert weight_in_words(PAIR, -math.log10(150)) == (
        "The findings are about 150 times more probable under the second proposition (it did "
        "not) than if this frame left the factory as the claimed car."
    )


def test_near_one_neither_is_supported():
    assert weight_in_words(PAIR, 0.1).startswith(
        "The findings do not support one proposition over the other"
    )


@given(st.floats(-4, 4))
def test_a_ratio_is_never_said_to_be_a_probability_of_the_car(log10_lr):
    said = weight_in_words(PAIR, log10_lr)
    assert said.startswith("The findings")
    assert not never_said(said)


def test_a_band_is_said_in_figures_with_how_often_it_turned():
    assert band_sentence(weighed(1.3, (-0.5, 2.13), 33)) == (
        "Over 512 draws of all assumed rates, nine answers in ten lay between 1/3.2 and "
        "140; 33 pointed the other way."
    )
    assert "fewer than 5 pointed" in band_sentence(weighed(1.3, (0.5, 2.13), 0))
    assert band_sentence(weighed(1.3)) == ""


def test_the_word_is_that_of_the_weaker_of_ratio_and_band():
    assert words_of(weighed(2.2, (1.1, 3.0))) == "moderate support for the first proposition"
    assert words_of(weighed(2.2, (-0.1, 3.0))) == (
        "the findings do not support one proposition over the other"
    )
    assert words_of(weighed(-2.2, (-3.0, -0.5))) == "weak support for the second proposition"


def test_a_figure_without_a_band_bears_no_word():
    assert words_of(weighed(2.2)) == ""


def test_what_nobody_examined_is_said_to_be_that_and_has_no_words_of_the_scale():
    nobody = weighed(0.0, question=Asked.CORE, is_examined=False)
    assert (nobody.standing, words_of(nobody)) == (Standing.NOT_EXAMINED, "not examined")
    item = weighed(0.0, question=Asked.ITEM, can_be_told=False)
    assert words_of(item) == "cannot be established"
    assert "cannot be established" in standing_sentence(item)


def test_the_leading_rate_is_said_in_the_plain_words_of_its_row_with_what_would_turn_it():
    assert leading_sentence(LeadingRow("skilled", 0.5, (), 0.25)) == (
        "It rests most on one assumed rate: struck-again marks by a careful hand. Wrong by a "
        "factor of 4 in odds, this alone would turn the answer."
    )
    assert "would not turn the answer" in leading_sentence(LeadingRow("skilled", 0.5))


def test_a_ratio_that_met_the_cap_says_so_and_another_does_not():
    assert "capped at 10,000" in capped_sentence(weighed(6.2))
    assert capped_sentence(weighed(4.0)) == ""


def test_the_second_proposition_is_taken_apart_by_its_likeliest_ways():
    ways = (
        Way("service, struck openly", -2.0, 0.6),
        Way("suited, struck to pass", 0.7, 0.39),
        Way("donor, made", 3.0, 0.01),
    )
    assert split_sentence(weighed(-1.0, ways=ways)) == (
        "Broken down by how it could be otherwise: against “supplied new in service, "
        "struck in service” the ratio is 1/100; against “from another car, chosen to fit, "
        "struck to pass as the first” the ratio is 5."
    )
    assert split_sentence(weighed(-1.0, ways=ways[:1])) == ""


@pytest.mark.parametrize(
    ("kind", "beginning"),
    [
        (MisfitKind.IMPOSSIBLE, "Impossible if both are right: The block"),
        (MisfitKind.AGAINST, "The block"),
        (MisfitKind.UNUSUAL, "Unusual: The block"),
        (MisfitKind.TOLD, "From memory, and carries no weight: The block"),
    ],
)
def test_what_does_not_fit_is_said_with_how_firmly(kind, beginning):
    misfit = Misfit(kind, ("engine",), "The block is late.", Basis.INVENTED, "")
    assert misfit_sentence(misfit).startswith(beginning)


def test_a_stop_names_the_authority():
    said = stop_sentence((Stop("plate", "The number plate is missing."),))
    assert said.startswith("Stop here: The number plate is missing.")
    assert "registration authority" in said
    assert stop_sentence(()) == ""


def test_a_look_says_what_it_costs_and_what_must_come_off():
    look = LookLeft(
        kind=LookKind.READING,
        target="m",
        prompt="Read the ledger",
        pieces=("m",),
        is_reachable=True,
        site="s",
        minutes=30,
    )
    said = look_text(look)
    assert (said.prompt, said.minutes) == ("Read the ledger.", "30 minutes")
    assert said.dismantling == "nothing to dismantle"
    mirror = look_text(replace(look, dismantling="none; a mirror and a lamp"))
    assert mirror.dismantling == "nothing to dismantle"


def test_every_paper_state_has_its_own_sentence():
    assert len({PAPER_SENTENCES[state] for state in PaperState}) == len(PaperState)
    assert paper_sentence(PaperState.LOST).startswith("Said to be lost")


def test_a_place_says_whether_its_part_is_on_the_car_and_why_it_ended_so():
    assert place_sentence(AttachmentSeen.NO_SUCH_PART, "heater in the way") == (
        "The car lacks the part that should bear the mark. Heater in the way."
    )
    assert place_sentence(AttachmentSeen.IN_PLACE, "") == ""


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
    fixed = [each.sentence for each in cautions()]
    fixed += [f"{each.whom}: {each.matter}" for each in referrals()]
    fixed += [*referral_sentences(), *standing_limitations(), interest_statement(fee_is_free=True)]
    fixed.append(fee_statement("A. B."))
    fixed += [*filter(None, ATTACHMENT_SENTENCES.values()), *PAPER_SENTENCES.values()]
    assert {said.words for text in fixed for said in never_said(text)} == set()


def test_the_usual_cautions_are_all_there():
    text = " ".join(f"{each.heading} {each.sentence}" for each in cautions()).lower()
    for word in ("jack", "fuel", "asbestos", "lead", "abraded", "etch", "removed", "mask"):
        assert word in text


def test_a_matter_is_referred_to_those_it_belongs_to():
    whom = " ".join(each.whom for each in referrals()).lower()
    for word in ("lawyer", "police", "title", "licensed appraiser"):
        assert word in whom


@given(st.text())
def test_every_character_is_shown_or_named(text):
    shown = visible(text)
    assert all(c.isprintable() or c == "\n" for c in shown)
    assert visible(shown) == shown


def test_a_character_that_turns_the_line_round_is_named():
    assert visible("105\u202e512\x00") == "105‹U+202E›512‹U+0000›"
