"""The JSON Schema of an open row, with those of all rows and closed lists that it names."""

from enum import StrEnum
from inspect import cleandoc, isclass
from typing import Any

from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.documents.row import REQUIRED, Column
from witnessmark.documents.shapes import Key, Kind

type JsonSchema = dict[str, Any]

_PLAIN: dict[Kind, JsonSchema] = {
    Kind.NUMBER: {"type": "integer"},
    Kind.AMOUNT: {"type": "number"},
    Kind.YES_NO: {"type": "boolean"},
    Kind.DAY: {"format": "date", "type": "string"},
    Kind.MOMENT: {"format": "date-time", "type": "string"},
    Kind.PARTIAL_DATE: {"type": "string", "pattern": "^[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?$"},
}


def row_schema(row: type[OpenRow]) -> JsonSchema:
    """The schema of an object; what its fields name stands under `$defs`."""
    named: dict[str, JsonSchema] = {}
    schema = _object(row, named)
    return {"$defs": dict(sorted(named.items())), **schema}


def _object(row: type[OpenRow], named: dict[str, JsonSchema]) -> JsonSchema:
    columns = row.fields_declared()
    required = [name for name, each in columns.items() if each.key.required]
    return {
        "additionalProperties": True,
        "description": cleandoc(row.__doc__ or ""),
        "properties": {name: _field(each, named) for name, each in columns.items()},
        **({"required": required} if required else {}),
        "title": row.__name__,
        "type": "object",
    }


def _field(column: Column, named: dict[str, JsonSchema]) -> JsonSchema:
    """What one field may hold, its default and what it is for."""
    default, holds = column.default(), _holds(column, named)
    if default is None:
        holds = {"anyOf": [holds, {"type": "null"}]}
    if default is not REQUIRED and column.key.kind is not Kind.CITATIONS:
        holds = dict(sorted({**holds, "default": as_json(default)}.items()))
    return {**holds, "description": column.key.about}


def _holds(column: Column, named: dict[str, JsonSchema]) -> JsonSchema:
    key, row = column.key, column.row
    match key.kind:
        case Kind.TEXT if isclass(column.read) and issubclass(column.read, StrEnum):
            return _listed(column.read, named)
        case Kind.TEXT:
            return _text(key)
        case Kind.TEXTS:
            return {"items": _text(key), "type": "array"}
        case Kind.CITATIONS:
            return {"additionalProperties": _text(key), "type": "object"}
        case Kind.TABLE | Kind.TABLES if row is not None and issubclass(row, OpenRow):
            named.setdefault(row.__name__, _object(row, named))
            told = {"$ref": f"#/$defs/{row.__name__}"}
            return told if key.kind is Kind.TABLE else {"items": told, "type": "array"}
    return plain_schema(key)


def plain_schema(key: Key) -> JsonSchema:
    """The schema of a number, a date or a yes or no."""
    bounds = {"maximum": key.most, "minimum": key.least}
    if key.least == key.most and key.least is not None:
        bounds = {"const": key.least}
    return {name: each for name, each in bounds.items() if each is not None} | _PLAIN[key.kind]


def _listed(words: type[StrEnum], named: dict[str, JsonSchema]) -> JsonSchema:
    """A closed list, by its name; told by its words where they say more than themselves."""
    says = [(word.value, getattr(word, "says", "")) for word in words]
    told = " ".join(f"{word or 'empty'}: {said}" for word, said in says if said)
    named[words.__name__] = {
        "description": told or cleandoc(words.__doc__ or ""),
        "enum": [word.value for word in words],
        "title": words.__name__,
        "type": "string",
    }
    return {"$ref": f"#/$defs/{words.__name__}"}


def _text(key: Key) -> JsonSchema:
    if len(key.words) == 1:
        return {"const": key.words[0], "type": "string"}
    limits = {
        "maxLength": key.most,
        "minLength": key.least,
        "pattern": f"^{key.pattern}$" if key.pattern else None,
    }
    return {name: each for name, each in limits.items() if each is not None} | {"type": "string"}
