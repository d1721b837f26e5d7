"""The outline says everything that a stranger needs, in an order that does not mislead."""

import re
import sys
from dataclasses import replace

from tests.never_said import never_said
from tests.weighed import with_conclusions, with_lr, with_more
from witnessmark.casefile import Circumstances, LookSeen, Override, ReportIssue, Vouched
from witnessmark.codebook import Basis, find_book, open_book
from witnessmark.examination.read_alone import ReadAlone
from witnessmark.report import build_outline, report_text
from witnessmark.report.issue.issued import AtIssue
from witnessmark.report.outline import build_annex
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

ASSIGNMENT = "The assignment"
PLACES = "The car and its marks"
FOUND = "What was found"
STORY = "Do they tell one story?"
STRENGTH = "How strongly"
OPEN = "What is not known, and what was said"
LIMITS = "Limits, referral and signatures"
REPORT = [ASSIGNMENT, PLACES, FOUND, STORY, STRENGTH, OPEN, LIMITS]
FULL = "Each conclusion in full"
COMPARED = "Every comparison"
DIFFER = "Where the examiners differ"
ROWS = "Appendix: every row that was used"
LOG = "Photograph log"


def titles(outline):
    return [section.title for section in outline.sections]


def text_of(opinion, printed):
    return report_text(build_outline(opinion, BOOK, printed))


def alone(outline, title):
    found = tuple(section for section in outline.sections if section.title == title)
    return report_text(replace(outline, front=(), sections=found))


def section_text(opinion, printed, title):
    """The text of one section of the report, or of the annex."""
    build = build_outline if title in REPORT else build_annex
    return alone(build(opinion, BOOK, printed), title)


def front_of(opinion, printed):
    """The first page alone, as text."""
    return report_text(replace(build_outline(opinion, BOOK, printed), sections=()))


def with_case(opinion, **changes):
    return replace(opinion, casefile=replace(opinion.casefile, **changes))


def test_the_sections_stand_in_the_order_in_which_they_are_needed(opinion, printed):
    assert titles(build_outline(opinion, BOOK, printed)) == REPORT
    assert titles(build_annex(opinion, BOOK, printed)) == [
        FULL,
        COMPARED,
        "The plates, field by field",
        "Order of entry",
        LOG,
        "Cautions for the next look",
        ROWS,
    ]


# ------------------------------------------------------------------------ the first page


def test_the_title_is_the_question_that_was_asked(opinion, printed):
    """By model, number and year, as far as they are claimed."""
    claim = opinion.casefile.claim
    for items, title in (
        (claim.items, "Is this car solent-sprint 105512 of 1955?"),
        ({"chassis_number": "105512"}, "Is this car Tarvane 105512 of 1955?"),
        ({"model_year": "1955"}, "Is this car a Tarvane of 1955?"),
    ):
        asked = with_case(opinion, claim=replace(claim, items=items))
        assert build_outline(asked, BOOK, printed).title == title


def test_the_first_page_says_who_asked_what_and_who_looked(opinion, printed):
    text = front_of(opinion, printed)
    assert (
        "Asked by P. Wendell. To inform a purchase. Car seen on 12 May 2026 by I. Larkin." in text
    )
    silent = replace(opinion.casefile.assignment, client="")
    unseen = with_case(
        opinion,
        assignment=replace(silent, examiners=()),
        visit=replace(opinion.casefile.visit, date=None),
    )
    text = front_of(unseen, printed)
    assert "The client is not stated." in text
    assert "When and by whom the car was seen is not stated." in text


def test_the_answer_is_one_sentence_with_its_figure_and_how_steady_it_is(opinion, printed):
    text = front_of(opinion, printed)
    answer = "The findings give weak support that this frame left the factory as the claimed car."
    figures = (
        "They are about 21 times more probable if it is so than if it is not. We varied all our "
        "assumed rates together, 512 times: in nine trials of ten the figure lay between 4 and "
        "140; it pointed the other way in fewer than 5. This speaks of the findings; it is not the "
        "probability that the claim is true."
    )
    assert f"{answer}\n{figures}\n" in text


