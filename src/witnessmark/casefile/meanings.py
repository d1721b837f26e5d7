"""What each field of a case means, in one line: for the schema and for problems.

Keyed by record and field; a test keeps it complete.
"""

from enum import StrEnum
from types import MappingProxyType

from witnessmark.casefile.words import OriginSaid, SiteState, WorkBy, WorkSaid

_SEEN = "how it was seen: in person, photograph, copy or told"
_BY = "who saw it: the id of an examiner, or a name"
_EXHIBITS = "ids of the exhibits that show it"
_NOTE = "anything else, in words"

_MEANINGS: dict[str, dict[str, str]] = {
    "Casefile": {
        "format": "the word that says this is a case",
        "format_version": "the version of this format",
        "id": "a short name for the case, fit for a file name",
        "title": "a title for people",
        "book": "the code book: the name of a shipped one, or a path",
        "beside": "further code books beside it, for what cars of any maker carry: dated-parts",
        "opened": "the day the case was opened, such as 2025-03-14",
        "claim": "what is said about the car",
        "assignment": "for whom and why the examination is made",
        "visit": "when, where and in what conditions the car was seen",
        "stakes": "price asked and what hangs on the answer",
        "sites": "how each expected site ended; a site not listed was not looked for",
        "readings": "transcripts of marks, as typed",
        "looks": "how the metal around marks looked",
        "papers": "papers of the book and where they are",
        "title_paper": "the title or registration paper",
        "exhibits": "photographs and documents received, in the folder exhibits/",
        "circumstances": "what is taken as known when weighing",
    },
    "Claim": {
        "made_by": "who says it",
        "text": "the claim in the words of whoever makes it",
        "items": "items of the code book and the values claimed for them",
        "built": "when the car is said to have been built: 1955, 1955-03 or 1955-03-14",
        "statements": "single statements, to be set against what was found",
    },
    "Statement": {
        "about": "an assembly, mark or paper of the book, or car",
        "says": "the statement in the speaker's words",
        "origin": "where the part is said to have come from, declared before anybody looked",
        "work": "what is said to have been done to it",
        "work_by": "who is said to have done it",
        "paper": "the paper that says so: a paper mark of the book, or any other in words",
    },
    "Assignment": {
        "client": "who asked for the examination",
        "purpose": "what the answer is for",
        "intended_users": "who may rely on the report",
        "scope": "what was agreed to be examined",
        "examiners": "the persons who read and sign",
        "owner_consent": "what the owner agreed to",
        "owner_reply": "what the owner says to the findings",
        "minutes_available": "minutes there are for the examination, 0 to 10000",
    },
    "Examiner": {
        "id": "a short id that readings refer to",
        "name": "the full name",
        "qualifications": "what makes this person fit for it",
        "declared_interest": "any interest in the car, its sale or its owner",
    },
    "Visit": {
        "date": "the day of the visit, such as 2025-03-14",
        "place": "where the car stood",
        "present": "who was there",
        "light": "what light there was",
        "access": "how the car stood: on the ground, on stands, on a lift",
        "moved": "what was taken off or moved, and by whom",
    },
    "Stakes": {
        "price_asked": "the price asked",
        "currency": "its currency, such as GBP",
        "note": _NOTE,
    },
    "SiteSeen": {
        "site": "a site of the code book",
        "mark": "the one mark of the site that this speaks of; empty: all that have no entry",
        "state": "how it ended: read, found and illegible, absent, not accessible, not looked for",
        "reason": "why it was not read",
        "attachment": "whether the part was in place or present but detached",
        "exhibits": _EXHIBITS,
    },
    "MarkReading": {
        "mark": "a mark of the code book",
        "text": "the transcript in the notation for readings",
        "legibility": "how well it can be read as a whole: clear, worn or poor",
        "orientation": "which way up it stands: upright, upside down, sideways or unsure",
        "seen": _SEEN,
        "again": "true: read again after something did not fit, or blind by a second person",
        "claim_known": "did the reader know the claimed number? null: not noted, taken as known",
        "by": _BY,
        "when": "when it was read, such as 2025-03-14T10:30",
        "exhibits": _EXHIBITS,
        "note": _NOTE,
    },
    "LookSeen": {
        "site": "a site of the code book",
        "feature": "a feature of the code book",
        "outcome": "factory, doubtful, disturbed, or an outcome the book lists for the feature",
        "seen": _SEEN,
        "again": "true: looked at again after something did not fit, or blind by a second person",
        "by": _BY,
        "when": "when it was seen, such as 2025-03-14T10:30",
        "exhibits": _EXHIBITS,
        "note": _NOTE,
    },
    "Paper": {
        "mark": "the paper's mark in the code book",
        "state": "in hand, copy, asked for and awaited, refused, lost or not asked for",
        "asked_in_vain": "sources of the book that were asked and do not have it",
        "copied_from": "the mark that its numbers were copied from, if they were",
        "note": _NOTE,
        "exhibits": _EXHIBITS,
    },
    "Title": {
        "number": "the number on the title or registration paper",
        "issued_by": "who issued it",
        "seen": _SEEN,
        "exhibits": _EXHIBITS,
    },
    "ExhibitEntry": {
        "id": "a short id that other records refer to",
        "file": "its file name in the folder exhibits/",
        "sha256": "the SHA-256 of the file, 64 digits 0-9 and a-f",
        "caption": "what it shows",
        "taken_by": "who took or gave it",
        "taken_at": "when it was taken, such as 2025-03-14T10:30",
        "number_regions": "where it shows numbers (or anything else to hide): filled in a masked "
        "copy; [ ] if it was looked at and shows none; null: not shown in a masked copy",
    },
    "Region": {
        "left": "pixels from the left edge of the upright picture",
        "top": "pixels from its upper edge",
        "width": "pixels across",
        "height": "pixels down",
    },
    "StatedPrior": {
        "question": "the question whose prior odds are stated",
        "odds": "the prior odds, above 0",
        "reason": "why",
    },
    "Override": {
        "row": "the assumed row of the model",
        "value": "its value in this case, between 0 and 1",
        "reason": "why",
    },
    "Vouched": {
        "row": "the row of the code book, from memory: its id, table:code, or item:first",
        "by": "who answers for it: the id of an examiner, or a name",
        "reason": "why",
    },
    "Circumstances": {
        "prior_odds": "prior odds that the examiner states",
        "overrides": "assumed rows that have another value in this case",
        "vouched": "rows from memory that an examiner answers for",
        "notes": "what else is taken as known",
    },
}

