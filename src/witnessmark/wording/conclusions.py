"""A conclusion in sentences: the pair, the findings under each, the words, the bounds.

The direction is always from a proposition to the findings, never back: "the
findings are about 20 times more probable if … than if …". A posterior stands
last, and only where the examiner has stated prior odds.
"""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, said
from witnessmark.weighing.records import (
    Assumption,
    Conclusion,
    LikelihoodRatio,
    MarkGroup,
    PropositionPair,
    Question,
    Weighing,
)
from witnessmark.weighing.rows import model_rows
from witnessmark.wording.amounts import (
    Toward,
    clause,
    cut_odds_text,
    listed,
    log10_text,
    lr_text,
    odds_text,
    sentence,
    share_text,
    spelled,
    times_text,
)
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.verbal_scale import Favours, verbal_equivalent


@dataclass(frozen=True, slots=True)
class ConclusionText:
    """All that is said about one conclusion; an empty text is not said.

    `lr` and `log10_lr` are the figures, `words` the verbal equivalent with the
    proposition it names, `lr_low` and `lr_high` the bounds widened outward.
    """

    heading: str
    first: str
    second: str
    lr: str
    log10_lr: str
    lr_low: str
    lr_high: str
    words: str
    sentence: str
    bounds: str
    leading: str
    capped: str
    split: str
    rests_on: str
    posterior: str


def conclusion_text(conclusion: Conclusion, weighing: Weighing, names: Names) -> ConclusionText:
    """The sentences of one conclusion of this weighing."""
    lr = conclusion.lr
    leading = conclusion.assumptions[0] if conclusion.assumptions else None
    return ConclusionText(
        heading=heading(conclusion, names),
        first=sentence(conclusion.pair.first),
        second=sentence(conclusion.pair.second),
        lr=lr_text(lr.log10_lr),
        log10_lr=log10_text(lr.log10_lr),
        lr_low=lr_text(lr.log10_lr_low, Toward.DOWN),
        lr_high=lr_text(lr.log10_lr_high, Toward.UP),
        words=verbal_equivalent(lr.log10_lr).phrase(),
        sentence=weight_sentence(conclusion.pair, lr),
        bounds=bounds_sentence(lr),
        leading=leading_sentence(leading) if leading else "",
        capped=capped_sentence(lr),
        split=split_sentence(conclusion),
        rests_on=(
            bearer_sentence(weighing.bearer_odds, weighing.bearer_odds_are_stated)
            if conclusion.rests_on_bearer_odds
            else ""
        ),
        posterior=posterior_sentence(conclusion),
    )


def heading(conclusion: Conclusion, names: Names) -> str:
    """What the conclusion is about, for a headline."""
    question = conclusion.question
    if question is Question.CONFIGURATION:
        return said("Configuration")
    if question is Question.IDENTITY:
        return said("Identity: the {part}", part=names.assembly(conclusion.about))
    if question is Question.ASSEMBLY:
        return said("Assembly: {part}", part=names.assembly(conclusion.about))
    if question is Question.PLATE:
        return said("Plate: {mark}", mark=names.mark(conclusion.about))
    return said("Paper: {mark}", mark=names.mark(conclusion.about))


def weight_sentence(pair: PropositionPair, lr: LikelihoodRatio) -> str:
    """How many times more probable the findings are, and under which proposition."""
    first, second = clause(pair.first), clause(pair.second)
    favours = verbal_equivalent(lr.log10_lr).favours
    if favours is Favours.NEITHER:
        return said(
            "The findings do not support one proposition over the other: they are about as "
            "probable if {first} as under the second proposition ({second}).",
            first=first,
            second=second,
        )
    times = times_text(lr.log10_lr)
    if favours is Favours.FIRST:
        return said(
            "The findings are about {times} times more probable if {first} than under the second "
            "proposition ({second}).",
            times=times,
            first=first,
            second=second,
        )
    return said(
        "The findings are about {times} times more probable under the second proposition "
        "({second}) than if {first}.",
        times=times,
        first=first,
        second=second,
    )


def bounds_sentence(lr: LikelihoodRatio) -> str:
    """How far the ratio moves when all assumed rates are wrong at once, in figures and words."""
    low = lr_text(lr.log10_lr_low, Toward.DOWN)
    high = lr_text(lr.log10_lr_high, Toward.UP)
    low_words = verbal_equivalent(lr.log10_lr_low).phrase()
    high_words = verbal_equivalent(lr.log10_lr_high).phrase()
    if low_words == high_words:
        return said(
            "With every assumed rate wrong by a factor of three in odds, each in its worst "
            "direction, the ratio would lie between {low} and {high}: at both ends {words}.",
            low=low,
            high=high,
            words=low_words,
        )
    return said(
        "With every assumed rate wrong by a factor of three in odds, each in its worst "
        "direction, the ratio would lie between {low} and {high}: from “{low_words}” to "
        "“{high_words}”.",
        low=low,
        high=high,
        low_words=low_words,
        high_words=high_words,
    )