def test_an_answer_turns_with_its_ratio_and_says_how_firm_it_is(opinion, printed):
    frame = opinion.weighed[0]
    for lr, band, told in (
        (-2.0, (-2.5, -1.1), "moderate support that it did not.\nThey are about 100 times more"),
        (0.1, (-0.5, 0.6), "The findings do not say whether this frame left the factory"),
        (1.0, (0.4, 2.0), "stays open: the findings give at most weak support that it did."),
    ):
        text = front_of(with_conclusions(opinion, with_lr(frame, lr, band)), printed)
        assert told.lower() in text.lower()


def test_what_else_tells_against_the_claim_stands_with_an_answer_for_it(opinion, printed):
    """And is told apart from what was declared beforehand."""
    assert "But not everything is as claimed: engine block." in front_of(opinion, printed)
    said = replace(opinion.disclosure[0], outcome="as declared")
    declared = replace(opinion, disclosure=(said,), declared_questions=("core engine",))
    text = front_of(declared, printed)
    assert "Not what it was built with, and declared beforehand: engine block." in text
    assert "Engine block | not the one it was built with, as declared | " in text


def test_without_its_steadiness_an_answer_shows_figures_and_no_word(opinion, printed):
    plain = replace(opinion, steadiness=None)
    text = text_of(plain, printed)
    assert "about 21 times more probable" in text
    assert "in nine trials of ten" not in text
    assert "Identity: frame | that of the claimed car |  | 21 |" in text
    assert "band 4" not in text


def test_what_does_not_fit_stands_before_the_table_with_the_photographs(opinion, printed):
    front = front_of(opinion, printed)
    impossible = front.index("1. Impossible if both are right: The casting date of the block")
    differs = front.index("2. The engine number names another number than claimed.")
    assert impossible < differs < front.index("Identity: frame | ")
    shown = replace(opinion.casefile.readings[-1], mark="engine_number", exhibits=("p3",))
    seen = with_case(opinion, readings=(*opinion.casefile.readings, shown))
    told = "The engine number names another number than claimed (photograph 3)."
    assert told in front_of(seen, printed)


def test_no_contradiction_is_left_off_the_first_page(opinion, printed):
    """Three in sentences, the worst first, the rest by name."""
    more = tuple(
        Misfit(MisfitKind.AGAINST, ("body", f"mark_{n}"), f"Mark {n} differs.", Basis.INVENTED, "")
        for n in range(4)
    )
    answer = replace(opinion.answer, misfits=(*opinion.answer.misfits, *more))
    text = front_of(replace(opinion, answer=answer), printed)
    assert "3. Mark 0 differs." in text
    assert "Nor do these fit, see section 4: mark 1; mark 2; mark 3." in text


def test_where_nothing_contradicts_the_reasons_are_what_speaks_most(opinion, printed):
    calm = replace(opinion, answer=replace(opinion.answer, misfits=()))
    text = front_of(calm, printed)
    open_ = "1055?2; what can be read leaves open whether it fits the claim"
    assert f"1. The frame stamping reads {open_} (photograph 2)." in text
    looked = (
        "1 of 2 features of the metal at the frame rail was looked at, and looks as the factory"
    )
    assert f"2. {looked} left it (photograph 2)." in text


def test_a_stop_stands_first_and_is_the_next_step(opinion, printed):
    stop = Stop("frame_number", "The frame stamping is not the claimed number.")
    stopped = replace(opinion, answer=replace(opinion.answer, stops=(stop,)))
    front = front_of(stopped, printed)
    told = front.index("Stop here: The frame stamping is not the claimed number. This is a matter")
    assert told < front.index("The findings give")
    assert "1. Go to the title or registration authority before anything else" in front


