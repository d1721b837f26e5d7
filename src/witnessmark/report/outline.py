"""From an Opinion to the outlines of its report and of the annex: every sentence, in order."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from witnessmark.catalogue import language, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import (
    Block,
    Boxed,
    Columns,
    Outline,
    Pictures,
    Section,
    Together,
)
from witnessmark.report.issue.issued import NOT_ISSUED, AtIssue
from witnessmark.report.records import Picture
from witnessmark.report.sections.appendix import appendix_section
from witnessmark.report.sections.assignment import assignment_section, report_number
from witnessmark.report.sections.closing import cautions_section, limits_section
from witnessmark.report.sections.examiner import examiners_section
from witnessmark.report.sections.found import found_section
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.open import open_section
from witnessmark.report.sections.order import order_section
from witnessmark.report.sections.page_one import page_one, question
from witnessmark.report.sections.photo import photo_log_section
from witnessmark.report.sections.places import places_section
from witnessmark.report.sections.plates import plates_section
from witnessmark.report.sections.story import story_section
from witnessmark.report.sections.strength import strength_section
from witnessmark.report.sections.weight import conclusions_section, findings_section
from witnessmark.wording import date_text, purpose_footer


def build_outline(
    opinion: Opinion,
    book: CodeBook,
    printed: date,
    pictures: tuple[Picture, ...] = (),
    issue: AtIssue = NOT_ISSUED,
) -> Outline:
    """The outline of the report; `printed` is the day that stands on every page.

    Its sections are always the same and stand in the order of their numbers (see `matter`).
    """
    matter = Matter(voiced(opinion), book, pictures)
    return replace(
        _bare(matter, printed, said("Report of examination")),
        front=page_one(matter),
        sections=(
            assignment_section(matter),
            places_section(matter),
            found_section(matter),
            story_section(matter),
            strength_section(matter),
            open_section(matter),
            limits_section(matter, issue),
        ),
    )


def _bare(matter: Matter, printed: date, label: str) -> Outline:
    """A document on this matter in which nothing is told yet."""
    return Outline(
        label=label,
        language=language(),
        title=question(matter),
        case_id=matter.case.id,
        number=report_number(matter.case),
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=purpose_footer(),
    )


def build_annex(
    opinion: Opinion,
    book: CodeBook,
    printed: date,
    pictures: tuple[Picture, ...] = (),
    issue: AtIssue = NOT_ISSUED,
) -> Outline:
    """The outline of what stands behind the report, of the same day.

    `issue` holds what is worked out for a report that is to be issued: without it readings that
    differ are shown side by side without what the difference does.
    """
    matter = Matter(voiced(opinion), book, pictures)
    shown = frozenset(_shown(page_one(matter))) | frozenset(_shown(found_section(matter).blocks))
    sections: tuple[Section | None, ...] = (
        conclusions_section(matter.opinion, book),
        findings_section(matter.opinion, book),
        examiners_section(matter.opinion, issue.alone),
        plates_section(matter),
        order_section(matter),
        photo_log_section(matter, shown),
        cautions_section(),
        appendix_section(matter.opinion, book),
    )
    bare = _bare(matter, printed, said("Annex to the report of examination"))
    return replace(bare, sections=tuple(section for section in sections if section is not None))


def _shown(blocks: tuple[Block, ...]) -> Iterator[str]:
    """The photographs that blocks show, by their ids."""
    for block in blocks:
        if isinstance(block, Pictures):
            yield from (each.id for each in block.photographs)
        elif isinstance(block, Together | Boxed):
            yield from _shown(block.blocks)
        elif isinstance(block, Columns):
            yield from _shown((*block.left, *block.right))
