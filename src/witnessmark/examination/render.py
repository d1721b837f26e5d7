"""An Opinion as JSON, and the JSON Schema of it."""

import json
from dataclasses import fields
from typing import Any

from witnessmark.agreement import Finding
from witnessmark.casefile import Casefile
from witnessmark.decoding import Decoding
from witnessmark.documents.plain import plain_record
from witnessmark.documents.row_schema import row_schema
from witnessmark.examination.records import Opinion
from witnessmark.reading import Reading

OPINION_FORMAT = "witnessmark-opinion"
OPINION_FORMAT_VERSION = 3


def render_opinion(opinion: Opinion) -> str:
    """The whole Opinion as JSON text: two spaces, in the order of its fields."""
    document = {
        "format": OPINION_FORMAT,
        "format_version": OPINION_FORMAT_VERSION,
        **plain_record(opinion),
    }
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False)


def _prune(schema: dict[str, Any]) -> None:
    """Leave out definitions that nothing names."""
    definitions = schema.get("$defs", {})
    while True:
        text = json.dumps(schema)
        unused = [name for name in definitions if f'"#/$defs/{name}"' not in text]
        if not unused:
            return
        for name in unused:
            del definitions[name]


def opinion_schema() -> dict[str, Any]:
    """The JSON Schema of `render_opinion`'s document."""
    # Late: nobody but whoever publishes the form asks for it.
    from pydantic import TypeAdapter

    schema = TypeAdapter(Opinion).json_schema(mode="serialization")
    definitions = schema.get("$defs", {})
    if "Problem" in definitions:
        told = "A problem as text, with its place."
        definitions["Problem"] = {"type": "string", "description": told}
    case = row_schema(Casefile)
    definitions |= {**case.pop("$defs"), "Casefile": case}
    for record in (Reading, Decoding, Finding):
        shown = definitions[record.__name__]
        for each in fields(record):
            if each.metadata.get("working"):
                shown["properties"].pop(each.name)
                shown["required"] = [name for name in shown["required"] if name != each.name]
    schema["properties"].pop("is_at_once")
    _prune(schema)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Witnessmark opinion",
        **schema,
        "properties": {
            "format": {"const": OPINION_FORMAT},
            "format_version": {"const": OPINION_FORMAT_VERSION},
            **schema.get("properties", {}),
        },
    }
