"""The assignment: under which number the report goes out, who asked for what, who examined the
car on what terms, in what conditions, and which sums were named. Facts before any weight.

Each part is a function of its own, to stand where a page has room for it.
"""

from collections.abc import Iterator

from witnessmark.casefile.records import Casefile, Examiner
from witnessmark.catalogue import as_said, said
from witnessmark.day_words import date_text, partial_words
from witnessmark.outline.records import Block, Fact, Facts, Heading, Section, Table, TableCell
from witnessmark.report.sections.answered import SUPPORTED, about_words
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.seen import unseen_way
from witnessmark.weighing import Asked
from witnessmark.wording import Favours, listed, term
from witnessmark.wording.amounts import capital, clause, sentence


def report_name(case: Casefile) -> str:
    """The number of the report and which issue it is; empty where no number is stated."""
    if not case.report.number.strip():
        return ""
    return said("{number}, issue {issue}", number=case.report.number, issue=case.report.issue)


def report_number(case: Casefile) -> str:
    """The same for every page, or that there is no number yet: never the case's id, which
    somebody chose in haste and which reads as a verdict."""
    return report_name(case) or said("not yet numbered")


def issue_facts(case: Casefile) -> tuple[Fact, ...]:
    """Number and issue, and the day of issue."""
    day = case.report.date
    return (
        Fact(said("Report"), report_number(case)),
        Fact(said("Date of issue"), date_text(day) if day else said("not stated")),
    )


def cover_facts(case: Casefile) -> tuple[Fact, ...]:
    """Which report, who asked, for what, and by whom examined."""
    assignment = case.assignment
    names = tuple(
        said("{name} ({firm})", name=each.name, firm=each.firm) if each.firm else each.name
        for each in assignment.examiners
    )
    visit = case.visit.date
    facts = (
        Fact(said("Client"), assignment.client),
        Fact(said("Purpose"), assignment.purpose),
        Fact(said("Intended users"), assignment.intended_users),
        Fact(said("Date of inspection"), date_text(visit) if visit else ""),
        Fact(said("Examiner") if len(names) < 2 else said("Examiners"), listed(names)),
    )
    return (*issue_facts(case), *map(stated, facts))


def stated(fact: Fact) -> Fact:
    """The fact, or that it is not stated."""
    return Fact(fact.label, fact.text.strip() or said("not stated"))


def assignment_section(matter: Matter) -> Section:
    """For whom and why; what is claimed; the visit; who signs on what terms; what is asked."""
    case = matter.case
    return Section(
        said("The assignment"),
        (
            Facts(cover_facts(case)),
            Heading(said("What is claimed")),
            Facts(tuple(_claimed(matter))),
            Heading(said("Scope, consent and conditions")),
            Facts(condition_facts(case)),
            *signer_blocks(case),
            *sum_blocks(case),
            *_asked(matter),
        ),
    )


def _claimed(matter: Matter) -> Iterator[Fact]:
    """What is said about the car, by whom, in the speaker's words; and what its title says."""
    claim, names = matter.case.claim, matter.names
    title = matter.case.title_paper
    seen = unseen_way(title.seen) or term(title.seen)
    parts = (title.number, title.issued_by, seen) if title.number else ()
    facts = (
        Fact(said("Said by"), claim.made_by or said("not stated")),
        Fact(said("In these words"), claim.text),
        *(Fact(capital(names.item(i)), names.value(v, i)) for i, v in claim.items.items()),
        Fact(said("Built"), partial_words(claim.built or "")),
        Fact(said("What depends on it"), matter.case.stakes.note),
        Fact(said("Number on the title"), "; ".join(clause(each) for each in parts if each)),
    )
    yield from (fact for fact in facts if fact.text.strip())


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


def condition_facts(case: Casefile) -> tuple[Fact, ...]:
    """Scope, consent, the conditions of the visit, and who helped."""
    visit, assignment = case.visit, case.assignment
    helped = "; ".join(
        said("{name}: {what}", name=each.who, what=clause(each.with_what))
        if each.with_what.strip()
        else each.who
        for each in assignment.assistance
    )
    facts = (
        Fact(said("Scope"), assignment.scope),
        Fact(said("Owner’s consent"), assignment.owner_consent),
        Fact(said("Where"), visit.place),
        Fact(said("Who was present"), visit.present),
        Fact(said("Who helped"), sentence(helped)),
        Fact(said("Light"), visit.light),
        Fact(said("Access"), visit.access),
        Fact(said("What was moved"), visit.moved),
    )
    return tuple(map(stated, facts))


def signer_blocks(case: Casefile) -> tuple[Block, ...]:
    """Each examiner with firm, address, interest, earlier dealings and fee; nothing without one."""
    examiners = case.assignment.examiners
    if not examiners:
        return ()
    head = (said("Name and address"), said("Interest and earlier dealings"), said("Fee"))
    rows = tuple(map(_signer_row, examiners))
    table = Table(head, rows, (3.4, 4, 3.4), is_dense=True)
    return Heading(said("Who signs, and on what terms")), table


def _signer_row(examiner: Examiner) -> tuple[TableCell, ...]:
    told = (examiner.firm, examiner.address, examiner.telephone)
    not_stated = said("not stated")
    earlier = sentence(examiner.earlier_dealings) or sentence(not_stated)
    return (
        TableCell(examiner.name, tuple(each for each in told if each.strip()), strong=True),
        TableCell(
            sentence(examiner.declared_interest) or sentence(not_stated),
            (said("Earlier dealings with the car or the parties: {text}", text=earlier),),
        ),
        TableCell(
            sentence(examiner.compensation) or sentence(not_stated),
            (_fee_depends(examiner.fee_depends),),
        ),
    )


def _fee_depends(depends: bool | None) -> str:
    if depends is None:
        return said("Whether it depends on what is concluded is not stated.")
    if depends:
        return said("It depends on what is concluded, on a value or on a sale.")
    return said("It does not depend on what is concluded, on a value or on a sale.")


def sum_blocks(case: Casefile) -> tuple[Block, ...]:
    """Sums that were named, with all that says what they are; one that does not is left out."""
    rows = tuple(
        (
            TableCell(capital(term(each.kind))),
            TableCell(f"{each.amount:,.2f} {each.currency}".replace(".00 ", " ")),
            TableCell(partial_words(each.date)),
            TableCell(capital(each.by), (sentence(each.source),)),
        )
        for each in case.sums
        if not each.missing and each.date
    )
    head = (said("Sum"), said("Amount"), said("Date"), said("By whom, and where it stands"))
    table = Table(head, rows, (2.4, 2.4, 2, 4), is_dense=True)
    return (Heading(said("Sums named")), table) if rows else ()