def test_every_question_has_a_row_in_words_before_the_figure(opinion, printed):
    text = front_of(opinion, printed)
    for row in (
        "Identity: frame | that of the claimed car | weak support | 21 | ",
        "Brass chassis plate | neither one nor the other | open: neither way | 1/4.1 | ",
        "Engine block | not the one it was built with | weak support | 1/150 | ",
        "Axle | not examined | no answer |  | ",
        "Paint | cannot be established | no answer |  | ",
        "What was said | differs: 1; open: 1; agrees: 1, of 3 statements | section 6 |  | ",
    ):
        assert row in text


def test_the_first_page_names_only_words_that_a_report_can_give(opinion, printed):
    text = front_of(opinion, printed)
    assert "moderately strong support, strong support and very strong support." in text
    assert "extremely" not in text


def test_a_long_list_of_answers_is_cut_to_the_strongest_and_says_so(opinion, printed):
    frame, engine, *_ = opinion.weighed
    many = (with_more(with_lr(engine, 2.0), about=f"part_{n}") for n in range(14))
    text = front_of(with_conclusions(opinion, frame, *many), printed)
    assert text.count(" | the one it was built with | ") == 8
    assert "Answered in section 5: part 8, part 9, part 10, part 11, part 12 and part 13." in text


def test_what_speaks_against_the_claim_stands_before_the_rest_and_is_never_cut(opinion, printed):
    """However weakly, and however many there are."""
    frame, engine, *_ = opinion.weighed
    strong = (with_more(with_lr(engine, 2.9), about=f"part_{n}") for n in range(14))
    against = [with_more(with_lr(engine, -0.7), about=f"core_{n}") for n in range(12)]
    rows = front_of(with_conclusions(opinion, frame, *strong, *against), printed).splitlines()
    at = [row.partition(" | ")[0] for row in rows if " | " in row]
    assert at[1] == "Identity: frame"
    assert at[2:14] == [f"Core {n}" for n in range(12)]


def test_the_first_page_shows_the_whole_car_or_says_that_no_photograph_does(opinion, printed):
    missing = "No photograph of the whole car is in the case."
    front = front_of(opinion, printed)
    assert f"[{missing}]" in front
    exhibits = opinion.casefile.exhibits
    whole = replace(exhibits[-1], id="car", shows_whole_car=True, caption="The car")
    shown = with_case(opinion, exhibits=(*exhibits, whole))
    assert "[Photograph 1: The car]" in front_of(shown, printed)
    assert missing not in text_of(shown, printed)


def test_the_first_page_names_what_was_not_seen_kind_by_kind(opinion, printed):
    text = front_of(opinion, printed)
    for line in (
        "Places on the car: bulkhead (The heater box was not removed); axle case (not looked for).",
        "Read from photographs only: engine number.",
        "Papers: despatch ledger entry (asked for and awaited)",
        "No register of theft or finance was searched.",
    ):
        assert line in text


def test_of_a_long_list_of_unseen_places_six_are_named(opinion, printed):
    unseen = next(each for each in opinion.sites if each.name == "axle case")
    for number, rest in ((6, " Read from"), (8, " And 2 more, see section 6.")):
        sites = tuple(replace(unseen, site=f"place_{n}", name=f"place {n}") for n in range(number))
        text = front_of(replace(opinion, sites=sites), printed)
        assert f"place 5 (not looked for).{rest}" in text
        assert "place 6 (" not in text


def quiet_of(opinion):
    """Only the engine is asked about; no place looks disturbed and nothing contradicts."""
    calm = replace(with_conclusions(opinion, opinion.weighed[1]), disturbed=())
    return replace(calm, answer=replace(calm.answer, misfits=(), next_looks=()))


def steps(opinion, printed):
    return front_of(opinion, printed).partition("-- What to do next\n")[2]


