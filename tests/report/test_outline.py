"""The outline says everything that a stranger needs, in an order that does not mislead."""

import re
import sys
from dataclasses import replace

from tests.never_said import never_said
from tests.weighed import with_conclusions, with_lr, with_more
from witnessmark.agreement import Outcome
from witnessmark.agreement.records import AgreementRule, FindingKind
from witnessmark.casefile import Circumstances, LookSeen, Override, Seen, Vouched
from witnessmark.codebook import Basis, find_book, open_book
from witnessmark.examination.read_alone import ReadAlone
from witnessmark.report import build_outline, report_text
from witnessmark.report.issue.at_issue import AtIssue
from witnessmark.report.press.pictures import prepare_pictures
from witnessmark.report.sections.closing import looks_altered
from witnessmark.weighing import Answer, Misfit, MisfitKind, Stop
from witnessmark.weighing.records import LookOutcome
from witnessmark.wording import referral_heading, standing_limitations

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
    return replace(opinion, casefile=replace(opinion.casefile, **changes))


def test_the_sections_stand_in_the_order_in_which_they_are_needed(opinion, printed):
    assert titles(build_outline(opinion, BOOK, printed)) == [
        "What is claimed",
        "Summary",
        "What is open, what cannot be established, and what bears on it",
        "What to look at next",
        "Scope, consent and conditions",
        "Sites",
        "How the metal looked",
        "Readings",
        "What rests on the word of others",
        "Findings",
        "Each conclusion in full",
        "Photographs and documents",
        "Photo log",
        "Papers and title",
        "Code book",
        "Cautions for the next look",
        referral_heading(),
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
    blank = with_case(opinion, assignment=replace(opinion.casefile.assignment, client=""))
    assert "Client: not stated" in text_of(blank, printed)


def test_what_does_not_fit_stands_before_every_number(opinion, printed):
    text = section_text(opinion, printed, "Summary")
    impossible = text.index("Impossible if both are right: The casting date of the block is later")
    assert impossible < text.index("The engine number names another number") < text.index("LR ")
    front = front_of(opinion, printed)
    assert front.index("Impossible if both are right") < front.index("LR ")


def test_a_stop_stands_first_and_is_the_next_step(opinion, printed):
    stop = Stop("frame_number", "The frame stamping is not the claimed number.")
    stopped = replace(opinion, answer=replace(opinion.answer, stops=(stop,)))
    front = front_of(stopped, printed)
    assert "Stop here: The frame stamping is not the claimed number. This is a matter for" in front
    assert "Go to the title or registration authority before anything else, with" in front


def test_every_conclusion_has_its_pair_ratio_words_band_and_leading_rate(opinion, printed):
    text = section_text(opinion, printed, "Summary")
    assert "First proposition: This frame left the factory as the claimed car." in text
    assert "Second proposition: It did not." in text
    assert "LR 21 (log10 +1.33)\nweak support for the first proposition\n" in text
    assert "nine answers in ten lay between 4 and 140; fewer than 5 pointed the other way" in text
    assert text.count("It rests most on one assumed rate: ") == 6
    for heading in (
        "Identity: the frame",
        "Plate: brass chassis plate",
        "Paper: build card",
        "Configuration: model",
        "Assembly: body",
        "Assembly: engine block",
    ):
        assert f"-- {heading}\n" in text
    assert "Not examined: Assembly: axle." in text
    assert "Cannot be established: Configuration: paint." in text


def test_without_its_steadiness_an_answer_shows_figures_and_no_word(opinion, printed):
    plain = replace(opinion, steadiness=None)
    text = text_of(plain, printed)
    assert "LR 21 (log10 +1.33)" in text
    for word in ("support for the first", "support for the second", "band 4"):
        assert word not in text
    assert "Weak support" not in front_of(plain, printed)


def test_changing_a_ratio_changes_its_figure_its_words_and_its_sentence(opinion, printed):
    first, *rest = opinion.weighed
    moved = with_conclusions(opinion, with_lr(first, -1.6, (-2.0, -0.5)), *rest)
    text = text_of(moved, printed)
    assert "LR 1/39 (log10 −1.60)" in text
    assert "The findings are about 39 times more probable under the second proposition" in text
    assert "LR 21 (log10" not in text


def test_a_posterior_stands_only_where_prior_odds_were_stated_and_after_the_ratio(opinion, printed):
    text = text_of(opinion, printed)
    assert text.count("the posterior odds are") == 2  # in the summary's plain text and in full
    assert text.index("LR 21") < text.index("the posterior odds are 64 to 1")
    known = replace(opinion.casefile.circumstances, prior_odds=())
    assert "posterior" not in text_of(with_case(opinion, circumstances=known), printed)


def test_prior_odds_stand_in_the_report_with_their_reason(opinion, printed):
    text = section_text(opinion, printed, "Each conclusion in full")
    assert "3 to 1. The car has been in one club's register since 1961." in text


def test_what_is_open_stands_with_what_speaks_of_it(opinion, printed):
    title = "What is open, what cannot be established, and what bears on it"
    text = section_text(opinion, printed, title)
    assert "Assembly: body: whether this body was fitted to the claimed car" in text
    assert "The entry in the maker's despatch ledger: ask the archive." in text
    assert "settle" not in text


def test_an_answered_case_says_that_nothing_is_left_open(opinion, printed):
    text = text_of(with_conclusions(opinion, *opinion.weighed[:2]), printed)
    assert "cannot be established:" not in text
    assert "is answered beyond 3 either way" in text


def test_the_second_proposition_is_split_into_its_ways(opinion, printed):
    text = section_text(opinion, printed, "Each conclusion in full")
    assert "against “supplied new in service, struck in service” the ratio is 1/190" in text
    assert (
        "against “from another car, chosen to fit, struck to pass as the first” the ratio is 5."
        in text
    )


def test_next_looks_say_what_they_cost_and_what_follows_if_a_reading_stands(opinion, printed):
    text = section_text(opinion, printed, "What to look at next")
    assert "Read the body number on the bulkhead. / The heater flap may hold asbestos." in text
    again = text.index("If it reads the same again, the ratio for “Assembly: engine block” will be")
    assert again < text.index("Read the body number on the bulkhead.")
    assert "25 minutes / heater box" in text
    assert "20 minutes (of these 15 minutes for access: lift) / nothing to dismantle" in text


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
        readings=tuple(replace(each, **again) for each in case.readings),
        looks=tuple(replace(each, again=True) for each in case.looks),
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
    assert "Copied from: despatch ledger entry; the two count as one source." in text


def test_the_rows_used_stand_with_their_basis(opinion, printed):
    text = section_text(opinion, printed, "Code book")
    assert "Version: 2026-11-25" in text
    assert "Invented | Invented for the demonstration" in text


def quiet_of(opinion):
    """Only the engine is asked about; no place looks disturbed and nothing contradicts."""
    calm = replace(with_conclusions(opinion, opinion.weighed[1]), disturbed=())
    return replace(calm, answer=replace(calm.answer, misfits=(), next_looks=()))


def test_a_disturbed_place_brings_the_page_on_whom_to_refer_to(opinion, printed):
    quiet = quiet_of(opinion)
    assert not looks_altered(quiet)
    assert referral_heading() not in titles(build_outline(quiet, BOOK, printed))
    disturbed = replace(quiet, disturbed=("engine_deck",))
    assert referral_heading() in titles(build_outline(disturbed, BOOK, printed))


def test_the_limits_of_this_case_stand_beside_the_standing_ones(opinion, printed):
    text = section_text(opinion, printed, "Limitations")
    assert "- Nobody has yet seen the despatch ledger." in text
    for limitation in standing_limitations():
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
        answer=Answer((), (), ()),
        steadiness=None,
        disturbed=(),
        looks=(),
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
        "What was asked: To inform a purchase. Requested by P. Wendell, for the client and "
        "the client's lawyer."
    ) in text
    assert "“A Sprint of 1955 with its first body and engine, known from new.” (the seller" in text
    assert "I. Larkin, on 12 May 2026. Declared interest: I. Larkin: None" in text


