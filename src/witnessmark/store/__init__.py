"""What is kept: revisions of cases, exhibits by digest, people and passes; knows no page.

A Django app with its migrations. Whoever asks gets frozen records, never a row of the database;
what cannot be kept is refused with its problems (`NotKeptError`). `merge` needs no database.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from witnessmark.store.exhibits import exhibit, exhibit_path, keep_exhibit
    from witnessmark.store.merge import Difference, Meeting, merge
    from witnessmark.store.problems import NotKeptError
    from witnessmark.store.records import KeptBeside, KeptCase, KeptExhibit, KeptRevision, Revised
    from witnessmark.store.revising import (
        begin,
        beside,
        cases,
        digests,
        head,
        heads,
        put_away,
        revise,
        revision,
        revisions,
        settle,
    )

__all__ = [
    "Difference",
    "KeptBeside",
    "KeptCase",
    "KeptExhibit",
    "KeptRevision",
    "Meeting",
    "NotKeptError",
    "Revised",
    "begin",
    "beside",
    "cases",
    "digests",
    "exhibit",
    "exhibit_path",
    "head",
    "heads",
    "keep_exhibit",
    "merge",
    "put_away",
    "revise",
    "revision",
    "revisions",
    "settle",
]

_HOMES = {
    "Difference": "merge",
    "KeptBeside": "records",
    "KeptCase": "records",
    "KeptExhibit": "records",
    "KeptRevision": "records",
    "Meeting": "merge",
    "NotKeptError": "problems",
    "Revised": "records",
    "begin": "revising",
    "beside": "revising",
    "cases": "revising",
    "digests": "revising",
    "exhibit": "exhibits",
    "exhibit_path": "exhibits",
    "head": "revising",
    "heads": "revising",
    "keep_exhibit": "exhibits",
    "merge": "merge",
    "put_away": "revising",
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
