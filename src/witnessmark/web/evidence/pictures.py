"""Photographs made ready for a page: upright, reduced, without their camera's notes.

The original is never touched; what is made of it is kept for a while in memory alone.
"""

from functools import lru_cache

from witnessmark import store
from witnessmark.casefile import ExhibitEntry, Region
from witnessmark.report.press.pictures import small_jpeg, upright_picture

SHOWN_SIDE = 1600
CROP_SIDE = 1200
MARGIN = 0.12
"""Of a crop's own size, shown round it."""
PICTURES_KEPT = 48


def shown_picture(entry: ExhibitEntry) -> bytes | None:
    """The photograph as a page shows it; None where it is none that can be shown, or is not
    here."""
    return _shown(entry.sha256, None, SHOWN_SIDE)


def crop_of(entry: ExhibitEntry, part: int) -> bytes | None:
    """A part of it that was marked as a number, large."""
    regions = entry.number_regions or ()
    return _shown(entry.sha256, regions[part], CROP_SIDE) if part < len(regions) else None


@lru_cache(PICTURES_KEPT)
def _shown(sha256: str, region: Region | None, side: int) -> bytes | None:
    try:
        content = store.exhibit_path(sha256).read_bytes()
    except (store.NotKeptError, OSError):
        return None
    picture = upright_picture(content, None if region else side)
    if isinstance(picture, str):
        return None
    if region is not None:
        across, down = int(region.width * MARGIN), int(region.height * MARGIN)
        left, top = max(0, region.left - across), max(0, region.top - down)
        right = min(picture.width, region.left + region.width + across)
        bottom = min(picture.height, region.top + region.height + down)
        if right <= left or bottom <= top:
            return None
        picture = picture.crop((left, top, right, bottom))
    return small_jpeg(picture, side)
