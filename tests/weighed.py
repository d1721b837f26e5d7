"""Conclusions moved for a test: another ratio, another band, other contributions."""

from dataclasses import replace
from typing import Any

from witnessmark.examination import Opinion
from witnessmark.weighing import Steadiness, Weighed


def with_lr(weighed: Weighed, log10_lr: float, band: tuple[float, float] | None = None) -> Weighed:
    """The conclusion with another ratio; its band is that ratio alone where none is given."""
    low, high = band or (log10_lr, log10_lr)
    steady = weighed.steady
    if steady is not None:
        steady = replace(steady, log10_lr=log10_lr, log10_lr_low=low, log10_lr_high=high)
    return replace(
        weighed, conclusion=replace(weighed.conclusion, log10_lr=log10_lr), steady=steady
    )


def with_more(weighed: Weighed, **more: Any) -> Weighed:
    """The conclusion with other fields, its steadiness about the same question."""
    conclusion = replace(weighed.conclusion, **more)
    named = {"question": conclusion.question, "about": conclusion.about}
    steady = weighed.steady
    return replace(
        weighed,
        conclusion=conclusion,
        steady=None if steady is None else replace(steady, **named),
    )


def with_conclusions(opinion: Opinion, *weighed: Weighed) -> Opinion:
    """The Opinion with these conclusions and no other."""
    draws = 512 if opinion.steadiness is None else opinion.steadiness.draws
    answers = tuple(each.steady for each in weighed if each.steady is not None)
    return replace(
        opinion,
        answer=replace(opinion.answer, conclusions=tuple(each.conclusion for each in weighed)),
        steadiness=Steadiness(draws, answers) if answers else None,
    )
