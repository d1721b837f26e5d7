"""The outline says everything that a stranger needs, in an order that does not mislead."""

import re
import sys
from dataclasses import replace

from witnessmark.agreement.records import Outcome
from witnessmark.casefile.records import Circumstances, LookSeen, Override, Seen, Vouched
from witnessmark.codebook import find_book, open_book
from witnessmark.codebook.records import Basis
from witnessmark.report import build_outline, report_text
from witnessmark.report.at_issue import AtIssue
from witnessmark.report.closing_sections import looks_altered
from witnessmark.report.pictures import prepare_pictures
from witnessmark.report.read_alone import ReadAlone
from witnessmark.weighing.records import LikelihoodRatio, Standing
from witnessmark.wording import REFERRAL_HEADING, STANDING_LIMITATIONS, never_said

invented = sys.modules["invented_opinion"]
EXHIBITS = invented.EXHIBITS
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
        "How the metal looked",
        "Readings",
        "What rests on the word of others",
        "Findings",
        "Each conclusion in full",
        "Which marks speak of one car",
        "Photographs and documents",
        "Photo log",
        "Papers and title",
        "Code book",
        "Cautions for the next look",
        REFERRAL_HEADING,
        "Limitations",
        "Statement and signature",
        "Appendix: every row that was used",
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
        "The entry in the maker's despatch ledger. | Assembly: body. This would support the "
        "first proposition if it agrees with the claim." in text
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


def test_what_was_read_again_or_blind_and_what_is_vouched_for_is_told(opinion, printed):
    case = opinion.casefile
    again = {"again": True, "claim_known": False}
    now = with_case(
        opinion,
        readings=tuple(each.model_copy(update=again) for each in case.readings),
        looks=tuple(each.model_copy(update={"again": True}) for each in case.looks),
        circumstances=Circumstances(
            vouched=(Vouched(row="axles:BU", by="I. Larkin", reason="Seen on nine axles."),)
        ),
    )
    text, before = text_of(now, printed), text_of(opinion, printed)
    for told in (
        "In person, clear, read again, by somebody who did not know the claimed number",
        "Looked at again.",
        "The row axles:BU of the code book is from memory and vouched for by I. Larkin: Seen on "
        "nine axles.",
    ):
        assert told in text
        assert told not in before


def test_what_a_statement_declares_stands_below_what_was_said(opinion, printed):
    said = replace(opinion.disclosure[0], declared="Declared: first.", outcome="as declared")
    text = section_text(replace(opinion, disclosure=(said,)), printed, "Summary")
    assert f"| {said.says} / Declared: first. | {said.found}" in text
    assert "| As declared" in text


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
    assert "Belongs to: frame stamping; surface of the frame rail" in text
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


def front_of(opinion, printed):
    """The first page alone, as text."""
    outline = build_outline(opinion, BOOK, printed)
    return report_text(replace(outline, cover=(), how_to_read=(), sections=()))


def test_the_first_page_says_who_asked_what_and_who_looked_with_what_interest(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "What was asked: To inform a purchase. Asked by P. Wendell; for the client and the "
        "client's lawyer." in text
    )
    assert "“A Sprint of 1955 with its first body and engine, known from new.” (the seller" in text
    assert "I. Larkin, on 12 May 2026. Declared interest: I. Larkin: None" in text


def test_the_first_page_gives_every_answer_in_words_before_the_figure(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "Identity: frame | Moderate support | This frame left the factory as the claimed car. | "
        "21 times more probable if so / LR 21, bounds 4 to 140" in text
    )
    assert "Brass chassis plate | Weak support | It was made later, or for another car" in text
    assert (
        "Body | Cannot be established; the findings lean neither way | Whether this body was "
        "fitted to the claimed car at the factory." in text
    )
    assert (
        "Engine | Moderately strong support | It was not. | 150 times more probable if so / "
        "LR 1/150, bounds " in text
    )


def test_an_answer_that_cannot_be_established_says_so_before_it_leans(opinion, printed):
    first = opinion.weighing.conclusions[0]
    told = {
        Standing.CANNOT_BE_ESTABLISHED: "Cannot be established; the findings give moderate "
        "support to this | This frame left",
        Standing.OPEN: "Open; the findings give moderate support to this | This frame left",
    }
    for standing, words in told.items():
        weighing = replace(opinion.weighing, conclusions=(replace(first, standing=standing),))
        assert words in front_of(replace(opinion, weighing=weighing), printed)


