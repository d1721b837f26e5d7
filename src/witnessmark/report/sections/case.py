"""The assignment: for whom and why, what is claimed, the visit, and what is asked."""

from collections.abc import Iterator

from witnessmark.catalogue import as_said, said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Fact, Facts, Heading, Section, Table, TableCell
from witnessmark.report.sections.answered import SUPPORTED, about_words
from witnessmark.report.sections.matter import Matter
from witnessmark.weighing import Asked
from witnessmark.wording import Favours, Names, date_text, listed
from witnessmark.wording.amounts import capital, clause


def assignment_section(matter: Matter) -> Section:
    """For whom and why, what is claimed, in what conditions, and which questions are asked."""
    opinion = matter.opinion
    return Section(
        said("The assignment"),
        (
            Facts(_for_whom(opinion)),
            Heading(said("What is claimed")),
            Facts(_claimed(opinion)),
            Heading(said("Scope, consent and conditions")),
            Facts(_visited(opinion)),
            *_asked(matter),
        ),
    )


def _asked(matter: Matter) -> Iterator[Block]:
    """The questions, each as two propositions; those of one kind together."""
    kinds: dict[Asked, list[str]] = {}
    for each in matter.opinion.weighed:
        kinds.setdefault(each.question, []).append(about_words(each, matter.names))
    if not kinds:
        return
    yield Heading(said("What is asked, as two propositions each"))
    rows = tuple(
        (
            TableCell(capital(listed(tuple(about)))),
            TableCell(capital(as_said(SUPPORTED[asked, Favours.FIRST]))),
            TableCell(capital(as_said(SUPPORTED[asked, Favours.SECOND]))),
        )
        for asked, about in kinds.items()
    )
    head = (said("Of"), said("The first"), said("The second"))
    yield Table(head, rows, (4.0, 3.0, 3.0), is_dense=True)


def _for_whom(opinion: Opinion) -> tuple[Fact, ...]:
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
    return (
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
    )


def _claimed(opinion: Opinion) -> tuple[Fact, ...]:
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
    return _told(facts)


def _visited(opinion: Opinion) -> tuple[Fact, ...]:
    """Scope, consent, and the conditions of the visit."""
    case = opinion.casefile
    visit, assignment = case.visit, case.assignment
    facts = (
        Fact(said("Scope"), assignment.scope),
        Fact(said("Owner’s consent"), assignment.owner_consent),
        Fact(said("When"), date_text(visit.date) if visit.date else ""),
        Fact(said("Where"), visit.place),
        Fact(said("Who was present"), visit.present),
        Fact(said("Light"), visit.light),
        Fact(said("Access"), visit.access),
        Fact(said("What was moved"), visit.moved),
    )
    not_stated = said("not stated")
    stated = tuple(Fact(each.label, each.text.strip() or not_stated) for each in facts)
    return stated


def _told(facts: list[Fact]) -> tuple[Fact, ...]:
    """The facts that say something."""
    return tuple(fact for fact in facts if fact.text.strip())