def test_the_first_page_gives_every_answer_in_words_before_the_figure(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "Identity: frame | Weak support | This frame left the factory as the claimed car. | "
        "21 times more probable if so / LR 21, band 4 to 140\n" in text
    )
    assert (
        "Brass chassis plate | Open; the findings lean neither way | Whether this plate was made "
        "at the factory for the claimed car. | LR 1/4.1 / band 1/26 to 1.6; 61 of 512" in text
    )
    assert (
        "Engine block | Weak support | It was not. | 150 times more probable if so / "
        "LR 1/150, band " in text
    )
    assert "Axle | " not in text
    assert "Claimed paint | " not in text


def test_what_has_no_figure_stands_below_the_figures_and_not_among_them(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "-- What cannot be established\nWhether this car was built in the claimed paint. Not "
        "examined: whether this axle was fitted to the claimed car at the factory. What bears on "
        "what is open or not established, beyond the car: The entry in the maker's despatch ledger."
    ) in text


def test_where_nothing_has_a_figure_there_is_no_table(opinion, printed):
    untold = with_conclusions(replace(opinion, disclosure=()), *opinion.weighed[-2:])
    assert "Nothing that was noted bears on any question." in front_of(untold, printed)


def test_an_open_answer_says_so_before_it_leans(opinion, printed):
    one = with_lr(opinion.weighed[0], 1.0, (0.4, 2.0))
    words = "Open; the findings lend weak support to this | This frame left"
    assert words in front_of(with_conclusions(opinion, one), printed)