def test_the_steps_are_advice_then_what_to_read_again_then_whom_to_ask(opinion, printed):
    assert steps(opinion, printed).startswith(
        "1. Take advice from a lawyer before anything is cleaned, repaired, sold or said in "
        "public: at least one place is noted as disturbed (section 7).\n"
        "2. Read the engine number again, by another examiner and in raking light. If it "
        "reads the same again, the ratio for “engine block” will be about "
        "1/1,200; no other changes more.\n"
        "3. Read the owner’s reply in section 6.\n"
    )
    silent = replace(opinion.casefile.assignment, owner_reply="")
    unasked = with_case(replace(opinion, disturbed=()), assignment=silent)
    assert "2. Ask the owner or seller what is known about it" in steps(unasked, printed)
    stop = Stop("frame_number", "The frame stamping is not the claimed number.")
    stopped = replace(unasked, answer=replace(opinion.answer, stops=(stop,)))
    assert "confront nobody" in steps(stopped, printed)
    assert "Ask the owner" not in steps(stopped, printed)


def test_else_the_steps_are_a_look_a_paper_and_a_photograph_of_the_car(opinion, printed):
    assert steps(replace(quiet_of(opinion), looks=opinion.looks[1:]), printed).startswith(
        "1. Read the body number on the bulkhead. It takes 25 minutes.\n"
        "2. Wait for the despatch ledger entry, which has been asked for.\n"
        "3. Photograph the whole car, from the front and from behind: no picture shows it.\n"
    )


def test_a_reading_that_moves_no_answer_is_not_a_step(opinion, printed):
    looks = tuple(
        replace(each, outcomes=(LookOutcome("the reading stands", -2.2),))
        for each in opinion.answer.next_looks
    )
    idle = replace(opinion, answer=replace(opinion.answer, next_looks=looks), disturbed=())
    assert "Read the engine number again" in steps(opinion, printed)
    assert "Read the engine number again" not in steps(idle, printed)


def test_work_that_was_declared_and_shows_asks_for_no_lawyer(opinion, printed):
    quiet = replace(quiet_of(opinion), disturbed=("engine_deck",), looks=())
    assert "a lawyer" in steps(quiet, printed)
    about = ("engine", "engine_deck")
    said = Misfit(MisfitKind.DECLARED, about, "It looks so.", Basis.INVENTED, "")
    declared = replace(quiet, answer=replace(quiet.answer, misfits=(said,)))
    assert "a lawyer" not in steps(declared, printed)


# ------------------------------------------------------------------------- the sections


def test_the_assignment_says_for_whom_for_what_and_by_whom(opinion, printed):
    text = section_text(opinion, printed, ASSIGNMENT)
    for line in (
        "Client: P. Wendell",
        "Purpose: To inform a purchase",
        "Intended users: The client and the client's lawyer",
        "Date of inspection: 12 May 2026",
        "Report: 26-031, issue 1",
        "Examiner: I. Larkin (Larkin & Daughter)",
        "None; the fee does not depend on the outcome. / Earlier dealings",
        "In these words: A Sprint of 1955 with its first body and engine, known from new.",
        "Built: November 1955",
        "Brass chassis plate | Made for the claimed car | Made later, or another car’s",
    ):
        assert line in text
    blank = with_case(opinion, assignment=replace(opinion.casefile.assignment, client=""))
    assert "Client: not stated" in section_text(blank, printed, ASSIGNMENT)


def test_a_cases_id_stands_on_no_page(opinion, printed):
    """Somebody chose it in haste, and it reads as a verdict."""
    named = with_case(opinion, id="altered-car", report=ReportIssue())
    for build in (build_outline, build_annex):
        text = report_text(build(named, BOOK, printed))
        assert "altered-car" not in text
        assert "Report not yet numbered" in text