def test_the_first_page_names_only_words_that_a_report_can_give(opinion, printed):
    text = front_of(opinion, printed)
    assert "strong support to very strong support; no ratio is given beyond 10,000." in text
    assert "extremely" not in text


def test_whoever_is_not_stated_is_said_to_be_so(opinion, printed):
    """Each of the four ways in which the one who asks and the one who reads are known."""
    told = {
        ("", ""): "By whom and for whom is not stated.",
        ("Ms Ray", ""): "Asked by Ms Ray; for whom is not stated.",
        ("", "The bank"): "By whom is not stated; for the bank.",
        ("Ms Ray", "The bank"): "Asked by Ms Ray; for the bank.",
    }
    for (client, users), words in told.items():
        changes = {"client": client, "intended_users": users}
        assignment = opinion.casefile.assignment.model_copy(update=changes)
        text = front_of(with_case(opinion, assignment=assignment), printed)
        assert f"What was asked: To inform a purchase. {words}" in text


def test_each_question_that_is_left_begins_with_whether(opinion, printed):
    standing = Standing.CANNOT_BE_ESTABLISHED
    left = tuple(replace(each, standing=standing) for each in opinion.weighing.conclusions[:2])
    weighing = replace(opinion.weighing, conclusions=left)
    text = front_of(replace(opinion, weighing=weighing), printed)
    assert (
        "Whether this frame left the factory as the claimed car; whether this plate was made at "
        "the factory for the claimed car." in text
    )


def differing(opinion, *, topic, rule="same_item", basis=None, shown=("1", "2")):
    """The engine finding of the opinion, turned into one on another topic."""
    found = next(each for each in opinion.findings if each.outcome is Outcome.DIFFER)
    subjects = tuple(replace(s, shown=t) for s, t in zip(found.subjects, shown, strict=True))
    return replace(
        found,
        topic=topic,
        rule=rule,
        basis=basis or found.basis,
        subjects=subjects,
        observation=f"{topic} seen.",
    )


def test_what_differs_stands_on_the_first_page_with_who_reads_what(opinion, printed):
    assert (
        "-- What does not agree, and what the metal shows\n"
        "- Engine number: the brass chassis plate reads 20713; the engine "
        "number reads 20718: not the same.\n" in front_of(opinion, printed)
    )


def test_of_what_differs_identity_and_numbers_come_first_and_three_are_shown(opinion, printed):
    found = (
        differing(opinion, topic="heard", rule="code_of_its_years", basis=Basis.MEMORY),
        differing(opinion, topic="casting-to-despatch", rule="dates_in_order"),
        differing(opinion, topic="paint"),
        differing(opinion, topic="engine_number"),
        differing(opinion, topic="chassis_number"),
    )
    text = front_of(replace(opinion, findings=found), printed)
    shown = (
        text.partition("-- What does not agree, and what the metal shows\n")[2]
        .partition("\n\n")[0]
        .splitlines()
    )
    assert [line[:16] for line in shown] == [
        "- Chassis number",
        "- Engine number:",
        "- Paint seen.",
        "- And 2 more fin",
    ]
    heard = front_of(replace(opinion, findings=found[:1]), printed)
    assert "- heard seen (from memory: it argues nothing).".lower() in heard.lower()


def test_marks_that_read_alike_are_told_together_against_the_one_that_does_not(opinion, printed):
    first = differing(opinion, topic="engine_number", shown=("7", "9"))
    other = replace(first.subjects[0], mark="build_card")
    second = replace(first, subjects=(other, first.subjects[1]))
    text = front_of(replace(opinion, findings=(first, second)), printed)
    assert (
        "- Engine number: the engine number reads 9; the brass chassis plate and the build card "
        "read 7: not the same.\n" in text
    )


def test_where_nothing_differs_or_nothing_was_compared_that_is_said(opinion, printed):
    agreeing = tuple(each for each in opinion.findings if each.outcome is Outcome.AGREE)
    text = front_of(replace(opinion, findings=agreeing), printed)
    assert "Nothing that was compared differs." in text
    assert "Nothing could be compared." in front_of(replace(opinion, findings=()), printed)


def test_of_a_long_list_of_unseen_places_ten_are_named(opinion, printed):
    unseen = next(each for each in opinion.sites if each.name == "axle case")
    for number, rest in ((10, ""), (12, " And 2 more, see section")):
        sites = tuple(replace(unseen, name=f"place {n}") for n in range(number))
        text = front_of(replace(opinion, sites=sites), printed)
        assert f"place 9 (not looked for).{rest}" in text
        assert "place 10 (" not in text


