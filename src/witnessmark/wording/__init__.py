"""The sentences for people: fixed, in one place, with what is never said.

Formatting only: no probability is computed here.
"""

from witnessmark.wording.amounts import (
    Toward,
    bits_text,
    count_text,
    date_text,
    listed,
    log10_text,
    lr_text,
    minutes_text,
    moment_text,
    number_text,
    odds_text,
    share_text,
    spelled,
)
from witnessmark.wording.cautions import (
    CAUTIONS,
    REFERRAL_HEADING,
    REFERRAL_SENTENCES,
    REFERRALS,
    Caution,
    Referral,
    cautions,
    referral_heading,
    referral_sentences,
    referrals,
)
from witnessmark.wording.conclusions import ConclusionText, conclusion_text, grouping_sentence
from witnessmark.wording.limits import (
    INTEREST_STATEMENT,
    PURPOSE_FOOTER,
    STANDING_LIMITATIONS,
    interest_statement,
    purpose_footer,
    standing_limitations,
)
from witnessmark.wording.names import Names, plain_name
from witnessmark.wording.never import NeverSaid, never_said
from witnessmark.wording.settling import (
    NextLookText,
    SettlingText,
    best_set_sentence,
    next_look_text,
    odds_sentence,
    settling_texts,
    standing_in_short,
    standing_sentence,
)
from witnessmark.wording.sites import paper_sentence, site_sentence, unseen_sentence
from witnessmark.wording.terms import term
from witnessmark.wording.typing import typing_sentences
from witnessmark.wording.verbal_scale import (
    Favours,
    VerbalEquivalent,
    VerbalScale,
    scale_sentence,
    shipped_scale,
    verbal_equivalent,
)

__all__ = [
    "CAUTIONS",
    "INTEREST_STATEMENT",
    "PURPOSE_FOOTER",
    "REFERRALS",
    "REFERRAL_HEADING",
    "REFERRAL_SENTENCES",
    "STANDING_LIMITATIONS",
    "Caution",
    "ConclusionText",
    "Favours",
    "Names",
    "NeverSaid",
    "NextLookText",
    "Referral",
    "SettlingText",
    "Toward",
    "VerbalEquivalent",
    "VerbalScale",
    "best_set_sentence",
    "bits_text",
    "cautions",
    "conclusion_text",
    "count_text",
    "date_text",
    "grouping_sentence",
    "interest_statement",
    "listed",
    "log10_text",
    "lr_text",
    "minutes_text",
    "moment_text",
    "never_said",
    "next_look_text",
    "number_text",
    "odds_sentence",
    "odds_text",
    "paper_sentence",
    "plain_name",
    "purpose_footer",
    "referral_heading",
    "referral_sentences",
    "referrals",
    "scale_sentence",
    "settling_texts",
    "share_text",
    "shipped_scale",
    "site_sentence",
    "spelled",
    "standing_in_short",
    "standing_limitations",
    "standing_sentence",
    "term",
    "typing_sentences",
    "unseen_sentence",
    "verbal_equivalent",
]
