"""The conclusions of an Opinion as it was kept, in the first way of weighing or the present one."""

from dataclasses import asdict, dataclass
from typing import Annotated, Any

from pydantic import Field, TypeAdapter

from witnessmark.weighing import Asked, Conclusion, Pair, Steady, Weighed

MOST_LOG10 = 400.0
"""More than any ratio that was ever summed."""
Log10 = Annotated[float, Field(allow_inf_nan=False, ge=-MOST_LOG10, le=MOST_LOG10)]

ASKED_NOW = {"assembly": Asked.CORE.value}
"""A question of the first way by its present name; the car as claimed is now asked item by item
and keeps the name that it had."""


@dataclass(frozen=True, slots=True)
class IssuedConclusion:
    """One conclusion as it was issued: its ratio, its band (the bounds, in the first way of
    weighing), and what its word rests on; None where it had none."""

    question: str
    about: str
    pair: Pair
    log10_lr: float
    log10_lr_low: float | None
    log10_lr_high: float | None
    word_log10_lr: float | None
    standing: str


@dataclass(frozen=True, slots=True)
class _FirstRatio:
    log10_lr: Log10
    log10_lr_low: Log10
    log10_lr_high: Log10


@dataclass(frozen=True, slots=True)
class _FirstConclusion:
    question: str
    about: str
    pair: Pair
    lr: _FirstRatio
    standing: str


@dataclass(frozen=True, slots=True)
class _FirstWeighing:
    conclusions: tuple[_FirstConclusion, ...]


@dataclass(frozen=True, slots=True)
class _First:
    weighing: _FirstWeighing


@dataclass(frozen=True, slots=True)
class _KeptConclusion:
    question: Asked
    about: str
    pair: Pair
    log10_lr: Log10
    is_examined: bool
    can_be_told: bool | None = None  # not kept at first: then so of an item whose ratio is 1

    @property
    def could_be_told(self) -> bool:
        if self.can_be_told is not None:
            return self.can_be_told
        return self.question is not Asked.ITEM or self.log10_lr != 0.0


@dataclass(frozen=True, slots=True)
class _KeptAnswer:
    conclusions: tuple[_KeptConclusion, ...]


@dataclass(frozen=True, slots=True)
class _KeptSteady:
    question: Asked
    about: str
    log10_lr: Log10
    log10_lr_low: Log10
    log10_lr_high: Log10
    turned: int


@dataclass(frozen=True, slots=True)
class _KeptSteadiness:
    draws: int
    answers: tuple[_KeptSteady, ...]


@dataclass(frozen=True, slots=True)
class _KeptOpinion:
    answer: _KeptAnswer
    steadiness: _KeptSteadiness | None


def kept_conclusions(document: dict[str, Any]) -> tuple[IssuedConclusion, ...]:
    """The conclusions in a kept Opinion. Raises pydantic's ValidationError."""
    if document.get("format_version") in (1, 2):
        first = TypeAdapter(_First).validate_python(document)
        return tuple(map(_of_first_way, first.weighing.conclusions))
    kept = TypeAdapter(_KeptOpinion).validate_python(document)
    steady = () if kept.steadiness is None else kept.steadiness.answers
    bands = {(each.question, each.about): Steady(**asdict(each), leading=()) for each in steady}
    return tuple(
        as_issued(
            Weighed(
                Conclusion(
                    question=c.question,
                    about=c.about,
                    pair=c.pair,
                    log10_lr=c.log10_lr,
                    is_examined=c.is_examined,
                    can_be_told=c.could_be_told,
                ),
                bands.get((c.question, c.about)),
            )
        )
        for c in kept.answer.conclusions
    )


def _of_first_way(kept: _FirstConclusion) -> IssuedConclusion:
    question = ASKED_NOW.get(kept.question, kept.question)
    lr = kept.lr
    return IssuedConclusion(
        question,
        kept.about,
        kept.pair,
        lr.log10_lr,
        lr.log10_lr_low,
        lr.log10_lr_high,
        lr.log10_lr,
        kept.standing,
    )


def as_issued(weighed: Weighed) -> IssuedConclusion:
    """A conclusion as it is issued."""
    return IssuedConclusion(
        weighed.question.value,
        weighed.about,
        weighed.pair,
        weighed.log10_lr,
        weighed.log10_lr_low,
        weighed.log10_lr_high,
        weighed.word_log10_lr,
        weighed.standing.value,
    )
