"""What each evidence item does to one conclusion, largest first.

A bar from the middle ends in a disc (toward the first proposition, to the
right) or in a wedge (toward the second, to the left); the factor stands beside
in words. The last strip is the whole likelihood ratio, on the same axis.
"""

from dataclasses import dataclass

from witnessmark.catalogue import counted, said
from witnessmark.figures.drawing import SOFT, WIDTH, figure, group, line, width_of, words
from witnessmark.figures.records import Figure
from witnessmark.figures.text_block import STRONG_WIDTH, TextBlock, text_block
from witnessmark.figures.weight_axis import WeightAxis, arrow, point, tint
from witnessmark.weighing import Contribution, Weighed
from witnessmark.wording import Favours, Names, lr_text
from witnessmark.wording.amounts import sentence, times_text
from witnessmark.wording.conclusions import favours_of, heading

AXIS = WeightAxis(24, WIDTH - 24)
NAME_WIDTH = WIDTH - 96
STRIP_HEIGHT = 14.0
ROWS_SHOWN = 14
"""Most rows, the one for all the rest among them."""

LINES_SHOWN = 4
HEIGHT_OF_ROWS = 330.0
"""Points that the rows may take, so that the drawing and its table share a page."""

LEAST_LOG10_LR = 0.0414
"""An item that moves the ratio by less than a tenth has no row of its own."""


@dataclass(frozen=True, slots=True)
class _Strip:
    """One strip: what it is, how far it moves the ratio, and the factor in words."""

    name: TextBlock
    log10_change: float
    amount: str
    favours: Favours
    is_capped: bool = False

    @property
    def height(self) -> float:
        return self.name.height + STRIP_HEIGHT + 7


def contributions(conclusion: Weighed, names: Names) -> Figure | None:
    """What every item does to one conclusion; None where nothing was weighed."""
    if not conclusion.contributions:
        return None
    by_size = sorted(conclusion.contributions, key=lambda each: -abs(each.log10_lr_change))
    rows = [*_rows(by_size), _whole(conclusion)]
    intro = text_block(_sentence(), WIDTH, fill=SOFT)
    parts = [*intro.at(0, 0), *_head(intro.height + 4)]
    y = intro.height + 36
    for row in rows:
        parts.append(_drawn(row, y))
        y += row.height
    parts.extend([*AXIS.ticks(y + 7), *_legend(y + 24)])
    title = said("What each finding does: {question}", question=heading(conclusion, names))
    name = f"contributions-{conclusion.question.value}-{conclusion.about}"
    return figure(name, title, _caption(rows), y + 30, parts)


def _rows(by_size: list[Contribution]) -> list[_Strip]:
    """The items that move the ratio by a tenth or more, and one row for all others."""
    rows: list[_Strip] = []
    filled = 0.0
    for each in by_size:
        row = _Strip(
            text_block(sentence(each.sentence), NAME_WIDTH, most=LINES_SHOWN),
            each.log10_lr_change,
            factor_text(each.log10_lr_change),
            _favours(each.log10_lr_change),
        )
        is_last = len(rows) == ROWS_SHOWN - 1 and len(by_size) > ROWS_SHOWN
        is_full = is_last or len(rows) == ROWS_SHOWN or filled + row.height > HEIGHT_OF_ROWS
        if is_full or abs(each.log10_lr_change) < LEAST_LOG10_LR:
            break
        rows.append(row)
        filled += row.height
    rest = by_size[len(rows) :]
    return [*rows, _rest(rest, bool(rows))] if rest else rows


def _rest(rest: list[Contribution], is_further: bool) -> _Strip:
    """All that have no row of their own, their steps added."""
    change = sum(each.log10_lr_change for each in rest)
    if is_further:
        name = counted(
            "{number} further item, smaller than those above",
            "{number} further items, each smaller than those above, added",
            len(rest),
        )
    else:
        name = counted(
            "{number} item, which moves the ratio by less than a tenth",
            "{number} items, each of which moves the ratio by less than a tenth, added",
            len(rest),
        )
    return _Strip(text_block(name, NAME_WIDTH), change, factor_text(change), _favours(change))


def _whole(conclusion: Weighed) -> _Strip:
    """The likelihood ratio itself, last."""
    log10_lr = conclusion.log10_lr
    name = text_block(said("All findings together"), NAME_WIDTH, strong=True)
    amount = said("LR {ratio}", ratio=lr_text(log10_lr))
    favours = favours_of(conclusion)
    return _Strip(name, log10_lr, amount, favours, conclusion.is_capped)


def factor_text(log10_change: float) -> str:
    """What an item does to a ratio, in a sign and a number, cut toward 1.

    >>> factor_text(1.08), factor_text(-0.5), factor_text(0.01)
    ('× 12', '÷ 3.1', 'hardly any')
    """
    if abs(log10_change) < LEAST_LOG10_LR:
        return said("hardly any")
    if log10_change > 0:
        return said("× {times}", times=times_text(log10_change))
    return said("÷ {times}", times=times_text(log10_change))


def _favours(log10_change: float) -> Favours:
    if abs(log10_change) < LEAST_LOG10_LR:
        return Favours.NEITHER
    return Favours.FIRST if log10_change > 0 else Favours.SECOND


def _drawn(row: _Strip, top: float) -> str:
    """The words of a row and its bar below them."""
    upper = top + row.name.height + 2
    y = upper + STRIP_HEIGHT / 2
    parts = [
        *row.name.at(0, top),
        words(WIDTH, top + 9.5, row.amount, anchor="end", strong=True, fill=tint(row.favours)),
        *AXIS.grid(upper, upper + STRIP_HEIGHT),
        line(AXIS.x(0), y, AXIS.x(row.log10_change), y, stroke=tint(row.favours), width=4),
        point(AXIS.x(row.log10_change), y, row.favours),
    ]
    if row.is_capped:
        side = 1 if row.log10_change > 0 else -1
        parts.append(arrow(AXIS.x(row.log10_change), y, side))
    return group(parts, _told(row))


def _head(top: float) -> list[str]:
    """Which way is which, and the ratios."""
    right = said("toward the first proposition →")
    return [
        words(AXIS.left, top + 11, said("← toward the second proposition"), fill=SOFT),
        words(AXIS.right, top + 11, right, fill=SOFT, anchor="end"),
        *AXIS.ticks(top + 25),
    ]


def _legend(y: float) -> list[str]:
    """The signs in words."""
    x = AXIS.left
    parts: list[str] = []
    for favours, text in (
        (Favours.FIRST, said("× raises the ratio")),
        (Favours.SECOND, said("÷ lowers it")),
        (Favours.NEITHER, said("hardly either way")),
    ):
        parts.extend([point(x, y - 3, favours), words(x + 10, y, text, fill=SOFT)])
        x += 28 + width_of(text, 10, STRONG_WIDTH)
    return parts


def _sentence() -> str:
    return said(
        "How many times the likelihood ratio is greater (×) or smaller (÷) with an item than "
        "without it; items that say the same share what they do, so the steps need not "
        "multiply to the whole."
    )


def _told(row: _Strip) -> str:
    return said("{item} {factor}", item=sentence(" ".join(row.name.lines)), factor=row.amount)


def _caption(rows: list[_Strip]) -> str:
    """What the figure shows, row by row, for those who hear it."""
    return " ".join((_sentence(), *(sentence(_told(row)) for row in rows)))
