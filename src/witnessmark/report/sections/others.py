"""What rests on the word, the picture or the paper of others, told in one place."""

from witnessmark.casefile.records import PaperState, Seen
from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Fact, Facts, Paragraph, Section
from witnessmark.report.sections.site import unseen_way
from witnessmark.wording import Names
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.case_words import feature_word, look_word


def others_section(opinion: Opinion) -> Section:
    """The claim, what was told or seen on pictures and copies, echoes, the owner's reply."""
    facts = (
        *_claim(opinion),
        *_not_in_person(opinion),
        *_papers(opinion),
        *_title(opinion),
        *_reply(opinion),
    )
    title = said("What rests on the word of others")
    if not facts:
        return Section(title, (Paragraph(said("Nothing here rests on the word of others.")),))
    intro = said(
        "What follows was said, photographed or copied by others, or seen by the examiners "
        "only in that way. It is reported as theirs, and what was only told says nothing "
        "about the metal."
    )
    blocks: tuple[Block, ...] = (Paragraph(intro, "lead"), Facts(facts))
    return Section(title, blocks)


def _claim(opinion: Opinion) -> list[Fact]:
    claim = opinion.casefile.claim
    if not (claim.text or claim.statements):
        return []
    who = clause(claim.made_by) or said("somebody whom the case does not name")
    told = said(
        "Everything under “What is claimed”, and every statement set against what was "
        "found, was said by {name}. None of it is a finding.",
        name=who,
    )
    return [Fact(said("The claim"), told)]


def _not_in_person(opinion: Opinion) -> list[Fact]:
    """One line for each reading and look that nobody saw in person."""
    case = opinion.casefile
    names = Names(opinion.names)
    facts = [
        Fact(
            capital(names.mark(each.mark)),
            said("Reading {way}.", way=unseen_way(each.seen, clause(each.by))),
        )
        for each in case.readings
        if each.seen is not Seen.IN_PERSON
    ]
    facts += [
        Fact(
            capital(names.any(each.site)),
            said(
                "{feature}, {outcome}: {way}. {note}",
                feature=capital(feature_word(each.feature)),
                outcome=look_word(each.outcome),
                way=unseen_way(each.seen, clause(each.by)),
                note=sentence(each.note),
            ).strip(),
        )
        for each in case.looks
        if each.seen is not Seen.IN_PERSON
    ]
    return facts


def _papers(opinion: Opinion) -> list[Fact]:
    """Papers that echo another, and papers of which only a copy was seen."""
    names = Names(opinion.names)
    read = {each.mark for each in opinion.casefile.readings if each.seen is not Seen.IN_PERSON}
    facts = []
    for paper in opinion.casefile.papers:
        if paper.copied_from:
            source = names.mark_or_words(paper.copied_from)
            told = said("Copied from the {source}: not a witness in its own right.", source=source)
        elif paper.state is PaperState.COPY and paper.mark not in read:
            told = said("A copy was seen, not the paper itself.")
        elif paper.state is PaperState.LOST:
            told = said("Said to be lost; it was not seen.")
        else:
            continue
        facts.append(Fact(capital(names.paper(paper.mark, paper.name)), told))
    return facts


def _title(opinion: Opinion) -> list[Fact]:
    title = opinion.casefile.title_paper
    if not title.number or title.seen is Seen.IN_PERSON:
        return []
    told = said("Its number is known {way}.", way=unseen_way(title.seen))
    return [Fact(said("Title"), told)]


def _reply(opinion: Opinion) -> list[Fact]:
    reply = opinion.casefile.assignment.owner_reply
    if not reply.strip():
        return []
    return [Fact(said("The owner’s reply"), sentence(reply))]
