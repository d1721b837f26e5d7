"""What closes a report: limits, whom to refer to, signatures, versions; and the cautions."""

from witnessmark.catalogue import as_said, said
from witnessmark.examination import Opinion
from witnessmark.outline.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
    Together,
)
from witnessmark.report.issue.at_issue import AtIssue
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.statement import (
    custody_blocks,
    signatures,
    statement_blocks,
    version_facts,
)
from witnessmark.wording import (
    cautions,
    referral_heading,
    referral_sentences,
    referrals,
    standing_limitations,
)
from witnessmark.wording.amounts import sentence
from witnessmark.wording.books import other_book_sentences
from witnessmark.wording.cautions import NUMBERS_IN_FULL


def limits_section(matter: Matter, issue: AtIssue) -> Section:
    """What the report does not cover, whom the matter belongs to, what was lent, the
    signatures, and by what the report was made."""
    opinion = matter.opinion
    return Section(
        said("Limits, referral and signatures"),
        (
            Bullets((*standing_limitations(), as_said(NUMBERS_IN_FULL))),
            *(_referral() if looks_altered(opinion) else ()),
            *custody_blocks(matter.case),
            Together(
                (
                    Heading(said("Statement and signature")),
                    *statement_blocks(matter.case),
                    *signatures(matter.case),
                )
            ),
            Heading(said("By what it was made")),
            Facts(version_facts(opinion, issue)),
            *(Paragraph(each, "strong") for each in other_book_sentences(opinion)),
            Paragraph(annex_line(), "quiet"),
        ),
    )


def annex_line() -> str:
    """How to have what stands behind the report."""
    return said(
        "The annex is a file of its own: whoever holds this report may ask for it. It has every "
        "comparison, every contribution and curve, every row used with its source, and the "
        "photograph log with digests."
    )


def cautions_section() -> Section:
    """The usual cautions, for whoever looks at the car next."""
    facts = tuple(Fact(each.heading, each.sentence) for each in cautions())
    return Section(said("Cautions for the next look"), (Facts(facts),))


def looks_altered(opinion: Opinion) -> bool:
    """Is a place noted as disturbed, or does anything make the car a matter for the authority?"""
    return bool(opinion.disturbed or opinion.answer.stops)


def _referral() -> tuple[Block, ...]:
    """On whom to refer to; it accuses nobody."""
    rows = tuple(
        (TableCell(each.whom, strong=True), TableCell(sentence(each.matter)))
        for each in referrals()
    )
    return (
        Heading(referral_heading()),
        *(Paragraph(text) for text in referral_sentences()),
        Table((said("Whom"), said("For what")), rows, (3, 6), is_dense=True),
    )
