"""What is kept: revisions of cases, exhibits by digest, people and passes; knows no page.

A Django app with its migrations. Whoever asks gets frozen records, never a row of the database;
what cannot be kept is refused with its problems (`NotKeptError`). `merge` needs no database.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.store.backing_up import BackedUp, backup
    from witnessmark.store.digest_files import forget_unfinished
    from witnessmark.store.exhibits import Orphans, exhibit, exhibit_path, keep_exhibit, orphans
    from witnessmark.store.folders import folder_back, folder_in, folder_out
    from witnessmark.store.issued import keep_report, numbers_issued, report_path, reports
    from witnessmark.store.meeting import ABSENT, Difference, Meeting, merge
    from witnessmark.store.problems import NotKeptError
    from witnessmark.store.records import (
        KeptBeside,
        KeptCase,
        KeptChange,
        KeptExhibit,
        KeptReport,
        KeptRevision,
        Revised,
        TakenOver,
    )
    from witnessmark.store.restoring import Restored, restore
    from witnessmark.store.revising import (
        begin,
        beside,
        cases,
        changes,
        digests,
        head,
        heads,
        put_away,
        revise,
        revision,
        revisions,
        settle,
    )
    from witnessmark.store.upkeep import BroughtUp, migrate_home

__all__ = [
    "ABSENT",
    "BackedUp",
    "BroughtUp",
    "Difference",
    "KeptBeside",
    "KeptCase",
    "KeptChange",
    "KeptExhibit",
    "KeptReport",
    "KeptRevision",
    "Meeting",
    "NotKeptError",
    "Orphans",
    "Restored",
    "Revised",
    "TakenOver",
    "backup",
    "begin",
    "beside",
    "cases",
    "changes",
    "digests",
    "exhibit",
    "exhibit_path",
    "folder_back",
    "folder_in",
    "folder_out",
    "forget_unfinished",
    "head",
    "heads",
    "keep_exhibit",
    "keep_report",
    "merge",
    "migrate_home",
    "numbers_issued",
    "orphans",
    "put_away",
    "report_path",
    "reports",
    "restore",
    "revise",
    "revision",
    "revisions",
    "settle",
]

_HOMES = {
    "ABSENT": "meeting",
    "BackedUp": "backing_up",
    "backup": "backing_up",
    "BroughtUp": "upkeep",
    "Difference": "meeting",
    "KeptBeside": "records",
    "KeptCase": "records",
    "KeptChange": "records",
    "KeptExhibit": "records",
    "KeptReport": "records",
    "KeptRevision": "records",
    "Meeting": "meeting",
    "NotKeptError": "problems",
    "Orphans": "exhibits",
    "Restored": "restoring",
    "Revised": "records",
    "TakenOver": "records",
    "begin": "revising",
    "beside": "revising",
    "cases": "revising",
    "changes": "revising",
    "digests": "revising",
    "exhibit": "exhibits",
    "exhibit_path": "exhibits",
    "folder_back": "folders",
    "folder_in": "folders",
    "folder_out": "folders",
    "forget_unfinished": "digest_files",
    "head": "revising",
    "heads": "revising",
    "keep_exhibit": "exhibits",
    "keep_report": "issued",
    "merge": "meeting",
    "migrate_home": "upkeep",
    "numbers_issued": "issued",
    "orphans": "exhibits",
    "put_away": "revising",
    "report_path": "issued",
    "reports": "issued",
    "restore": "restoring",
    "revise": "revising",
    "revision": "revising",
    "revisions": "revising",
    "settle": "revising",
}
"""Name to the module that has it."""


def __getattr__(name: str) -> object:
    """Fetch what is asked for when it is first asked for: the models want Django set up."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found: object = getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    globals()[name] = found
    return found
