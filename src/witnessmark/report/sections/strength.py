"""How strongly: each question with its two propositions, its figures, and what carries it."""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.outline.records import (
    Block,
    Bullets,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.answered import is_declared, strength
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.seen import part_seen, unseen_words
from witnessmark.report.sections.weight import LEAST_LOG10_LR
from witnessmark.weighing import FEWEST_TURNED, Asked, Weighed
from witnessmark.wording import (
    Favours,
    Names,
    Toward,
    lr_text,
    odds_text,
    scale_sentence,
    steadiness_sentence,
)
from witnessmark.wording.amounts import capital, clause, rate_text, sentence, times_text
from witnessmark.wording.case_words import question_words, signer_name, vouched_sentence
from witnessmark.wording.conclusions import (
    about_words,
    favours_of,
    posterior_sentence,
    row_words,
    split_sentence,
)

STRONGEST = 3


def strength_section(matter: Matter) -> Section:
    """A row for every question that has a ratio; then how the figures are to be read."""
    rows = tuple(_row(each, matter) for each in matter.opinion.weighed if each.standing.has_figure)
    blocks: list[Block] = [Paragraph(_how_to_read(), "note")]
    if matter.opinion.steadiness is not None:
        draws = matter.opinion.steadiness.draws
        told = (steadiness_sentence(draws), _turned(draws), scale_sentence())
        blocks.append(Paragraph(" ".join(told), "note"))
    head = (
        said("Question, and what the findings support"),
        said("LR, band, steadiness"),
        said("Strongest for it, strongest against it"),
    )
    if rows:
        blocks.append(Table(head, rows, (3.8, 2.7, 4.8), is_dense=True))
    return Section(said("How strongly"), (*blocks, *taken_as_known(matter.opinion, matter.names)))


def _how_to_read() -> str:
    return said(
        "Each question sets two propositions against each other, chosen before looking. The "
        "likelihood ratio (LR) says how many times more probable the findings are if the first is "
        "true than if the second is; it is not the probability of either. Below 1 it tells against "
        "the first. What each finding does is found by leaving it out; findings depend on each "
        "other, so these steps need not multiply to the whole. The annex lists all of them."
    )


def _row(conclusion: Weighed, matter: Matter) -> tuple[TableCell, ...]:
    favours = favours_of(conclusion)
    pair = conclusion.pair
    supported = pair.second if favours is Favours.SECOND else pair.first
    told = said("Whether {proposition}.", proposition=clause(supported))
    if favours is not Favours.NEITHER:
        told = f"{capital(clause(supported))}."
    unseen = unseen_words(part_seen(conclusion, matter.opinion, matter.book))
    declared = said("As declared.") if is_declared(conclusion, matter) else ""
    return (
        TableCell(
            capital(about_words(conclusion, matter.names)),
            tuple(filter(None, (told, declared, unseen, posterior_sentence(conclusion)))),
            strong=True,
        ),
        TableCell(
            lr_text(conclusion.log10_lr),
            tuple(_figures(conclusion)),
            strong=True,
        ),
        TableCell("\n".join(_strongest(conclusion)), _apart(conclusion)),
    )


def _apart(conclusion: Weighed) -> tuple[str, ...]:
    """The second proposition taken apart: of the car, and of parts that are not the first."""
    is_core = conclusion.question is Asked.CORE and favours_of(conclusion) is Favours.SECOND
    is_told = is_core or conclusion.question is Asked.IDENTITY
    return tuple(filter(None, (split_sentence(conclusion),))) if is_told else ()


def _turned(draws: int) -> str:
    return said(
        "Where {fewest} or more of the {draws} pointed the other way, the row says how many.",
        fewest=FEWEST_TURNED,
        draws=draws,
    )


def _figures(conclusion: Weighed) -> Iterator[str]:
    if words := strength(conclusion):
        yield capital(words)
    low, high, turned = conclusion.log10_lr_low, conclusion.log10_lr_high, conclusion.turned
    if low is None or high is None or turned is None:
        return
    yield said("band {low} to {high}", low=lr_text(low, Toward.DOWN), high=lr_text(high, Toward.UP))
    if turned >= FEWEST_TURNED:
        yield said("{turned} of {draws} turned", turned=turned, draws=conclusion.draws)


def _strongest(conclusion: Weighed) -> Iterator[str]:
    """What says most for the first proposition, then what says most against it."""
    most = STRONGEST if conclusion.question is Asked.IDENTITY else 1
    for sign, label in ((1, said("for")), (-1, said("against"))):
        found = [c for c in conclusion.contributions if c.log10_lr_change * sign >= LEAST_LOG10_LR]
        for each in sorted(found, key=lambda c: -c.log10_lr_change * sign)[:most]:
            yield said(
                "{item}: × {times} {side}",
                item=clause(each.sentence),
                times=times_text(each.log10_lr_change),
                side=label,
            )


def taken_as_known(opinion: Opinion, names: Names) -> list[Block]:
    """What the examiner has stated: prior odds and other values for assumed rates, with reasons."""
    stated = opinion.casefile.circumstances
    lines = [
        said(
            "Prior odds for {question}: {odds}. {reason}",
            question=question_words(each.question, names),
            odds=odds_text(each.odds),
            reason=sentence(each.reason),
        )
        for each in stated.prior_odds
    ]
    lines += [
        said(
            "{row}: {share}. {reason}",
            row=capital(row_words(each.row)),
            share=rate_text(each.value),
            reason=sentence(each.reason),
        )
        for each in stated.overrides
    ]
    case = opinion.casefile
    lines += [
        vouched_sentence(replace(each, by=signer_name(each.by, case))) for each in stated.vouched
    ]
    if stated.notes:
        lines.append(stated.notes)
    told = tuple(lines) or (said("No prior odds are stated."),)
    return [Heading(said("What the examiner takes as known")), Bullets(told)]
