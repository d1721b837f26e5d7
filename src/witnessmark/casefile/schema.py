"""The form of a case as a JSON Schema, for editors and for other programs.

Made from the records, with the meaning of every field. The published copy is
`docs/schema/case.schema.json`; a test compares it with this one.
"""

import json
from typing import Any

from witnessmark.casefile.meanings import MEANINGS, WORD_MEANINGS
from witnessmark.casefile.records import FORMAT_VERSION, Casefile

type JsonSchema = dict[str, Any]

_PARTIAL_DATE = r"^[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?$"


def case_schema() -> JsonSchema:
    """The schema of a case, by the 2020-12 draft."""
    schema: JsonSchema = Casefile.model_json_schema()
    records = {"Casefile": schema, **schema["$defs"]}
    for name, record in records.items():
        for field, meaning in MEANINGS.get(name, {}).items():
            _describe(record["properties"][field], meaning)
    for words, sentences in WORD_MEANINGS.items():
        told = (f"{word.value or 'empty'}: {each}" for word, each in sentences.items())
        records[words.__name__]["description"] = " ".join(told)
    built = records["Claim"]["properties"]["built"]
    built["anyOf"][0]["pattern"] = _PARTIAL_DATE
    schema["required"] = ["format", "format_version", *schema["required"]]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:witnessmark:case:{FORMAT_VERSION}",
        **schema,
    }


def render_case_schema() -> str:
    """The schema as the text that is published."""
    return json.dumps(case_schema(), indent=2, ensure_ascii=False) + "\n"


def _describe(field: JsonSchema, meaning: str) -> None:
    """The meaning in place of the title, which only repeats the field's name."""
    field.pop("title", None)
    field["description"] = meaning
