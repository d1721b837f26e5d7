"""Photographs for a masked copy: the numbers in them painted over before anything else is done.

A region is filled with one flat tone and never blurred: what is blurred can be
made out again. It is filled in the full picture, upright, with a margin, and only
then is the picture reduced; the camera's notes, small pictures and colour tables
of the file are dropped. A picture is left out unless somebody has said where it shows
numbers.
"""

from collections.abc import Mapping
from hashlib import sha256

from witnessmark.casefile.records import ExhibitEntry, Region
from witnessmark.catalogue import said
from witnessmark.report.press.pictures import small_jpeg, upright_picture
from witnessmark.report.records import Picture

TONE = (118, 118, 118)
MARGIN = 0.006
"""How far beyond a region is filled, as a share of the picture's longer side."""


def masked_pictures(
    entries: tuple[ExhibitEntry, ...], exhibits: Mapping[str, bytes], names: Mapping[str, str]
) -> tuple[Picture, ...]:
    """One Picture for each entry, in order, under its name in the copy."""
    return tuple(_masked(each, exhibits.get(each.id), names[each.id]) for each in entries)


def _masked(entry: ExhibitEntry, content: bytes | None, name: str) -> Picture:
    if entry.number_regions is None:
        missing = said("Left out: nobody has recorded where this picture shows numbers.")
        return Picture(name, b"", missing)
    if content is None or sha256(content).hexdigest() != entry.sha256:
        return Picture(name, b"", said("Left out: the file is not the one that was recorded."))
    jpeg = _painted(content, entry.number_regions)
    missing = "" if jpeg else said("Left out: the picture cannot be masked safely.")
    return Picture(name, jpeg, missing)


def _painted(content: bytes, regions: tuple[Region, ...]) -> bytes:
    """The reduced picture with its regions filled, or nothing."""
    from PIL import Image  # late: most commands need none

    upright = upright_picture(content)
    if isinstance(upright, str):
        return b""
    margin = round(max(upright.size) * MARGIN) + 1
    for each in regions:
        if each.left + each.width > upright.width or each.top + each.height > upright.height:
            return b""
        right, bottom = each.left + each.width + margin, each.top + each.height + margin
        upright.paste(TONE, (max(0, each.left - margin), max(0, each.top - margin), right, bottom))
    clean = Image.frombytes("RGB", upright.size, upright.tobytes())
    return small_jpeg(clean)
