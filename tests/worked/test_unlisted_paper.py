"""A paper that the book does not list is told beside the claim, and weighs nothing."""

from dataclasses import replace

from tests.worked.found_in_pdf import squeezed
from tests.worked.opened import PRINTED, book_and_version, case_of, unsteadied
from witnessmark.casefile import Paper, PaperKind, PaperSays, PaperState
from witnessmark.report import build_outline, report_text
from witnessmark.report.mask.copied import masked_copy

LETTER = Paper(
    mark="",
    state=PaperState.IN_HAND,
    kind=PaperKind.ARCHIVE_LETTER,
    name="Letter of the archive",
    says=(
        PaperSays(item="chassis_number", value="4 700143"),
        PaperSays(item="body_works", value="Ellery Coachworks"),
        PaperSays(item="paint", value="oxblood"),
    ),
)
CASE = replace(case_of("clean"), papers=(*case_of("clean").papers, LETTER))


def test_what_it_says_stands_beside_the_claim() -> None:
    """As claimed, other than claimed, or not claimed; a value as the book reads it."""
    told = report_text(build_outline(unsteadied(CASE), book_and_version()[0], PRINTED))
    text = " ".join(told.split())
    assert "Letter of the archive" in text
    assert "No paper of the code book: archive letter. It is told and not weighed." in text
    assert "700143, as claimed" in text
    assert "Ellery Coachworks, where the claim says Marrick" in text
    assert "oxblood" in text


def test_nothing_is_weighed_by_it() -> None:
    before, now = unsteadied(case_of("clean")), unsteadied(CASE)
    assert now.answer == before.answer
    assert (now.findings, now.looks) == (before.findings, before.looks)


def test_a_masked_copy_does_not_tell_its_number() -> None:
    opinion = unsteadied(CASE)
    copy = masked_copy(opinion, book_and_version()[0], {}, PRINTED)
    text = squeezed(report_text(copy.outline))
    assert squeezed("Letter of the archive") in text
    assert "700143" not in text
