"""How amounts are written for people: ratios, odds, shares, minutes.

Only formatting: nothing here computes a probability. A likelihood ratio is
written with two significant figures and cut toward 1, so that neither the
figure nor its words are ever rounded up; a band is widened outward instead,
so that what is printed still encloses it.

>>> lr_text(2.178), lr_text(-2.178), lr_text(0.0)
('150', '1/150', '1')
>>> odds_text(9.0), odds_text(0.25)
('9 to 1', '1 to 4')
"""

import math
from collections.abc import Iterable, Sequence
from datetime import datetime
from enum import StrEnum

from witnessmark.catalogue import all_of, as_said, counted, in_a_row, marked, said
from witnessmark.day_words import date_text

FLOAT_NOISE = 1e-12
"""Relative error of a logarithm taken and undone; not a rounding of the ratio."""


class Toward(StrEnum):
    """Where a figure is cut to: the number 1 (a point), downward or upward (a band)."""

    ONE = "one"
    DOWN = "down"
    UP = "up"


def lr_text(log10_lr: float, toward: Toward = Toward.ONE) -> str:
    """A likelihood ratio in two significant figures; below 1 as a fraction such as 1/150."""
    if log10_lr >= 0:
        return _two_figures(log10_lr, up=toward is Toward.UP)
    below = _two_figures(-log10_lr, up=toward is Toward.DOWN)
    return "1" if below == "1" else f"1/{below}"


def times_text(log10_lr: float) -> str:
    """How many times, whichever way round, cut toward 1."""
    return _two_figures(abs(log10_lr), up=False)


def _two_figures(log10_ratio: float, *, up: bool) -> str:
    """A ratio of at least 1 with two significant figures, cut down or up."""
    ratio = 10.0**log10_ratio
    if not math.isfinite(ratio):
        raise ValueError(f"a log10 ratio of {log10_ratio} cannot be written")
    step_exponent = math.floor(log10_ratio + FLOAT_NOISE) - 1
    scaled = ratio / 10.0**step_exponent
    if up:
        figures = math.ceil(scaled * (1 - FLOAT_NOISE))
    else:
        figures = math.floor(scaled * (1 + FLOAT_NOISE))
    if step_exponent < 0:
        return f"{figures / 10:.1f}".removesuffix(".0")
    return f"{figures * 10**step_exponent:,}"


def odds_text(odds: float) -> str:
    """Odds as people say them."""
    if odds >= 1:
        return said("{odds} to 1", odds=_plain(odds))
    return said("1 to {odds}", odds=_plain(1 / odds))


def cut_odds_text(odds: float) -> str:
    """Odds that follow from a ratio: two significant figures, cut toward even as ratios are."""
    amount = odds if odds >= 1 else 1 / odds
    step = 10.0 ** (math.floor(math.log10(amount)) - 1)
    # A hair is added, since 700 may be held as 699.9999999.
    cut = math.floor(amount / step + 1e-9) * step
    return odds_text(max(1.0, cut) if odds >= 1 else 1 / max(1.0, cut))


def _plain(amount: float) -> str:
    """Two significant figures below a hundred, whole numbers above, no exponent."""
    if amount >= 99.5:
        digits = math.floor(math.log10(amount)) - 1
        return f"{round(amount, -digits):,.0f}"
    return f"{amount:.2g}"


def share_text(share: float) -> str:
    """A share between 0 and 1 in per cent, never shown as a flat 0 or 100.

    >>> share_text(0.3), share_text(0.00004), share_text(0.99999)
    ('30 %', 'under 0.1 %', 'over 99.9 %')
    """
    if 0 < share < 0.001:
        return said("under {percent} %", percent="0.1")
    if 0.999 < share < 1:
        return said("over {percent} %", percent="99.9")
    percent = share * 100
    return said("{percent} %", percent=f"{percent:.2g}" if percent < 10 else f"{percent:.3g}")


def rate_text(rate: float) -> str:
    """A rate of the model: a share, or by how much odds are multiplied.

    >>> rate_text(0.3), rate_text(2.0), rate_text(1000.0)
    ('30 %', '× 2', '× 1,000')
    """
    return share_text(rate) if rate < 1 else factor_rate_text(rate)


