"""What closes a report: limits, whom to refer to, signatures, versions; and the cautions."""

from collections.abc import Iterator

from witnessmark import __version__
from witnessmark.catalogue import as_said, said
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
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.photo import grouped
from witnessmark.wording import (
    cautions,
    interest_statement,
    referral_heading,
    referral_sentences,
    referrals,
    standing_limitations,
)
from witnessmark.wording.amounts import sentence
from witnessmark.wording.books import SHORT_DIGEST, other_book_sentences
from witnessmark.wording.cautions import NUMBERS_IN_FULL


def limits_section(matter: Matter, issue: AtIssue) -> Section:
    """What the report does not cover, whom the matter belongs to, the signatures, and by what
    the report was made.

    A report that is issued bears the digests of the Opinion, by which a supplement names it,
    and of the Answer in it.
    """
    opinion = matter.opinion
    return Section(
        said("Limits, referral and signatures"),
        (
            Bullets((*standing_limitations(), as_said(NUMBERS_IN_FULL))),
            *(_referral() if looks_altered(opinion) else ()),
            Heading(said("Statement and signature")),
            *_signatures(opinion),
            Heading(said("By what it was made")),
            Facts(tuple(_versions(opinion, issue))),
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


def _versions(opinion: Opinion, issue: AtIssue) -> Iterator[Fact]:
    books = (opinion.book, *opinion.beside)
    for each in books:
        yield Fact(said("Code book"), _version(each))
    yield Fact(said("Program"), said("Witnessmark {version}", version=__version__))
    if issue.digest:
        yield Fact(said("SHA-256 of the Opinion"), grouped(issue.digest))
        yield Fact(said("SHA-256 of the answer alone"), grouped(issue.answer_digest))


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


def _signatures(opinion: Opinion) -> Iterator[Block]:
    """The statement of no interest, and a line to sign for each examiner."""
    yield Paragraph(interest_statement())
    examiners = opinion.casefile.assignment.examiners
    yield from (Signature(each.name, each.qualifications) for each in examiners)
    if not examiners:
        yield Signature("", "")


def signature_section(opinion: Opinion) -> Section:
    """The same as a section of its own."""
    return Section(said("Statement and signature"), tuple(_signatures(opinion)))