def test_the_first_page_names_only_words_that_a_report_can_give(opinion, printed):
    text = front_of(opinion, printed)
    assert "strong support to very strong support; no ratio is given beyond 10,000." in text
    assert "extremely" not in text


def test_whoever_is_not_stated_is_said_to_be_so(opinion, printed):
    """Each of the four ways in which the one who asks and the one who reads are known."""
    told = {
        ("", ""): "The client and the intended users are not stated.",
        ("Ms Ray", ""): "Requested by Ms Ray; the intended users are not stated.",
        ("", "The bank"): "The client is not stated; for the bank.",
        ("Ms Ray", "The bank"): "Requested by Ms Ray, for the bank.",
    }
    for (client, users), words in told.items():
        changes = {"client": client, "intended_users": users}
        assignment = replace(opinion.casefile.assignment, **changes)
        text = front_of(with_case(opinion, assignment=assignment), printed)
        assert f"What was asked: To inform a purchase. {words}" in text


def test_each_question_that_is_left_begins_with_whether(opinion, printed):
    frame, plate = (with_more(opinion.weighed[at], can_be_told=False) for at in (0, 3))
    text = front_of(with_conclusions(opinion, frame, plate), printed)
    assert (
        "Whether this frame left the factory as the claimed car; whether this plate was made at "
        "the factory for the claimed car." in text
    )


def test_an_open_question_has_its_figure_and_is_not_among_what_cannot_be_established(
    opinion, printed
):
    text = front_of(with_conclusions(opinion, with_lr(opinion.weighed[0], 0.1)), printed)
    assert "Identity: frame | Open; the findings lean neither way | Whether this frame" in text
    assert "Every question has a figure above; one that is called open is not answered." in text


def differing(opinion, *, topic, kind=FindingKind.ITEM, basis=None, shown=("1", "2")):
    """The engine finding of the opinion, turned into one on another topic."""
    found = next(each for each in opinion.findings if each.outcome is Outcome.DIFFER)
    subjects = tuple(replace(s, shown=t) for s, t in zip(found.subjects, shown, strict=True))
    return replace(
        found,
        topic=topic,
        by=AgreementRule(found.rule, found.rule, kind, 10),
        basis=basis or found.basis,
        subjects=subjects,
        observation=f"{topic} seen.",
    )


def test_what_differs_stands_on_the_first_page_with_who_reads_what(opinion, printed):
    assert (
        "-- What does not agree, and what the metal shows\n"
        "- Looks disturbed: engine deck.\n"
        "- Engine number: the brass chassis plate reads 20713; the engine "
        "number reads 20718: not the same.\n" in front_of(opinion, printed)
    )