def factor_rate_text(rate: float) -> str:
    """By how much odds are multiplied, below 1 too.

    >>> factor_rate_text(0.05), factor_rate_text(1000.0)
    ('× 0.05', '× 1,000')
    """
    return said("× {times}", times=figures_text(rate, 3))


def figures_text(amount: float, figures: int) -> str:
    """An amount above 0 in so many significant figures, never as a power of ten.

    >>> figures_text(1000.0, 3), figures_text(99.96, 2), figures_text(2.5, 3)
    ('1,000', '100', '2.5')
    """
    places = figures - 1 - math.floor(math.log10(amount))
    rounded = round(amount, places)
    if places <= 0:
        return f"{rounded:,.0f}"
    return f"{rounded:,.{places}f}".rstrip("0").rstrip(".")


def minutes_text(minutes: int) -> str:
    """A number of minutes, hours set apart.

    >>> minutes_text(1), minutes_text(45), minutes_text(150)
    ('1 minute', '45 minutes', '2 h 30 min')
    """
    if minutes < 120:
        return counted("{number} minute", "{number} minutes", minutes)
    hours, rest = divmod(minutes, 60)
    if not rest:
        return said("{hours} h", hours=hours)
    return said("{hours} h {minutes} min", hours=hours, minutes=rest)


SMALL_NUMBERS = (
    marked("no"),
    marked("one"),
    marked("two"),
    marked("three"),
    marked("four"),
    marked("five"),
    marked("six"),
    marked("seven"),
    marked("eight"),
    marked("nine"),
)


def spelled(one: str, many: str, count: int, /, **values: object) -> str:
    """The sentence for one or for many, with `{count}` as a word where it is small.

    >>> spelled("{count} mark", "{count} marks", 5), spelled("{count} mark", "{count} marks", 14)
    ('five marks', '14 marks')
    """
    return counted(one, many, count, count=number_text(count), **values)


def number_text(number: int) -> str:
    """A number below ten as a word, others in figures.

    >>> number_text(3), number_text(12)
    ('three', '12')
    """
    return as_said(SMALL_NUMBERS[number]) if 0 <= number < len(SMALL_NUMBERS) else str(number)


listed = all_of
"""Names as a sentence lists them."""


def in_numbers(numbers: Iterable[int]) -> str:
    """Numbers in their order, those in a row from the first to the last.

    >>> in_numbers((1, 2, 4, 5, 6))
    '1, 2, 4–6'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = (f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
    return ", ".join(told)


def few(names: Sequence[str], room: int, between: str = ", ") -> str:
    """As many names as there is room for, at least one, and how many more there are.

    >>> few(("seat pan", "scuttle", "frame rail"), 24)
    'seat pan and 2 more'
    """
    shown = list(names)
    while len(shown) > 1 and len(between.join(shown)) > room - (
        len(" and 99 more") if len(shown) < len(names) else 0
    ):
        shown.pop()
    left, told = len(names) - len(shown), in_a_row(shown, between)
    if not left:
        return told
    return counted("{names} and {number} more", "{names} and {number} more", left, names=told)


def capital(text: str) -> str:
    """The text with its first letter capital and the rest as it was."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text as a sentence: capital first, a stop at the end, nothing doubled."""
    text = capital(text.strip())
    if not text or text[-1] in ".!?…":
        return text
    return text + "."


def clause(text: str) -> str:
    """The text as part of a longer sentence: no stop at its end."""
    return text.strip().rstrip(".;, ")


def inside(proposition: str) -> str:
    """A proposition inside a sentence.

    >>> inside("It was not.")
    'it was not'
    """
    text = clause(proposition)
    return text[:1].lower() + text[1:]


def clipped(text: str, most: int) -> str:
    """The text, cut after a whole word where it is longer than `most` characters.

    >>> clipped("A Sprint of 1955 with its own frame", 20)
    'A Sprint of 1955…'
    """
    text = " ".join(text.split())
    if len(text) <= most:
        return text
    cut = text[:most]
    return clause(cut.rpartition(" ")[0] or cut) + "…"


def moment_text(moment: datetime) -> str:
    """A day with the time, and the zone where it is known."""
    zone = moment.strftime("%Z").strip()
    text = said("{day}, {time}", day=date_text(moment.date()), time=f"{moment:%H:%M}")
    return f"{text} {zone}" if zone else text
