"""Every conclusion in a row: what the findings support, how strongly, and its strip; what was
said against what was found last. The same table for the first page and for a screen."""

from collections import Counter
from collections.abc import Iterator

from witnessmark.catalogue import as_said, counted, marked, said
from witnessmark.figures import strip_axis, strip_legend, weight_strip
from witnessmark.figures.weight_strip import STRIP_WIDTH
from witnessmark.outline.records import Block, Paragraph, Table, TableCell
from witnessmark.report.sections.matter import OPEN, STRENGTH, Matter
from witnessmark.weighing import CAP_LOG10, SAYING_LOG10, Asked, Standing, Weighed
from witnessmark.wording import (
    Favours,
    listed,
    lr_text,
    shipped_scale,
    term,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital
from witnessmark.wording.conclusions import about_words, favours_of

ROWS_SHOWN = 9
"""Conclusions in the table, unless more tell against the claim."""

COLUMNS = (90, 122, 122, 40, STRIP_WIDTH + 12)
"""Widths in points; the last holds a strip and its room on both sides."""

SUPPORTED = {
    (Asked.IDENTITY, Favours.FIRST): marked("that of the claimed car"),
    (Asked.IDENTITY, Favours.SECOND): marked("not that of the claimed car"),
    (Asked.CORE, Favours.FIRST): marked("the one it was built with"),
    (Asked.CORE, Favours.SECOND): marked("not the one it was built with"),
    (Asked.STAMP, Favours.FIRST): marked("struck at the works for this car"),
    (Asked.STAMP, Favours.SECOND): marked("struck there again later"),
    (Asked.PLATE, Favours.FIRST): marked("made for the claimed car"),
    (Asked.PLATE, Favours.SECOND): marked("made later, or another car’s"),
    (Asked.PAPER, Favours.FIRST): marked("written for the claimed car"),
    (Asked.PAPER, Favours.SECOND): marked("written later, or another car’s"),
    (Asked.ITEM, Favours.FIRST): marked("built as claimed"),
    (Asked.ITEM, Favours.SECOND): marked("not built as claimed"),
}
"""What the findings support, in the few words of a row."""


def is_declared(conclusion: Weighed, matter: Matter) -> bool:
    """Was it said beforehand, where the findings support that the part is not the first?"""
    return favours_of(conclusion) is Favours.SECOND and matter.opinion.is_declared(conclusion)


def concluded(matter: Matter) -> list[Block]:
    """The table, and below it what has no row."""
    conclusions = matter.opinion.weighed
    if not conclusions:
        return [Paragraph(said("What was supplied allows no question to be asked."))]
    shown = most_important(conclusions)
    rows = (*(_row(each, matter) for each in shown), *_aside(matter), *_disclosed(matter))
    head = (said("Question"), said("What the findings support"), said("How strongly"), said("LR"))
    axis = strip_axis()
    drawn = TableCell("", svg=axis.svg, told=axis.caption)
    table = Table((*head, ""), rows, COLUMNS, axis=drawn, is_dense=True)
    rest = [e for e in conclusions if e not in shown and e.standing.has_figure]
    claimed_only = [each for each in rest if _is_of_claimed_only(each, conclusions)]
    rest = [each for each in rest if each not in claimed_only]
    return [
        table,
        *(Paragraph(each, "note") for each in _of_claimed_only(claimed_only, matter)),
        *(Paragraph(each, "note") for each in (*_rest(rest, matter), scale_note(matter))),
    ]


def most_important(conclusions: tuple[Weighed, ...]) -> tuple[Weighed, ...]:
    """Identity, what tells against the claim and every assembly, then the answers that say most
    at their weaker end; what is struck on a part only where it is answered otherwise."""

    def first(each: Weighed) -> tuple[bool, bool]:
        return each.question is not Asked.IDENTITY, each.log10_lr >= -SAYING_LOG10

    asked = [
        each
        for each in told_once(conclusions)
        if each.standing.has_figure or each.question in (Asked.IDENTITY, Asked.CORE)
        if not _is_of_claimed_only(each, conclusions)
    ]
    ranked = sorted(
        asked,
        key=lambda e: (*first(e), e.question is not Asked.CORE, -abs(e.weaker_log10_lr)),
    )
    against = sum(each.log10_lr < -SAYING_LOG10 for each in ranked)
    kept = ranked[: max(ROWS_SHOWN, against + 1)]
    return tuple(sorted((each for each in asked if each in kept), key=first))


def told_once(conclusions: tuple[Weighed, ...]) -> list[Weighed]:
    """All but what is struck on a core where it is answered as the core is."""
    cores = {e.about: favours_of(e) for e in conclusions if e.question is Asked.CORE}
    return [
        each
        for each in conclusions
        if each.question is not Asked.STAMP or favours_of(each) is not cores.get(each.about)
    ]


def is_another_car(conclusions: tuple[Weighed, ...]) -> bool:
    """Do the findings support that this is not the claimed car?"""
    return any(
        each.question is Asked.IDENTITY and favours_of(each) is Favours.SECOND
        for each in conclusions
    )


def _is_of_claimed_only(conclusion: Weighed, conclusions: tuple[Weighed, ...]) -> bool:
    """Is it how the claimed car was built, and this is another? In a row beside the others it
    would be read as good news of this one."""
    is_for = conclusion.question is Asked.ITEM and favours_of(conclusion) is not Favours.SECOND
    return is_for and is_another_car(conclusions)


def _row(conclusion: Weighed, matter: Matter) -> tuple[TableCell, ...]:
    about = TableCell(capital(about_words(conclusion, matter.names)), strong=True)
    if not conclusion.standing.has_figure:
        return about, TableCell(term(conclusion.standing)), TableCell(said("no answer")), *_none(2)
    strip = weight_strip(conclusion, matter.names)
    return (
        about,
        TableCell(supported(conclusion, matter)),
        TableCell(strength(conclusion), strong=True),
        TableCell(lr_text(conclusion.log10_lr)),
        TableCell("", svg=strip.svg, told=strip.caption),
    )


def _none(count: int) -> tuple[TableCell, ...]:
    return (TableCell(""),) * count


def strength(conclusion: Weighed) -> str:
    """The words of the scale at the weaker of ratio and band; nothing without a band."""
    if conclusion.word_log10_lr is None:
        return ""
    verbal = verbal_equivalent(conclusion.word_log10_lr)
    if conclusion.standing is Standing.ANSWERED:
        return as_said(verbal.words)
    if verbal.favours is Favours.NEITHER:
        return said("open: neither way")
    return said("open: {words}", words=verbal.words)


def supported(conclusion: Weighed, matter: Matter) -> str:
    """What the findings support, in the few words of a row."""
    favours = favours_of(conclusion)
    if favours is Favours.NEITHER:
        return said("neither one nor the other")
    told = as_said(SUPPORTED[conclusion.question, favours])
    return (
        said("{supported}, as declared", supported=told)
        if is_declared(conclusion, matter)
        else told
    )


def _aside(matter: Matter) -> Iterator[tuple[TableCell, ...]]:
    """What no mark could show otherwise, in one row: it has no ratio."""
    found = [
        about_words(each, matter.names)
        for each in matter.opinion.weighed
        if each.standing is Standing.CANNOT_BE_ESTABLISHED
        if each.question not in (Asked.IDENTITY, Asked.CORE)
    ]
    if found:
        told = TableCell(term(Standing.CANNOT_BE_ESTABLISHED))
        about = TableCell(capital(listed(tuple(found))), strong=True)
        yield about, told, TableCell(said("no answer")), *_none(2)


def _disclosed(matter: Matter) -> Iterator[tuple[TableCell, ...]]:
    """What was said against what was found: how many statements of each outcome; no ratio."""
    found = [each for each in matter.opinion.disclosure if each.says]
    if not found:
        return
    outcomes = Counter(term(each.outcome) for each in found)
    counts = "; ".join(f"{word}: {number}" for word, number in outcomes.items())
    told = counted(
        "{outcomes}, of {number} statement",
        "{outcomes}, of {number} statements",
        len(found),
        outcomes=counts,
    )
    where = TableCell(said("section {section}", section=OPEN))
    yield TableCell(said("What was said"), strong=True), TableCell(told), where, *_none(2)


def _rest(rest: list[Weighed], matter: Matter) -> Iterator[str]:
    """What has no row of its own, by name."""
    if rest:
        named = listed(tuple(about_words(each, matter.names) for each in rest))
        yield said("Answered in section {section}: {named}.", named=named, section=STRENGTH)


def _of_claimed_only(found: list[Weighed], matter: Matter) -> Iterator[str]:
    """What speaks of the claimed car alone, by name."""
    if found:
        named = listed(tuple(about_words(each, matter.names) for each in found))
        yield said(
            "Answered for the claimed car only, and not for this one, see section {section}: "
            "{named}.",
            named=named,
            section=STRENGTH,
        )


def scale_note(matter: Matter) -> str:
    """What the strips and the words of the table mean."""
    words = tuple(
        as_said(band.words) for band in shipped_scale().bands[1:] if band.log10_lr_from <= CAP_LOG10
    )
    told = said(
        "LR: how many times more probable the findings are if the claim is true, to {most} either "
        "way. The words go by the end of the band nearer 1, in this order: {words}.",
        most=lr_text(CAP_LOG10),
        words=listed(words),
    )
    return f"{told} {strip_legend(is_tried=matter.opinion.steadiness is not None)}"
