"""One strip for each conclusion: where its likelihood ratio lies, and within which band.

The point is told by shape (disc: first proposition; wedge: second; ring:
neither), by its place on the axis and by the words above the strip.
"""

from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.figures.drawing import (
    INK,
    PAGE_HEIGHT,
    SOFT,
    WIDTH,
    box,
    figure,
    group,
    line,
    width_of,
    words,
)
from witnessmark.figures.records import Figure
from witnessmark.figures.weight_axis import WeightAxis, arrow, point, tint
from witnessmark.weighing import CAP_LOG10, Weighed
from witnessmark.wording import Favours, Names, Toward, lr_text, spelled, verbal_equivalent
from witnessmark.wording.amounts import sentence
from witnessmark.wording.conclusions import favours_of, heading, words_of

AXIS = WeightAxis(24, WIDTH - 24)
ROW_HEIGHT = 42.0
HEAD_HEIGHT = 36.0
FOOT_HEIGHT = 68.0
ROWS_ON_A_PAGE = int((PAGE_HEIGHT - HEAD_HEIGHT - FOOT_HEIGHT) // ROW_HEIGHT)


def examined(opinion: Opinion) -> tuple[Weighed, ...]:
    """The conclusions that have a strip: what was not examined has none."""
    return tuple(each for each in opinion.weighed if each.standing.has_figure)


def weight_strips(opinion: Opinion) -> tuple[Figure, ...]:
    """All conclusions that have a likelihood ratio, one strip each, on as many drawings as stay
    on pages."""
    conclusions, names = examined(opinion), Names(opinion.names)
    title = _title(conclusions, names)
    sheets = [_strips(conclusions[:ROWS_ON_A_PAGE], names, "weight-strips", title)]
    for at in range(ROWS_ON_A_PAGE, len(conclusions), ROWS_ON_A_PAGE):
        some = conclusions[at : at + ROWS_ON_A_PAGE]
        continued = said("{title} (continued)", title=title)
        sheets.append(_strips(some, names, f"weight-strips-{len(sheets) + 1}", continued))
    return tuple(sheets)


def _strips(conclusions: tuple[Weighed, ...], names: Names, name: str, title: str) -> Figure:
    bottom = HEAD_HEIGHT + ROW_HEIGHT * len(conclusions)
    parts = _head()
    for at, conclusion in enumerate(conclusions):
        parts.append(_row(conclusion, names, HEAD_HEIGHT + ROW_HEIGHT * at))
    parts.extend([*AXIS.ticks(bottom + 11), *AXIS.band_words(bottom + 23), *_legend(bottom + 52)])
    return figure(name, title, _caption(conclusions, names), bottom + FOOT_HEIGHT, parts)


def _title(conclusions: tuple[Weighed, ...], names: Names) -> str:
    if not conclusions:
        return said("Weight of the findings")
    if len(conclusions) > 1:
        return said("Weight of the findings for each conclusion")
    about = heading(conclusions[0], names)
    return said("Weight of the findings: {conclusion}", conclusion=about)


def _head() -> list[str]:
    """Which way is which, and the ratios."""
    return [
        words(
            AXIS.left,
            12,
            said("← findings more probable under the second proposition"),
            fill=SOFT,
        ),
        words(
            AXIS.right,
            12,
            said("findings more probable under the first →"),
            fill=SOFT,
            anchor="end",
        ),
        *AXIS.ticks(HEAD_HEIGHT - 8),
    ]


def _row(conclusion: Weighed, names: Names, top: float) -> str:
    """Name, words, bar of the band and point of one conclusion."""
    favours, lr = favours_of(conclusion), conclusion.log10_lr
    y = top + 28
    parts = [*AXIS.grid(top + 17, top + 39), *_row_words(conclusion, names, top + 11)]
    low, high = conclusion.log10_lr_low, conclusion.log10_lr_high
    if low is not None and high is not None:
        left, right = AXIS.x(low), AXIS.x(high)
        parts += [
            box(left, y - 3.2, max(right - left, 0.8), 6.4, fill="#ffffff", stroke=INK),
            line(left, y - 6, left, y + 6, stroke=INK, width=1.4),
            line(right, y - 6, right, y + 6, stroke=INK, width=1.4),
        ]
        # No band goes beyond the cap: an arrow says that it was stopped there.
        parts += [
            arrow(AXIS.x(end), y, side)
            for end, side in ((low, -1), (high, 1))
            if end * side >= CAP_LOG10
        ]
    elif conclusion.is_capped:
        parts.append(arrow(AXIS.x(lr), y, 1 if lr > 0 else -1))
    parts.append(point(AXIS.x(lr), y, favours))
    return group(parts, _heard(conclusion, names))


def _row_words(conclusion: Weighed, names: Names, y: float) -> list[str]:
    """The name of the conclusion on the left, its ratio and words on the right."""
    name = heading(conclusion, names)
    right = said("LR {lr}", lr=lr_text(conclusion.log10_lr))
    if conclusion.word_log10_lr is not None:
        short = verbal_equivalent(conclusion.word_log10_lr).short()
        right = said("LR {lr}: {words}", lr=lr_text(conclusion.log10_lr), words=short)
    room = AXIS.right - AXIS.left - width_of(right, 10) - 12
    most = max(8, int(room / (10 * 0.53)))
    short = name if len(name) <= most else name[: most - 1].rstrip() + "…"
    return [
        words(AXIS.left, y, short, size=10, strong=True),
        words(AXIS.right, y, right, fill=tint(favours_of(conclusion)), anchor="end"),
    ]


def _legend(y: float) -> list[str]:
    """The signs in words."""
    x = AXIS.left + 4
    parts: list[str] = []
    for favours, text in (
        (Favours.FIRST, said("for the first proposition")),
        (Favours.SECOND, said("for the second")),
        (Favours.NEITHER, said("for neither")),
    ):
        parts.extend([point(x, y - 3, favours), words(x + 9, y, text, fill=SOFT)])
        x += 20 + width_of(text, 10)
    parts.append(box(x, y - 6.2, 20, 6.4, fill="#ffffff", stroke=INK))
    band = said("band")
    parts.append(words(x + 25, y, band, fill=SOFT))
    x += 25 + width_of(band, 10) + 10
    stopped = said("stops at {cap}", cap=lr_text(CAP_LOG10))
    return [*parts, arrow(x - 6, y - 3, 1), words(x + 14, y, stopped, fill=SOFT)]


def _heard(conclusion: Weighed, names: Names) -> str:
    """One conclusion in a sentence, for those who hear the figure."""
    about, lr = heading(conclusion, names), lr_text(conclusion.log10_lr)
    low, high = conclusion.log10_lr_low, conclusion.log10_lr_high
    if low is None or high is None:
        return said("{conclusion}: LR {lr}", conclusion=about, lr=lr)
    values = {
        "conclusion": about,
        "lr": lr,
        "low": lr_text(low, Toward.DOWN),
        "high": lr_text(high, Toward.UP),
        "words": words_of(conclusion),
    }
    if conclusion.is_capped:
        return said(
            "{conclusion}: LR {lr} (no ratio is given beyond it), band {low} to {high}, {words}",
            **values,
        )
    return said("{conclusion}: LR {lr}, band {low} to {high}, {words}", **values)


def _caption(conclusions: tuple[Weighed, ...], names: Names) -> str:
    if not conclusions:
        return said("No conclusion has a likelihood ratio.")
    first = spelled(
        "The likelihood ratio of {count} conclusion on a logarithmic axis, with its band.",
        "The likelihood ratio of {count} conclusions on a logarithmic axis, with its band.",
        len(conclusions),
    )
    return " ".join((first, *(sentence(_heard(each, names)) for each in conclusions)))
