"""Whence pieces came, what was done to them, and what they then show: the closed lists."""

from enum import StrEnum


class Origin(StrEnum):
    """Whence a piece came; `OTHER` and `JOINED` of the structure alone."""

    FIRST = "first"
    SUITED = "suited"
    DONOR = "donor"
    OTHER_CAR = "other car"
    SERVICE = "service"
    LATER = "later"
    OTHER = "other"
    JOINED = "joined"


class Hand(StrEnum):
    """What was done to what is struck on it; `STRUCK`, `MENDED` and `LET_IN` of the structure
    alone."""

    MADE = "made"
    OPENLY = "struck openly"
    TO_PASS = "struck to pass"
    NUMBER_ALONE = "number struck"
    REMOVED = "removed"
    STRUCK = "struck"
    MENDED = "mended"
    LET_IN = "let in"


class Shows(StrEnum):
    """Whose record a surface shows: the claimed car's as made; the other car's; that of the
    core's own further car; some third one's; the claimed one's struck later; what stands on the
    core, copied; none; what was taken off."""

    OWN = "own"
    OTHER = "other"
    FURTHER = "further"
    ALONE = "alone"
    STRUCK = "struck"
    COPY = "copy"
    BLANK = "blank"
    GONE = "gone"


class Look(StrEnum):
    """How a surface came to look as it does: as made; struck again, by a crude hand or a skilled
    one; struck anew by the works; moved; put back on; joined; ground or skimmed."""

    MADE = "made"
    STRUCK = "struck"
    CRUDE = "crude"
    SKILLED = "skilled"
    WORKS = "works"
    MOVED = "moved"
    REFITTED = "refitted"
    JOINED = "joined"
    REMOVED = "removed"