MEANINGS = MappingProxyType(_MEANINGS)
"""Record name to field name to meaning."""


WORD_MEANINGS: MappingProxyType[type[StrEnum], dict[StrEnum, str]] = MappingProxyType(
    {
        SiteState: {
            SiteState.READ: "Somebody looked and read what stands there.",
            SiteState.FOUND_ILLEGIBLE: "A mark was found there and cannot be read.",
            SiteState.ABSENT: "Somebody looked and nothing is there.",
            SiteState.NOT_ACCESSIBLE: "The place could not be reached.",
            SiteState.NOT_LOOKED_FOR: "Nobody looked.",
        },
        OriginSaid: {
            OriginSaid.NOT_SAID: "Nothing was said of where it comes from.",
            OriginSaid.FIRST: "It was on the car when the car was complete.",
            OriginSaid.ANOTHER_CARS: "It came from another car.",
            OriginSaid.SUPPLIED_NEW: "It was supplied new as a service or exchange part.",
            OriginSaid.REPLACED: "It is not the original one, and nobody said where it came from.",
        },
        WorkSaid: {
            WorkSaid.NOT_SAID: "Nothing was said of work on it.",
            WorkSaid.SKIMMED: "Its face was machined in a rebuild, and the marks with it.",
            WorkSaid.STRUCK_OPENLY: "Characters were struck on it in service, and not hidden.",
            WorkSaid.REMOVED: "Its characters were ground off or otherwise taken away.",
            WorkSaid.REPAIRED: "The metal that bears the mark was repaired.",
            WorkSaid.REPAINTED: "The place was painted again.",
            WorkSaid.REFITTED: "The part or plate was taken off and put back.",
        },
        WorkBy: {
            WorkBy.NOT_SAID: "Nothing was said of who did it.",
            WorkBy.DEALER: "A dealer of the maker did it.",
            WorkBy.WORKS: "The maker's own works did it.",
            WorkBy.OFFICE: "A licensing office or other authority did it or had it done.",
            WorkBy.RESTORER: "A restorer or repairer did it.",
            WorkBy.OWNER: "An owner did it.",
        },
    }
)
"""What each word of a list says, in one sentence."""


def meaning_of(record: str, field: str) -> str:
    """The meaning of a field, or an empty text for a field nobody knows."""
    return MEANINGS.get(record, {}).get(field, "")
