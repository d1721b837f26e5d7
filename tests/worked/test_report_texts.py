"""The report on each of the six cars says everything, in order, and nothing it must not."""

import re
from dataclasses import replace

import pytest

from tests.never_said import never_said
from tests.worked.opened import (
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
from witnessmark.casefile import Seen
from witnessmark.casefile.records import AttachmentSeen
from witnessmark.examination.read_alone import read_alone
from witnessmark.report import report_text
from witnessmark.report.issue.issued import NOT_ISSUED, AtIssue
from witnessmark.report.outline import build_annex
from witnessmark.weighing import Asked, MisfitKind, Standing, capped
from witnessmark.wording import (
    Names,
    cautions,
    lr_text,
    misfit_sentence,
    referral_heading,
    standing_limitations,
)
from witnessmark.wording.conclusions import (
    band_sentence,
    favours_of,
    split_sentence,
    weight_sentence,
    words_of,
)
from witnessmark.wording.verbal_scale import Favours

ALL_CARS = ("clean", "no-papers", "panel", "altered", "swapped", "dressed")
every_car = pytest.mark.parametrize("car", ALL_CARS)


def annex_of(opinion, issue=NOT_ISSUED):
    return report_text(build_annex(opinion, book_and_version()[0], PRINTED, (), issue))


def front_of(car: str) -> str:
    """The first page alone, as text."""
    return report_text(replace(outline_of(car), sections=()))


@every_car
def test_the_annex_has_every_conclusion_with_its_pair_and_its_band(car: str) -> None:
    opinion = opinion_of(car)
    text = annex_of(opinion)
    for weighed in opinion.weighed:
        assert weight_sentence(weighed) in text
        assert band_sentence(weighed) in text
        assert split_sentence(weighed) in text
        assert bool(words_of(weighed)) == (
            opinion.steadiness is not None
            or weighed.standing in (Standing.NOT_EXAMINED, Standing.CANNOT_BE_ESTABLISHED)
        )


@every_car
def test_what_does_not_fit_is_told_in_every_report_the_impossible_first(car: str) -> None:
    text, misfits = text_of(car), opinion_of(car).answer.misfits
    told = text.partition("4. Do they tell one story?")[2]
    places = [told.index(misfit_sentence(each).rstrip(".")) for each in misfits]
    assert places == sorted(places)
    kinds = [list(MisfitKind).index(each.kind) for each in misfits]
    assert kinds == sorted(kinds)


@every_car
def test_page_one_and_the_pages_behind_it_agree(car: str) -> None:
    """Each row of page one has the side and the ratio of its conclusion, and no row tells for a
    part of which a contradiction is told that was not declared, nor of one nobody examined."""
    opinion, front, text = opinion_of(car), front_of(car), text_of(car)
    for each in opinion.weighed:
        if each.question is Asked.STAMP or each.standing is Standing.CANNOT_BE_ESTABLISHED:
            continue
        names = Names(opinion.names)
        name = names.item(each.about) if each.question is Asked.ITEM else names.piece(each.about)
        rows = [row for row in front.splitlines() if row.lower().startswith(f"{name.lower()} | ")]
        for row in rows:
            if each.standing is Standing.NOT_EXAMINED:
                assert row.endswith("| not examined | no answer |  | ")
                continue
            assert f" | {lr_text(each.log10_lr)} | " in row
            against = any(
                word in row for word in (" | not ", "later, or another", "there again later")
            )
            assert against == (favours_of(each) is Favours.SECOND)
    for misfit in opinion.answer.misfits:
        if misfit.kind in (MisfitKind.IMPOSSIBLE, MisfitKind.AGAINST, MisfitKind.UNUSUAL):
            named = Names(opinion.names).any(misfit.about[-1])
            assert misfit_sentence(misfit).rstrip(".") in front or named in front
    is_shown = "The whole car from its left front corner" in front
    assert is_shown == (car != "no-papers")
    assert ("No photograph of the whole car is in the case." in text) == (not is_shown)


@every_car
def test_nothing_stands_in_it_that_is_never_said(car: str) -> None:
    """Not even in what client and owner have typed."""
    assert never_said(text_of(car)) == ()
    assert never_said(annex_of(opinion_of(car))) == ()


@every_car
def test_dates_stand_in_words_and_no_id_of_the_case_stands_there(car: str) -> None:
    text = text_of(car)
    without_versions = re.sub(r"version \d{4}-\d\d-\d\d", "", text)
    assert re.findall(r"\b1[89]\d\d-\d\d-\d\d\b", without_versions) == []
    assert f"Case {car}" not in text
    assert f"Report {case_of(car).report.number}, issue 1" in text


@every_car
def test_every_finding_is_told_by_what_was_seen_before_what_it_fits(car: str) -> None:
    """What agrees may be told together; what differs or is open stands alone."""
    text = annex_of(opinion_of(car))
    for finding in opinion_of(car).findings:
        if finding.outcome.value in ("differ", "undecided"):
            at = text.index(finding.observation)
            assert at < text.index(finding.inference, at)


@every_car
def test_every_site_its_state_and_its_reason_stand_there(car: str) -> None:
    text = text_of(car)
    for site in opinion_of(car).sites:
        assert site.where in text
        assert site.reason.rstrip(".") in text


@every_car
def test_every_reading_stands_as_it_was_typed(car: str) -> None:
    for reading in opinion_of(car).casefile.readings:
        assert reading.text in annex_of(opinion_of(car))


@every_car
def test_whoever_made_a_statement_finds_it_in_their_words_with_what_was_found(car: str) -> None:
    text = text_of(car)
    for each in opinion_of(car).disclosure:
        said = f"{each.says} / {each.declared}" if each.declared else each.says or "nothing"
        assert f"{said} | {each.found} | {each.outcome.capitalize()}" in text


@every_car
def test_limits_stand_in_every_report_cautions_in_every_annex(car: str) -> None:
    assert all(limit in text_of(car) for limit in standing_limitations())
    assert all(caution.sentence in annex_of(opinion_of(car)) for caution in cautions())
    assert (referral_heading() in text_of(car)) == (car in ("altered", "dressed"))


@every_car
def test_a_posterior_stands_only_where_odds_were_stated(car: str) -> None:
    """The insurer's examiner stated them for `panel`, for identity alone."""
    stated = [c for c in opinion_of(car).weighed if c.prior_odds is not None]
    assert [c.question.value for c in stated] == (["identity"] if car == "panel" else [])
    assert ("the posterior odds are" in text_of(car)) == (car == "panel")


FIRST_PAGES = {
    "clean": (
        "Is this car Solent Sprint 700143 of 1955?",
        "1. The frame stamping reads 4 7001[48]3; what can be read fits the claim (photograph 4).",
        "Read from photographs only: body number on the bulkhead; week code on the bulkhead.",
        "1. Ask for the invoice of the service department.",
    ),
    "no-papers": (
        "Is this car Solent Sprint 700157 of 1955?",
        "rear axle casing (The axle is sunk in the earth floor)",
        "despatch ledger entry (lost); build card (lost)",
        "No character could be made out: frame stamping.",
        "Kept apart from the car: brass chassis plate.",
        "Rear axle casing | not examined | no answer |  | ",
    ),
    "panel": (
        "Not what it was built with, and declared beforehand: engine block",
        "Engine block | not the one it was built with, as declared | ",
        "Model | built as claimed | ",
    ),
    "altered": (
        "Stop here: The car lacks the part that should bear the frame stamping. This is a matter",
        "1. There is no separate frame: floor, sills and front legs are one pressed and welded",
        "2. Impossible if both are right: The casting date of the block is later than the day on "
        "which the car was complete: 21D9 = 21 April 1959 at the earliest, the car 31 October 1957 "
        "at the latest (photograph 10).",
        "3. The tail of the chassis number on the seat pan reads 0417; the claimed chassis number "
        "is 700236 (photograph 8).",
        "Nor do these fit, see section 4: gearbox stamping;",
        "Identity: frame | not that of the claimed car | strong support | 1/10,000 | ",
        "rear axle casing (The half hour on the lift was over).",
        "What was said | differs: 6, of 6 statements | section 6 |  | ",
        "Read from a copy only: build card.",
        "1. Go to the title or registration authority before anything else, with the readings",
        "Answered for the claimed car only, and not for this one, see section 5: model and coach",
        "No higher figure is ever stated.",
    ),
    "swapped": (
        "Not what it was built with, and declared beforehand: engine block.",
        "Engine block | not the one it was built with, as declared | ",
    ),
    "dressed": (
        "Is this car Solent saloon 600458 of 1960, and was it built as a Solent TS?",
        "as to whether this car was built as a Solent TS:\n"
        "They are about 1,300 times more probable if it is not than if it is so.",
        "But not everything is as claimed: body plate, type of engine and trim.",
        "1. Trim: the aluminium car plate reads V1 (grey leathercloth); the claim says tan leather "
        "(photograph 3).",
        "Trim | not built as claimed | ",
    ),
}


@every_car
def test_the_first_page_answers_a_stranger(car: str) -> None:
    """What was concluded, how strongly, what was not seen, and what to do next."""
    text = front_of(car)
    for words in FIRST_PAGES[car]:
        assert words in text


def test_a_car_without_the_part_that_bears_its_number_is_a_matter_for_the_authority() -> None:
    """`altered` has no frame; the same number on a frame that is there is no stop."""
    assert [each.about for each in opinion_of("altered").answer.stops] == ["frame_number"]
    case = case_of("altered")
    there = (replace(each, attachment=AttachmentSeen.IN_PLACE) for each in case.sites)
    assert unsteadied(replace(case, sites=tuple(there))).answer.stops == ()


def test_a_mark_of_which_nothing_can_be_read_speaks_of_no_car() -> None:
    """The frame of `no-papers`: somebody looked, and the rail is pitted away."""
    opinion = opinion_of("no-papers")
    assert opinion.illegible_marks == ("frame_number",)
    assert "No character could be made out: Frame stamping." in text_of("no-papers")
    for car in ("clean", "panel", "altered"):
        assert opinion_of(car).illegible_marks == ()


def test_a_place_of_which_somebody_was_only_told_is_not_said_to_look_disturbed() -> None:
    opinion = opinion_of("altered")
    looks = tuple(
        replace(look, seen=Seen.TOLD) if look.site == "scuttle" else look
        for look in opinion.casefile.looks
    )
    told = unsteadied(replace(opinion.casefile, looks=looks))
    assert "scuttle" in opinion.disturbed
    assert "scuttle" not in told.disturbed


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
    assert annex_of(opinion, AtIssue(alone)).count("The difference changes nothing") == 2


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
    text = annex_of(opinion, AtIssue(tuple(alone)))
    head = "What the difference does | Ines Calder alone | Tomas Brook alone | Both, as weighed"
    assert f"{head}\nIdentity: the frame | {lr_text(first)} | {lr_text(second)} | " in text
    assert "what one reads excludes what the other reads." in text


def test_where_all_read_alike_nothing_is_weighed_again() -> None:
    """Two examiners read nothing on the frame of `no-papers`, alike."""
    assert read_alone(opinion_of("no-papers"), book_and_version()[0]) == ()