def test_every_place_stands_with_its_state_and_why_nothing_was_read_there(opinion, printed):
    text = section_text(opinion, printed, PLACES)
    assert "Not accessible / The heater box was not removed." in text
    assert "5 | Boot floor / Under the mat | Absent / Bare metal, no characters. | " in text
    assert "1 | Scuttle / Left of the scuttle, below the bonnet hinge | Read | 1" in text


def test_a_reading_stands_as_typed_beside_its_photograph_with_who_read_it(opinion, printed):
    text = section_text(opinion, printed, FOUND)
    assert "[Photograph 2: Frame stamping, raking light]\n" in text
    assert "\n2 Frame rail: read (photograph 2)\n" in text
    assert "sp|105512|20713|14||4 / I. Larkin, in person, clear, taken as SP|105512" in text
    assert "The fifth place lies under a scratch." in text
    assert "from a photograph, not from the thing itself" in text
    assert "How the metal looks (I. Larkin): surface: factory." in text


def test_what_was_observed_stands_before_what_it_says(opinion, printed):
    text = section_text(opinion, printed, FOUND)
    read = text.index("20718 / I. Larkin")
    assert read < text.index("The engine number names another number than claimed.")
    assert "What can be read leaves open whether it fits the claim." in text
    assert "What can be read fits the claim." in text


def test_readings_that_are_the_same_stand_once_with_all_who_read_it(opinion, printed):
    text = section_text(read_twice(opinion, "1055?2"), printed, FOUND)
    assert "1055?2 / I. Larkin, in person, clear / T. Second, in person, clear / " in text


def test_what_was_read_again_or_blind_and_what_is_vouched_for_is_told(opinion, printed):
    case = opinion.casefile
    again = {"again": True, "claim_known": False}
    vouched = Vouched(row="axles:BU", by="I. Larkin", reason="Seen on nine axles.")
    now = with_case(
        opinion,
        readings=tuple(replace(each, **again) for each in case.readings),
        looks=tuple(replace(each, again=True) for each in case.looks),
        circumstances=Circumstances(vouched=(vouched,)),
    )
    text, before = text_of(now, printed), text_of(opinion, printed)
    for told in (
        "in person, clear, read again, without knowing the claimed number",
        "looked at again",
        "The row axles:BU of the code book is from memory and vouched for by I. Larkin: Seen on "
        "nine axles.",
    ):
        assert told in text
        assert told not in before


def told_look(opinion):
    look = LookSeen(site="engine_deck", outcome="doubtful", seen="told", by="I. Larkin", note="So.")
    return with_case(opinion, looks=(look,))


def test_what_was_only_told_says_so_in_its_place_and_whose_word_it_is(opinion, printed):
    text = section_text(told_look(opinion), printed, OPEN)
    assert "Build card: A copy was seen, not the paper itself. Copied from the despatch" in text
    assert "The owner’s reply: The engine was rebuilt in 1988" in text
    assert "was said by the seller, M. Orrin. None of it is a finding." in text


def test_every_question_with_a_ratio_has_its_figures_and_what_carries_it(opinion, printed):
    text = section_text(opinion, printed, STRENGTH)
    assert (
        "Identity: frame / This frame left the factory as the claimed car. / The examiner stated "
        "prior odds of 3 to 1 for the first proposition. On these, and only on these, the "
        "posterior odds are 64 to 1. | 21 / Weak support / band 4 to 140 | The number of the frame "
        "stamping: × 6.9 for\n" in text
    )
    assert "190 of 512 turned" in text
    assert (
        "against “supplied new in service, struck in service” the ratio is 1/190; against “from "
        "another car, chosen to fit, struck to pass as the first” the ratio is 5." in text
    )
    assert "Prior odds for identity: 3 to 1. The car has been in one club's register" in text


def test_a_posterior_stands_only_where_prior_odds_were_stated(opinion, printed):
    known = replace(opinion.casefile.circumstances, prior_odds=())
    bare = with_case(opinion, circumstances=known)
    for build in (build_outline, build_annex):
        assert "posterior odds are 64 to 1" in report_text(build(opinion, BOOK, printed))
        assert "posterior" not in report_text(build(bare, BOOK, printed))


