"""The outline says everything that a stranger needs, in an order that does not mislead."""

from dataclasses import replace

from witnessmark.casefile.records import LookSeen
from witnessmark.codebook import find_book, open_book
from witnessmark.report import build_outline, report_text
from witnessmark.report.closing_sections import looks_altered
from witnessmark.weighing.records import LikelihoodRatio, Standing
from witnessmark.wording import REFERRAL_HEADING, STANDING_LIMITATIONS, never_said

_opened = open_book(find_book("tarvane-1952-1961")).book
assert _opened is not None
BOOK = _opened
"""The demonstration book, which the invented Opinion's ids are of."""


def titles(outline):
    return [section.title for section in outline.sections]


def text_of(opinion, printed):
    return report_text(build_outline(opinion, BOOK, printed))


def section_text(opinion, printed, title):
    """The text of one section alone."""
    outline = build_outline(opinion, BOOK, printed)
    alone = tuple(section for section in outline.sections if section.title == title)
    return report_text(replace(outline, sections=alone))


def with_case(opinion, **changes):
    return replace(opinion, casefile=opinion.casefile.model_copy(update=changes))


def test_the_sections_stand_in_the_order_in_which_they_are_needed(opinion, printed):
    assert titles(build_outline(opinion, BOOK, printed)) == [
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


def test_the_cover_says_for_whom_for_what_and_by_whom(opinion, printed):
    text = text_of(opinion, printed)
    for line in (
        "Case: tarvane-105512",
        "Client: P. Wendell",
        "Purpose: To inform a purchase",
        "Intended users: The client and the client's lawyer",
        "Date of inspection: 12 May 2026",
        "Examiner: I. Larkin",
        "Declared interest: I. Larkin: None; the fee does not depend on the outcome",
        "Code book: Tarvane, 1952 to 1961, version 2026-11-25",
    ):
        assert line in text


def test_what_was_not_stated_is_said_to_be_not_stated(opinion, printed):
    blank = with_case(
        opinion, assignment=opinion.casefile.assignment.model_copy(update={"client": ""})
    )
    assert "Client: not stated" in text_of(blank, printed)


def test_every_conclusion_has_its_pair_ratio_words_bounds_and_leading_assumption(opinion, printed):
    text = section_text(opinion, printed, "Summary")
    assert "First proposition: This frame left the factory as the claimed car." in text
    assert "Second proposition: It did not." in text
    assert (
        "LR 21 (log10 +1.33), bounds 4 to 140: moderate support for the first proposition" in text
    )
    assert text.count("Leading assumption: ") == len(opinion.weighing.conclusions)
    for heading in (
        "Identity: the frame",
        "Plate: brass chassis plate",
        "Paper: build card",
        "Configuration",
        "Assembly: body",
        "Assembly: engine",
    ):
        assert f"-- {heading}\n" in text


def test_changing_a_ratio_changes_its_figure_its_words_and_its_sentence(opinion, printed):
    first = opinion.weighing.conclusions[0]
    moved = replace(
        opinion,
        weighing=replace(
            opinion.weighing,
            conclusions=(
                replace(first, lr=LikelihoodRatio(-1.6, -2.0, -0.5)),
                *opinion.weighing.conclusions[1:],
            ),
        ),
    )
    text = text_of(moved, printed)
    assert "LR 1/39 (log10 −1.60)" in text
    assert "The findings are about 39 times more probable under the second proposition" in text
    assert "LR 21 (log10" not in text


def test_a_posterior_stands_only_where_prior_odds_were_stated_and_after_the_ratio(opinion, printed):
    text = text_of(opinion, printed)
    assert text.count("the posterior odds are") == 2  # in the summary's plain text and in full
    assert text.index("LR 21") < text.index("the posterior odds are 64 to 1")
    unstated = replace(
        opinion,
        weighing=replace(
            opinion.weighing,
            conclusions=tuple(
                replace(each, prior_odds=None, posterior_odds=None)
                for each in opinion.weighing.conclusions
            ),
        ),
    )
    assert "posterior" not in text_of(unstated, printed)


def test_prior_odds_stand_in_the_report_with_their_reason(opinion, printed):
    text = section_text(opinion, printed, "Each conclusion in full")
    assert "3 to 1. The car has been in one club's register since 1961." in text


def test_what_cannot_be_established_stands_with_what_would_settle_it(opinion, printed):
    text = section_text(opinion, printed, "What cannot be established, and what would settle it")
    assert "Assembly: body: whether this body was fitted to the claimed car" in text
    assert "This cannot be established with what is on hand" in text
    assert (
        "The entry in the maker's despatch ledger. | Assembly: body. To support the first "
        "proposition its outcome would need to be: agrees with the claim." in text
    )


def test_an_answered_case_says_that_nothing_is_left_open(opinion, printed):
    answered = replace(
        opinion,
        weighing=replace(
            opinion.weighing,
            conclusions=tuple(
                replace(each, standing=Standing.ANSWERED) for each in opinion.weighing.conclusions
            ),
        ),
    )
    text = text_of(answered, printed)
    assert "cannot be established with" not in text
    assert "is answered beyond 3 either way" in text


def test_an_assembly_is_split_into_replaced_and_struck_later(opinion, printed):
    text = section_text(opinion, printed, "Each conclusion in full")
    assert "against “the part was replaced without pretence” the ratio is 1/190" in text
    assert "against “the characters were struck later” the ratio is 5 " in text


def test_next_looks_say_bits_minutes_dismantling_and_caution(opinion, printed):
    text = section_text(opinion, printed, "What to look at next")
    assert "Read the body number on the bulkhead. / The heater flap may hold asbestos." in text
    assert "Identity: the frame: 0.31 bits, 0.012 a minute" in text
    assert "25 minutes / heater box" in text
    assert "In 60 minutes the best set is two looks, together 0.4 bits in 45 minutes" in text


def test_every_site_stands_with_its_state_and_what_was_not_seen_with_the_reason(opinion, printed):
    text = section_text(opinion, printed, "Sites")
    assert "Bulkhead was not accessible: The heater box was not removed." in text
    assert "Axle case was not looked for (no reason was noted)." in text
    assert "Boot floor / Under the mat | Absent | Looked at, and nothing was there." in text


def test_a_reading_stands_as_typed_with_its_normalised_form_and_by_whom(opinion, printed):
    text = section_text(opinion, printed, "Readings")
    assert "sp|105512|20713|14||4 / taken as SP|105512|20713|14||4 (written in capitals)" in text
    assert "read by I. Larkin, 12 May 2026, 10:40 UTC" in text
    assert "The fifth place lies under a scratch." in text
    assert "Photograph, clear" in text


def test_an_observation_stands_before_its_inference(opinion, printed):
    text = section_text(opinion, printed, "Findings")
    assert (
        "The plate shows engine number 20713 and the engine is struck 20718. | This is "
        "consistent with another engine of the same series, and with a misread 3 or 8." in text
    )


def test_the_marks_are_grouped_in_a_sentence(opinion, printed):
    assert (
        "- These two marks speak of the claimed car: brass chassis plate and frame stamping."
        in text_of(opinion, printed)
    )


def test_a_photograph_is_tied_to_its_marks_and_its_digest(opinion, printed):
    text = section_text(opinion, printed, "Photographs and documents")
    entry = opinion.casefile.exhibits[1]
    assert "[Photograph p2: Frame stamping, raking light]" in text
    assert "Shows: frame stamping; surface of the frame rail" in text
    assert f"SHA-256 {entry.sha256[:16]}…" in text


def test_papers_stand_with_their_state(opinion, printed):
    text = section_text(opinion, printed, "Papers and title")
    assert "Build card | Copy | A copy was seen, not the paper itself." in text
    assert "Despatch ledger entry | Asked for and awaited" in text
    assert "Copied from: despatch ledger entry; counted with it as one." in text


def test_the_rows_used_stand_with_their_basis(opinion, printed):
    text = section_text(opinion, printed, "Code book")
    assert "Version: 2026-11-25" in text
    assert "Invented | Invented for the demonstration" in text


def with_engine(opinion, replaced, struck_later):
    """Only the engine is asked about; its second proposition is split like this."""
    engine = replace(
        opinion.weighing.conclusions[-1],
        replaced=LikelihoodRatio(replaced, -4.0, 4.0),
        struck_later=LikelihoodRatio(struck_later, -4.0, 4.0),
    )
    weighing = replace(opinion.weighing, conclusions=(engine,))
    looks = (LookSeen(site="frame_rail", outcome="factory"),)
    return with_case(replace(opinion, weighing=weighing), looks=looks)


def test_a_disturbed_place_brings_the_page_on_whom_to_refer_to(opinion, printed):
    quiet = with_engine(opinion, replaced=-2.0, struck_later=0.7)
    assert not looks_altered(quiet)
    assert REFERRAL_HEADING not in titles(build_outline(quiet, BOOK, printed))
    disturbed = with_case(quiet, looks=(LookSeen(site="engine_deck", outcome="disturbed"),))
    assert REFERRAL_HEADING in titles(build_outline(disturbed, BOOK, printed))


def test_support_for_struck_later_brings_the_page_too(opinion, printed):
    struck = with_engine(opinion, replaced=-1.2, struck_later=-2.8)
    assert REFERRAL_HEADING in titles(build_outline(struck, BOOK, printed))


def test_an_honest_exchange_engine_is_explained_and_brings_no_such_page(opinion, printed):
    """Replaced 1/6,300, struck later 1/500: both beat "first engine", the open one by more."""
    exchanged = with_engine(opinion, replaced=-3.8, struck_later=-2.7)
    assert REFERRAL_HEADING not in titles(build_outline(exchanged, BOOK, printed))


def test_the_limits_of_this_case_stand_beside_the_standing_ones(opinion, printed):
    text = section_text(opinion, printed, "Limitations")
    assert "- Nobody has yet seen the despatch ledger." in text
    for limitation in STANDING_LIMITATIONS:
        assert limitation in text


def test_there_is_a_line_to_sign_for_each_examiner(opinion, printed):
    text = section_text(opinion, printed, "Statement and signature")
    assert "Signed: ____________________ I. Larkin" in text
    assert "my fee does not depend on what is concluded" in text


def test_the_report_says_nothing_that_is_never_said(opinion, printed):
    assert {said.words for said in never_said(text_of(opinion, printed))} == set()


def test_an_empty_case_still_gives_a_whole_outline(opinion, printed):
    empty = replace(
        opinion,
        casefile=type(opinion.casefile)(id="empty", book="tarvane-1952-1961"),
        sites=(),
        decodings=(),
        findings=(),
        disclosure=(),
        limitations=(),
        names=(),
        weighing=replace(
            opinion.weighing, conclusions=(), evidence=(), mark_states=(), groups=(), left_out=()
        ),
    )
    text = text_of(empty, printed)
    assert "Case empty" in text
    assert "No mark was read." in text
    assert "No two marks could be compared." in text
