"""A page: its address, its view, who may see it and who may change what it holds."""

from dataclasses import dataclass
from enum import StrEnum


class Who(StrEnum):
    """Who may come in: each of the first three may do what those below him may.

    `OPEN`: where the owner lets anybody have a first look, without an account; else a reader.
    `PASS`: whoever has a pass, which the page itself looks at.
    """

    OWNER = "owner"
    ASSISTANT = "assistant"
    READER = "reader"
    OPEN = "open"
    ANYBODY = "anybody"
    PASS = "pass"


@dataclass(frozen=True, slots=True)
class Route:
    """A page: `path` below the address of the workshop, `view` as FOLDER.MODULE:FUNCTION.

    `see` may ask for it, `write` may send a form to it; None: nobody does. Whatever changes
    something and shows nothing has no `see`: an address alone changes nothing. A path with
    `<case:case>` is about one case, which must be one that the person was let into.
    """

    name: str
    path: str
    view: str
    see: Who | None = Who.READER
    write: Who | None = None
