"""The form of a case as a JSON Schema, for editors and for other programs.

Made from the columns of the records. The published copy is `docs/schema/case.schema.json`; a
test compares it with this one.
"""

import json

from witnessmark.casefile.records import FORMAT_VERSION, Casefile
from witnessmark.documents.row_schema import JsonSchema, row_schema


def case_schema() -> JsonSchema:
    """The schema of a case, by the 2020-12 draft."""
    schema = row_schema(Casefile)
    # They have a default for whoever makes a case in a program; a document has to say them.
    schema["required"] = ["format", "format_version", *schema["required"]]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:witnessmark:case:{FORMAT_VERSION}",
        **schema,
    }


def render_case_schema() -> str:
    """The schema as the text that is published."""
    return json.dumps(case_schema(), indent=2, ensure_ascii=False) + "\n"