def test_of_what_differs_identity_and_numbers_come_first_and_three_are_shown(opinion, printed):
    found = (
        differing(opinion, topic="heard", kind=FindingKind.CODE, basis=Basis.MEMORY),
        differing(opinion, topic="casting-to-despatch", kind=FindingKind.LAG),
        differing(opinion, topic="paint"),
        differing(opinion, topic="engine_number"),
        differing(opinion, topic="chassis_number"),
    )
    calm = replace(opinion, answer=replace(opinion.answer, misfits=()), disturbed=())
    text = front_of(replace(calm, findings=found), printed)
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
    heard = front_of(replace(calm, findings=found[:1]), printed)
    assert "- heard seen (from memory: it carries no weight).".lower() in heard.lower()


def test_a_date_that_stands_above_for_what_does_not_fit_is_not_told_twice(opinion, printed):
    found = (differing(opinion, topic="casting-to-despatch", kind=FindingKind.LAG),)
    text = front_of(replace(opinion, findings=found, disturbed=()), printed)
    assert "asting-to-despatch seen" not in text
    calm = replace(opinion, answer=replace(opinion.answer, misfits=()), disturbed=())
    assert "asting-to-despatch seen" in front_of(replace(calm, findings=found), printed)


def test_marks_that_read_alike_are_told_together_against_the_one_that_does_not(opinion, printed):
    first = differing(opinion, topic="engine_number", shown=("7", "9"))
    other = replace(first.subjects[0], mark="build_card")
    second = replace(first, subjects=(other, first.subjects[1]))
    text = front_of(replace(opinion, findings=(first, second)), printed)
    assert (
        "- Engine number: the engine number reads 9; the brass chassis plate and the build card "
        "read 7: not the same.\n" in text
    )


def test_a_finding_that_sets_no_two_readings_of_one_number_apart_says_what_was_seen(
    opinion, printed
):
    """A combination about a number, and two marks that read alike: never "not the same"."""
    for more in ({"kind": FindingKind.COMBINATION}, {"shown": ("7", "7")}):
        found = (differing(opinion, topic="engine_number", **more),)
        text = front_of(replace(opinion, findings=found), printed)
        assert "Engine_number seen." in text
        assert "not the same" not in text


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


def test_the_first_page_names_what_speaks_of_what_is_open(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "What bears on what is open or not established, beyond the car: The entry in the maker's "
        "despatch ledger." in text
    )


def test_where_something_does_not_fit_the_next_step_is_to_read_it_again(opinion, printed):
    assert (
        "Read the engine number again, by another examiner and in raking light. If it "
        "reads the same again, the ratio for “Assembly: engine block” will be about "
        "1/1,200; no other changes more. Take advice from a lawyer"
    ) in front_of(opinion, printed)
    silent = replace(opinion.casefile.assignment, owner_reply="")
    unasked = with_case(replace(opinion, disturbed=()), assignment=silent)
    assert "Then ask the owner or seller what is known about it" in front_of(unasked, printed)


def test_where_metal_looks_altered_the_next_step_is_advice(opinion, printed):
    altered = replace(quiet_of(opinion), disturbed=("engine_deck",), looks=opinion.looks[1:])
    outline = build_outline(altered, BOOK, printed)
    number = titles(outline).index(referral_heading()) + 1
    text = front_of(altered, printed)
    assert f"Section {number} says whom to ask." in text
    assert "Take advice from a lawyer before anything is cleaned" in text


def test_else_the_next_step_is_the_first_look_that_is_left(opinion, printed):
    text = front_of(replace(quiet_of(opinion), looks=opinion.looks[1:]), printed)
    assert "Read the body number on the bulkhead. It takes 25 minutes." in text


def test_with_no_look_left_the_next_step_is_the_paper_that_is_awaited(opinion, printed):
    blind = replace(quiet_of(opinion), looks=())
    assert "Wait for the despatch ledger entry, which has been asked for" in front_of(
        blind, printed
    )


def test_a_long_list_of_answers_is_cut_to_the_strongest_and_says_so(opinion, printed):
    frame, engine, *_ = opinion.weighed
    many = (with_more(engine, about=f"part_{n}") for n in range(14))
    text = front_of(with_conclusions(opinion, frame, *many), printed)
    assert text.count(" / LR ") == 10
    assert "Identity: frame | " in text
    assert "And 5 more, see section 2." in text


