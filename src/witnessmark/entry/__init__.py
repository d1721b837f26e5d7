"""What somebody says of a car taken into its case: entries checked where they were typed, cases
begun, the books they name.

A `CaseDraft` is the case as it is to be; `enter_readings` and its like enter into it and tell what
they did; `checked` gives the text to be written, or what is wrong. Nothing here reads the clock,
prints, or writes a file.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.entry.begin import CaseAsked, begun, expected_sites
    from witnessmark.entry.books import (
        BookNamed,
        BooksOpened,
        KnownBooks,
        books_named,
        books_of,
        found_folder,
        found_marks,
        mark_read,
        shipped_folder_of,
        unknown_book,
        unknown_mark,
    )
    from witnessmark.entry.brought import (
        enter_exhibit,
        enter_papers,
        enter_statements,
        has_exhibit,
        name_exhibit,
        take_exhibit_off,
    )
    from witnessmark.entry.claimed import Claimable, claim_shown, claimables, claimed_items
    from witnessmark.entry.draft import (
        CaseDraft,
        Entered,
        EnteredPair,
        checked,
        decoded,
        read_back,
    )
    from witnessmark.entry.fields import (
        claim_read,
        plain_fields,
        set_claims,
        set_field,
        valued,
    )
    from witnessmark.entry.jotted import Jotting, enter_jotting, jottings_of
    from witnessmark.entry.lacks import Lack, LackKind, lacking
    from witnessmark.entry.places import named_in_a_row, place_name, placed, reached
    from witnessmark.entry.problems import (
        ClaimedTwice,
        JottingElsewhere,
        LegibilityUnsaid,
        NotAllowed,
        NotBeside,
        PaperUnlisted,
        SeveralMarks,
        UnknownName,
    )
    from witnessmark.entry.seen import LookEntered, enter_looks, enter_readings, enter_sites
    from witnessmark.entry.versions import versions_of
    from witnessmark.entry.words import WORDS, in_words

__all__ = [
    "WORDS",
    "BookNamed",
    "BooksOpened",
    "CaseAsked",
    "CaseDraft",
    "Claimable",
    "ClaimedTwice",
    "Entered",
    "EnteredPair",
    "Jotting",
    "JottingElsewhere",
    "KnownBooks",
    "Lack",
    "LackKind",
    "LegibilityUnsaid",
    "LookEntered",
    "NotAllowed",
    "NotBeside",
    "PaperUnlisted",
    "SeveralMarks",
    "UnknownName",
    "begun",
    "books_named",
    "books_of",
    "checked",
    "claim_read",
    "claim_shown",
    "claimables",
    "claimed_items",
    "decoded",
    "enter_exhibit",
    "enter_jotting",
    "enter_looks",
    "enter_papers",
    "enter_readings",
    "enter_sites",
    "enter_statements",
    "expected_sites",
    "found_folder",
    "found_marks",
    "has_exhibit",
    "in_words",
    "jottings_of",
    "lacking",
    "mark_read",
    "name_exhibit",
    "named_in_a_row",
    "place_name",
    "placed",
    "plain_fields",
    "reached",
    "read_back",
    "set_claims",
    "set_field",
    "shipped_folder_of",
    "take_exhibit_off",
    "unknown_book",
    "unknown_mark",
    "valued",
    "versions_of",
]

_HOMES = {
    "WORDS": "words",
    "BookNamed": "books",
    "BooksOpened": "books",
    "CaseAsked": "begin",
    "CaseDraft": "draft",
    "Claimable": "claimed",
    "ClaimedTwice": "problems",
    "Jotting": "jotted",
    "JottingElsewhere": "problems",
    "enter_jotting": "jotted",
    "jottings_of": "jotted",
    "Entered": "draft",
    "EnteredPair": "draft",
    "KnownBooks": "books",
    "Lack": "lacks",
    "LackKind": "lacks",
    "LegibilityUnsaid": "problems",
    "LookEntered": "seen",
    "NotAllowed": "problems",
    "NotBeside": "problems",
    "PaperUnlisted": "problems",
    "SeveralMarks": "problems",
    "UnknownName": "problems",
    "begun": "begin",
    "books_named": "books",
    "books_of": "books",
    "checked": "draft",
    "claim_read": "fields",
    "claim_shown": "claimed",
    "claimables": "claimed",
    "claimed_items": "claimed",
    "decoded": "draft",
    "enter_exhibit": "brought",
    "enter_looks": "seen",
    "enter_papers": "brought",
    "enter_readings": "seen",
    "enter_sites": "seen",
    "enter_statements": "brought",
    "expected_sites": "begin",
    "found_folder": "books",
    "found_marks": "books",
    "has_exhibit": "brought",
    "in_words": "words",
    "lacking": "lacks",
    "mark_read": "books",
    "name_exhibit": "brought",
    "named_in_a_row": "places",
    "place_name": "places",
    "placed": "places",
    "plain_fields": "fields",
    "reached": "places",
    "read_back": "draft",
    "set_claims": "fields",
    "set_field": "fields",
    "shipped_folder_of": "books",
    "take_exhibit_off": "brought",
    "unknown_book": "books",
    "unknown_mark": "books",
    "valued": "fields",
    "versions_of": "versions",
}
"""Name to the module that has it."""


def __getattr__(name: str) -> object:
    """Fetch what is asked for when it is first asked for: a mark is decoded without a case."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found: object = getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    globals()[name] = found
    return found
