"""The sections that close a report: tables used, cautions, whom to refer to, limits."""

from collections import Counter

from witnessmark.catalogue import said
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
)
from witnessmark.report.issue.at_issue import AtIssue
from witnessmark.report.sections.statement import version_facts
from witnessmark.wording import (
    cautions,
    referral_heading,
    referral_sentences,
    referrals,
    spelled,
    standing_limitations,
    term,
)
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.books import other_book_sentences


def book_section(opinion: Opinion, issue: AtIssue) -> Section:
    """With which versions the report was made, and what stands behind the rows that were used."""
    rows = Counter(
        (field.basis, field.source)
        for decoding in opinion.decodings
        for alternative in decoding.alternatives[:1]
        for field in alternative.fields
    )
    rows.update((finding.basis, finding.source) for finding in opinion.findings)
    used = tuple(
        (
            TableCell(capital(term(basis))),
            TableCell(source or said("the case itself")),
            TableCell(spelled("{count} time", "{count} times", count)),
        )
        for (basis, source), count in sorted(rows.items())
    )
    note = said(
        "A row whose basis is memory explains but carries no weight: it moves no "
        "likelihood ratio. A row marked invented belongs to a demonstration. Each row is "
        "listed by name in the appendix."
    )
    blocks: list[Block] = [Facts(version_facts(opinion, issue))]
    blocks.extend(Paragraph(each, "strong") for each in other_book_sentences(opinion))
    if used:
        head = (said("Basis"), said("Source"), said("Used"))
        blocks.extend([Table(head, used, (2.4, 7, 1.8)), Paragraph(note, "quiet")])
    return Section(said("Versions and sources"), tuple(blocks))


def cautions_section() -> Section:
    """The usual cautions, for whoever looks at the car next."""
    facts = tuple(Fact(each.heading, each.sentence) for each in cautions())
    return Section(said("Cautions for the next look"), (Facts(facts),))


def looks_altered(opinion: Opinion) -> bool:
    """Is a place noted as disturbed, or does anything make the car a matter for the authority?"""
    return bool(opinion.disturbed or opinion.answer.stops)


def referral_section() -> Section:
    """A page on whom to refer to; it accuses nobody."""
    rows = tuple(
        (TableCell(each.whom, strong=True), TableCell(sentence(each.matter)))
        for each in referrals()
    )
    blocks: tuple[Block, ...] = (
        *(Paragraph(text) for text in referral_sentences()),
        Heading(said("To whom each matter belongs")),
        Table((said("Whom"), said("For what")), rows, (3, 6)),
    )
    return Section(referral_heading(), blocks, new_page=True)


def limitations_section(opinion: Opinion) -> Section:
    """What the report does not cover: of this case first, then of every report."""
    own = tuple(sentence(each.sentence) for each in opinion.limitations)
    standing = tuple(each for each in standing_limitations() if each not in own)
    blocks: list[Block] = []
    if own:
        blocks.extend([Heading(said("Of this examination")), Bullets(own)])
        blocks.append(Heading(said("Of every report of this kind")))
    blocks.append(Bullets(standing))
    return Section(said("Limitations"), tuple(blocks))
