"""Who noted something, when, and how it was seen."""

from datetime import datetime

from witnessmark.casefile.records import Seen
from witnessmark.catalogue import said
from witnessmark.wording import moment_text
from witnessmark.wording.amounts import clause


def seen_by(seen: Seen, by: str, when: datetime | None) -> str:
    """Who noted something, when, and how it was seen if not in person."""
    who = clause(by)
    day = moment_text(when) if when else ""
    parts = (who if seen is not Seen.TOLD else "", day)
    noted = ", ".join(part for part in parts if part)
    return "; ".join(part for part in (unseen_way(seen, who), noted) if part)


def unseen_way(seen: Seen, who: str = "") -> str:
    """How something was seen where it was not in person; nothing where it was."""
    match seen:
        case Seen.IN_PERSON:
            return ""
        case Seen.PHOTOGRAPH:
            return said("from a photograph, not from the thing itself")
        case Seen.COPY:
            return said("from a copy, not from the paper itself")
        case Seen.TOLD if who:
            return said("told to {name}, not seen", name=who)
        case Seen.TOLD:
            return said("told, not seen")
