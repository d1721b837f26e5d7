"""The usual cautions, and whom to refer to when a number looks altered.

Restated from workshop practice and general safety guidance. Nothing here
instructs anybody to touch a number; nothing here names a person.
"""

from dataclasses import dataclass

from witnessmark.catalogue import as_said, marked, said


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


NUMBERS_IN_FULL = marked(
    "This report shows numbers in full and is meant for its intended users. Before any of "
    "it is shown to others, mask the same characters in the text and in the pictures."
)

_CAUTIONS: tuple[Caution, ...] = (
    Caution(
        marked("Lifting"),
        marked(
            "Nobody goes under a car that stands on a jack alone: firm level ground, chocks, rated "
            "stands, eye protection and a second person present."
        ),
    ),
    Caution(
        marked("Fuel and battery"),
        marked(
            "No lamp that can spark and no mains lead near the tank, the fuel lines or the "
            "carburettors; the battery is isolated before anything is probed behind a "
            "panel; the engine is cold and the keys are out."
        ),
    ),
    Caution(
        marked("Asbestos"),
        marked(
            "Brake and clutch dust, gaskets, bonnet linings and some undercoatings can "
            "contain asbestos: never blow or brush the dust; wipe it wet or use a vacuum "
            "cleaner of the right class, and wear a mask."
        ),
    ),
    Caution(
        marked("Lead"),
        marked(
            "Old paint, body solder and filler can contain lead: do not sand, scrape or "
            "heat them to see better, and wash before eating."
        ),
    ),
    Caution(
        marked("Evidence"),
        marked(
            "No number, plate or rivet is abraded, brushed, polished, scraped, etched, heated, "
            "loosened, bent or removed for an inspection. Photograph first; wipe with a solvent "
            "only with the owner’s written consent and with photographs before and after. Etching "
            "belongs to a laboratory."
        ),
    ),
    Caution(
        marked("Numbers in public"),
        NUMBERS_IN_FULL,
    ),
)


def cautions() -> tuple[Caution, ...]:
    """What everybody is told before anything is touched."""
    return tuple(Caution(as_said(each.heading), as_said(each.sentence)) for each in _CAUTIONS)


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
    return (
        Referral(
            said("A lawyer at the car’s location"),
            said("what the local law requires, and what may be said"),
        ),
        Referral(
            said("The police"),
            said("any question of theft or of an offence; their own examiner may look"),
        ),
        Referral(
            said("The title or registration authority"),
            said(
                "what number the car should bear in law, and an assigned number where one is needed"
            ),
        ),
        Referral(
            said("A licensed appraiser"), said("what the car is worth under each proposition")
        ),
        Referral(
            said("A forensic laboratory"),
            said("whether earlier characters can be made visible; never to be tried in a workshop"),
        ),
    )
