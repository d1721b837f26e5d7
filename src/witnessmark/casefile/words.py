"""The words that a case uses for what was seen and how: fixed lists.

They stand apart from the records so that a reading can be decoded without the
case document and all that checks it.
"""

from enum import StrEnum


class SiteState(StrEnum):
    """How an expected site, or one mark of it, ended: five different answers."""

    READ = "read"
    FOUND_ILLEGIBLE = "found and illegible"
    ABSENT = "absent"
    NOT_ACCESSIBLE = "not accessible"
    NOT_LOOKED_FOR = "not looked for"


class Seen(StrEnum):
    """How somebody came to see a mark."""

    IN_PERSON = "in person"
    PHOTOGRAPH = "photograph"
    COPY = "copy"
    TOLD = "told"


class Legibility(StrEnum):
    """How well the characters of a reading can be read as a whole."""

    CLEAR = "clear"
    WORN = "worn"
    POOR = "poor"


class Orientation(StrEnum):
    """Which way up the characters stand."""

    UPRIGHT = "upright"
    UPSIDE_DOWN = "upside down"
    SIDEWAYS = "sideways"
    UNSURE = "unsure"


class LookClass(StrEnum):
    """How the metal around a mark appears."""

    FACTORY = "factory"
    DOUBTFUL = "doubtful"
    DISTURBED = "disturbed"


class PaperState(StrEnum):
    """Where a paper is."""

    IN_HAND = "in hand"
    COPY = "copy"
    AWAITED = "asked for and awaited"
    REFUSED = "refused"
    LOST = "lost"
    NOT_ASKED_FOR = "not asked for"


class AttachmentSeen(StrEnum):
    """Whether the part that should bear a mark is on the car, kept apart, or not there at all."""

    IN_PLACE = "in place"
    DETACHED = "present but detached"
    NO_SUCH_PART = "the car has no such part"


class OriginSaid(StrEnum):
    """Whence a part is said to have come: what was declared before anybody looked."""

    NOT_SAID = ""
    FIRST = "first"
    ANOTHER_CARS = "another car's"
    SUPPLIED_NEW = "supplied new"
    REPLACED = "replaced"


class WorkSaid(StrEnum):
    """What is said to have been done to a part or its mark."""

    NOT_SAID = ""
    SKIMMED = "skimmed"
    STRUCK_OPENLY = "struck openly"
    REMOVED = "removed"
    REPAIRED = "repaired"
    REPAINTED = "repainted"
    REFITTED = "refitted"


class WorkBy(StrEnum):
    """Who is said to have done it."""

    NOT_SAID = ""
    DEALER = "dealer"
    WORKS = "works"
    OFFICE = "office"
    RESTORER = "restorer"
    OWNER = "owner"
