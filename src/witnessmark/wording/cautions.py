"""The usual cautions, and whom to refer to when a number looks altered.

Restated from workshop practice and general safety guidance. Nothing here
instructs anybody to touch a number; nothing here names a person.
"""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, said
from witnessmark.wording.word_tables import word_table


@dataclass(frozen=True, slots=True)
class Caution:
    """A heading and the sentence below it."""

    heading: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Referral:
    """Whom a matter belongs to, and which matter."""

    whom: str
    matter: str


NUMBERS_IN_FULL = word_table("cautions")["Numbers in public"]


def cautions() -> tuple[Caution, ...]:
    """What everybody is told before anything is touched."""
    return tuple(Caution(as_said(h), as_said(s)) for h, s in word_table("cautions").items())


def cautions_at_a_car() -> tuple[Caution, ...]:
    """Those to be minded at a car: all but the one on papers that show numbers in full."""
    return tuple(each for each in cautions() if each.sentence != as_said(NUMBERS_IN_FULL))


def referral_heading() -> str:
    """The heading above whom to refer to."""
    return said("Where a number looks altered")


def referral_sentences() -> tuple[str, ...]:
    """What a number that looks altered says and does not say, and what is left undone till then."""
    return tuple(map(as_said, word_table("altered").values()))


def referrals() -> tuple[Referral, ...]:
    """Whom each matter belongs to."""
    return tuple(Referral(as_said(w), as_said(m)) for w, m in word_table("referrals").items())
