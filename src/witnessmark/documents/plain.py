"""A record as JSON knows it: mappings, lists, texts and numbers, in the order of its fields."""

from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any

from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.problem import Problem


def plain_record(record: Any) -> dict[str, Any]:
    """The fields of a record, without those that it holds for the rooms above alone."""
    return {
        each.name: plain(getattr(record, each.name))
        for each in fields(record)
        if not each.metadata.get("working")
    }


def plain(value: Any) -> Any:
    """A value as JSON knows it; a problem as its place and words."""
    if isinstance(value, Problem):
        return value.render()
    if isinstance(value, OpenRow):
        return as_json(value)
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        return plain_record(value)
    if isinstance(value, frozenset | set):
        return sorted(plain(each) for each in value)
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    if isinstance(value, date):
        return value.isoformat()
    return value
