"""What changed in a case between an issued report and now: added, withdrawn, changed.

Pure: two case documents in, a list of changes out. Readings, looks, sites, papers,
exhibits and statements are followed one by one; of everything else it is said that it changed.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from pydantic import BaseModel

from witnessmark.casefile.records import Casefile


class ChangeKind(StrEnum):
    """How an entry of the case changed."""

    ADDED = "added"
    WITHDRAWN = "withdrawn"
    CHANGED = "changed"


class Part(StrEnum):
    """The parts of a case whose changes are told."""

    CLAIM = "claim"
    STATEMENT = "statement"
    ASSIGNMENT = "assignment"
    VISIT = "visit"
    SITE = "site"
    READING = "reading"
    LOOK = "look"
    PAPER = "paper"
    TITLE = "title"
    EXHIBIT = "exhibit"
    CIRCUMSTANCES = "circumstances"
    OTHER = "case"


@dataclass(frozen=True, slots=True)
class CaseChange:
    """One change: which part, of which mark, site or field, and what stood there and stands now.

    `about` is an id of the book or of an exhibit, or the name of a field.
    """

    part: Part
    kind: ChangeKind
    about: str
    before: str
    now: str


LISTS = (
    (Part.SITE, "sites", ("site",)),
    (Part.READING, "readings", ("mark", "by")),
    (Part.LOOK, "looks", ("site", "feature", "by")),
    (Part.PAPER, "papers", ("mark",)),
    (Part.EXHIBIT, "exhibits", ("id",)),
)
"""Lists of the case with the fields that say which entry is which."""

RECORDS = (
    (Part.CLAIM, "claim"),
    (Part.ASSIGNMENT, "assignment"),
    (Part.VISIT, "visit"),
    (Part.TITLE, "title_paper"),
    (Part.CIRCUMSTANCES, "circumstances"),
)


def case_changes(before: Casefile, now: Casefile) -> tuple[CaseChange, ...]:
    """Every change of the case, part by part, in the order of the document."""
    old, new = before.model_dump(mode="json"), now.model_dump(mode="json")
    found: list[CaseChange] = []
    statements = (old["claim"].pop("statements", []), new["claim"].pop("statements", []))
    for part, name in RECORDS:
        found += _of_record(part, old.pop(name, {}), new.pop(name, {}))
    found += _of_list(Part.STATEMENT, *statements, ("about",))
    for part, name, keys in LISTS:
        found += _of_list(part, old.pop(name, []), new.pop(name, []), keys)
    found += _of_record(Part.OTHER, old, new)
    order = tuple(Part)
    return tuple(sorted(found, key=lambda each: order.index(each.part)))


def _of_record(part: Part, old: dict[str, Any], new: dict[str, Any]) -> list[CaseChange]:
    """The fields of one record that are not as they were."""
    found = []
    for name in dict.fromkeys((*old, *new)):
        was, stands = _shown(old.get(name)), _shown(new.get(name))
        if was != stands:
            found.append(CaseChange(part, _kind(was, stands), name, was, stands))
    return found


def _of_list(
    part: Part, old: list[dict[str, Any]], new: list[dict[str, Any]], keys: tuple[str, ...]
) -> list[CaseChange]:
    """Entries added, withdrawn or changed; several of one key are followed in their order."""
    before, now = _keyed(old, keys), _keyed(new, keys)
    found = []
    for key in dict.fromkeys((*before, *now)):
        was, stands = before.get(key), now.get(key)
        if was != stands:
            texts = (_entry(was, stands, keys), _entry(stands, was, keys))
            kind = (
                ChangeKind.ADDED
                if was is None
                else ChangeKind.WITHDRAWN
                if stands is None
                else ChangeKind.CHANGED
            )
            found.append(CaseChange(part, kind, str(key[0]), *texts))
    return found


def _keyed(
    entries: Iterable[dict[str, Any]], keys: tuple[str, ...]
) -> dict[tuple[str, ...], dict[str, Any]]:
    found: dict[tuple[str, ...], dict[str, Any]] = {}
    for each in entries:
        base = tuple(str(each.get(name, "")) for name in keys)
        count = 0
        while (*base, str(count)) in found:
            count += 1
        found[(*base, str(count))] = each
    return found


def _entry(each: dict[str, Any] | None, other: dict[str, Any] | None, keys: tuple[str, ...]) -> str:
    """What an entry says: its fields, or against another only those that are not alike."""
    if each is None:
        return ""
    shown = [
        f"{name.replace('_', ' ')}: {text}" if name not in ("text", "says") else text
        for name, value in each.items()
        if name not in keys[:1] and (other is None or other.get(name) != value)
        if (text := _shown(value))
    ]
    return "; ".join(shown)


def _kind(was: str, stands: str) -> ChangeKind:
    if not was:
        return ChangeKind.ADDED
    return ChangeKind.CHANGED if stands else ChangeKind.WITHDRAWN


def _shown(value: object) -> str:
    """A value of the case document as a reader can compare it; nothing for an empty one."""
    if isinstance(value, BaseModel):
        value = value.model_dump(mode="json")
    if value is None or value in ("", [], {}):
        return ""
    if isinstance(value, dict):
        parts = ((name, _shown(each)) for name, each in value.items())
        return ", ".join(f"{name.replace('_', ' ')}: {text}" for name, text in parts if text)
    if isinstance(value, list):
        return "; ".join(text for each in value if (text := _shown(each)))
    return str(value)
