"""Which marks speak of one car: those that bear a number of the car, beside the claimed one."""

from collections.abc import Iterator

from witnessmark.agreement.records import Finding, FindingKind, Outcome, Subject
from witnessmark.agreement.showing import CLAIM
from witnessmark.catalogue import as_said, marked, said
from witnessmark.codebook.records import ItemKind
from witnessmark.outline.records import Block, Heading, Paragraph, Table, TableCell
from witnessmark.report.sections.matter import Matter
from witnessmark.wording.amounts import capital

_WORDS = {
    Outcome.AGREE: marked("the claimed one"),
    Outcome.UNDECIDED: marked("may be the claimed one"),
    Outcome.DIFFER: marked("another one"),
    Outcome.SILENT: marked("cannot be compared"),
}
_SIGNS = {
    Outcome.AGREE: "agrees",
    Outcome.UNDECIDED: "undecided",
    Outcome.DIFFER: "differs",
    Outcome.SILENT: "silent",
}


def one_car_blocks(matter: Matter) -> tuple[Block, ...]:
    """Each mark that bears a number of the car, what it reads and whether that is the claimed one;
    those that speak of another car last."""
    found = sorted(_against_claim(matter), key=lambda each: list(_WORDS).index(each[0].outcome))
    rows = tuple(_row(finding, own, matter) for finding, own in found)
    heading = Heading(said("Which marks speak of one car?"))
    if not rows:
        told = said("No mark was read that bears a number which is claimed for the car.")
        return heading, Paragraph(told)
    head = (said("Mark"), said("Number"), said("What it reads"), said("Which car’s it is"))
    return heading, Table(head, rows, (3, 2, 2, 2), is_dense=True)


def _against_claim(matter: Matter) -> Iterator[tuple[Finding, Subject]]:
    """The comparisons of a number of the car on one mark with the claimed one."""
    items = {e.id for e in matter.book.items if e.kind is ItemKind.NUMBER and not e.home}
    for finding in matter.opinion.findings:
        marks = [each for each in finding.subjects if each.mark != CLAIM]
        is_claimed = len(marks) == 1 and len(finding.subjects) == 2
        if finding.kind is FindingKind.ITEM and finding.topic in items and is_claimed:
            yield finding, marks[0]


def _row(finding: Finding, own: Subject, matter: Matter) -> tuple[TableCell, ...]:
    word, sign = as_said(_WORDS[finding.outcome]), _SIGNS[finding.outcome]
    return (
        TableCell(capital(matter.names.mark(own.mark)), about=(own.mark,)),
        TableCell(matter.names.item(finding.topic)),
        TableCell(own.shown, mono=True),
        TableCell("", (word,), sign=sign),
    )
