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


def referral_heading() -> str:
    """The heading above whom to refer to."""
    return said("Where a number looks altered")


def referral_sentences() -> tuple[str, ...]:
    """What a number that looks altered says and does not say, and what is left undone till then."""
    return (
        said(
            "At least one place on this car is noted as disturbed, or a number of the part "
            "that bears its identity is missing, has been removed or differs. This is a "
            "statement about metal and characters. It says nothing about who did anything, "
            "when or why."
        ),
        said(
            "There are honest causes: a service part, a correction at the works, a machined face "
            "cut again during an overhaul, a plate refitted after paint, a number struck again "
            "with an authority’s permission. The owner should be offered the chance to explain and "
            "to show papers, and a reply belongs in this report."
        ),
        said(
            "In most places it is an offence to remove or alter an identification number, "
            "and often to deal in a car or part on which that is known to have been done. "
            "The rules differ from place to place, and applying them is a matter for a "
            "lawyer, not for this report."
        ),
        said(
            "Until advice has been taken: do not clean, repair, refit or remove anything; "
            "keep notes, photographs and papers as they are; confront nobody; publish "
            "nothing; and complete no transfer that depends on the number."
        ),
    )


def referrals() -> tuple[Referral, ...]:
    """Whom each matter belongs to."""
    return tuple(Referral(as_said(w), as_said(m)) for w, m in word_table("referrals").items())
