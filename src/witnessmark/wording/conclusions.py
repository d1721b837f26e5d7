"""A conclusion in sentences: the pair, the findings under each, the words, the bounds.

The direction is always from a proposition to the findings, never back: "the
findings are about 20 times more probable if … than if …". A posterior stands
last, and only where the examiner has stated prior odds.
"""

from dataclasses import dataclass

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
    capital,
    clause,
    count_text,
    cut_odds_text,
    listed,
    log10_text,
    lr_text,
    odds_text,
    sentence,
    share_text,
    times_text,
)
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.verbal_scale import Favours, verbal_equivalent

FACTOR_OF_BOUNDS = "a factor of three in odds"


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
        return "Configuration"
    if question is Question.IDENTITY:
        return f"Identity: the {names.assembly(conclusion.about)}"
    if question is Question.ASSEMBLY:
        return f"Assembly: {names.assembly(conclusion.about)}"
    return f"{capital(question.value)}: {names.mark(conclusion.about)}"


def weight_sentence(pair: PropositionPair, lr: LikelihoodRatio) -> str:
    """How many times more probable the findings are, and under which proposition."""
    first, second = clause(pair.first), clause(pair.second)
    favours = verbal_equivalent(lr.log10_lr).favours
    if favours is Favours.NEITHER:
        return (
            "The findings do not support one proposition over the other: they are about "
            f"as probable if {first} as under the second proposition ({second})."
        )
    times = times_text(lr.log10_lr)
    if favours is Favours.FIRST:
        return (
            f"The findings are about {times} times more probable if {first} "
            f"than under the second proposition ({second})."
        )
    return (
        f"The findings are about {times} times more probable under the second proposition "
        f"({second}) than if {first}."
    )


def bounds_sentence(lr: LikelihoodRatio) -> str:
    """How far the ratio moves when all assumed rates are wrong at once, in figures and words."""
    low = lr_text(lr.log10_lr_low, Toward.DOWN)
    high = lr_text(lr.log10_lr_high, Toward.UP)
    low_words = verbal_equivalent(lr.log10_lr_low).phrase()
    high_words = verbal_equivalent(lr.log10_lr_high).phrase()
    words = (
        f"at both ends {low_words}"
        if low_words == high_words
        else f"from “{low_words}” to “{high_words}”"
    )
    return (
        f"With every assumed rate wrong by {FACTOR_OF_BOUNDS}, each in its worst direction, the "
        f"ratio would lie between {low} and {high}: {words}."
    )


def leading_sentence(assumption: Assumption) -> str:
    """The assumption that carries most, in plain words, and how far it alone moves the ratio."""
    whose = "the examiner’s own value" if assumption.overridden else "assumed"
    plain = row_words(assumption.row)
    low, high = sorted((assumption.log10_lr_at_low, assumption.log10_lr_at_high))
    return (
        f"Leading assumption: {plain}, {share_text(assumption.value)} ({whose}). With it alone "
        f"wrong by {FACTOR_OF_BOUNDS}: {lr_text(low, Toward.DOWN)} to {lr_text(high, Toward.UP)}."
    )


def row_words(row: str) -> str:
    """An assumed row in plain words, as the model's own table gives them."""
    plain = {each.id: each.plain for each in model_rows()}.get(row, "")
    return clause(plain) or plain_name(row.replace(".", " "))


def capped_sentence(lr: LikelihoodRatio) -> str:
    """Says that the ratio met its cap, or nothing."""
    if not lr.is_capped:
        return ""
    return (
        f"The ratio is held at {lr_text(lr.log10_lr)}: about one unforeseen thing in ten "
        "thousand is allowed for, and no more is claimed than that leaves room for."
    )


def split_sentence(conclusion: Conclusion) -> str:
    """An assembly's second proposition taken apart: replaced openly, or struck later to pass."""
    parts = []
    if conclusion.replaced is not None:
        parts.append(_against("the part was replaced without pretence", conclusion.replaced))
    if conclusion.struck_later is not None:
        parts.append(_against("the characters were struck later", conclusion.struck_later))
    if not parts:
        return ""
    return sentence(f"taken apart, the second proposition can mean two things: {'; '.join(parts)}")


def _against(alternative: str, lr: LikelihoodRatio) -> str:
    """The ratio against one way in which the second proposition can hold."""
    low = lr_text(lr.log10_lr_low, Toward.DOWN)
    high = lr_text(lr.log10_lr_high, Toward.UP)
    return f"against “{alternative}” the ratio is {lr_text(lr.log10_lr)} ({low} to {high})"


def bearer_sentence(odds: float, are_stated: bool) -> str:
    """On which odds for the identity bearer another conclusion rests."""
    whose = "stated by the examiner" if are_stated else "assumed, and inside the bounds"
    return (
        f"Conclusions other than identity rest on odds of {odds_text(odds)} that the part which "
        f"bears the identity is the claimed car’s own ({whose})."
    )


def posterior_sentence(conclusion: Conclusion) -> str:
    """What follows from prior odds that the examiner has stated; else nothing."""
    if conclusion.prior_odds is None or conclusion.posterior_odds is None:
        return ""
    return (
        f"The examiner stated prior odds of {odds_text(conclusion.prior_odds)} for the first "
        "proposition. On these, and only on these, the posterior odds are "
        f"{cut_odds_text(conclusion.posterior_odds)}."
    )


def grouping_sentence(group: MarkGroup, names: Names) -> str:
    """Which marks speak of one car: "These five marks speak of the claimed car: …"."""
    marks = tuple(names.mark(mark) for mark in group.marks)
    one = len(marks) == 1
    these = "This one mark" if one else f"These {count_text(len(marks), 'mark')}"
    told = GROUPS_THAT_NAME_NO_CAR.get(group.car)
    if told is None:
        car = clause(group.car)
        if not car.startswith(("a ", "an ", "the ")):
            car = f"the {car}"
        told = ("speaks of " if one else "speak of ") + car, ""
    verb = told[0] if one or not told[1] else told[1]
    return f"{these} {verb}: {listed(marks)}."


GROUPS_THAT_NAME_NO_CAR = {
    "undecided": (
        "cannot be placed with one car rather than another",
        "cannot be placed with one car rather than another",
    ),
    "made later": (
        "is most consistent with having been struck or made later",
        "are most consistent with having been struck or made later",
    ),
    "never numbered": ("is on a part that was never numbered", "are on parts never numbered"),
}
"""Groups of marks that are not the marks of one car: said of one mark, and of several."""
