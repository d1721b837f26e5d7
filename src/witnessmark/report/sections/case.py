"""What was supplied: the assignment, the claim, the visit, the papers. Facts before any weight."""

from witnessmark.casefile.records import Claim, Paper, Seen
from witnessmark.catalogue import in_a_row, said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Fact, Facts, Paragraph, Section, Table, TableCell
from witnessmark.wording import Names, date_text, listed, paper_sentence, term
from witnessmark.wording.amounts import capital, clause, sentence


def cover_facts(opinion: Opinion) -> tuple[Fact, ...]:
    """Who asked, for what, by whom examined, and with which tables."""
    case = opinion.casefile
    assignment = case.assignment
    examiners = assignment.examiners
    not_stated = said("not stated")
    interest = "; ".join(
        said(
            "{name}: {interest}",
            name=each.name,
            interest=clause(each.declared_interest) or not_stated,
        )
        for each in examiners
    )
    books = "; ".join(
        said("{title}, version {version}", title=each.title, version=each.version)
        for each in (opinion.book, *opinion.beside)
    )
    return (
        Fact(said("Case"), case.id),
        Fact(said("Client"), assignment.client or not_stated),
        Fact(said("Purpose"), assignment.purpose or not_stated),
        Fact(said("Intended users"), assignment.intended_users or not_stated),
        Fact(
            said("Date of inspection"),
            date_text(case.visit.date) if case.visit.date else not_stated,
        ),
        Fact(
            said("Examiner") if len(examiners) < 2 else said("Examiners"),
            listed(tuple(each.name for each in examiners)) or not_stated,
        ),
        Fact(said("Declared interest"), interest or not_stated),
        Fact(said("Code books") if opinion.beside else said("Code book"), books),
    )


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
    facts.append(Fact(said("Built"), claim.built or ""))
    stakes = opinion.casefile.stakes
    if stakes.price_asked is not None:
        price = f"{stakes.price_asked:,.0f} {stakes.currency}".strip()
        facts.append(Fact(said("Price asked"), price))
    facts.append(Fact(said("What depends on it"), stakes.note))
    return Section(said("What is claimed"), (Facts(_told(facts)),))


def visit_section(opinion: Opinion) -> Section:
    """Scope, consent, the owner's reply, and the conditions of the visit."""
    case = opinion.casefile
    visit, assignment = case.visit, case.assignment
    facts = (
        Fact(said("Scope"), assignment.scope),
        Fact(said("Owner’s consent"), assignment.owner_consent),
        Fact(said("Owner’s reply"), assignment.owner_reply),
        Fact(said("When"), date_text(visit.date) if visit.date else ""),
        Fact(said("Where"), visit.place),
        Fact(said("Who was present"), visit.present),
        Fact(said("Light"), visit.light),
        Fact(said("Access"), visit.access),
        Fact(said("What was moved"), visit.moved),
    )
    not_stated = said("not stated")
    stated = tuple(Fact(each.label, each.text.strip() or not_stated) for each in facts)
    return Section(said("Scope, consent and conditions"), (Facts(stated),))


def papers_section(opinion: Opinion) -> Section:
    """Each paper and where it is, and the number on the title."""
    case = opinion.casefile
    names = Names(opinion.names)
    blocks: list[Block] = []
    if case.papers:
        head = (said("Paper"), said("State"), said("What that means here"))
        blocks.append(
            Table(
                head, tuple(_paper_row(each, names, case.claim) for each in case.papers), (3, 2, 6)
            )
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


def _paper_row(paper: Paper, names: Names, claim: Claim) -> tuple[TableCell, ...]:
    below = [_says(paper, names, claim)]
    if paper.kind:
        below.insert(0, said("No paper of the code book: {kind}. It is told and not weighed.",
                             kind=term(paper.kind)))  # fmt: skip
    if paper.copied_from:
        source = names.mark_or_words(paper.copied_from)
        below.append(said("Copied from: {source}; the two count as one source.", source=source))
    below.append(sentence(paper.note))
    return (
        TableCell(capital(names.paper(paper.mark, paper.name))),
        TableCell(capital(term(paper.state)), strong=True),
        TableCell(paper_sentence(paper.state), tuple(text for text in below if text)),
    )


def _says(paper: Paper, names: Names, claim: Claim) -> str:
    """What a paper says of the car, item by item, and whether the claim says the same."""
    told = []
    for each in paper.says:
        claimed = claim.items.get(each.item)
        shown = said("{item} {value}", item=names.item(each.item),
                     value=names.value(each.value, each.item))  # fmt: skip
        if claimed is None:
            told.append(shown)
        elif claimed == each.value:
            told.append(said("{item}, as claimed", item=shown))
        else:
            value = names.value(claimed, each.item)
            told.append(said("{item}, where the claim says {claimed}", item=shown, claimed=value))
    return said("It says: {items}.", items=in_a_row(told, "; ")) if told else ""


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