def test_a_part_of_which_nothing_was_seen_says_so_beside_its_ratio(opinion, printed):
    """Whatever ratio it bears."""
    unseen = "This part was not seen at all."
    only = with_conclusions(opinion, with_more(opinion.weighed[1], about="axle"))
    for title in (STRENGTH, FULL):
        assert unseen in section_text(only, printed, title)
    looks = (LookSeen(site="axle_case", outcome="factory"),)
    assert unseen not in text_of(with_case(only, looks=looks), printed)


def test_what_is_open_stands_with_what_speaks_of_it(opinion, printed):
    text = section_text(opinion, printed, OPEN)
    assert "Open: Body; brass chassis plate; model. This is open: the likelihood ratio" in text
    assert "Not examined: Axle." in text
    assert "Cannot be established: Paint." in text
    assert "- The entry in the maker's despatch ledger: ask the archive." in text
    assert "settle" not in text
    answered = with_conclusions(opinion, *opinion.weighed[:2])
    told = "Every question has an answer, as strong as its words."
    assert told in section_text(answered, printed, OPEN)


def test_what_could_move_an_answer_stands_with_its_words_now_and_then(opinion, printed):
    text = section_text(opinion, printed, OPEN)
    assert "Read the body number on the bulkhead. / The heater flap may hold asbestos." in text
    again = text.index("If it reads the same again, the ratio for “engine block” will be")
    assert again < text.index("Read the body number on the bulkhead.")
    # Those of the end of the band nearer 1, as page one has them.
    assert "Its words: weak support now, moderate support then." in text
    assert "20 minutes (of these 15 minutes for access: lift) / nothing to dismantle" in text


def test_what_was_said_stands_against_what_was_found(opinion, printed):
    text = section_text(opinion, printed, OPEN)
    assert "One statement, made by the seller, M. Orrin." in text
    assert "Engine | First engine | The engine number differs from the plate. | Differs" in text
    said = replace(opinion.disclosure[0], declared="Declared: first.", outcome="as declared")
    text = section_text(replace(opinion, disclosure=(said,)), printed, OPEN)
    assert f"| {said.says} / Declared: first. | {said.found} | As declared" in text


def test_a_disturbed_place_brings_whom_to_refer_to(opinion, printed):
    quiet = quiet_of(opinion)
    assert not looks_altered(quiet)
    assert referral_heading() not in section_text(quiet, printed, LIMITS)
    disturbed = replace(quiet, disturbed=("engine_deck",))
    assert referral_heading() in section_text(disturbed, printed, LIMITS)


def test_limits_signatures_and_versions_close_the_report(opinion, printed):
    text = section_text(opinion, printed, LIMITS)
    for limitation in standing_limitations():
        assert limitation in text
    assert "Signed: ____________________ I. Larkin" in text
    assert "My fee does not depend on what is concluded" in text
    assert "version 2026-11-25, SHA-256 " in text
    assert "The annex is a file of its own" in text


def test_the_report_and_its_annex_say_nothing_that_is_never_said(opinion, printed):
    for build in (build_outline, build_annex):
        text = report_text(build(opinion, BOOK, printed))
        assert {said.words for said in never_said(text)} == set()


def test_an_empty_case_still_gives_a_whole_report_and_annex(opinion, printed):
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
    assert "What was supplied allows no question to be asked." in text
    assert "No mark was read." in text
    assert "Every question has an answer" not in text
    behind = report_text(build_annex(empty, BOOK, printed))
    assert "No two marks could be compared." in behind


# ---------------------------------------------------------------------------- the annex


def test_an_observation_stands_before_its_inference(opinion, printed):
    text = section_text(opinion, printed, COMPARED)
    assert (
        "The plate shows engine number 20713 and the engine is struck 20718. | This is "
        "consistent with another engine of the same series, and with a misread 3 or 8." in text
    )