def test_the_first_page_names_what_was_not_seen_kind_by_kind(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "- Places on the car: bulkhead (not accessible: The heater box was not removed); axle "
        "case (not looked for)." in text
    )
    assert "- Read from photographs only: engine number." in text
    assert "- Papers: despatch ledger entry (asked for and awaited)" in text


def test_the_first_page_names_what_would_settle_it(opinion, printed):
    text = front_of(opinion, printed)
    assert "Whether this body was fitted to the claimed car at the factory." in text
    assert "What could settle it: The entry in the maker's despatch ledger." in text


def test_where_metal_looks_altered_the_next_step_is_advice(opinion, printed):
    outline = build_outline(opinion, BOOK, printed)
    number = titles(outline).index(REFERRAL_HEADING) + 1
    assert f"Whom to ask stands in section {number}." in front_of(opinion, printed)
    assert "Take advice from a lawyer before anything is cleaned" in front_of(opinion, printed)


def answered(opinion):
    """Nothing looks altered, every question is answered, and looks are within reach."""
    quiet = with_engine(opinion, replaced=-2.0, struck_later=0.7)
    return replace(
        quiet,
        weighing=replace(quiet.weighing, evidence=()),
    )


def test_else_the_next_step_is_the_look_that_tells_most_for_its_time(opinion, printed):
    text = front_of(answered(opinion), printed)
    assert (
        "Read the body number on the bulkhead. This tells most for its time (25 minutes)." in text
    )


def test_with_no_look_left_the_next_step_is_the_paper_that_is_awaited(opinion, printed):
    quiet = answered(opinion)
    alone = replace(quiet.weighing.conclusions[0], next_looks=())
    blind = replace(quiet, weighing=replace(quiet.weighing, conclusions=(alone,)))
    assert "Wait for the despatch ledger entry, which was asked for" in front_of(blind, printed)


def test_a_long_list_of_answers_is_cut_to_the_strongest_and_says_so(opinion, printed):
    first = opinion.weighing.conclusions[0]
    engine = opinion.weighing.conclusions[-1]
    many = (first, *(replace(engine, about=f"part_{n}") for n in range(14)))
    weighing = replace(opinion.weighing, conclusions=many)
    text = front_of(replace(opinion, weighing=weighing), printed)
    assert text.count(" / LR ") == 10
    assert "Identity: frame | " in text
    assert "And 5 more, see section 2." in text


def test_answers_that_could_turn_are_told_from_those_that_keep_their_direction(opinion, printed):
    text = front_of(opinion, printed)
    assert "only these keep their direction: identity: frame; build card;" in text
    turned = tuple(
        replace(each, lr=replace(each.lr, log10_lr_low=-2.0, log10_lr_high=2.0))
        for each in opinion.weighing.conclusions
    )
    weighing = replace(opinion.weighing, conclusions=turned)
    text = front_of(replace(opinion, weighing=weighing), printed)
    assert "every one of these answers could turn" in text


def test_a_part_of_which_nothing_was_seen_says_so_beside_its_ratio(opinion, printed):
    """The body's marks were read; with them gone nobody has seen anything of it."""
    unseen = "Nothing of this part was seen: the ratio is inferred from the rest of the car."
    about = replace(opinion.weighing.conclusions[-1], about="axle")
    weighing = replace(opinion.weighing, conclusions=(about,))
    alone = replace(opinion, weighing=weighing)
    for title in ("Summary", "Each conclusion in full"):
        assert unseen in section_text(alone, printed, title)
    seen = replace(
        alone,
        casefile=alone.casefile.model_copy(
            update={"looks": (LookSeen(site="axle_case", outcome="factory"),)}
        ),
    )
    assert unseen not in text_of(seen, printed)


def test_the_photo_log_has_every_digest_in_full_and_what_it_is_bound_to(opinion, printed):
    outline = build_outline(opinion, BOOK, printed, prepare_pictures(entries(opinion), EXHIBITS))
    text = text_of_section(outline, "Photo log")
    for entry in opinion.casefile.exhibits:
        fours = " ".join(re.findall("....", entry.sha256))
        assert f"{entry.id} / {entry.caption} | {fours} | Taken by I. Larkin, 12 May 2026" in text
    assert "frame stamping; surface of the frame rail / The file was there" in text


def test_the_photo_log_says_whether_the_file_was_there_and_is_the_one_recorded(opinion, printed):
    brought = {"p1": EXHIBITS["p1"], "p2": b"another file"}
    outline = build_outline(opinion, BOOK, printed, prepare_pictures(entries(opinion), brought))
    rows = text_of_section(outline, "Photo log").splitlines()
    told = {row[:2]: row for row in rows if row[:1] == "p"}
    assert told["p1"].endswith("The file was there and its digest is the one recorded.")
    assert told["p2"].endswith("its SHA-256 digest differs.")
    assert told["p3"].endswith("The file was not brought along.")


