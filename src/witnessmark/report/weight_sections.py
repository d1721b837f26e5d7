"""The findings, and each conclusion in full: what drives it and on what it rests."""

from witnessmark.agreement.records import Finding, Outcome
from witnessmark.codebook.records import Basis
from witnessmark.examination import Opinion
from witnessmark.figures import Figure, agreement_grids, assumption_curve
from witnessmark.report.records import (
    Block,
    Bullets,
    Drawing,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.weighing.records import Assumption, Conclusion, Contribution
from witnessmark.wording import (
    Names,
    Toward,
    conclusion_text,
    count_text,
    grouping_sentence,
    lr_text,
    odds_text,
    plain_name,
    share_text,
    standing_sentence,
)
from witnessmark.wording.amounts import capital, sentence, times_text
from witnessmark.wording.conclusions import row_words

CONTRIBUTIONS_SHOWN = 6
ASSUMPTIONS_SHOWN = 3
LEAST_LOG10_LR = 0.0414
"""log10 of 1.1: a step of less than a tenth in the ratio is counted, not listed."""

UNDECIDED = "What could not be decided"
FROM_MEMORY = "The book’s row stands there from memory: it explains and argues nothing."


def findings_section(opinion: Opinion) -> Section:
    """The grid, then each finding: observation first, inference second."""
    blocks: list[Block] = [drawing(each) for each in agreement_grids(opinion)]
    names = Names(opinion.names)
    for outcome, title in ((Outcome.DIFFER, "What differs"), (Outcome.UNDECIDED, UNDECIDED)):
        found = [each for each in opinion.findings if each.outcome is outcome]
        if found:
            rows = tuple(_finding_row(each) for each in found)
            blocks.append(Heading(title))
            blocks.append(Table(("Observation", "Inference"), rows, (6, 5)))
    agreeing = [each for each in opinion.findings if each.outcome is Outcome.AGREE]
    if agreeing:
        rows = tuple(_agreeing_row(each, names) for each in _alike(agreeing))
        blocks.append(Heading("What agrees"))
        blocks.append(Table(("Observation", "Inference"), rows, (6, 5)))
    silent = [each for each in opinion.findings if each.outcome is Outcome.SILENT]
    if silent:
        blocks.append(Heading("Where nothing could be compared"))
        blocks.append(Bullets(tuple(dict.fromkeys(each.observation for each in silent))))
    if not opinion.findings:
        blocks.append(Paragraph("No two marks could be compared."))
    return Section("Findings", tuple(blocks))


def _finding_row(finding: Finding) -> tuple[TableCell, TableCell]:
    below = (FROM_MEMORY,) if finding.basis is Basis.MEMORY else ()
    return TableCell(finding.observation), TableCell(finding.inference, below)


def _alike(findings: list[Finding]) -> list[list[Finding]]:
    """Agreeing findings that can be told together: one rule, and one item where it compares."""
    found: dict[str, list[Finding]] = {}
    for each in findings:
        topic = each.topic if len(each.subjects) > 1 else ""
        found.setdefault(f"{each.rule} {topic} {each.basis.value}", []).append(each)
    return list(found.values())


def _agreeing_row(findings: list[Finding], names: Names) -> tuple[TableCell, TableCell]:
    """Findings that agree alike in one row; a single one in its own words."""
    if len(findings) == 1:
        return _finding_row(findings[0])
    rule = findings[0].rule
    topics = dict.fromkeys(each.topic for each in findings)
    shown = dict.fromkeys(
        f"{names.mark(subject.mark)} {subject.shown}"
        for each in findings
        for subject in each.subjects
    )
    told = (*((names.item(each) for each in topics) if len(topics) == 1 else ()), plain_name(rule))
    count = count_text(len(findings), "finding")
    observation = f"{capital(', '.join(told))} ({count}): {'; '.join(shown)}."
    inferences = tuple(dict.fromkeys(each.inference for each in findings))
    said = " ".join(inferences[:2])
    if len(inferences) > 2:
        said += f" Likewise for {count_text(len(inferences) - 2, 'other')}."
    below = (FROM_MEMORY,) if findings[0].basis is Basis.MEMORY else ()
    return TableCell(observation), TableCell(said, below)


def conclusions_section(opinion: Opinion) -> Section:
    """Each conclusion in full: the sentences, what drives it, what it assumes with the curve."""
    names = Names(opinion.names)
    intro = (
        "How much an item of evidence moves a ratio is seen by leaving it out; items lean on each "
        "other, so the steps need not multiply to the whole. No published rate exists for what "
        "is assumed; each is given with its reason, and with the ratio that follows if it alone "
        "is wrong by a factor of three in odds, down and up."
    )
    blocks: list[Block] = [Paragraph(intro, "lead")]
    for conclusion in opinion.weighing.conclusions:
        text = conclusion_text(conclusion, opinion.weighing, names)
        blocks.append(
            Heading(f"{text.heading}: LR {text.lr}, bounds {text.lr_low} to {text.lr_high}")
        )
        blocks.append(Paragraph(text.sentence))
        said = (standing_sentence(conclusion), text.capped, text.split, text.bounds, text.posterior)
        blocks.extend(Paragraph(each) for each in said if each)
        blocks.extend(_drivers(conclusion))
        blocks.extend(_assumptions(conclusion, names))
    blocks.extend(_taken_as_known(opinion, names))
    for left_out in opinion.weighing.left_out:
        blocks.append(Paragraph(sentence(left_out), "quiet"))
    return Section("Each conclusion in full", tuple(blocks))


def _drivers(conclusion: Conclusion) -> list[Block]:
    by_size = sorted(conclusion.contributions, key=lambda each: -abs(each.log10_lr_change))
    moving = [each for each in by_size if abs(each.log10_lr_change) >= LEAST_LOG10_LR]
    shown = moving[:CONTRIBUTIONS_SHOWN]
    rest = len(by_size) - len(shown)
    if not shown:
        return [Paragraph("No single item moves this ratio by a tenth or more.")]
    rows = [_driver_row(each) for each in shown]
    if rest:
        moves = "moves" if rest == 1 else "move"
        told = f"{capital(count_text(rest, 'further item'))} {moves} it less."
        rows.append((TableCell(told), TableCell(""), TableCell("")))
    return [Table(("Evidence", "What it does", "Without it"), tuple(rows), (6, 4.1, 1.5))]


def _driver_row(each: Contribution) -> tuple[TableCell, ...]:
    return (
        TableCell(sentence(each.item.sentence)),
        TableCell(_step(each.log10_lr_change), (f"as entered: {_step(each.log10_lr_in_order)}",)),
        TableCell(lr_text(each.log10_lr_without)),
    )


def _step(log10_step: float) -> str:
    """A step of a ratio: "× 6.9 toward the first"."""
    if abs(log10_step) < LEAST_LOG10_LR:
        return "hardly any"
    return f"× {times_text(log10_step)} toward the {'first' if log10_step > 0 else 'second'}"


def _assumptions(conclusion: Conclusion, names: Names) -> list[Block]:
    """The assumed rates that move this ratio most, the leading one with its curve."""
    if not conclusion.assumptions:
        return []
    rows = tuple(_assumption_row(each) for each in conclusion.assumptions[:ASSUMPTIONS_SHOWN])
    blocks: list[Block] = [Table(("Assumed", "Value", "Ratio if wrong"), rows, (7, 1.5, 2.4))]
    curve = assumption_curve(conclusion, names)
    return [*blocks, drawing(curve)] if curve is not None else blocks


def _taken_as_known(opinion: Opinion, names: Names) -> list[Block]:
    """What the examiner has stated: prior odds and other values for assumed rates, with reasons."""
    stated = opinion.casefile.circumstances
    lines = [
        f"Prior odds for {names.any(each.question)}: {odds_text(each.odds)}. "
        f"{sentence(each.reason)}"
        for each in stated.prior_odds
    ]
    lines += [
        f"{capital(row_words(each.row))}: {share_text(each.value)}. {sentence(each.reason)}"
        for each in stated.overrides
    ]
    if stated.notes:
        lines.append(stated.notes)
    if not lines:
        return []
    return [Heading("What the examiner takes as known"), Bullets(tuple(lines))]


def _assumption_row(each: Assumption) -> tuple[TableCell, ...]:
    low, high = sorted((each.log10_lr_at_low, each.log10_lr_at_high))
    whose = "the examiner’s" if each.overridden else "assumed"
    return (
        TableCell(capital(row_words(each.row)), (sentence(each.reason),)),
        TableCell(share_text(each.value), (whose,)),
        TableCell(f"{lr_text(low, Toward.DOWN)} to {lr_text(high, Toward.UP)}"),
    )


def grouping_section(opinion: Opinion) -> Section | None:
    """Which marks speak of one car, and which of another."""
    groups = opinion.weighing.groups
    if not groups:
        return None
    names = Names(opinion.names)
    intro = (
        "From the characters alone, taken with the rates assumed, the marks that were read "
        "fall most readily into these groups."
    )
    sentences = tuple(grouping_sentence(each, names) for each in groups)
    return Section("Which marks speak of one car", (Paragraph(intro), Bullets(sentences)))


def drawing(figure: Figure) -> Drawing:
    """A figure as a block of the outline."""
    return Drawing(figure.svg, figure.title, figure.caption)
