"""The sections that close a report: tables used, cautions, whom to refer to, limits, signature."""

from collections import Counter

from witnessmark.casefile.records import LookClass
from witnessmark.examination import Opinion
from witnessmark.report.records import (
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
from witnessmark.weighing.records import Conclusion
from witnessmark.wording import (
    CAUTIONS,
    INTEREST_STATEMENT,
    REFERRAL_HEADING,
    REFERRAL_SENTENCES,
    REFERRALS,
    STANDING_LIMITATIONS,
    Favours,
    count_text,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, sentence

SHORT_DIGEST = 16


def book_section(opinion: Opinion) -> Section:
    """Which code book was used, and what stands behind the rows that were."""
    book = opinion.book
    rows = Counter(
        (field.basis.value, field.source)
        for decoding in opinion.decodings
        for alternative in decoding.alternatives[:1]
        for field in alternative.fields
    )
    rows.update((finding.basis.value, finding.source) for finding in opinion.findings)
    facts = Facts(
        (
            Fact("Title", book.title),
            Fact("Identifier", book.id),
            Fact("Version", book.version),
            Fact("SHA-256", f"{book.sha256[:SHORT_DIGEST]}…"),
        )
    )
    table = Table(
        ("Basis", "Source", "Used"),
        tuple(
            (
                TableCell(capital(basis)),
                TableCell(source or "the case itself"),
                TableCell(count_text(count, "time")),
            )
            for (basis, source), count in sorted(rows.items())
        ),
        (2.4, 7, 1.8),
    )
    note = (
        "A row whose basis is memory explains and never argues: it moves no likelihood ratio. "
        "A row marked invented belongs to a demonstration."
    )
    blocks: list[Block] = [facts]
    if table.rows:
        blocks.extend([table, Paragraph(note, "quiet")])
    return Section("Code book", tuple(blocks))


def cautions_section() -> Section:
    """The usual cautions, for whoever looks at the car next."""
    return Section(
        "Cautions for the next look",
        (Facts(tuple(Fact(each.heading, each.sentence) for each in CAUTIONS)),),
    )


def looks_altered(opinion: Opinion) -> bool:
    """Is a place noted as disturbed, or do the findings support "struck later" anywhere?"""
    disturbed = any(item.look is LookClass.DISTURBED for item in opinion.weighing.evidence)
    noted = any(look.outcome == LookClass.DISTURBED for look in opinion.casefile.looks)
    return disturbed or noted or any(map(_struck_later, opinion.weighing.conclusions))


def _struck_later(conclusion: Conclusion) -> bool:
    """Do the findings support "struck later", and more so than an open replacement?

    An honest exchange engine is not the first one either: there "struck later"
    also beats "fitted at the factory", but "replaced" beats it by more.
    """
    later, replaced = conclusion.struck_later, conclusion.replaced
    if later is None or verbal_equivalent(later.log10_lr).favours is not Favours.SECOND:
        return False
    return replaced is None or later.log10_lr < replaced.log10_lr


def referral_section() -> Section:
    """A page on whom to refer to; it accuses nobody."""
    rows = tuple(
        (TableCell(each.whom, strong=True), TableCell(capital(each.matter) + "."))
        for each in REFERRALS
    )
    blocks: tuple[Block, ...] = (
        *(Paragraph(text) for text in REFERRAL_SENTENCES),
        Heading("To whom each matter belongs"),
        Table(("Whom", "For what"), rows, (3, 6)),
    )
    return Section(REFERRAL_HEADING, blocks, new_page=True)


def limitations_section(opinion: Opinion) -> Section:
    """What the report does not cover: of this case first, then of every report."""
    own = tuple(sentence(each.sentence) for each in opinion.limitations)
    standing = tuple(each for each in STANDING_LIMITATIONS if each not in own)
    blocks: list[Block] = []
    if own:
        blocks.extend([Heading("Of this examination"), Bullets(own)])
        blocks.append(Heading("Of every report of this kind"))
    blocks.append(Bullets(standing))
    return Section("Limitations", tuple(blocks))


def signature_section(opinion: Opinion) -> Section:
    """The statement of no interest, and a line to sign for each examiner."""
    examiners = opinion.casefile.assignment.examiners
    lines = tuple(Signature(each.name, each.qualifications) for each in examiners)
    return Section(
        "Statement and signature",
        (Paragraph(INTEREST_STATEMENT), *(lines or (Signature("", ""),))),
    )
