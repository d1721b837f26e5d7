"""Which file names an exhibit may have: plain ones, that mean the same on every machine.

A case may come from a stranger. A name in it is never more than the name of a
file directly in `exhibits/`. What some systems reserve is refused on all, so
that a case can be handed on; the reserved names and characters are those of
Microsoft's "Naming Files, Paths, and Namespaces".
"""

import re
from types import MappingProxyType

from witnessmark.casefile.problems import NameFault

MEDIA_TYPES = MappingProxyType(
    {
        ".jpg": "image/jpeg",
        ".jpeg": "image/jpeg",
        ".png": "image/png",
        ".tif": "image/tiff",
        ".tiff": "image/tiff",
        ".pdf": "application/pdf",
    }
)
"""Ending to media type, for every ending an exhibit may have."""

PHONE_ENDINGS = (".heic", ".heif", ".hif", ".avif")
"""Endings of pictures as phones keep them, of which no exhibit is made."""

LONGEST_NAME_BYTES = 240
"""Longest file name, in bytes of UTF-8: file systems stop at 255."""

# Controls, surrogates, and the marks that turn the direction of writing around.
_UNSEEN = re.compile(
    "[\x00-\x1f\x7f-\x9f\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff]"
)
_FORBIDDEN = re.compile(r'[<>"|?*]')
_RESERVED = re.compile(r"(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])\Z", re.IGNORECASE)


def name_fault(name: str) -> NameFault | None:
    """Why this cannot be the file name of an exhibit, or None.

    >>> name_fault("../case.json").value
    'leads out of the folder'
    """
    for fault, holds in (
        (NameFault.UNREADABLE, _UNSEEN.search(name) is not None),
        (NameFault.UP, ".." in re.split(r"[/\\]", name)),
        (NameFault.DRIVE, ":" in name),
        (NameFault.FOLDER, "/" in name or "\\" in name or not name.strip(" .")),
        (NameFault.HIDDEN, name.startswith(".")),
        (NameFault.FORBIDDEN, _FORBIDDEN.search(name) is not None),
        (NameFault.EDGE, name != name.strip() or name.endswith(".")),
        (NameFault.RESERVED, _RESERVED.match(name.split(".")[0].rstrip()) is not None),
        (NameFault.LONG, len(name.encode("utf-8", "replace")) > LONGEST_NAME_BYTES),
        (NameFault.PHONE, name.lower().endswith(PHONE_ENDINGS)),
        (NameFault.ENDING, media_type_of(name) is None),
    ):
        if holds:
            return fault
    return None


def media_type_of(name: str) -> str | None:
    """The media type that a file's ending promises, or None."""
    dot = name.rfind(".")
    return MEDIA_TYPES.get(name[dot:].lower()) if dot > 0 else None
