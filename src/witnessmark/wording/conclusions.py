"""A conclusion in sentences: the pair, the findings under each, the words, the band.

The direction is always from a proposition to the findings, never back: "the
findings are about 20 times more probable if … than if …". A word stands only
where a band does, and says what the weaker of the two says. A posterior stands
last, and only where the examiner has stated prior odds.
"""

from witnessmark.catalogue import as_said, said
from witnessmark.weighing import (
    FEWEST_TURNED,
    Asked,
    Conclusion,
    LeadingRow,
    Pair,
    Standing,
    Weighed,
    assumed_rows,
    capped,
)
from witnessmark.wording.amounts import (
    Toward,
    clause,
    cut_odds_text,
    figures_text,
    lr_text,
    odds_text,
    times_text,
)
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.verbal_scale import Favours, verbal_equivalent
from witnessmark.wording.word_tables import word_table

LEAST_SHARE = 0.05
WAYS_TOLD = 3
"""Ways in which the second proposition may be true are told down to this share of it, and so
many."""


def heading(weighed: Weighed, names: Names) -> str:
    """What the conclusion is about, for a headline."""
    return heading_of(weighed.question, weighed.about, names)


def heading_of(question: Asked, about: str, names: Names) -> str:
    """The same by the kind of question and what it is about."""
    match question:
        case Asked.IDENTITY:
            return said("Identity: the {part}", part=names.assembly(about))
        case Asked.CORE:
            return said("Assembly: {part}", part=names.piece(about))
        case Asked.STAMP:
            return said("What is struck on it: {part}", part=names.piece(about))
        case Asked.PLATE:
            return said("Plate: {mark}", mark=names.piece(about))
        case Asked.PAPER:
            return said("Paper: {mark}", mark=names.piece(about))
        case Asked.ITEM:
            return said("Configuration: {item}", item=names.item(about))


def about_words(conclusion: Conclusion | Weighed, names: Names) -> str:
    """What a conclusion is about, in the few words of a row."""
    match conclusion.question:
        case Asked.IDENTITY:
            return said("identity: {part}", part=names.assembly(conclusion.about))
        case Asked.STAMP:
            return said("stamping on the {part}", part=names.piece(conclusion.about))
        case Asked.ITEM:
            return names.item(conclusion.about)
        case _:
            return names.piece(conclusion.about)


def words_of(weighed: Weighed) -> str:
    """The word that the figure may bear: none without a band; of what nobody looked at, that."""
    if not weighed.standing.has_figure:
        return as_said(weighed.standing.value)
    if weighed.word_log10_lr is None:
        return ""
    return verbal_equivalent(weighed.word_log10_lr).phrase()


def favours_of(weighed: Weighed) -> Favours:
    """Which proposition a page may say that the findings support: by the weaker of ratio and
    band."""
    return verbal_equivalent(weighed.weaker_log10_lr).favours


def weight_sentence(weighed: Weighed) -> str:
    """How many times more probable the findings are, and under which proposition."""
    if weighed.standing is Standing.NOT_EXAMINED:
        return said("Not examined: nothing was noted about this part, and nothing is concluded.")
    if weighed.standing is Standing.CANNOT_BE_ESTABLISHED:
        return said(
            "This cannot be established: nothing that was examined could have shown otherwise."
        )
    return weight_in_words(weighed.pair, weighed.log10_lr)


def weight_in_words(pair: Pair, log10_lr: float) -> str:
    """The same for any pair and ratio."""
    first, second = clause(pair.first), clause(pair.second)
    favours = verbal_equivalent(log10_lr).favours
    if favours is Favours.NEITHER:
        return said(
            "The findings do not support one proposition over the other: they are about as "
            "probable if {first} as under the second proposition ({second}).",
            first=first,
            second=second,
        )
    times = times_text(log10_lr)
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


def band_sentence(weighed: Weighed) -> str:
    """Where nine draws of ten lay, and in how many the answer pointed the other way."""
    if weighed.log10_lr_low is None or weighed.log10_lr_high is None or weighed.turned is None:
        return ""
    return said(
        "Over {draws} draws of all assumed rates, nine answers in ten lay between {low} "
        "and {high}; {turned} pointed the other way.",
        draws=weighed.draws,
        low=lr_text(weighed.log10_lr_low, Toward.DOWN),
        high=lr_text(weighed.log10_lr_high, Toward.UP),
        turned=turned_text(weighed.turned),
    )