def test_the_photograph_log_has_every_digest_in_full_and_what_it_is_bound_to(opinion, printed):
    pictures = prepare_pictures(opinion.casefile.exhibits, EXHIBITS)
    text = alone(build_annex(opinion, BOOK, printed, pictures), LOG)
    for entry in opinion.casefile.exhibits:
        fours = " ".join(re.findall("....", entry.sha256))
        assert f"{entry.caption} / {entry.id} | {fours} | Taken by I. Larkin, 12 May 2026" in text
    assert "frame stamping; surface of the frame rail / The file was there" in text


def test_the_log_says_whether_the_file_was_there_and_is_the_one_recorded(opinion, printed):
    brought = {"p1": EXHIBITS["p1"], "p2": b"another file"}
    pictures = prepare_pictures(opinion.casefile.exhibits, brought)
    text = alone(build_annex(opinion, BOOK, printed, pictures), LOG)
    told = {re.findall(r" / (p\d) \|", row)[0]: row for row in text.splitlines() if " / p" in row}
    assert told["p1"].endswith("The file was there and its digest is the one recorded.")
    assert told["p2"].endswith("its SHA-256 digest differs.")
    assert told["p3"].endswith("The file was not supplied.")


def test_a_photograph_that_the_report_does_not_show_stands_in_the_log(opinion, printed):
    exhibits = opinion.casefile.exhibits
    more = tuple(replace(exhibits[0], id=f"x{n}", caption=f"More {n}") for n in range(3))
    outline = build_annex(with_case(opinion, exhibits=(*exhibits, *more)), BOOK, printed)
    text = alone(outline, LOG).partition("-- Photographs that the report does not show")[2]
    assert "[Photograph 6: More 2]" in text
    assert "Frame stamping" not in text


def test_the_order_of_entry_is_that_of_the_days_and_hours(opinion, printed):
    text = section_text(opinion, printed, "Order of entry")
    assert "12 May 2026, 10:40 UTC | Brass chassis plate | sp|105512|20713|14||4" in text


def read_twice(opinion, typed):
    """The frame stamping read by a second examiner too."""
    again = invented.decoding("frame_number", typed, (("number", "chassis_number", typed, typed),))
    again = replace(again, reading=replace(again.reading, by="T. Second"))
    return replace(opinion, decodings=(*opinion.decodings, again))


def test_examiners_who_read_alike_need_no_section(opinion, printed):
    assert DIFFER not in titles(build_annex(opinion, BOOK, printed))
    assert DIFFER not in titles(build_annex(read_twice(opinion, "1055?2"), BOOK, printed))


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
    each = (
        ReadAlone("frame_number", "1055?2", "I. Larkin", {key: 1.0}),
        ReadAlone("frame_number", "105512", "T. Second", {key: 1.5}),
    )
    text = alone(build_annex(twice, BOOK, printed, (), AtIssue(each)), DIFFER)
    assert "What the difference does | I. Larkin alone | T. Second alone | Both, as weighed" in text
    assert "Identity: the frame | 10 | 31 | 21" in text


def test_the_annex_names_rows_with_their_basis_and_source(opinion, printed):
    text = section_text(opinion, printed, ROWS)
    assert "1 | Invented | Invented for the demonstration" in text
    assert "Types | SP | " in text
    assert "LR from 10 | Moderate support | " in text
    assert "Characters called clear that are read wrongly | 0.3 % | " in text


def test_an_overridden_rate_stands_with_the_examiners_reason(opinion, printed):
    circumstances = replace(
        opinion.casefile.circumstances,
        overrides=(Override(row="structure.other", value=0.4, reason="A barn find"),),
    )
    text = section_text(with_case(opinion, circumstances=circumstances), printed, ROWS)
    assert "| 40 % | A barn find. / The examiner’s own value." in text
