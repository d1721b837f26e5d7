"""The car and what was brought: facts as typed and recorded.

`open_case` takes a folder and gives a `Casefile`, its exhibits and everything
that is wrong with them. Nothing here reads a number or computes anything.
"""

from witnessmark.casefile.check import check_case, check_case_id
from witnessmark.casefile.exhibits import Exhibit, ExhibitFolder, ExhibitRead
from witnessmark.casefile.folder import (
    CASE_NAME,
    EXHIBITS_NAME,
    CaseOpened,
    open_case,
    write_case,
)
from witnessmark.casefile.parse import CaseParsed, parse_casefile
from witnessmark.casefile.places import CasePlaces, JsonPath
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
    Override,
    Paper,
    PaperState,
    PartialDateText,
    Seen,
    SiteSeen,
    SiteState,
    Stakes,
    StatedPrior,
    Statement,
    Title,
    Visit,
)
from witnessmark.casefile.render import new_case, render_casefile
from witnessmark.casefile.schema import case_schema
from witnessmark.casefile.unread import UnreadField, unread_fields

__all__ = [
    "CASE_NAME",
    "EXHIBITS_NAME",
    "FORMAT",
    "FORMAT_VERSION",
    "Assignment",
    "AttachmentSeen",
    "CaseOpened",
    "CaseParsed",
    "CasePlaces",
    "Casefile",
    "Circumstances",
    "Claim",
    "Examiner",
    "Exhibit",
    "ExhibitEntry",
    "ExhibitFolder",
    "ExhibitRead",
    "JsonPath",
    "Legibility",
    "LookClass",
    "LookSeen",
    "MarkReading",
    "Orientation",
    "Override",
    "Paper",
    "PaperState",
    "PartialDateText",
    "Seen",
    "SiteSeen",
    "SiteState",
    "Stakes",
    "StatedPrior",
    "Statement",
    "Title",
    "UnreadField",
    "Visit",
    "case_schema",
    "check_case",
    "check_case_id",
    "new_case",
    "open_case",
    "parse_casefile",
    "render_casefile",
    "unread_fields",
    "write_case",
]
