"""The words that a case uses for what was seen and how: fixed lists.

They stand apart from the records so that a reading can be decoded without the
case document and all that checks it.
"""

from enum import StrEnum
from typing import ClassVar, Self


class CaseWord(StrEnum):
    """A word of such a list: `noun` is what it is called, `says` what it says, in one sentence,
    where that needs saying."""

    _value_: str
    says: str
    noun: ClassVar[str]

    def __new__(cls, value: str, says: str = "") -> Self:
        """The word, and what it says."""
        word = str.__new__(cls, value)
        word._value_, word.says = value, says
        return word

    def __init_subclass__(cls, noun: str) -> None:
        """A list whose words have this noun."""
        cls.noun = noun


class SiteState(CaseWord, noun="a site state"):
    """How an expected site, or one mark of it, ended: five different answers."""

    READ = "read", "Somebody looked and read what stands there."
    FOUND_ILLEGIBLE = "found and illegible", "A mark was found there and cannot be read."
    ABSENT = "absent", "Somebody looked and nothing is there."
    NOT_ACCESSIBLE = "not accessible", "The place could not be reached."
    NOT_LOOKED_FOR = "not looked for", "Nobody looked."


class Seen(CaseWord, noun="a way of having seen something"):
    """How somebody came to see a mark."""

    IN_PERSON = "in person"
    PHOTOGRAPH = "photograph"
    COPY = "copy"
    TOLD = "told"


class Legibility(CaseWord, noun="a legibility"):
    """How well the characters of a reading can be read as a whole."""

    CLEAR = "clear"
    WORN = "worn"
    POOR = "poor"


class Orientation(CaseWord, noun="an orientation"):
    """Which way up the characters stand."""

    UPRIGHT = "upright"
    UPSIDE_DOWN = "upside down"
    SIDEWAYS = "sideways"
    UNSURE = "unsure"


class LookClass(CaseWord, noun="a look"):
    """How the metal around a mark appears."""

    FACTORY = "factory"
    DOUBTFUL = "doubtful"
    DISTURBED = "disturbed"


class PaperState(CaseWord, noun="a paper state"):
    """Where a paper is."""

    IN_HAND = "in hand"
    COPY = "copy"
    AWAITED = "asked for and awaited"
    REFUSED = "refused"
    LOST = "lost"
    NOT_ASKED_FOR = "not asked for"


class PaperKind(CaseWord, noun="a kind of paper"):
    """What a paper is that the book does not list."""

    OF_THE_BOOK = "", "The book lists it."
    ARCHIVE_LETTER = "archive letter", "An archive or the maker answers what its records say."
    REPAIR_ORDER = "repair order", "A workshop or dealer wrote down work on the car."
    SHIPPING_RECORD = "shipping record", "A carrier, port or customs office wrote down the car."
    DATED_PHOTOGRAPH = "dated photograph", "A picture of the car whose date is known."
    AFFIDAVIT = "affidavit", "Somebody swears to what he or she knows of the car."
    EARLIER_REPORT = "earlier report", "Somebody examined the car before."
    OTHER = "other paper", "Any other paper; its name says what it is."


class AttachmentSeen(CaseWord, noun="a way for a part to be there"):
    """Whether the part that should bear a mark is on the car, kept apart, or not there at all."""

    IN_PLACE = "in place"
    DETACHED = "present but detached"
    NO_SUCH_PART = "the car has no such part"


class OriginSaid(CaseWord, noun="an origin that can be declared"):
    """Whence a part is said to have come: what was declared before anybody looked."""

    NOT_SAID = "", "Nothing was said of where it comes from."
    FIRST = "first", "It was on the car when the car was complete."
    ANOTHER_CARS = "another car's", "It came from another car."
    SUPPLIED_NEW = "supplied new", "It was supplied new as a service or exchange part."
    REPLACED = "replaced", "It is not the original one, and nobody said where it came from."
    MADE_LATER = "made later", "It was made later to stand for the first one: a reproduction."


class WorkSaid(CaseWord, noun="work that can be declared"):
    """What is said to have been done to a part or its mark."""

    NOT_SAID = "", "Nothing was said of work on it."
    SKIMMED = "skimmed", "Its face was machined in a rebuild, and the marks with it."
    STRUCK_OPENLY = "struck openly", "Characters were struck on it in service, and not hidden."
    REMOVED = "removed", "Its characters were ground off or otherwise taken away."
    REPAIRED = "repaired", "The metal that bears the mark was repaired."
    REPAINTED = "repainted", "The place was painted again."
    REFITTED = "refitted", "The part or plate was taken off and put back."


class WorkBy(CaseWord, noun="one who can have done work"):
    """Who is said to have done it."""

    NOT_SAID = "", "Nothing was said of who did it."
    DEALER = "dealer", "A dealer of the maker did it."
    WORKS = "works", "The maker's own works did it."
    OFFICE = "office", "A licensing office or other authority did it or had it done."
    RESTORER = "restorer", "A restorer or repairer did it."
    OWNER = "owner", "An owner did it."


class SumKind(CaseWord, noun="a kind of sum"):
    """What a sum that was named is: each says something else about a car."""

    NOT_SAID = "", "Nobody said what kind of sum it is."
    ASKED = "asking price", "The seller or the seller's agent asks it."
    OFFERED = "offer", "Somebody offered it."
    PAID = "paid", "A buyer paid it; fees and premium are counted apart."
    HAMMER = "hammer price", "The hammer fell at it; the premium is not counted."
    INSURED = "insured value", "A policy states it or agrees on it."
    ESTIMATED = "estimate", "A licensed appraiser, an auction house or someone else estimated it."
    WORK = "cost of work", "Work on the car cost it, or is quoted at it."
