"""The report on each of the four cars says everything, in order, and nothing it must not."""

import re
from dataclasses import replace

import pytest

from tests.never_said import never_said
from tests.worked.opened import (
    CARS,
    PRINTED,
    book_and_version,
    case_of,
    opinion_of,
    outline_of,
    text_of,
    unsteadied,
    unweighed,
    with_reading,
)
from tests.worked.pdf_pages import page_texts
from witnessmark.casefile import Seen
from witnessmark.examination.read_alone import read_alone
from witnessmark.report import build_outline, report_text
from witnessmark.report.issue.at_issue import AtIssue
from witnessmark.report.press.render import print_outline
from witnessmark.report.records import Form, PaperSize
from witnessmark.weighing import MisfitKind, Standing, capped
from witnessmark.wording import (
    Names,
    cautions,
    conclusion_text,
    lr_text,
    misfit_sentence,
    referral_heading,
    standing_limitations,
    standing_sentence,
)

every_car = pytest.mark.parametrize("car", CARS)

SECTIONS = [
    "What is claimed",
    "Summary",
    "What is open, what cannot be established, and what bears on it",
    "What to look at next",
    "Scope, consent and conditions",
    "Sites",
    "How the metal looked",
    "Readings",
    "Where the examiners differ",
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


@every_car
def test_every_section_stands_in_its_order(car: str) -> None:
    """The page on whom to refer to only where metal was noted as disturbed, the one on
    readings that differ only where some do."""
    sections = [section.title for section in outline_of(car).sections]
    left_out = {referral_heading()} if car != "altered" else set()
    if car == "no-papers":
        left_out.add("Where the examiners differ")
    wanted = [s for s in SECTIONS if s not in left_out]
    assert sections == wanted


@every_car
def test_every_conclusion_that_was_examined_has_its_pair_its_ratio_and_its_band(car: str) -> None:
    text, opinion = text_of(car), opinion_of(car)
    for weighed in opinion.weighed:
        said = conclusion_text(weighed, Names(opinion.names))
        assert said.sentence in text
        if weighed.standing in (Standing.NOT_EXAMINED, Standing.CANNOT_BE_ESTABLISHED):
            continue
        assert f"First proposition: {said.first}" in text
        assert f"Second proposition: {said.second}" in text
        assert f"LR {said.lr} (log10 {said.log10_lr})" in text
        assert said.band in text
        assert bool(said.words) == (opinion.steadiness is not None)


@every_car
def test_what_does_not_fit_is_told_in_every_report_the_impossible_first(car: str) -> None:
    text, misfits = text_of(car), opinion_of(car).answer.misfits
    places = [text.index(misfit_sentence(each)) for each in misfits]
    assert places == sorted(places)
    kinds = [list(MisfitKind).index(each.kind) for each in misfits]
    assert kinds == sorted(kinds)


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
        said = f"{each.says} / {each.declared}" if each.declared else each.says
        row = f"{said} | {each.found}"
        assert re.search(rf"{re.escape(row)}[^|]* \| {each.outcome.capitalize()}", text)


@every_car
def test_cautions_and_standing_limits_stand_in_every_report(car: str) -> None:
    text = text_of(car)
    assert all(caution.sentence in text for caution in cautions())
    assert all(limit in text for limit in standing_limitations())


@every_car
def test_a_question_that_is_not_answered_says_so(car: str) -> None:
    for conclusion in opinion_of(car).weighed:
        if conclusion.standing is not Standing.ANSWERED:
            assert standing_sentence(conclusion) in text_of(car)


@every_car
def test_a_posterior_stands_only_where_odds_were_stated(car: str) -> None:
    """The insurer's examiner stated them for `panel`, for identity alone."""
    stated = [c for c in opinion_of(car).weighed if c.prior_odds is not None]
    assert [c.question.value for c in stated] == (["identity"] if car == "panel" else [])
    assert ("the posterior odds are" in text_of(car)) == (car == "panel")


@every_car
def test_client_case_and_day_and_the_books_version_stand_there(car: str) -> None:
    text, case = text_of(car), opinion_of(car).casefile
    assert f"Client: {case.assignment.client}" in text
    assert f"Case: {case.id}" in text
    assert "25 November 2026" in text
    assert f"version {opinion_of(car).book.version}" in text


def front_of(car: str) -> str:
    """The first page alone, as text."""
    alone = replace(outline_of(car), cover=(), how_to_read=(), sections=())
    return report_text(alone)


FIRST_PAGES = {
    "clean": (
        "- Read from photographs only: body number on the bulkhead; week code on the bulkhead.",
        "Nothing that was compared differs.",
        "Ask for the invoice of the service department, which has not been asked for",
    ),
    "no-papers": (
        "rear axle casing (not accessible: The axle is sunk in the earth floor).",
        "despatch ledger entry (lost); build card (lost)",
        "- No character could be made out: frame stamping.",
        "- Kept apart from the car: brass chassis plate.",
        "established, beyond the car: Service invoices kept by the owners' register.",
    ),
    "panel": (
        "This engine block was not fitted to this car at the factory.",
        "- Looked at, and nothing was there: tail of the chassis number on the inner wing.",
        "- Engine number: the engine number reads 02418; the aluminium car plate and the despatch "
        "ledger entry read 14029: not the same.",
    ),
    "altered": (
        "- Impossible if both are right: The casting date of the block is later than the day",
        "Identity: frame | Strong support | This frame did not leave the factory as the claimed",
        "Engine block | ",
        "rear axle casing (not looked for: The half hour on the lift was over).",
        "- Chassis number: the tail of the chassis number on the seat pan reads 0417; the brass "
        "chassis plate, the frame stamping, the build card, the claim and the title paper read "
        "700236;",
        "What was said about it | Differs: 6 | Differs: “On its first frame”;",
        "- The car lacks the part that should bear: frame stamping.",
        "- Looks disturbed: scuttle, plate; right-hand frame rail; left-hand inner wing; block, "
        "number.",
        "- Read from a copy only: build card.",
        "Take advice from a lawyer before anything is cleaned, repaired, sold or said in public",
    ),
}


@every_car
def test_the_first_page_answers_a_stranger(car: str) -> None:
    """What was concluded, how strongly, what was not seen, and what to do next."""
    text = front_of(car)
    for words in FIRST_PAGES[car]:
        assert words in text


@every_car
@pytest.mark.parametrize("size", PaperSize)
def test_the_first_page_is_one_page(car: str, size: PaperSize) -> None:
    bare = replace(outline_of(car), sections=())
    pdf = print_outline(bare, (), PRINTED, Form(size=size)).pdf
    pages = page_texts(pdf)
    assert len(pages) == 2
    assert "The next step" in pages[0]
    assert "How to read this report" in pages[1]


def test_a_mark_of_which_nothing_can_be_read_speaks_of_no_car() -> None:
    """The frame of `no-papers`: somebody looked, and the rail is pitted away."""
    opinion, text = opinion_of("no-papers"), text_of("no-papers")
    assert opinion.illegible_marks == ("frame_number",)
    assert "no character of what stands there could be made out" in text
    for car in ("clean", "panel", "altered"):
        assert opinion_of(car).illegible_marks == ()


def test_a_place_of_which_somebody_was_only_told_is_not_said_to_look_disturbed() -> None:
    opinion = opinion_of("altered")
    looks = tuple(
        replace(look, seen=Seen.TOLD) if look.site == "scuttle" else look
        for look in opinion.casefile.looks
    )
    told = unsteadied(replace(opinion.casefile, looks=looks))
    text = report_text(build_outline(told, book_and_version()[0], PRINTED))
    assert "Looks disturbed: right-hand frame rail; left-hand inner wing; block, number.\n" in text


@pytest.mark.parametrize(
    ("car", "told"),
    [
        ("clean", "dab | Three-cornered white / counts as factory"),
        ("clean", "spacing | Close / counts as factory"),
        ("altered", "dab | Round red / counts as doubtful"),
        ("altered", "spacing | Wide / counts as doubtful"),
    ],
)
def test_an_outcome_counts_as_the_rows_for_this_car_have_it(car: str, told: str) -> None:
    """What is right on a body by Ellery is not on one by Marrick, and the other way about."""
    assert told in text_of(car)


def test_each_reading_of_a_mark_read_differently_is_weighed_alone() -> None:
    """In `clean` one figure was left open on the plate and on the frame: that moves nothing."""
    opinion, book = opinion_of("clean"), book_and_version()[0]
    alone = read_alone(opinion, book)
    assert [(each.mark, each.by) for each in alone] == [
        ("plate_brass", "Ines Calder"),
        ("plate_brass", "Tomas Brook"),
        ("frame_number", "Ines Calder"),
        ("frame_number", "Tomas Brook"),
    ]
    for each in alone:
        for conclusion in opinion.answer.conclusions:
            ratio = each.log10_lr[conclusion.question.value, conclusion.about]
            assert ratio == pytest.approx(capped(conclusion.log10_lr), abs=0.0414)
    issued = build_outline(opinion, book, PRINTED, (), AtIssue(alone))
    assert report_text(issued).count("The difference changes nothing") == 2


def test_a_reading_that_says_another_number_shows_what_it_does() -> None:
    """The second examiner reads 700125 on the frame of `clean`: by that alone it is another's."""
    case, book = case_of("clean"), book_and_version()[0]
    at = next(
        n
        for n, each in enumerate(case.readings)
        if (each.mark, each.by) == ("frame_number", "Tomas Brook")
    )
    opinion = unweighed("clean", with_reading(case, at, "4 700125"))
    alone = [each for each in read_alone(opinion, book) if each.mark == "frame_number"]
    first, second = (each.log10_lr["identity", "frame"] for each in alone)
    assert second < first - 1
    text = report_text(build_outline(opinion, book, PRINTED, (), AtIssue(tuple(alone))))
    head = "What the difference does | Ines Calder alone | Tomas Brook alone | Both, as weighed"
    assert f"{head}\nIdentity: the frame | {lr_text(first)} | {lr_text(second)} | " in text
    assert "what one reads excludes what the other reads." in text


def test_where_all_read_alike_nothing_is_weighed_again() -> None:
    """Two examiners read nothing on the frame of `no-papers`, alike."""
    assert read_alone(opinion_of("no-papers"), book_and_version()[0]) == ()
