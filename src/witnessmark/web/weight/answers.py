"""Each conclusion as the page shows it: its figures, what drives it with the ways to its marks, the
assumed rates that it rests on, and what to look at next."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from django.utils.safestring import SafeString

from witnessmark.casefile import Casefile
from witnessmark.catalogue import as_said, said
from witnessmark.figures import assumption_curve, weight_strip
from witnessmark.report.press.html.drawings import bar
from witnessmark.report.sections.answered import is_declared, supported
from witnessmark.report.sections.behind import Behind, behind
from witnessmark.report.sections.known import to_vouch_for, with_remarks
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.next_steps import worth_looking
from witnessmark.report.sections.weight import (
    ASSUMPTIONS_SHOWN,
    listed_apart,
    step_words,
    told_in_full,
)
from witnessmark.web.shared.blocks import drawn, figure
from witnessmark.web.shared.leads import Lead, Leads
from witnessmark.web.weight.stated import StatedRow, plain_number, value_text
from witnessmark.weighing import Assumed, Contribution, LeadingRow, Weighed, assumed_rows
from witnessmark.wording import (
    Favours,
    Toward,
    look_name,
    looks_about,
    lr_text,
    minutes_text,
)
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.conclusions import (
    about_words,
    factor_text,
    favours_of,
    posterior_sentence,
    row_words,
    turned_text,
    words_of,
)

LOOKS_SHOWN = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """How strongly the findings speak; words, band and turned are empty until they are worked
    out."""

    strip: SafeString
    ratio: str
    words: str
    supports: str
    band: str
    turned: str
    posterior: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemShown:
    """One contribution: what it does, why, by which rows, and the ways to what it is of."""

    sentence: str
    does: str
    bar: SafeString
    behind: Behind
    marks: tuple[Lead, ...]
    photographs: tuple[Lead, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AssumedShown:
    """An assumed rate: its words, the value taken here and where its draws lie, who says so and
    why, by what it would have to be wrong, and what the examiner has taken in its place."""

    id: str
    words: str
    used: str
    low: str
    high: str
    basis: str
    reason: str
    turning: str
    stated: StatedRow | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlideShown:
    """The curve of the leading row with the ends of its slider, as numbers that a field shows."""

    row: str
    curve: SafeString
    unit: str
    low: str
    high: str
    used: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ConclusionShown:
    """One conclusion; `key` names it within the page."""

    key: str
    name: str
    first: str
    second: str
    is_against: bool
    has_figure: bool
    is_declared: bool
    told: SafeString
    figures: Figures | None
    items: tuple[ItemShown, ...]
    rest: int
    assumed: tuple[AssumedShown, ...]
    slide: SlideShown | None
    remarks: tuple[str, ...]
    looks: tuple[str, ...]


def conclusions_of(
    matter: Matter, leads: Leads, stated: Mapping[str, StatedRow]
) -> tuple[ConclusionShown, ...]:
    """Every conclusion: what tells against the claim first, what has no figure last."""
    of = _Of(matter, leads, stated)
    weighed = with_remarks(matter.opinion.weighed, matter.opinion, matter.book)
    found = [
        _shown(f"q{number}", each, remarks, of)
        for number, (each, remarks) in enumerate(weighed, start=1)
    ]
    return tuple(sorted(found, key=lambda each: (not each.has_figure, not each.is_against)))


class _Of:
    """What all conclusions of one page are made of; what stands behind a thing is found once."""

    def __init__(self, matter: Matter, leads: Leads, stated: Mapping[str, StatedRow]) -> None:
        self.matter, self.leads, self.stated = matter, leads, stated
        self.looks = tuple(worth_looking(matter.opinion))
        self.behind: Callable[[str, str], Behind] = cache(
            lambda about, kind: behind(about, kind, matter.opinion, matter.book)
        )


def _shown(key: str, weighed: Weighed, remarks: Iterable[str], of: _Of) -> ConclusionShown:
    matter, has_figure = of.matter, weighed.standing.has_figure
    shown, rest = listed_apart(weighed) if has_figure else ([], [])
    vouch = to_vouch_for(weighed, matter.opinion, matter.book)
    looks = looks_about(of.looks, weighed)[:LOOKS_SHOWN]
    return ConclusionShown(
        key=key,
        name=capital(about_words(weighed, matter.names)),
        first=sentence(weighed.pair.first),
        second=sentence(weighed.pair.second),
        is_against=has_figure and favours_of(weighed) is Favours.SECOND,
        has_figure=has_figure,
        is_declared=is_declared(weighed, matter),
        told=drawn(tuple(told_in_full(weighed, matter.opinion, matter.book))),
        figures=_figures(weighed, of) if has_figure else None,
        items=tuple(_item(each, of) for each in shown),
        rest=len(rest),
        assumed=tuple(_assumed(each, of) for each in weighed.leading[:ASSUMPTIONS_SHOWN]),
        slide=_slide(weighed, of),
        remarks=(*vouch, *remarks),
        looks=tuple(
            said("{look}, {minutes}", look=look_name(e, matter.names), minutes=minutes_text(e.cost))
            for e in looks
        ),
    )


def _figures(weighed: Weighed, of: _Of) -> Figures:
    strip = weight_strip(weighed, of.matter.names)
    return Figures(
        strip=figure(strip.svg, strip.caption),
        ratio=lr_text(weighed.log10_lr),
        words=capital(words_of(weighed)),
        supports=capital(supported(weighed, of.matter)),
        band=band_text(weighed),
        turned="" if weighed.turned is None else _turned(weighed),
        posterior=posterior_sentence(weighed),
    )


def band_text(weighed: Weighed) -> str:
    """The band; nothing where it is not worked out."""
    low, high = weighed.log10_lr_low, weighed.log10_lr_high
    if low is None or high is None:
        return ""
    return said("{low} to {high}", low=lr_text(low, Toward.DOWN), high=lr_text(high, Toward.UP))


def _turned(weighed: Weighed) -> str:
    turned = turned_text(weighed.turned or 0)
    return said("{turned} of {draws}", turned=turned, draws=weighed.draws)


def _item(item: Contribution, of: _Of) -> ItemShown:
    return ItemShown(
        sentence=sentence(item.sentence),
        does=step_words(item.log10_lr_change),
        bar=SafeString(bar(item.log10_lr_change)),
        behind=of.behind(item.about, item.kind),
        marks=of.leads.to((item.about,)),
        photographs=of.leads.photographs((item.about,)),
    )


def _assumed(leading: LeadingRow, of: _Of) -> AssumedShown:
    factor = leading.turning_factor
    turning = ""
    if leading.curve:
        turning = (
            said("Wrong by a factor of a hundred in odds, it alone would not turn the answer.")
            if factor is None
            else said(
                "Wrong by a factor of {factor} in odds, it alone would turn the answer.",
                factor=factor_text(factor),
            )
        )
    return assumed_shown(row_of(leading.row), of.matter.case, of.stated, turning)


def assumed_shown(
    row: Assumed, case: Casefile, stated: Mapping[str, StatedRow], turning: str = ""
) -> AssumedShown:
    """An assumed row as this case takes it."""
    used = used_value(row, case)
    low, high = row.ends(used)
    return AssumedShown(
        id=row.id,
        words=capital(row_words(row.id)),
        used=value_text(used),
        low=value_text(low, 2),
        high=value_text(high, 2),
        basis=as_said(row.basis.value),
        reason=sentence(as_said(row.reason)),
        turning=turning,
        stated=stated.get(row.id),
    )


def row_of(row: str) -> Assumed:
    """The assumed row of this id."""
    return next(each for each in assumed_rows() if each.id == row)


def used_value(row: Assumed, case: Casefile) -> float:
    """What a row is taken as in this case."""
    own = {each.row: each.value for each in case.circumstances.overrides}
    return own.get(row.id, row.value)


def _slide(weighed: Weighed, of: _Of) -> SlideShown | None:
    """Curve and slider of the row that leads, where it moves what is printed."""
    leading = next(iter(weighed.leading), None)
    if leading is None or len({lr_text(at.log10_lr) for at in leading.curve}) < 2:
        return None
    curve = assumption_curve(weighed, of.matter.names)
    if curve is None:
        return None
    row = row_of(leading.row)
    values = sorted(at.value for at in leading.curve if at.value > 0)
    return SlideShown(
        row=row.id,
        curve=figure(curve.svg, curve.caption),
        unit=unit_of(row),
        low=as_field(row, values[0]),
        high=as_field(row, values[-1]),
        used=as_field(row, used_value(row, of.matter.case)),
    )


def unit_of(row: Assumed) -> str:
    """In what a field shows the value of a row."""
    return "per cent" if row.is_share else "times"


def as_field(row: Assumed, value: float) -> str:
    """A value as a field shows it: a share in per cent.

    >>> as_field(next(r for r in assumed_rows() if r.is_share), 0.0123)
    '1.23'
    """
    return plain_number(value * 100 if row.is_share else value)