def leading_sentence(assumption: Assumption) -> str:
    """The assumption that carries most, in plain words, and how far it alone moves the ratio."""
    low, high = sorted((assumption.log10_lr_at_low, assumption.log10_lr_at_high))
    return said(
        "Leading assumption: {row}, {share} ({whose}). With it alone wrong by a factor of three "
        "in odds: {low} to {high}.",
        row=row_words(assumption.row),
        share=share_text(assumption.value),
        whose=said("the examiner’s own value") if assumption.overridden else said("assumed"),
        low=lr_text(low, Toward.DOWN),
        high=lr_text(high, Toward.UP),
    )


def row_words(row: str) -> str:
    """An assumed row in plain words, as the model's own table gives them."""
    plain = {each.id: each.plain for each in model_rows()}.get(row, "")
    return clause(as_said(plain)) if plain else plain_name(row.replace(".", " "))


def capped_sentence(lr: LikelihoodRatio) -> str:
    """Says that the ratio met its cap, or nothing."""
    if not lr.is_capped:
        return ""
    return said(
        "The ratio is held at {lr}: about one unforeseen thing in ten thousand is allowed for, "
        "and no more is claimed than that leaves room for.",
        lr=lr_text(lr.log10_lr),
    )


def split_sentence(conclusion: Conclusion) -> str:
    """An assembly's second proposition taken apart: replaced openly, or struck later to pass."""
    parts = []
    if conclusion.replaced is not None:
        replaced = said("the part was replaced without pretence")
        parts.append(_against(replaced, conclusion.replaced))
    if conclusion.struck_later is not None:
        parts.append(_against(said("the characters were struck later"), conclusion.struck_later))
    if not parts:
        return ""
    return said(
        "Taken apart, the second proposition can mean two things: {alternatives}.",
        alternatives="; ".join(parts),
    )


def _against(alternative: str, lr: LikelihoodRatio) -> str:
    """The ratio against one way in which the second proposition can hold."""
    return said(
        "against “{alternative}” the ratio is {lr} ({low} to {high})",
        alternative=alternative,
        lr=lr_text(lr.log10_lr),
        low=lr_text(lr.log10_lr_low, Toward.DOWN),
        high=lr_text(lr.log10_lr_high, Toward.UP),
    )


def bearer_sentence(odds: float, are_stated: bool) -> str:
    """On which odds for the identity bearer another conclusion rests."""
    if are_stated:
        return said(
            "Conclusions other than identity rest on odds of {odds} that the part which bears the "
            "identity is the claimed car’s own (stated by the examiner).",
            odds=odds_text(odds),
        )
    return said(
        "Conclusions other than identity rest on odds of {odds} that the part which bears the "
        "identity is the claimed car’s own (assumed, and inside the bounds).",
        odds=odds_text(odds),
    )


def posterior_sentence(conclusion: Conclusion) -> str:
    """What follows from prior odds that the examiner has stated; else nothing."""
    if conclusion.prior_odds is None or conclusion.posterior_odds is None:
        return ""
    return said(
        "The examiner stated prior odds of {prior} for the first proposition. On these, and only "
        "on these, the posterior odds are {posterior}.",
        prior=odds_text(conclusion.prior_odds),
        posterior=cut_odds_text(conclusion.posterior_odds),
    )


def grouping_sentence(group: MarkGroup, names: Names) -> str:
    """Which marks speak of one car: "These five marks speak of the claimed car: …"."""
    count = len(group.marks)
    marks = listed(tuple(names.mark(mark) for mark in group.marks))
    if group.car == "undecided":
        return spelled(
            "This {count} mark cannot be placed with one car rather than another: {marks}.",
            "These {count} marks cannot be placed with one car rather than another: {marks}.",
            count,
            marks=marks,
        )
    if group.car == "made later":
        return spelled(
            "This {count} mark is most consistent with having been struck or made later: {marks}.",
            "These {count} marks are most consistent with having been struck or made later: "
            "{marks}.",
            count,
            marks=marks,
        )
    if group.car == "never numbered":
        return spelled(
            "This {count} mark is on a part that was never numbered: {marks}.",
            "These {count} marks are on parts never numbered: {marks}.",
            count,
            marks=marks,
        )
    return spelled(
        "This {count} mark speaks of {car}: {marks}.",
        "These {count} marks speak of {car}: {marks}.",
        count,
        car=car_of_group(group.car, names),
        marks=marks,
    )


DONOR_OF = "donor of the "
"""How the weighing names the car that gave an assembly, whose id follows."""


def car_of_group(car: str, names: Names) -> str:
    """The car that a group of marks speaks of, as a sentence names it."""
    if car.startswith(DONOR_OF):
        return said("the donor of the {part}", part=names.assembly(car.removeprefix(DONOR_OF)))
    if car == "claimed car":
        return said("the claimed car")
    if car == "a third car":
        return said("a third car")
    return clause(car)
