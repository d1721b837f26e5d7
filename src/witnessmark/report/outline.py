"""From an Opinion to the outline of its report: every sentence, in reading order."""

from datetime import date

from witnessmark.catalogue import language, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import Outline, Section
from witnessmark.report.issue.at_issue import NOT_ISSUED, AtIssue
from witnessmark.report.records import Picture
from witnessmark.report.sections.appendix import appendix_section
from witnessmark.report.sections.case import (
    claim_section,
    cover_facts,
    papers_section,
    visit_section,
)
from witnessmark.report.sections.client import client_page
from witnessmark.report.sections.closing import (
    book_section,
    cautions_section,
    limitations_section,
    looks_altered,
    referral_section,
    signature_section,
)
from witnessmark.report.sections.examiner import examiners_section
from witnessmark.report.sections.others import others_section
from witnessmark.report.sections.photo import photo_log_section, photographs_section
from witnessmark.report.sections.reading import readings_section
from witnessmark.report.sections.site import looks_section, sites_section
from witnessmark.report.sections.summary import (
    next_looks_section,
    settling_section,
    summary_section,
)
from witnessmark.report.sections.weight import (
    conclusions_section,
    findings_section,
)
from witnessmark.wording import date_text, purpose_footer


def how_to_read() -> tuple[str, ...]:
    """A heading, and what a reader must know before the ratios."""
    return (
        said("How to read this report"),
        said(
            "Each conclusion sets two propositions against each other. The likelihood ratio (LR) "
            "says how many times more probable the findings are if the first is true than if the "
            "second is. It is not the probability of either."
        ),
        said(
            "Observations come before inferences, in separate sentences. What could not be "
            "seen is listed beside what was."
        ),
        said(
            "What does not fit comes before any ratio. The band of a ratio shows how far "
            "it rests on assumed rates, and the words are those of its weaker end. An "
            "answer may be that a part was not examined, or that a question cannot be "
            "established."
        ),
        said("Numbers stand here in full. Before any part is shown to others, mask them."),
    )


def build_outline(
    opinion: Opinion,
    book: CodeBook,
    printed: date,
    pictures: tuple[Picture, ...] = (),
    issue: AtIssue = NOT_ISSUED,
) -> Outline:
    """The outline of the whole report; `printed` is the day that stands on every page.

    `issue` holds what is worked out for a report that is to be issued: without it
    readings that differ are shown side by side without what the difference does.
    """
    opinion = voiced(opinion)
    sections = _sections(opinion, book, pictures, issue)
    places = {key: number for number, key in enumerate(sections, start=1)}
    return Outline(
        label=said("Report of examination"),
        language=language(),
        title=opinion.casefile.title.strip() or said("Case {case}", case=opinion.casefile.id),
        case_id=opinion.casefile.id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=purpose_footer(),
        front=client_page(opinion, book, places),
        cover=cover_facts(opinion),
        how_to_read=how_to_read(),
        sections=tuple(sections.values()),
    )


def _sections(
    opinion: Opinion,
    book: CodeBook,
    pictures: tuple[Picture, ...],
    issue: AtIssue,
) -> dict[str, Section]:
    """The sections that this case has, each under a key by which others point to it."""
    sections: dict[str, Section | None] = {
        "claim": claim_section(opinion),
        "summary": summary_section(opinion, book),
        "settling": settling_section(opinion, book),
        "next": next_looks_section(opinion),
        "visit": visit_section(opinion),
        "sites": sites_section(opinion, book),
        "looks": looks_section(opinion, book),
        "readings": readings_section(opinion, book),
        "differ": examiners_section(opinion, issue.alone),
        "others": others_section(opinion),
        "findings": findings_section(opinion, book),
        "conclusions": conclusions_section(opinion, book),
        "photographs": photographs_section(opinion, pictures),
        "log": photo_log_section(opinion, pictures),
        "papers": papers_section(opinion),
        "book": book_section(opinion, issue),
        "cautions": cautions_section(),
        "referral": referral_section() if looks_altered(opinion) else None,
        "limits": limitations_section(opinion),
        "signature": signature_section(opinion),
        "appendix": appendix_section(opinion, book),
    }
    return {key: section for key, section in sections.items() if section is not None}
