"""Words of a fixed list as people spell them."""

from witnessmark.casefile.words import (
    AttachmentSeen,
    CaseWord,
    Legibility,
    Orientation,
    OriginSaid,
    PaperKind,
    Seen,
    WorkBy,
    WorkSaid,
)
from witnessmark.codebook.names import plain_name
from witnessmark.entry.draft import Entered

WORDS: dict[str, type[CaseWord]] = {
    "attachment": AttachmentSeen,
    "kind": PaperKind,
    "legibility": Legibility,
    "orientation": Orientation,
    "origin": OriginSaid,
    "seen": Seen,
    "work": WorkSaid,
    "work_by": WorkBy,
}
"""The fields that hold a word of a list."""


def in_words(given: Entered, words: type[CaseWord]) -> Entered:
    """The word of such a list that is spelt so, whatever the case, hyphens and spaces."""
    wanted = plain_name(str(given.value))
    found = next((each.value for each in words if plain_name(each.value) == wanted), given.value)
    return Entered(found, given.source)
