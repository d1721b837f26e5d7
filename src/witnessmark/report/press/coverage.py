"""Which characters the shipped fonts can show; others are written as their code point.

A tagged, archival PDF may hold no character without a glyph. A name in a script
that the fonts lack would otherwise vanish or stop the report, so each such
character stands as its code point: nothing is lost and nothing is guessed.
"""

import struct
from functools import cache
from pathlib import Path

from witnessmark.outline.letters import code_point, visible

FONT_FOLDER = Path(__file__).with_name("fonts")
LONGEST_RUN = 36
"""A longer run without a space may be broken at this many characters."""
BREAK_HERE = "\u200b"


def font_files() -> tuple[Path, ...]:
    """The shipped fonts, in the order of their names."""
    return tuple(sorted(FONT_FOLDER.glob("*.otf")))


@cache
def covered() -> frozenset[int]:
    """Every code point for which at least one shipped font has a glyph."""
    return frozenset().union(*(_code_points(file.read_bytes()) for file in font_files()))


def showable(text: str, *, breaking: bool = True) -> str:
    """The text with what cannot be shown as code points, and long runs made breakable."""
    if not all(line.isprintable() for line in text.split("\n")):
        text = visible(text)
    glyphs = covered()
    without = [c for c in set(text) if c != "\n" and ord(c) not in glyphs]
    if without:
        text = text.translate({ord(c): code_point(c) for c in without})
    return _breakable(text) if breaking else text


def _breakable(text: str) -> str:
    if all(len(word) <= LONGEST_RUN for word in text.split()):
        return text
    return "\n".join(
        " ".join(
            BREAK_HERE.join(word[at : at + LONGEST_RUN] for at in range(0, len(word), LONGEST_RUN))
            for word in each.split(" ")
        )
        for each in text.split("\n")
    )


def _code_points(font: bytes) -> frozenset[int]:
    """Code points of an OpenType font, from the segments of its character map."""
    count = struct.unpack_from(">H", font, 4)[0]
    for at in range(12, 12 + 16 * count, 16):
        tag, _, offset, _ = struct.unpack_from(">4sLLL", font, at)
        if tag == b"cmap":
            return _mapped(font, offset)
    return frozenset()


def _mapped(font: bytes, cmap: int) -> frozenset[int]:
    """The union of the full Unicode subtables (format 12), which every shipped font has."""
    found: set[int] = set()
    for at in range(struct.unpack_from(">H", font, cmap + 2)[0]):
        platform, _, offset = struct.unpack_from(">HHL", font, cmap + 4 + 8 * at)
        start = cmap + offset
        form = struct.unpack_from(">H", font, start)[0]
        if platform in (0, 3) and form == 12:
            groups = struct.unpack_from(">L", font, start + 12)[0]
            for group in range(groups):
                first, last, _ = struct.unpack_from(">LLL", font, start + 16 + 12 * group)
                found.update(range(first, last + 1))
    return frozenset(found)
