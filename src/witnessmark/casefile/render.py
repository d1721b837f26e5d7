"""A case as text: one spelling for one case, every field written, unknown ones kept."""

import json

from witnessmark.casefile.records import Casefile
from witnessmark.documents.open_row import as_json


def render_casefile(casefile: Casefile) -> str:
    """The case as JSON, in the order of the records, two spaces a step.

    Reading it again gives an equal case, as long as its texts hold no control
    characters, which `parse_casefile` lets nobody bring in. Fields that this version does not
    know stand at the end of their object, in the order in which they came.
    """
    return json.dumps(as_json(casefile), indent=2, ensure_ascii=False) + "\n"