def test_a_part_of_which_nothing_was_seen_says_so_beside_its_ratio(opinion, printed):
    """Whatever ratio it bears."""
    unseen = "This part was not seen at all."
    alone = with_conclusions(opinion, with_more(opinion.weighed[1], about="axle"))
    for title in ("Summary", "Each conclusion in full"):
        assert unseen in section_text(alone, printed, title)
    seen = replace(
        alone,
        casefile=replace(alone.casefile, looks=(LookSeen(site="axle_case", outcome="factory"),)),
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
    assert told["p3"].endswith("The file was not supplied.")


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
    readings = tuple(replace(each, seen=Seen.COPY) for each in case.readings[:1])
    return with_case(opinion, looks=looks, readings=readings)


def test_what_was_only_told_is_marked_in_its_row_and_in_one_place(opinion, printed):
    told = told_looks(opinion)
    assert "told to I. Larkin, not seen" in section_text(told, printed, "How the metal looked")
    text = section_text(told, printed, "What rests on the word of others")
    assert "Engine deck: Surface, doubtful: told to I. Larkin, not seen. So." in text
    assert "Brass chassis plate: Reading from a copy, not from the paper itself." in text
    assert (
        "Build card: Copied from the despatch ledger entry: not a witness in its own right."
    ) in text
    assert "The owner’s reply: The engine was rebuilt in 1988" in text
    assert "was said by the seller, M. Orrin. None of it is a finding." in text


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
    assert "At 1 of them, what one reads excludes what the other reads." in text


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
    circumstances = replace(
        opinion.casefile.circumstances,
        overrides=(Override(row="structure.other", value=0.4, reason="A barn find"),),
    )
    text = section_text(
        with_case(opinion, circumstances=circumstances),
        printed,
        "Appendix: every row that was used",
    )
    assert "| 40 % | A barn find. / The examiner’s own value." in text


def test_what_speaks_against_the_claim_stands_before_the_rest_and_is_never_cut(opinion, printed):
    """However weakly: the question that was asked is often that of such a part."""
    frame, engine, *_ = opinion.weighed
    strong = (with_more(with_lr(engine, 2.9), about=f"part_{n}") for n in range(14))
    against = with_more(with_lr(engine, -0.7), about="gearbox")
    rows = front_of(with_conclusions(opinion, frame, *strong, against), printed).splitlines()
    at = [row.partition(" | ")[0] for row in rows if " | " in row]
    assert at[1:3] == ["Identity: frame", "Gearbox"]


def test_what_was_said_has_a_row_with_what_differs(opinion, printed):
    first = replace(opinion.disclosure[0], says="First engine.", outcome="differs")
    told = replace(opinion, disclosure=(first, *opinion.disclosure[1:]))
    row = "What was said about it | Differs: 1; open: 1; agrees: 1 | Differs: “First engine”"
    assert row in front_of(told, printed)


def test_work_that_was_declared_and_shows_asks_for_no_lawyer(opinion, printed):
    quiet = replace(quiet_of(opinion), disturbed=("engine_deck",), looks=())
    front = front_of(quiet, printed)
    assert "- Looks disturbed: engine deck.\n" in front
    assert "a lawyer" in front
    said = Misfit(
        MisfitKind.DECLARED, ("engine", "engine_deck"), "It looks so.", Basis.INVENTED, ""
    )
    front = front_of(replace(quiet, answer=replace(quiet.answer, misfits=(said,))), printed)
    assert "- Looks disturbed, as declared: engine deck.\n" in front
    assert "a lawyer" not in front


def test_a_reading_that_moves_no_answer_is_not_the_next_step(opinion, printed):
    looks = tuple(
        replace(each, outcomes=(LookOutcome("the reading stands", -2.2),))
        for each in opinion.answer.next_looks
    )
    idle = replace(opinion, answer=replace(opinion.answer, next_looks=looks), disturbed=())
    assert "Read the engine number again" in front_of(opinion, printed)
    assert "Read the engine number again" not in front_of(idle, printed)
