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
    odds_text,
    share_text,
)
from witnessmark.wording.cautions import (
    CAUTIONS,
    REFERRAL_HEADING,
    REFERRAL_SENTENCES,
    REFERRALS,
    Caution,
    Referral,
)
from witnessmark.wording.conclusions import ConclusionText, conclusion_text, grouping_sentence
from witnessmark.wording.limits import INTEREST_STATEMENT, PURPOSE_FOOTER, STANDING_LIMITATIONS
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
    "conclusion_text",
    "count_text",
    "date_text",
    "grouping_sentence",
    "listed",
    "log10_text",
    "lr_text",
    "minutes_text",
    "moment_text",
    "never_said",
    "next_look_text",
    "odds_sentence",
    "odds_text",
    "paper_sentence",
    "plain_name",
    "scale_sentence",
    "settling_texts",
    "share_text",
    "shipped_scale",
    "site_sentence",
    "standing_in_short",
    "standing_sentence",
    "unseen_sentence",
    "verbal_equivalent",
]
