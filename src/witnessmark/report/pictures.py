"""Photographs made ready for the page: checked against their digest, reduced, stripped.

The original is never touched: what is set in the report is a reduced copy
without the camera's notes, among them the place where it was taken. A file that
is no picture, is broken, too large, or not the one that was recorded is named
as missing with the reason, and the report goes on.
"""

import io
import warnings
from collections.abc import Mapping
from hashlib import sha256

from witnessmark.casefile.pictures import MOST_MEGAPIXELS
from witnessmark.casefile.records import ExhibitEntry
from witnessmark.catalogue import marked
from witnessmark.report.records import Picture

LONGEST_SIDE = 1400
"""Pixels: enough for a full text width at 200 to the inch."""
FORMATS = ("JPEG", "PNG", "TIFF")
JPEG_QUALITY = 82
CACHED_PICTURES = 64

NOT_BROUGHT = marked("The file was not brought along.")
OTHER_DIGEST = marked("The file is not the one that was recorded: its SHA-256 digest differs.")
NO_PICTURE = marked(
    "The file is not a photograph that can be shown here; it is kept with the case."
)
TOO_LARGE = marked("The picture is larger than can be opened safely; it is kept with the case.")


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
    from PIL import Image, ImageOps, UnidentifiedImageError  # late: most commands need none

    try:
        with warnings.catch_warnings(), Image.open(io.BytesIO(content), formats=FORMATS) as image:
            warnings.simplefilter("ignore")
            if image.width * image.height > MOST_MEGAPIXELS * 1_000_000:
                return b"", TOO_LARGE
            image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(image).convert("RGB")
            upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
            stream = io.BytesIO()
            upright.save(stream, "JPEG", quality=JPEG_QUALITY)
    except Image.DecompressionBombError:
        return b"", TOO_LARGE
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, EOFError):
        # Pillow raises any of these for a picture that is broken or cut short.
        return b"", NO_PICTURE
    return stream.getvalue(), ""
