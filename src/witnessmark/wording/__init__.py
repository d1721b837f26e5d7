"""The sentences for people: fixed, in one place.

Formatting only: no probability is computed here.
"""

from witnessmark.day_words import date_text
from witnessmark.wording.amounts import (
    Toward,
    listed,
    lr_text,
    minutes_text,
    moment_text,
    odds_text,
    share_text,
    spelled,
)
from witnessmark.wording.cautions import (
    cautions,
    cautions_at_a_car,
    referral_heading,
    referral_sentences,
    referrals,
)
from witnessmark.wording.conclusions import steadiness_sentence
from witnessmark.wording.limits import (
    fee_statement,
    interest_statement,
    purpose_footer,
    standing_limitations,
)
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.settling import (
    Then,
    again_sentence,
    look_name,
    look_text,
    looks_about,
    misfit_sentence,
    misfits_beside,
    only_look_sentence,
    order_sentence,
    standing_sentence,
    stop_sentence,
    then_words,
)
from witnessmark.wording.sites import paper_sentence, place_sentence
from witnessmark.wording.terms import term
from witnessmark.wording.typing import claim_sentences, typing_sentences
from witnessmark.wording.verbal_scale import (
    Favours,
    scale_sentence,
    shipped_scale,
    verbal_equivalent,
)

__all__ = [
    "Favours",
    "Names",
    "Then",
    "Toward",
    "again_sentence",
    "cautions",
    "cautions_at_a_car",
    "claim_sentences",
    "date_text",
    "fee_statement",
    "interest_statement",
    "listed",
    "look_name",
    "look_text",
    "looks_about",
    "lr_text",
    "minutes_text",
    "misfit_sentence",
    "misfits_beside",
    "moment_text",
    "odds_text",
    "only_look_sentence",
    "order_sentence",
    "paper_sentence",
    "place_sentence",
    "plain_name",
    "purpose_footer",
    "referral_heading",
    "referral_sentences",
    "referrals",
    "scale_sentence",
    "share_text",
    "shipped_scale",
    "spelled",
    "standing_limitations",
    "standing_sentence",
    "steadiness_sentence",
    "stop_sentence",
    "term",
    "then_words",
    "typing_sentences",
    "verbal_equivalent",
]