def entries(opinion):
    return opinion.casefile.exhibits


def text_of_section(outline, title):
    alone = tuple(section for section in outline.sections if section.title == title)
    return report_text(replace(outline, front=(), sections=alone))


def told_looks(opinion):
    """One look as it was told, one reading from a copy."""
    case = opinion.casefile
    looks = (
        LookSeen(site="engine_deck", outcome="doubtful", seen="told", by="I. Larkin", note="So."),
    )
    readings = tuple(each.model_copy(update={"seen": Seen.COPY}) for each in case.readings[:1])
    return with_case(opinion, looks=looks, readings=readings)


def test_what_was_only_told_is_marked_in_its_row_and_in_one_place(opinion, printed):
    told = told_looks(opinion)
    assert "told to I. Larkin, not seen" in section_text(told, printed, "How the metal looked")
    text = section_text(told, printed, "What rests on the word of others")
    assert "Engine deck: Surface, doubtful: told to I. Larkin, not seen. So." in text
    assert "Brass chassis plate: Reading from a copy, not from the paper itself." in text
    assert "Build card: An echo of the despatch ledger entry: no witness of its own." in text
    assert "The owner’s reply: The engine was rebuilt in 1988" in text
    assert "is said by the seller, M. Orrin. None of it is a finding." in text


def test_a_reading_from_a_photograph_says_so_in_its_row(opinion, printed):
    text = section_text(opinion, printed, "Readings")
    assert "from a photograph, not from the thing itself" in text


def test_who_made_the_statements_stands_above_what_was_found(opinion, printed):
    text = section_text(opinion, printed, "Summary")
    assert "One statement, made by the seller, M. Orrin." in text


def read_twice(opinion, typed):
    """The frame stamping read by a second examiner too."""
    again = invented.decoding("frame_number", typed, (("number", "chassis_number", typed, typed),))
    again = replace(again, reading=replace(again.reading, by="T. Second"))
    return replace(opinion, decodings=(*opinion.decodings, again))


DIFFER = "Where the examiners differ"


def test_examiners_who_read_alike_need_no_section(opinion, printed):
    assert DIFFER not in titles(build_outline(opinion, BOOK, printed))
    alike = read_twice(opinion, "1055?2")
    assert DIFFER not in titles(build_outline(alike, BOOK, printed))


def test_readings_that_differ_stand_side_by_side(opinion, printed):
    text = section_text(read_twice(opinion, "105512"), printed, DIFFER)
    assert "I. Larkin | 1055?2 | " in text
    assert "T. Second | 105512 | " in text
    assert "They differ at 1 place. Neither contradicts the other" in text


def test_a_reading_that_excludes_the_other_is_told(opinion, printed):
    text = section_text(read_twice(opinion, "1056?2"), printed, DIFFER)
    assert "At 1 of them one excludes what the other reads." in text


def test_what_a_difference_does_stands_with_it(opinion, printed):
    twice = read_twice(opinion, "105512")
    key = ("identity", "frame")
    alone = (
        ReadAlone("frame_number", "1055?2", "I. Larkin", {key: 1.0}),
        ReadAlone("frame_number", "105512", "T. Second", {key: 1.5}),
    )
    outline = build_outline(twice, BOOK, printed, (), AtIssue(alone))
    text = text_of_section(outline, DIFFER)
    assert "What the difference does | I. Larkin alone | T. Second alone | Both, as weighed" in text
    assert "Identity: the frame | 10 | 31 | 21" in text


def test_the_appendix_names_rows_with_their_basis_and_source(opinion, printed):
    text = section_text(opinion, printed, "Appendix: every row that was used")
    assert "1 | Invented | Invented for the demonstration" in text
    assert "Types | SP | " in text
    assert "LR from 10 | Moderate support | " in text
    assert "Characters called clear that are read wrongly | 0.3 % | " in text


def test_an_overridden_rate_stands_with_the_examiners_reason(opinion, printed):
    circumstances = opinion.casefile.circumstances.model_copy(
        update={"overrides": (Override(row="bearer.not_own", value=0.4, reason="A barn find"),)}
    )
    text = section_text(
        with_case(opinion, circumstances=circumstances),
        printed,
        "Appendix: every row that was used",
    )
    assert "| 40 % | A barn find. / The examiner’s own value." in text
