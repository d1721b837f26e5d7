"""A quoted JSON text as it was typed: where a character stands, and which cannot be read."""

import re
from dataclasses import dataclass

_CHARACTER = re.compile(
    r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\u[0-9a-fA-F]{4}|\\.|[^\\]",
    re.DOTALL,
)
_ESCAPE = re.compile(
    r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\(?:u([0-9a-fA-F]{4})|.)"
)
# Typed as they are, even a tab and a line end are refused: JSON wants them escaped.
_RAW = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff]")
_ESCAPED = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
_SHORT_ESCAPES = {r"\b": 0x08, r"\f": 0x0C}


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A character that no text may hold: its offset and width as typed, and its code point."""

    offset: int
    width: int
    code_point: int


def typed_offset(typed: str, index: int) -> int:
    """Offset in a quoted text, as typed, of its character number `index`, from 0.

    >>> typed_offset(r'"a\\u00e9b"', 2)
    8
    """
    offset = 1
    for _ in range(index):
        match = _CHARACTER.match(typed, offset, len(typed) - 1)
        if match is None:
            break
        offset = match.end()
    return offset


def first_unreadable(typed: str) -> Unreadable | None:
    """The first control character or half of a surrogate pair, typed or escaped.

    >>> first_unreadable(r'"ab\\u0000"')
    Unreadable(offset=3, width=6, code_point=0)
    """
    found = []
    raw = _RAW.search(typed)
    if raw is not None:
        found.append(Unreadable(raw.start(), 1, ord(raw[0])))
    if "\\" in typed:
        for escape in _ESCAPE.finditer(typed):
            code_point = int(escape[1], 16) if escape[1] else _SHORT_ESCAPES.get(escape[0])
            if code_point is not None and _ESCAPED.match(chr(code_point)):
                found.append(Unreadable(escape.start(), len(escape[0]), code_point))
                break
    return min(found, key=lambda each: each.offset, default=None)
