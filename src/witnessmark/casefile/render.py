"""A case as text: one spelling for one case, every field written, unknown ones kept.

And the form of a case as a JSON Schema, for editors and for other programs, made from the
columns of the records. The published copy is `docs/schema/case.schema.json`; a test compares it
with this one.
"""

import json

from witnessmark.casefile.records import FORMAT_VERSION, Casefile
from witnessmark.documents.open_row import as_json
from witnessmark.documents.row_schema import JsonSchema, row_schema


def render_casefile(casefile: Casefile) -> str:
    """The case as JSON, in the order of the records, two spaces a step.

    Reading it again gives an equal case, as long as its texts hold no control
    characters, which `parse_casefile` lets nobody bring in. Fields that this version does not
    know stand at the end of their object, in the order in which they came.
    """
    return json.dumps(as_json(casefile), indent=2, ensure_ascii=False) + "\n"


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
