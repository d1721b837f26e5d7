"""What newly differs and newly agrees since a report was issued, and with what a reading does."""

from collections.abc import Iterable

from witnessmark.agreement.records import Finding, Outcome
from witnessmark.catalogue import said
from witnessmark.outline.records import Block, Bullets, Heading, Paragraph, Section
from witnessmark.report.issue.issued import Issued, IssuedFinding
from witnessmark.wording import Names
from witnessmark.wording.amounts import listed, sentence

Key = tuple[str, str, frozenset[tuple[str, str]]]
"""Which finding is which: its rule, its topic, and the fields that it speaks of."""


def findings_section(issued: Issued, findings: tuple[Finding, ...]) -> Section:
    """Findings that newly differ, newly agree, or differ no longer."""
    title = said("What newly differs or agrees")
    if issued.findings is None:
        told = said(
            "The Opinion as issued was kept without its findings. What differs now is in "
            "the report on the case as it stands."
        )
        return Section(title, (Paragraph(told),))
    before = {_key(each): each.outcome for each in issued.findings}
    newly = [each for each in findings if before.get(_key(each)) is not each.outcome]
    differs = [each for each in newly if each.outcome is Outcome.DIFFER]
    agrees = [each for each in newly if each.outcome is Outcome.AGREE]
    differ_now = {_key(each) for each in findings if each.outcome is Outcome.DIFFER}
    settled = [
        key
        for key, outcome in before.items()
        if outcome is Outcome.DIFFER and key not in differ_now
    ]
    blocks: list[Block] = [Heading(said("Newly differs"))]
    blocks.append(_told(differs, said("Nothing newly differs.")))
    if settled:
        no_longer = said("Differed as issued and no longer differ: {number}.", number=len(settled))
        blocks.append(Paragraph(no_longer))
    blocks.append(Heading(said("Newly agrees")))
    blocks.append(_told(agrees, said("Nothing newly agrees.")))
    return Section(title, tuple(blocks))


def _told(findings: list[Finding], nothing: str) -> Block:
    if not findings:
        return Paragraph(nothing)
    return Bullets(tuple(f"{sentence(each.observation)} {each.inference}" for each in findings))


def _key(finding: Finding | IssuedFinding) -> Key:
    fields = frozenset((each.mark, each.field) for each in finding.subjects)
    return finding.rule, finding.topic, fields


def stands_to_the_rest(mark: str, findings: Iterable[Finding], names: Names) -> tuple[str, ...]:
    """From what a mark differs now, and with what it agrees throughout, in a sentence each."""
    with_mark = [each for each in findings if any(part.mark == mark for part in each.subjects)]
    differs = _others(mark, Outcome.DIFFER, with_mark, names)
    agrees = _others(mark, Outcome.AGREE, with_mark, names)
    throughout = tuple(each for each in agrees if each not in differs)
    lines = []
    if differs:
        lines.append(said("Now differs from: {others}.", others=listed(differs)))
    if throughout:
        lines.append(
            said("Now agrees, in all that was compared, with: {others}.", others=listed(throughout))
        )
    return tuple(lines) or (said("Neither differs from the rest nor agrees with it."),)


def _others(mark: str, outcome: Outcome, findings: list[Finding], names: Names) -> tuple[str, ...]:
    """The marks on the other side; the code book where a finding has no other mark."""
    found: dict[str, None] = {}
    for each in findings:
        if each.outcome is outcome:
            others = [names.mark(part.mark) for part in each.subjects if part.mark != mark]
            found |= dict.fromkeys(others or [said("the code book")])
    return tuple(found)
