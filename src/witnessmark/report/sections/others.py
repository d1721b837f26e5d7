"""What rests on the word, the picture or the paper of others, told in one place."""

from collections.abc import Iterator

from witnessmark.casefile.records import Seen
from witnessmark.catalogue import said
from witnessmark.outline.records import Block, Fact, Facts, Heading
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.seen import unseen_way
from witnessmark.wording.amounts import clause, sentence


def told_by_others(matter: Matter) -> Iterator[Block]:
    """What the claim rests on, how the title is known, and the owner's reply."""
    facts = (*_claim(matter), *_title(matter), *_reply(matter))
    if facts:
        yield Heading(said("What rests on the word of others"))
        yield Facts(facts)


def _claim(matter: Matter) -> list[Fact]:
    claim = matter.case.claim
    if not (claim.text or claim.statements):
        return []
    who = clause(claim.made_by) or said("somebody whom the case does not name")
    told = said(
        "Everything under “What is claimed”, and every statement set against what was "
        "found, was said by {name}. None of it is a finding.",
        name=who,
    )
    return [Fact(said("The claim"), told)]


def _title(matter: Matter) -> list[Fact]:
    title = matter.case.title_paper
    if not title.number or title.seen is Seen.IN_PERSON:
        return []
    told = said("Its number is known {way}.", way=unseen_way(title.seen))
    return [Fact(said("Title"), told)]


def _reply(matter: Matter) -> list[Fact]:
    reply = matter.case.assignment.owner_reply
    if not reply.strip():
        return []
    return [Fact(said("The owner’s reply"), sentence(reply))]
