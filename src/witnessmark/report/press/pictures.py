"""Photographs made ready for the page: checked against their digest, reduced, stripped.

The original is never touched: what is set in the report is a reduced copy
without the camera's notes, which include the place where it was taken. A file that
is not a picture, is broken, too large, or not the one that was recorded is named
as missing with the reason, and the report goes on.
"""

import io
from collections.abc import Mapping
from hashlib import sha256
from typing import TYPE_CHECKING

from witnessmark.casefile.pictures import Header, said_by_no_library
from witnessmark.casefile.records import ExhibitEntry
from witnessmark.catalogue import marked
from witnessmark.report.records import Picture

if TYPE_CHECKING:
    from PIL.Image import Image

LONGEST_SIDE = 1400
"""Pixels: enough for a full text width at 200 to the inch."""
FORMATS = ("JPEG", "PNG", "TIFF")
JPEG_QUALITY = 82
CACHED_PICTURES = 64

NOT_BROUGHT = marked("The file was not supplied.")
OTHER_DIGEST = marked("The file is not the one that was recorded: its SHA-256 digest differs.")
NO_PICTURE = marked(
    "The file is not a photograph that can be shown here; it remains with the case."
)
TOO_LARGE = marked("The picture is too large to be opened safely; it remains with the case.")


def prepare_pictures(
    entries: tuple[ExhibitEntry, ...], exhibits: Mapping[str, bytes]
) -> tuple[Picture, ...]:
    """One Picture for each entry, in their order; `exhibits` holds the bytes by exhibit id."""
    return tuple(_prepare(entry, exhibits.get(entry.id)) for entry in entries)


def _prepare(entry: ExhibitEntry, content: bytes | None) -> Picture:
    if content is None:
        return Picture(entry.id, b"", NOT_BROUGHT)
    digest = sha256(content).hexdigest()
    if digest != entry.sha256:
        return Picture(entry.id, b"", OTHER_DIGEST)
    if digest not in _REDUCED:
        if len(_REDUCED) >= CACHED_PICTURES:
            _REDUCED.clear()
        _REDUCED[digest] = _reduced(content)
    jpeg, missing = _REDUCED[digest]
    return Picture(entry.id, jpeg, missing)


_REDUCED: dict[str, tuple[bytes, str]] = {}
"""What was reduced already, by digest: the originals are not kept."""


def _reduced(content: bytes) -> tuple[bytes, str]:
    """The picture as a small JPEG, or why there is none."""
    upright = upright_picture(content, LONGEST_SIDE)
    return (b"", upright) if isinstance(upright, str) else (small_jpeg(upright), "")


def upright_picture(content: bytes, side_px: int | None = None) -> "Image | str":
    """The picture unpacked, upright, in RGB without the camera's notes; or why there is none.

    With `side_px` a JPEG may be unpacked smaller, to no less than so many pixels a side.
    """
    from PIL import Image, ImageOps  # late: most commands need none

    try:
        with (
            said_by_no_library(),
            Image.open(io.BytesIO(content), formats=FORMATS) as image,
        ):
            if Header(image.width, image.height, True, False).has_too_many_pixels():
                return TOO_LARGE
            if side_px is not None:
                image.draft("RGB", (side_px, side_px))
            return _in_rgb(ImageOps.exif_transpose(image))
    except (Image.DecompressionBombError, MemoryError):
        return TOO_LARGE
    except Exception:  # Pillow raises whatever its parsers stumble over
        return NO_PICTURE


def _in_rgb(image: "Image") -> "Image":
    """The same picture in RGB; of grey in 16 bits, which Pillow would cut off at white, the
    upper eight. ValueError where nothing says which number is white."""
    if image.mode in ("I", "F"):
        raise ValueError("no greatest tone is known")
    if image.mode.startswith("I;16"):
        image = image.point(lambda tone: tone / 256)
    return image.convert("RGB")


def small_jpeg(image: "Image", side_px: int = LONGEST_SIDE) -> bytes:
    """The picture, itself reduced to so many pixels a side at most, as a JPEG."""
    image.thumbnail((side_px, side_px))
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=JPEG_QUALITY)
    return stream.getvalue()
