"""The sections that close a report: tables used, cautions, whom to refer to, limits, signature."""

from collections import Counter

from witnessmark.catalogue import said
from witnessmark.examination import BookVersion, Opinion
from witnessmark.outline.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Section,
    Signature,
    Table,
    TableCell,
)
from witnessmark.report.issue.at_issue import AtIssue
from witnessmark.report.sections.photo import grouped
from witnessmark.wording import (
    cautions,
    interest_statement,
    referral_heading,
    referral_sentences,
    referrals,
    spelled,
    standing_limitations,
    term,
)
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.books import SHORT_DIGEST, other_book_sentences


def book_section(opinion: Opinion, issue: AtIssue) -> Section:
    """Which code book was used, and what stands behind the rows that were.

    A report that is issued bears the digests of the Opinion, by which a supplement names it,
    and of the Answer in it.
    """
    book = opinion.book
    rows = Counter(
        (field.basis, field.source)
        for decoding in opinion.decodings
        for alternative in decoding.alternatives[:1]
        for field in alternative.fields
    )
    rows.update((finding.basis, finding.source) for finding in opinion.findings)
    facts = [
        Fact(said("Title"), book.title),
        Fact(said("Identifier"), book.id),
        Fact(said("Version"), book.version),
        Fact(said("SHA-256"), f"{book.sha256[:SHORT_DIGEST]}…"),
        *(Fact(said("Beside it"), _version(each)) for each in opinion.beside),
    ]
    if issue.digest:
        facts.append(Fact(said("SHA-256 of the Opinion"), grouped(issue.digest)))
        facts.append(Fact(said("SHA-256 of the answer alone"), grouped(issue.answer_digest)))
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
    blocks: list[Block] = [Facts(tuple(facts))]
    blocks.extend(Paragraph(each, "strong") for each in other_book_sentences(opinion))
    if used:
        head = (said("Basis"), said("Source"), said("Used"))
        blocks.extend([Table(head, used, (2.4, 7, 1.8)), Paragraph(note, "quiet")])
    return Section(said("Code book"), tuple(blocks))


def _version(book: BookVersion) -> str:
    """A further book by title, identifier, version and digest."""
    return said(
        "{title} ({book}), version {version}, SHA-256 {digest}…",
        title=book.title,
        book=book.id,
        version=book.version,
        digest=book.sha256[:SHORT_DIGEST],
    )


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


def signature_section(opinion: Opinion) -> Section:
    """The statement of no interest, and a line to sign for each examiner."""
    examiners = opinion.casefile.assignment.examiners
    lines = tuple(Signature(each.name, each.qualifications) for each in examiners)
    return Section(
        said("Statement and signature"),
        (Paragraph(interest_statement()), *(lines or (Signature("", ""),))),
    )
