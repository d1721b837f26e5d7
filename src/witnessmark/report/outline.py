"""From an Opinion to the outline of its report: every sentence, in reading order."""

from datetime import date

from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.report.case_sections import (
    claim_section,
    cover_facts,
    papers_section,
    photographs_section,
    readings_section,
    sites_section,
    visit_section,
)
from witnessmark.report.closing_sections import (
    book_section,
    cautions_section,
    limitations_section,
    looks_altered,
    referral_section,
    signature_section,
)
from witnessmark.report.records import Outline, Picture, Section
from witnessmark.report.summary_sections import (
    next_looks_section,
    settling_section,
    summary_section,
)
from witnessmark.report.weight_sections import (
    conclusions_section,
    findings_section,
    grouping_section,
)
from witnessmark.wording import PURPOSE_FOOTER, date_text
from witnessmark.wording.catalogue import language, said

HOW_TO_READ = (
    "How to read this report",
    "Each conclusion sets two propositions against each other. The likelihood ratio (LR) says how "
    "many times more probable the findings are if the first is true than if the second is. It "
    "is not the probability of either.",
    "Observation stands before inference, in separate sentences. What could not be seen stands "
    "beside what was.",
    "The bounds say how far a ratio moves if the assumed rates behind it are wrong. An answer "
    "can be that a question cannot be established; what would settle it is then named.",
    "Numbers stand here in full. Before any part is shown to others, mask them.",
)


def build_outline(
    opinion: Opinion, book: CodeBook, printed: date, pictures: tuple[Picture, ...] = ()
) -> Outline:
    """The outline of the whole report; `printed` is the day that stands on every page."""
    sections: tuple[Section | None, ...] = (
        claim_section(opinion),
        summary_section(opinion),
        settling_section(opinion),
        next_looks_section(opinion),
        visit_section(opinion),
        sites_section(opinion),
        readings_section(opinion),
        findings_section(opinion),
        conclusions_section(opinion),
        grouping_section(opinion),
        photographs_section(opinion, pictures),
        papers_section(opinion),
        book_section(opinion),
        cautions_section(),
        referral_section() if looks_altered(opinion) else None,
        limitations_section(opinion),
        signature_section(opinion),
    )
    return Outline(
        label=said("Report of examination"),
        language=language(),
        title=opinion.casefile.title.strip() or f"Case {opinion.casefile.id}",
        case_id=opinion.casefile.id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=PURPOSE_FOOTER,
        cover=cover_facts(opinion),
        how_to_read=HOW_TO_READ,
        sections=tuple(section for section in sections if section is not None),
    )
