"""A JSON Schema of book.toml, for editors that help while a book is written.

It is made from the same declarations that the parser reads. What can only be
seen across the book (names, gaps, overlaps) is left to the checks.
"""

from dataclasses import replace

from witnessmark.codebook.book_format import BOOK
from witnessmark.documents.row_schema import plain_schema
from witnessmark.documents.shapes import Key, Kind, Shape

type Json = str | float | bool | list["Json"] | dict[str, "Json"]

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def book_schema() -> dict[str, Json]:
    """The JSON Schema of book.toml."""
    return {"$schema": DIALECT, "title": "Witnessmark code book", **_table(BOOK)}


def _table(shape: Shape) -> dict[str, Json]:
    """The schema of one table."""
    required: list[Json] = [key.name for key in shape.keys if key.required]
    properties: dict[str, Json] = {key.name: _described(key) for key in shape.keys}
    return {
        "type": "object",
        "description": shape.about,
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _described(key: Key) -> dict[str, Json]:
    """The schema of one key with its description and default."""
    described = _key(key) | {"description": key.about}
    if not key.required and key.default not in (None, ""):
        assert key.default is not None
        described["default"] = key.default
    return described


def _key(key: Key) -> dict[str, Json]:
    """The schema of what may stand behind a key."""
    match key.kind:
        case Kind.TEXT:
            return _text(key)
        case Kind.TEXTS:
            return {"type": "array", "items": {"type": "string"}}
        case Kind.NUMBERS:
            return {"type": "array", "items": plain_schema(replace(key, kind=Kind.NUMBER))}
        case Kind.CITATIONS:
            return {"type": "object", "additionalProperties": {"type": "string", "minLength": 1}}
        case Kind.TABLE if key.shape is not None:
            return _table(key.shape)
        case Kind.TABLES if key.shape is not None:
            return {"type": "array", "items": _table(key.shape)}
    return plain_schema(key)


def _text(key: Key) -> dict[str, Json]:
    """A text: one of some words, of some form, or free."""
    if key.words:
        return {"type": "string", "enum": list(key.words)}
    if key.pattern:
        # An optional text may be left empty.
        pattern = key.pattern if key.required else f"|{key.pattern}"
        return {"type": "string", "pattern": f"^(?:{pattern})$"}
    return {"type": "string", "minLength": 1} if key.required else {"type": "string"}
