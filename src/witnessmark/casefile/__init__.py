"""The car and what was brought: facts as typed and recorded.

`open_case` takes a folder and gives a `Casefile`, its exhibits and everything
that is wrong with them. Nothing here reads a number or computes anything.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.casefile.check import UnreadField, check_case, check_case_id, unread_fields
    from witnessmark.casefile.exhibits import Exhibit, ExhibitFolder, ExhibitRead
    from witnessmark.casefile.folder import (
        CASE_NAME,
        EXHIBITS_NAME,
        CaseOpened,
        open_case,
        write_case,
    )
    from witnessmark.casefile.parse import CaseParsed, NotACaseError, case_from, parse_casefile
    from witnessmark.casefile.records import (
        FORMAT,
        FORMAT_VERSION,
        Assignment,
        AttachmentSeen,
        Casefile,
        Circumstances,
        Claim,
        Examiner,
        ExhibitEntry,
        Legibility,
        LookClass,
        LookSeen,
        MarkReading,
        Orientation,
        OriginSaid,
        Override,
        Paper,
        PaperKind,
        PaperSays,
        PaperState,
        Region,
        Seen,
        SiteSeen,
        SiteState,
        Stakes,
        StatedPrior,
        Statement,
        Title,
        Visit,
        Vouched,
        WorkBy,
        WorkSaid,
    )
    from witnessmark.casefile.render import case_schema, render_casefile
    from witnessmark.casefile.whole import who_wrote

__all__ = [
    "CASE_NAME",
    "EXHIBITS_NAME",
    "FORMAT",
    "FORMAT_VERSION",
    "Assignment",
    "AttachmentSeen",
    "CaseOpened",
    "CaseParsed",
    "Casefile",
    "Circumstances",
    "Claim",
    "Examiner",
    "Exhibit",
    "ExhibitEntry",
    "ExhibitFolder",
    "ExhibitRead",
    "Legibility",
    "LookClass",
    "LookSeen",
    "MarkReading",
    "NotACaseError",
    "Orientation",
    "OriginSaid",
    "Override",
    "Paper",
    "PaperKind",
    "PaperSays",
    "PaperState",
    "Region",
    "Seen",
    "SiteSeen",
    "SiteState",
    "Stakes",
    "StatedPrior",
    "Statement",
    "Title",
    "UnreadField",
    "Visit",
    "Vouched",
    "WorkBy",
    "WorkSaid",
    "case_from",
    "case_schema",
    "check_case",
    "check_case_id",
    "open_case",
    "parse_casefile",
    "render_casefile",
    "unread_fields",
    "who_wrote",
    "write_case",
]

_HOMES = {
    "Assignment": "records",
    "AttachmentSeen": "records",
    "CASE_NAME": "folder",
    "CaseOpened": "folder",
    "CaseParsed": "parse",
    "Casefile": "records",
    "Circumstances": "records",
    "Claim": "records",
    "EXHIBITS_NAME": "folder",
    "Examiner": "records",
    "Exhibit": "exhibits",
    "ExhibitEntry": "records",
    "ExhibitFolder": "exhibits",
    "ExhibitRead": "exhibits",
    "FORMAT": "records",
    "FORMAT_VERSION": "records",
    "Legibility": "records",
    "LookClass": "records",
    "LookSeen": "records",
    "MarkReading": "records",
    "NotACaseError": "parse",
    "Orientation": "records",
    "OriginSaid": "records",
    "Override": "records",
    "Paper": "records",
    "PaperKind": "records",
    "PaperSays": "records",
    "PaperState": "records",
    "Region": "records",
    "Seen": "records",
    "SiteSeen": "records",
    "SiteState": "records",
    "Stakes": "records",
    "StatedPrior": "records",
    "Statement": "records",
    "Title": "records",
    "UnreadField": "check",
    "Visit": "records",
    "Vouched": "records",
    "WorkBy": "records",
    "WorkSaid": "records",
    "case_from": "parse",
    "case_schema": "render",
    "check_case": "check",
    "check_case_id": "check",
    "open_case": "folder",
    "parse_casefile": "parse",
    "render_casefile": "render",
    "unread_fields": "check",
    "who_wrote": "whole",
    "write_case": "folder",
}
"""Name to the module that has it."""


def __getattr__(name: str) -> object:
    """Fetch what is asked for when it is first asked for: a mark is decoded without any of it."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found: object = getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    globals()[name] = found
    return found
