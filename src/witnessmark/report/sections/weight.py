"""The findings, and each conclusion in full: what drives it and on what it rests."""

from collections.abc import Mapping

from witnessmark.agreement.records import Finding, Outcome, Subject
from witnessmark.agreement.showing import CLAIM
from witnessmark.catalogue import as_said, counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.records import Basis
from witnessmark.examination import Opinion
from witnessmark.figures import assumption_curve
from witnessmark.outline.records import (
    Block,
    Bullets,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.known import with_remarks
from witnessmark.report.sections.seen import part_seen, unseen_words
from witnessmark.weighing import Contribution, LeadingRow, Weighed
from witnessmark.wording import Names, Toward, lr_text, spelled, standing_sentence
from witnessmark.wording.amounts import capital, clause, sentence, times_text
from witnessmark.wording.conclusions import (
    band_sentence,
    capped_sentence,
    factor_text,
    heading,
    posterior_sentence,
    row_words,
    split_sentence,
    weight_sentence,
)

ROWS_SHOWN = 14
"""Most items, the row for all the rest among them."""
ASSUMPTIONS_SHOWN = 3
LEAST_LOG10_LR = 0.0414
"""log10 of 1.1: a step of less than a tenth in the ratio is counted, not listed."""


def findings_section(opinion: Opinion, book: CodeBook) -> Section:
    """Each finding: what was observed first, what it says second."""
    names, head = Names(opinion.names), (said("Observation"), said("Inference"))
    blocks: list[Block] = []
    titles = {
        Outcome.DIFFER: said("What differs"),
        Outcome.UNDECIDED: said("What could not be decided"),
    }
    for outcome, title in titles.items():
        found = [each for each in opinion.findings if each.outcome is outcome]
        if found:
            rows = tuple(_finding_row(each, opinion.is_as_declared(each)) for each in found)
            blocks += [Heading(title), Table(head, rows, (6, 5), is_dense=True)]
    agreeing = [each for each in opinion.findings if each.outcome is Outcome.AGREE]
    if agreeing:
        rules = {each.id: clause(each.sentence) for each in book.rules}
        rows = tuple(_agreeing_row(each, names, rules) for each in _alike(agreeing))
        blocks += [Heading(said("What agrees")), Table(head, rows, (6, 5), is_dense=True)]
    silent = [each for each in opinion.findings if each.outcome is Outcome.SILENT]
    if silent:
        blocks.append(Heading(said("Where nothing could be compared")))
        blocks.append(Bullets(tuple(dict.fromkeys(each.observation for each in silent))))
    if not opinion.findings:
        blocks.append(Paragraph(said("No two marks could be compared.")))
    return Section(said("Every comparison"), tuple(blocks))


def _from_memory() -> str:
    return said("The book’s row is from memory: it explains but carries no weight.")


def _finding_row(finding: Finding, is_as_declared: bool = False) -> tuple[TableCell, TableCell]:
    below = (_from_memory(),) if finding.basis is Basis.MEMORY else ()
    if is_as_declared:
        below = (said("As was declared beforehand of this part."), *below)
    return TableCell(finding.observation), TableCell(finding.inference, below)


def _alike(findings: list[Finding]) -> list[list[Finding]]:
    """Agreeing findings that can be told together: one rule, and one item where it compares."""
    found: dict[str, list[Finding]] = {}
    for each in findings:
        topic = each.topic if len(each.subjects) > 1 else ""
        found.setdefault(f"{each.rule} {topic} {each.basis.value}", []).append(each)
    return list(found.values())


def _agreeing_row(
    findings: list[Finding], names: Names, rules: Mapping[str, str]
) -> tuple[TableCell, TableCell]:
    """Findings that agree alike in one row; a single one in its own words.

    `rules` holds the sentences of the book's rules by their ids.
    """
    if len(findings) == 1:
        return _finding_row(findings[0])
    shown = dict.fromkeys(_shown(subject, names) for each in findings for subject in each.subjects)
    observation = spelled(
        "{told} ({count} finding): {shown}.",
        "{told} ({count} findings): {shown}.",
        len(findings),
        told=_tested(findings, names, rules),
        shown="; ".join(shown),
    )
    inferences = tuple(dict.fromkeys(each.inference for each in findings))
    inferred = " ".join(inferences[:2])
    if len(inferences) > 2:
        likewise = spelled(
            "The same holds for {count} other.",
            "The same holds for {count} others.",
            len(inferences) - 2,
        )
        inferred = f"{inferred} {likewise}"
    below = (_from_memory(),) if findings[0].basis is Basis.MEMORY else ()
    return TableCell(observation), TableCell(inferred, below)


def _shown(subject: Subject, names: Names) -> str:
    """A mark with what it shows; what is claimed by its name in the book."""
    value = names.value(subject.shown, subject.field) if subject.mark == CLAIM else subject.shown
    return f"{names.mark(subject.mark)} {value}"


def _tested(findings: list[Finding], names: Names, rules: Mapping[str, str]) -> str:
    """What findings that are told together compare: the book's rule, or the item."""
    topics = tuple(dict.fromkeys(each.topic for each in findings))
    rule = as_said(findings[0].by.name)
    if len(topics) > 1:
        return capital(rule)
    if topics[0] in rules:
        return said("The book’s rule “{rule}”", rule=rules[topics[0]])
    return capital(", ".join((names.item(topics[0]), rule)))


def conclusions_section(opinion: Opinion, book: CodeBook) -> Section:
    """Each conclusion in full: the sentences, what drives it, what it assumes with the curve."""
    names = Names(opinion.names)
    intro = said(
        "How much an item of evidence moves a ratio is found by leaving it out; items "
        "depend on each other, so the steps need not multiply to the whole, and the cap is "
        "not applied to them. Bars are logarithmic and end at 10,000 either way. No published "
        "rate exists for what is assumed; each is listed further on with its reason."
    )
    blocks: list[Block] = [Paragraph(intro, "lead")]
    for weighed, remarks in with_remarks(opinion.weighed, opinion, book):
        blocks.extend(conclusion_in_full(weighed, opinion, book, names))
        blocks.extend(map(Paragraph, remarks))
    return Section(said("Each conclusion in full"), tuple(blocks))


def conclusion_in_full(
    weighed: Weighed, opinion: Opinion, book: CodeBook, names: Names
) -> list[Block]:
    """One conclusion: what is said, what was not seen, what drives it, what it assumes."""
    about = heading(weighed, names)
    if not weighed.standing.has_figure:
        return [Heading(about), *told_in_full(weighed, opinion, book)]
    ratio, low, high = lr_text(weighed.log10_lr), weighed.log10_lr_low, weighed.log10_lr_high
    title = said("{heading}: LR {ratio}", heading=about, ratio=ratio)
    if low is not None and high is not None:
        title = said(
            "{heading}: LR {ratio}, band {low} to {high}",
            heading=about,
            ratio=ratio,
            low=lr_text(low, Toward.DOWN),
            high=lr_text(high, Toward.UP),
        )
    return [
        Heading(title),
        *told_in_full(weighed, opinion, book),
        *drivers(weighed),
        *_assumptions(weighed, names),
    ]


def told_in_full(weighed: Weighed, opinion: Opinion, book: CodeBook) -> list[Block]:
    """What is said of one conclusion in sentences: what was not seen of the part, how strongly the
    findings speak, what the figure is not."""
    told = Paragraph(weight_sentence(weighed))
    if not weighed.standing.has_figure:
        return [told]
    unseen = unseen_words(part_seen(weighed, opinion, book))
    more = (standing_sentence, capped_sentence, split_sentence, band_sentence, posterior_sentence)
    return [
        *([Paragraph(unseen, "strong")] if unseen else []),
        told,
        *(Paragraph(each) for each in (say(weighed) for say in more) if each),
    ]


def listed_apart(weighed: Weighed) -> tuple[list[Contribution], list[Contribution]]:
    """The contributions that are listed, the largest first, and those told of together; none is
    listed where none moves the ratio."""
    by_size = sorted(weighed.contributions, key=lambda each: -abs(each.log10_lr_change))
    moving = [each for each in by_size if abs(each.log10_lr_change) >= LEAST_LOG10_LR]
    shown = moving if len(by_size) <= ROWS_SHOWN else moving[: ROWS_SHOWN - 1]
    return shown, by_size[len(shown) :]


def drivers(weighed: Weighed) -> list[Block]:
    """What each item does, the largest first, with its bar; the rest in one row, the whole last."""
    shown, rest = listed_apart(weighed)
    if not shown:
        return [Paragraph(said("No single item moves this ratio by a tenth or more."))]
    rows = [_driver_row(TableCell(sentence(each.sentence)), each.log10_lr_change) for each in shown]
    if rest:
        added = counted(
            "{number} further item, smaller than those above",
            "{number} further items, each smaller than those above, added",
            len(rest),
        )
        rows.append(_driver_row(TableCell(added), sum(each.log10_lr_change for each in rest)))
    ratio = said("LR {ratio}", ratio=lr_text(weighed.log10_lr))
    whole = TableCell(said("All findings together"), strong=True)
    rows.append((whole, TableCell(ratio, strong=True), TableCell("", bar=weighed.log10_lr)))
    head = (said("Evidence"), said("What it does"), said("second ← → first"))
    return [Table(head, tuple(rows), (6, 3, 3), is_dense=True)]


def _driver_row(item: TableCell, log10_step: float) -> tuple[TableCell, ...]:
    return item, TableCell(step_words(log10_step)), TableCell("", bar=log10_step)


def step_words(log10_step: float) -> str:
    """A step of a ratio: "× 6.9 toward the first"."""
    if abs(log10_step) < LEAST_LOG10_LR:
        return said("hardly any")
    times = times_text(log10_step)
    if log10_step > 0:
        return said("× {times} toward the first", times=times)
    return said("× {times} toward the second", times=times)


def _assumptions(weighed: Weighed, names: Names) -> list[Block]:
    """The assumed rates that move this ratio most, the leading one with its curve."""
    if not weighed.leading:
        return []
    rows = tuple(_leading_row(each) for each in weighed.leading[:ASSUMPTIONS_SHOWN])
    head = (said("It rests most on"), said("Turns it if wrong by"))
    table = Table(head, rows, (8.5, 2.4), is_dense=True)
    shown = {lr_text(at.log10_lr) for at in weighed.leading[0].curve}
    is_flat = len(shown) < 2  # "no factor" says as much
    return [table] if is_flat else [table, *drawings([assumption_curve(weighed, names)])]


def _leading_row(each: LeadingRow) -> tuple[TableCell, ...]:
    turning = ""
    if each.curve:
        factor = each.turning_factor
        turning = (
            said("no factor") if factor is None else said("× {times}", times=factor_text(factor))
        )
    return TableCell(capital(row_words(each.row))), TableCell(turning)
