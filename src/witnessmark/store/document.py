"""A case document as the store looks at it: JSON that names the case, whatever else it says."""

import json
from dataclasses import dataclass
from typing import Any

from witnessmark.casefile.check import check_case_id
from witnessmark.casefile.parse import MOST_MEGABYTES
from witnessmark.documents.json_edit import changed_json
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.documents.json_scan import scan_json
from witnessmark.documents.problems_json import TooLarge
from witnessmark.source import Source
from witnessmark.store.problems import NoDocument, NotKeptError

NAME = "case.json"
_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class Document:
    """A text, where its values stand and what they are."""

    id: str
    text: str
    places: JsonPlaces
    values: Any

    def saying(self, values: Any) -> str:
        """The text that says these values; what does not differ stays to the byte."""
        mark = _MARK if self.text.startswith(_MARK) else ""
        return mark + changed_json(self.places, self.values, values)


def document(text: str) -> Document:
    """Look at the text of a case; `NotKeptError` where it is none.

    Whether its fields are right is asked by whoever examines it: a half-written case is kept too.
    """
    if len(text) > MOST_MEGABYTES * 1_000_000:
        raise NotKeptError((TooLarge(Source(NAME), MOST_MEGABYTES),))
    scan = scan_json(text.removeprefix(_MARK), NAME)
    if scan.problems:
        raise NotKeptError(scan.problems)
    values = json.loads(scan.places.text)
    case = values.get("id") if isinstance(values, dict) else None
    if not isinstance(case, str):
        raise NotKeptError((NoDocument(scan.places.source(())),))
    faults = check_case_id(case, scan.places.source(("id",)))
    if faults:
        raise NotKeptError(faults)
    return Document(case, text, scan.places, values)


def values_of(text: str) -> Any:
    """What a text says that was looked at when it was kept."""
    return json.loads(text.removeprefix(_MARK))
