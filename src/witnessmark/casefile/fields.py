"""What may stand at a path of a case: found in the records, so that it is said once."""

import inspect
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from types import NoneType
from typing import Any, get_args

from pydantic import BaseModel

from witnessmark.casefile.meanings import meaning_of
from witnessmark.casefile.records import Casefile
from witnessmark.documents.lines import KeyPath


@dataclass(frozen=True, slots=True)
class FieldAt:
    """The field at a path: the record that owns it, its name, its words if it lists them."""

    record: str
    name: str
    words: type[StrEnum] | None
    may_be_null: bool

    def meaning(self) -> str:
        """The field's meaning in one line."""
        return meaning_of(self.record, self.name)


def field_at(path: KeyPath) -> FieldAt:
    """The last known field on this path.

    >>> field_at(("sites", 0, "state")).record
    'SiteSeen'
    """
    model: type[BaseModel] | None = Casefile
    found = FieldAt("Casefile", "", None, False)
    for step in path:
        if isinstance(step, int):
            continue
        field = model.model_fields.get(step) if model else None
        if model is None or field is None:
            break
        kinds = tuple(_kinds(field.annotation))
        words = next((kind for kind in kinds if issubclass(kind, StrEnum)), None)
        found = FieldAt(model.__name__, step, words, NoneType in kinds)
        model = next((kind for kind in kinds if issubclass(kind, BaseModel)), None)
    return found


def label(path: KeyPath) -> str:
    """The last field of a path, as a reader would point at it.

    >>> label(("sites", 2, "exhibits", 0))
    'exhibits[0]'
    """
    names = [step for step in path if isinstance(step, str)]
    positions = "".join(f"[{step}]" for step in path[-1:] if isinstance(step, int))
    return (names[-1] if names else "case") + positions


def _kinds(annotation: Any) -> Iterator[type]:
    """All classes that an annotation speaks of."""
    if inspect.isclass(annotation):
        yield annotation
    for argument in get_args(annotation):
        yield from _kinds(argument)
