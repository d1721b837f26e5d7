"""What closes a report: limits, whom to refer to, what was lent, signatures, versions; cautions."""

from witnessmark.casefile.records import Casefile
from witnessmark.catalogue import as_said, said
from witnessmark.examination import BookVersion, Opinion
from witnessmark.examination.made_with import made_with
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
    Together,
)
from witnessmark.report.issue.issued import AtIssue
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.photo import grouped
from witnessmark.wording import (
    cautions,
    date_text,
    fee_statement,
    interest_statement,
    listed,
    referral_heading,
    referral_sentences,
    referrals,
    standing_limitations,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.books import SHORT_DIGEST, other_book_sentences
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


def version_facts(opinion: Opinion, issue: AtIssue) -> tuple[Fact, ...]:
    """Program, tables and code books by version and digest.

    A report that is issued bears the digests of the Opinion, by which a supplement names it,
    and of the Answer in it.
    """
    made = made_with()
    facts = [
        Fact(said("Program"), said("Witnessmark {version}", version=made.version)),
        Fact(said("Tables of the program"), _digest(made.tables_sha256)),
        Fact(said("Code book"), _version(opinion.book)),
        *(Fact(said("Beside it"), _version(each)) for each in opinion.beside),
    ]
    if issue.digest:
        facts.append(Fact(said("SHA-256 of the Opinion"), grouped(issue.digest)))
        facts.append(Fact(said("SHA-256 of the answer alone"), grouped(issue.answer_digest)))
    return tuple(facts)


def _version(book: BookVersion) -> str:
    """A code book by title, identifier, version and digest."""
    return said(
        "{title} ({book}), version {version}, {digest}",
        title=book.title,
        book=book.id,
        version=book.version,
        digest=_digest(book.sha256),
    )


def _digest(sha256: str) -> str:
    return said("SHA-256 {digest}…", digest=sha256[:SHORT_DIGEST])


def custody_blocks(case: Casefile) -> tuple[Block, ...]:
    """What was lent, by whom, when it came and when it went back; nothing where nothing was."""
    if not case.custody:
        return ()
    not_stated = said("not stated")
    rows = tuple(
        (
            TableCell(capital(each.what), (sentence(each.note),) if each.note.strip() else ()),
            TableCell(each.lent_by),
            TableCell(date_text(each.received) if each.received else not_stated),
            TableCell(date_text(each.returned) if each.returned else said("not yet")),
        )
        for each in case.custody
    )
    head = (said("What was lent"), said("Lent by"), said("Received"), said("Returned"))
    table = Table(head, rows, (4, 3, 2.2, 2.2), is_dense=True)
    return Heading(said("Custody of what was lent")), table


def statement_section(opinion: Opinion) -> Section:
    """Custody, the statement of no interest, and a line to sign for each examiner."""
    case = opinion.casefile
    custody = custody_blocks(case)
    heading = (Heading(said("Statement")),) if custody else ()
    return Section(
        said("Statement and signature"),
        (*custody, *heading, *statement_blocks(case), *signatures(case)),
    )


def statement_blocks(case: Casefile) -> tuple[Block, ...]:
    """What each examiner signs; of a fee that depends on the answer that it does."""
    examiners = case.assignment.examiners
    is_free = bool(examiners) and all(each.fee_depends is False for each in examiners)
    depends = tuple(each.name for each in examiners if each.fee_depends)
    told = [Paragraph(interest_statement(fee_is_free=is_free))]
    if depends:
        told.append(Paragraph(fee_statement(listed(depends)), "strong"))
    return tuple(told)


def signatures(case: Casefile) -> tuple[Block, ...]:
    """A line to sign for each examiner, with what that one answers for; one where none is named."""
    examiners = case.assignment.examiners
    lines = (Signature(e.name, e.qualifications, _answers_for(e.answers_for)) for e in examiners)
    return tuple(lines) or (Signature("", ""),)


def _answers_for(text: str) -> str:
    return said("Answers for: {text}", text=clause(text)) if text.strip() else ""
