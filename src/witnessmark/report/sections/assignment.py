"""The assignment: under which number the report goes out, who asked for what, who examined the
car on what terms, in what conditions, and which sums were named. Facts before any weight.

Each part is a function of its own, to stand where a page has room for it.
"""

from witnessmark.casefile.records import Casefile, Examiner
from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Fact, Facts, Heading, Section, Table, TableCell
from witnessmark.wording import date_text, listed, term
from witnessmark.wording.amounts import capital, clause, partial_date_text, sentence


def report_name(case: Casefile) -> str:
    """The number of the report and which issue it is; empty where no number is stated."""
    if not case.report.number.strip():
        return ""
    return said("{number}, issue {issue}", number=case.report.number, issue=case.report.issue)


def issue_facts(case: Casefile) -> tuple[Fact, ...]:
    """Number and issue, or the case where there is no number; and the day of issue."""
    name, day = report_name(case), case.report.date
    return (
        Fact(said("Report"), name) if name else Fact(said("Case"), case.id),
        Fact(said("Date of issue"), date_text(day) if day else said("not stated")),
    )


def cover_facts(opinion: Opinion) -> tuple[Fact, ...]:
    """Which report, who asked, for what, by whom examined, and with which tables."""
    case = opinion.casefile
    assignment = case.assignment
    names = tuple(
        said("{name} ({firm})", name=each.name, firm=each.firm) if each.firm else each.name
        for each in assignment.examiners
    )
    books = "; ".join(
        said("{title}, version {version}", title=each.title, version=each.version)
        for each in (opinion.book, *opinion.beside)
    )
    visit = case.visit.date
    facts = (
        Fact(said("Client"), assignment.client),
        Fact(said("Purpose"), assignment.purpose),
        Fact(said("Intended users"), assignment.intended_users),
        Fact(said("Date of inspection"), date_text(visit) if visit else ""),
        Fact(said("Examiner") if len(names) < 2 else said("Examiners"), listed(names)),
        Fact(said("Code books") if opinion.beside else said("Code book"), books),
    )
    return (*issue_facts(case), *map(stated, facts))


def stated(fact: Fact) -> Fact:
    """The fact, or that it is not stated."""
    return Fact(fact.label, fact.text.strip() or said("not stated"))


def assignment_section(opinion: Opinion) -> Section:
    """Scope, consent and the conditions of the visit; who signs on what terms; sums named."""
    case = opinion.casefile
    blocks = (Facts(condition_facts(case)), *signer_blocks(case), *sum_blocks(case))
    return Section(said("The assignment"), blocks)


def condition_facts(case: Casefile) -> tuple[Fact, ...]:
    """Scope, consent, the owner's reply, the conditions of the visit, and who helped."""
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
        Fact(said("Owner’s reply"), assignment.owner_reply),
        Fact(said("When"), date_text(visit.date) if visit.date else ""),
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
    return (Heading(said("Who signs, and on what terms")), Table(head, rows, (3.4, 4, 3.4)))


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
            TableCell(partial_date_text(each.date)),
            TableCell(capital(each.by), (sentence(each.source),)),
        )
        for each in case.sums
        if not each.missing and each.date
    )
    head = (said("Sum"), said("Amount"), said("Date"), said("By whom, and where it stands"))
    return (Heading(said("Sums named")), Table(head, rows, (2.4, 2.4, 2, 4))) if rows else ()
