"""The sections that say how strongly it speaks, what would settle it, and on what it rests."""

from witnessmark.agreement.records import Finding, Outcome
from witnessmark.codebook.records import Basis
from witnessmark.examination import Opinion
from witnessmark.figures import Figure, agreement_grid, assumption_curve, weight_strips
from witnessmark.report.records import (
    Block,
    Bullets,
    Card,
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
    best_set_sentence,
    conclusion_text,
    count_text,
    grouping_sentence,
    lr_text,
    next_look_text,
    odds_sentence,
    scale_sentence,
    settling_texts,
    share_text,
    standing_sentence,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, sentence, times_text
from witnessmark.wording.conclusions import heading, row_words

CONTRIBUTIONS_SHOWN = 8
ASSUMPTIONS_SHOWN = 4
LOOKS_SHOWN = 6
LEAST_LOG10_LR = 0.02
"""A step of less than about a twentieth in the ratio is counted, not listed."""


def summary_section(opinion: Opinion) -> Section:
    """The five conclusions, kept apart, and the strips."""
    names = Names(opinion.names)
    cards = [_card(each, opinion, names) for each in opinion.weighing.conclusions]
    intro = (
        "Five kinds of conclusion are kept apart: identity; plates and papers; configuration; "
        "assemblies; and what was said about the car. They are not added up."
    )
    blocks: list[Block] = [Paragraph(intro), *cards]
    if cards:
        blocks.append(drawing(weight_strips(opinion)))
    blocks.append(Paragraph(scale_sentence(), "quiet"))
    blocks.extend(_disclosure(opinion, names))
    return Section("Summary", tuple(blocks), new_page=True)


def _card(conclusion: Conclusion, opinion: Opinion, names: Names) -> Card:
    return Card(
        conclusion_text(conclusion, opinion.weighing, names),
        verbal_equivalent(conclusion.lr.log10_lr).favours.value,
        standing_sentence(conclusion),
    )


def _disclosure(opinion: Opinion, names: Names) -> list[Block]:
    """What was said against what was found, statement by statement: no ratio."""
    head: list[Block] = [Heading("Disclosure: what was said against what was found")]
    if not opinion.disclosure:
        return [*head, Paragraph("No statement about a part of the car was recorded.")]
    rows = tuple(
        (
            TableCell(capital(names.any(each.about)), strong=True),
            TableCell(each.says),
            TableCell(each.found),
            TableCell(capital(each.outcome), strong=True),
        )
        for each in opinion.disclosure
    )
    return [*head, Table(("About", "What was said", "What was found", ""), rows, (2, 4, 5, 1.6))]


def settling_section(opinion: Opinion) -> Section:
    """What cannot be established, what could settle it, and what that would need to say."""
    names = Names(opinion.names)
    blocks: list[Block] = []
    unsettled = [each for each in opinion.weighing.conclusions if standing_sentence(each)]
    for conclusion in unsettled:
        blocks.append(Heading(heading(conclusion, names)))
        blocks.append(Paragraph(standing_sentence(conclusion), "strong"))
        blocks.extend(_settling(conclusion, names))
    if not unsettled:
        blocks.append(
            Paragraph(
                "Every question that has a likelihood ratio is answered beyond 3 either way by "
                "what is on hand. What could still change an answer stands in the next section."
            )
        )
    return Section("What cannot be established, and what would settle it", tuple(blocks))


def _settling(conclusion: Conclusion, names: Names) -> list[Block]:
    texts = settling_texts(conclusion, names)
    if not texts:
        return [Paragraph("Nothing is known to us, on the car or off it, that would settle it.")]
    rows = tuple((TableCell(each.name), TableCell(each.needs)) for each in texts)
    return [Table(("What could settle it", "What it would need to say"), rows, (4, 6))]


def next_looks_section(opinion: Opinion) -> Section:
    """What to look at next, in order of bits a minute, and the best set for the time."""
    names = Names(opinion.names)
    blocks: list[Block] = []
    for conclusion in opinion.weighing.conclusions:
        if conclusion.next_looks:
            blocks.extend(_looks(conclusion, names))
    if not blocks:
        blocks.append(Paragraph("No look is left that can be had on this car and would tell more."))
    return Section("What to look at next", tuple(blocks))


def _looks(conclusion: Conclusion, names: Names) -> list[Block]:
    texts = [next_look_text(look, names) for look in conclusion.next_looks[:LOOKS_SHOWN]]
    rows = tuple(
        (
            TableCell(each.prompt, tuple(t for t in (each.outcomes, each.caution) if t)),
            TableCell(each.bits_per_minute, (f"{each.bits} in all",)),
            TableCell(each.minutes, (each.dismantling,)),
        )
        for each in texts
    )
    more = len(conclusion.next_looks) - len(texts)
    blocks: list[Block] = [
        Heading(heading(conclusion, names)),
        Table(("Look", "Bits a minute", "Time and dismantling"), rows, (6, 2, 3)),
    ]
    if more:
        blocks.append(Paragraph(f"{capital(count_text(more, 'further look'))} would tell less."))
    if conclusion.best_set is not None:
        prompts = {look.target: look.prompt for look in conclusion.next_looks}
        chosen = tuple(
            prompts.get(target) or names.any(target) for target in conclusion.best_set.targets
        )
        blocks.append(Paragraph(best_set_sentence(conclusion.best_set, chosen)))
    blocks.append(Paragraph(odds_sentence(conclusion), "quiet"))
    return blocks


def findings_section(opinion: Opinion) -> Section:
    """The grid, then each finding: observation first, inference second."""
    blocks: list[Block] = [drawing(agreement_grid(opinion))]
    spoken = [each for each in opinion.findings if each.outcome is not Outcome.SILENT]
    names = Names(opinion.names)
    for outcome, title in (
        (Outcome.DIFFER, "What differs"),
        (Outcome.UNDECIDED, "What could not be decided"),
        (Outcome.AGREE, "What agrees"),
    ):
        found = [each for each in spoken if each.outcome is outcome]
        if found:
            rows = tuple(_finding_row(each, names) for each in found)
            blocks.append(Heading(title))
            blocks.append(Table(("Observation", "Inference"), rows, (6, 5)))
    silent = [each for each in opinion.findings if each.outcome is Outcome.SILENT]
    if silent:
        blocks.append(Heading("Where nothing could be compared"))
        blocks.append(Bullets(tuple(dict.fromkeys(each.observation for each in silent))))
    if not opinion.findings:
        blocks.append(Paragraph("No two marks could be compared."))
    return Section("Findings", tuple(blocks))


def _finding_row(finding: Finding, names: Names) -> tuple[TableCell, TableCell]:
    from_memory = (
        ("The book’s row stands there from memory: it explains and argues nothing.",)
        if finding.basis is Basis.MEMORY
        else ()
    )
    return TableCell(finding.observation), TableCell(finding.inference, from_memory)


def drivers_section(opinion: Opinion) -> Section:
    """For each conclusion, what moves its ratio: largest first, and in order of entry."""
    names = Names(opinion.names)
    intro = (
        "How much each item of evidence moves a ratio is seen by leaving it out. Items lean on "
        "each other, so the steps need not multiply to the whole."
    )
    blocks: list[Block] = [Paragraph(intro, "quiet")]
    for conclusion in opinion.weighing.conclusions:
        blocks.append(Heading(heading(conclusion, names)))
        blocks.extend(_drivers(conclusion))
    for left_out in opinion.weighing.left_out:
        blocks.append(Paragraph(sentence(left_out), "quiet"))
    return Section("What drives each conclusion", tuple(blocks))


def _drivers(conclusion: Conclusion) -> list[Block]:
    by_size = sorted(conclusion.contributions, key=lambda each: -abs(each.log10_lr_change))
    moving = [each for each in by_size if abs(each.log10_lr_change) >= LEAST_LOG10_LR]
    shown = moving[:CONTRIBUTIONS_SHOWN]
    rest = len(by_size) - len(shown)
    blocks: list[Block] = []
    if shown:
        rows = tuple(_driver_row(each) for each in shown)
        head = ("Evidence", "What it does", "Ratio without it")
        blocks.append(Table(head, rows, (6, 3.4, 1.8)))
    else:
        blocks.append(Paragraph("No single item moves this ratio by a twentieth or more."))
    if rest:
        blocks.append(
            Paragraph(
                f"{capital(count_text(rest, 'further item'))} moves it less."
                if rest == 1
                else f"{capital(count_text(rest, 'further item'))} move it less.",
                "quiet",
            )
        )
    return blocks


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


def assumptions_section(opinion: Opinion) -> Section:
    """The assumed rates on which each ratio rests, the leading one with its curve."""
    names = Names(opinion.names)
    intro = (
        "No published rate exists for these. Each is assumed, with its reason; the last column "
        "gives the ratio with that one rate wrong by a factor of three in odds, down and up."
    )
    blocks: list[Block] = [Paragraph(intro, "quiet")]
    for conclusion in opinion.weighing.conclusions:
        if not conclusion.assumptions:
            continue
        rows = tuple(_assumption_row(each) for each in conclusion.assumptions[:ASSUMPTIONS_SHOWN])
        blocks.append(Heading(heading(conclusion, names)))
        blocks.append(Table(("Assumed", "Value", "Ratio if wrong"), rows, (7, 1.5, 2.4)))
        curve = assumption_curve(conclusion, names)
        if curve is not None:
            blocks.append(drawing(curve))
    stated = opinion.casefile.circumstances
    reasons = [
        f"Prior odds for {names.any(each.question)}: {sentence(each.reason)}"
        for each in stated.prior_odds
    ]
    reasons += [
        f"{capital(row_words(each.row))}: {sentence(each.reason)}" for each in stated.overrides
    ]
    if reasons or stated.notes:
        blocks.append(Heading("What the examiner takes as known"))
        blocks.append(Bullets((*reasons, *([stated.notes] if stated.notes else []))))
    return Section("What is assumed", tuple(blocks))


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
