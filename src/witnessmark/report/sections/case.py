"""What was supplied: the claim and the papers. Facts before any weight."""

from witnessmark.casefile.records import Paper, Seen
from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Fact, Facts, Paragraph, Section, Table, TableCell
from witnessmark.wording import Names, paper_sentence, term
from witnessmark.wording.amounts import capital, partial_date_text, sentence


def claim_section(opinion: Opinion) -> Section:
    """What is said about the car, by whom, in the speaker's words."""
    claim = opinion.casefile.claim
    names = Names(opinion.names)
    facts = [
        Fact(said("Said by"), claim.made_by or said("not stated")),
        Fact(said("In these words"), claim.text),
    ]
    facts += [
        Fact(capital(names.item(item)), names.value(value, item))
        for item, value in claim.items.items()
    ]
    facts.append(Fact(said("Built"), partial_date_text(claim.built)))
    facts.append(Fact(said("What depends on it"), opinion.casefile.stakes.note))
    return Section(said("What is claimed"), (Facts(_told(facts)),))


def papers_section(opinion: Opinion) -> Section:
    """Each paper and where it is, and the number on the title."""
    case = opinion.casefile
    names = Names(opinion.names)
    blocks: list[Block] = []
    if case.papers:
        head = (said("Paper"), said("State"), said("What that means here"))
        blocks.append(
            Table(head, tuple(_paper_row(each, names) for each in case.papers), (3, 2, 6))
        )
    else:
        blocks.append(Paragraph(said("No paper is recorded in this case.")))
    title = case.title_paper
    facts = _told(
        [
            Fact(said("Number on the title"), title.number),
            Fact(said("Issued by"), title.issued_by),
        ]
    )
    if facts:
        blocks.append(Facts((*facts, Fact(said("Seen"), _title_seen(title.seen)))))
    return Section(said("Papers and title"), tuple(blocks))


def _paper_row(paper: Paper, names: Names) -> tuple[TableCell, ...]:
    below = []
    if paper.copied_from:
        source = names.mark(paper.copied_from)
        below.append(said("Copied from: {source}; the two count as one source.", source=source))
    below.append(sentence(paper.note))
    return (
        TableCell(capital(names.mark(paper.mark))),
        TableCell(capital(term(paper.state)), strong=True),
        TableCell(paper_sentence(paper.state), tuple(text for text in below if text)),
    )


def _title_seen(seen: Seen) -> str:
    match seen:
        case Seen.IN_PERSON:
            return said("the paper itself")
        case Seen.PHOTOGRAPH:
            return said("a photograph, not the paper itself")
        case Seen.COPY:
            return said("a copy, not the paper itself")
        case Seen.TOLD:
            return said("told of, not seen")


def _told(facts: list[Fact]) -> tuple[Fact, ...]:
    """The facts that say something."""
    return tuple(fact for fact in facts if fact.text.strip())