def turned_text(turned: int) -> str:
    """In how many draws; never that there was none.

    >>> turned_text(0), turned_text(33)
    ('fewer than 5', '33')
    """
    if turned < FEWEST_TURNED:
        return said("fewer than {number}", number=FEWEST_TURNED)
    return str(turned)


def steadiness_sentence(draws: int) -> str:
    """What a band is and what it is not, said once on a page."""
    return said(
        "We varied all our assumed rates together, each within about a factor of three, "
        "{draws} times: a band is where nine answers in ten lay. It shows how far an "
        "answer rests on our assumptions. It is not the chance that the answer is wrong, "
        "and does not cover faults in the model or in the book. The words are those of the "
        "ratio or of the band’s end nearer 1, whichever is weaker.",
        draws=draws,
    )


def leading_sentence(leading: LeadingRow) -> str:
    """The assumed rate that moves the answer most, and by what it would have to be wrong for
    the answer to turn."""
    row = row_words(leading.row)
    if leading.turning_factor is None:
        return said(
            "It rests most on one assumed rate: {row}. Wrong by a factor of a hundred in odds "
            "either way, this alone would not turn the answer.",
            row=row,
        )
    return said(
        "It rests most on one assumed rate: {row}. Wrong by a factor of {factor} in odds, this "
        "alone would turn the answer.",
        row=row,
        factor=factor_text(leading.turning_factor),
    )


def factor_text(factor: float) -> str:
    """By how much a rate is wrong, whichever way, in two figures.

    >>> factor_text(0.25), factor_text(9.01), factor_text(99.9)
    ('4', '9', '100')
    """
    return figures_text(max(factor, 1.0 / factor), 2)


def row_words(row: str) -> str:
    """An assumed row in plain words, as the model's own table gives them."""
    plain = {each.id: each.plain for each in assumed_rows()}.get(row, "")
    return clause(as_said(plain)) if plain else plain_name(row.replace(".", " "))


def capped_sentence(weighed: Weighed) -> str:
    """Says that the ratio met its cap, or nothing."""
    if not weighed.is_capped:
        return ""
    return said(
        "The ratio is capped at {lr}: it allows for something unforeseen about once in ten "
        "thousand times, and no more is claimed than that leaves room for.",
        lr=lr_text(weighed.log10_lr),
    )


def split_sentence(weighed: Weighed) -> str:
    """The second proposition taken apart into the ways in which it can be true."""
    told = [way for way in weighed.ways if way.share >= LEAST_SHARE][:WAYS_TOLD]
    if len(weighed.ways) < 2 or not told:
        return ""
    ratios = [lr_text(capped(way.log10_lr)) for way in told]
    if set(ratios) == {lr_text(weighed.log10_lr)}:
        return ""
    parts = (
        said("against “{alternative}” the ratio is {lr}", alternative=way_words(way.name), lr=lr)
        for way, lr in zip(told, ratios, strict=True)
    )
    return said(
        "Broken down by how it could be otherwise: {alternatives}.",
        alternatives="; ".join(parts),
    )


def posterior_sentence(weighed: Weighed) -> str:
    """What follows from prior odds that the examiner has stated; else nothing."""
    if weighed.prior_odds is None or weighed.posterior_odds is None:
        return ""
    return said(
        "The examiner stated prior odds of {prior} for the first proposition. On these, and only "
        "on these, the posterior odds are {posterior}.",
        prior=odds_text(weighed.prior_odds),
        posterior=cut_odds_text(weighed.posterior_odds),
    )


WAY_WORDS = word_table("way_words")


def way_words(way: str) -> str:
    """A way as a sentence names it; origin and hand are joined.

    >>> way_words("service, struck openly")
    'supplied new in service, struck in service'
    >>> way_words("donor, made")
    'from another car'
    """
    origin, _, hand = way.partition(", ")
    told = [_words(origin)]
    if hand and hand != "made":
        told.append(_words(hand))
    return ", ".join(told)


def _words(name: str) -> str:
    return as_said(WAY_WORDS[name]) if name in WAY_WORDS else plain_name(name)
