"""What kind of file an exhibit is and whether it is whole, told from headers alone.

No pixel is unpacked here: a picture of a few thousand bytes can claim billions
of them. What a kind of file begins and ends with follows its own standard:
JPEG ISO/IEC 10918-1 annex B, PNG W3C second edition section 5, TIFF 6.0
section 2, PDF ISO 32000-1 section 7.5, HEIC ISO/IEC 23008-12 annex B.
"""

import io
import os
import re
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from operator import index
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from PIL.Image import Image

ERROR_STREAM = 2
"""The number under which every process has it."""

MOST_MEGAPIXELS = 120
"""Most pixels of a picture, in millions."""
MOST_PIXELS_A_SIDE = 65_535
"""Most rows or columns: each takes room of its own, and a JPEG cannot have more."""

KINDS = MappingProxyType(
    {
        "image/jpeg": "a JPEG picture",
        "image/png": "a PNG picture",
        "image/tiff": "a TIFF picture",
        "application/pdf": "a PDF",
    }
)
"""Media type to what a sentence calls it."""

_BEGINNINGS = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"II*\x00", "image/tiff"),
    (b"MM\x00*", "image/tiff"),
    (b"%PDF-", "application/pdf"),
)
_PHONE_BEGINNING = re.compile(rb".{4}ftyp(?:hei[cmsx]|hev[cmsx]|mif1|msf1|avif|avis)", re.DOTALL)
_JPEG_END, _JPEG_SCAN = b"\xff\xd9", 0xDA
_PNG_END = b"\x00\x00\x00\x00IEND"
_STRIP_OFFSETS, _STRIP_BYTES, _TILE_OFFSETS, _TILE_BYTES = 273, 279, 324, 325
_PDF_END, _PDF_TAIL_BYTES = b"%%EOF", 2048
_ORIENTATION, _QUARTER_TURNS = 274, (5, 6, 7, 8)
_CAMERA_NOTES, _TAKEN_AT, _TAKEN_ZONE = 0x8769, 0x9003, 0x9011
_TAKEN = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)", re.ASCII)
_ZONE = re.compile(r"[+-]\d\d:\d\d", re.ASCII)


@dataclass(frozen=True, slots=True)
class Header:
    """What a header says: the size in pixels (0 for a PDF), and whether the file is whole.

    `lies_on_its_side` where the camera noted that the picture must be turned by a quarter.
    """

    width_px: int
    height_px: int
    is_readable: bool
    is_cut_short: bool
    lies_on_its_side: bool = False

    def upright_size(self) -> tuple[int, int]:
        """Width and height of the picture as it is looked at."""
        size = (self.width_px, self.height_px)
        return size[::-1] if self.lies_on_its_side else size

    def has_too_many_pixels(self) -> bool:
        """Would unpacking it be dangerous?"""
        is_long = max(self.width_px, self.height_px) > MOST_PIXELS_A_SIDE
        return is_long or self.width_px * self.height_px > MOST_MEGAPIXELS * 1_000_000


def media_type_by_content(content: bytes) -> str | None:
    """The media type that the first bytes tell, or None.

    >>> media_type_by_content(b"%PDF-1.7 ...")
    'application/pdf'
    """
    for beginning, media_type in _BEGINNINGS:
        if content.startswith(beginning):
            return media_type
    return None


def is_from_a_phone(content: bytes) -> bool:
    """Is it a HEIC or AVIF picture, as many phones make them? No such picture is read here."""
    return _PHONE_BEGINNING.match(content) is not None


@contextmanager
def said_by_no_library() -> Iterator[None]:
    """Keep from the screen what Pillow and the libraries below it say: warnings that name paths
    of this machine, and lines that libtiff writes past Python."""
    import logging  # late: Pillow loads it too

    log, silent = logging.getLogger("PIL"), logging.NullHandler()
    log.addHandler(silent)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with _error_stream_shut():
                yield
    finally:
        log.removeHandler(silent)


@contextmanager
def _error_stream_shut() -> Iterator[None]:
    """Nothing reaches the process's error stream; where it has none, nothing is to be done."""
    try:
        kept = os.dup(ERROR_STREAM)
    except OSError:
        yield
        return
    try:
        with open(os.devnull, "wb") as nowhere:
            os.dup2(nowhere.fileno(), ERROR_STREAM)
        yield
    finally:
        os.dup2(kept, ERROR_STREAM)
        os.close(kept)


def read_header(content: bytes, media_type: str) -> Header:
    """The header of a picture or document; never raises for any bytes."""
    if media_type == "application/pdf":
        return Header(0, 0, True, _PDF_END not in content[-_PDF_TAIL_BYTES:])
    try:
        with said_by_no_library():
            return _READERS[media_type](content)
    except Exception:  # Pillow raises whatever its parsers stumble over
        return Header(0, 0, False, _ENDS_EARLY[media_type](content))


def camera_moment(content: bytes, media_type: str) -> str:
    """When a picture was taken by its camera's clock, as a case writes it; empty where the camera
    noted none (EXIF 2.32, tags 36867 and 36881). Never raises for any bytes."""
    if media_type != "image/jpeg":
        return ""
    from PIL.JpegImagePlugin import JpegImageFile

    try:
        with said_by_no_library():
            notes = JpegImageFile(io.BytesIO(content)).getexif().get_ifd(_CAMERA_NOTES)
            taken = _TAKEN.fullmatch(str(notes.get(_TAKEN_AT, "")).strip("\0 "))
            zone = _ZONE.fullmatch(str(notes.get(_TAKEN_ZONE, "")).strip("\0 "))
    except Exception:  # Pillow raises whatever its parsers stumble over
        return ""
    if taken is None:
        return ""
    return f"{taken[1]}-{taken[2]}-{taken[3]}T{taken[4]}{zone[0] if zone else ''}"


# Each format's own reader is called, not `Image.open`: that would import every
# format there is, and refuse a large picture without telling its size.


def _jpeg_header(content: bytes) -> Header:
    from PIL.JpegImagePlugin import JpegImageFile

    picture = JpegImageFile(io.BytesIO(content))
    cut, turned = _jpeg_ends_early(content), _lies_on_its_side(picture)
    return Header(picture.width, picture.height, True, cut, turned)


def _png_header(content: bytes) -> Header:
    from PIL.PngImagePlugin import PngImageFile

    picture = PngImageFile(io.BytesIO(content))
    cut, turned = _png_ends_early(content), _lies_on_its_side(picture)
    header = Header(picture.width, picture.height, True, cut, turned)
    if not header.is_cut_short and not header.has_too_many_pixels():
        picture.verify()  # the check sum of every chunk, still without unpacking one
    return header


def _tiff_header(content: bytes) -> Header:
    from PIL.TiffImagePlugin import TiffImageFile

    picture = TiffImageFile(io.BytesIO(content))
    tags = picture.tag_v2
    strips = zip(tags.get(_STRIP_OFFSETS, ()), tags.get(_STRIP_BYTES, ()), strict=True)
    tiles = zip(tags.get(_TILE_OFFSETS, ()), tags.get(_TILE_BYTES, ()), strict=True)
    pieces = [(index(start), index(count)) for start, count in (*strips, *tiles)]
    if not any(count for _, count in pieces):
        raise ValueError("no pixels are said to lie anywhere")
    is_cut_short = any(start + count > len(content) for start, count in pieces)
    # Pillow gives the size of a TIFF upright.
    return Header(picture.width, picture.height, True, is_cut_short)


def _lies_on_its_side(picture: "Image") -> bool:
    """Does the camera's note on the way up (EXIF tag 274) ask for a quarter turn?

    A PNG whose note stands behind its pixels counts as upright: to look for it
    would unpack them.
    """
    if picture.format == "PNG" and "exif" not in picture.info:
        return False
    return picture.getexif().get(_ORIENTATION) in _QUARTER_TURNS


def _jpeg_ends_early(content: bytes) -> bool:
    """Does the end marker fail to follow the first scan?

    The segments before the scan are stepped over, because a small picture of
    its own, with its own end, often lies in one of them.
    """
    offset = 2
    while offset + 4 <= len(content) and content[offset] == 0xFF:
        marker = content[offset + 1]
        if marker == 0xFF:  # padding
            offset += 1
            continue
        offset += 2 + int.from_bytes(content[offset + 2 : offset + 4])
        if marker == _JPEG_SCAN:
            break
    return content.find(_JPEG_END, offset) < 0


def _png_ends_early(content: bytes) -> bool:
    """Is the closing chunk missing, or its check sum, the last four bytes?"""
    offset = content.rfind(_PNG_END)
    return offset < 0 or offset + len(_PNG_END) + 4 > len(content)


def _tiff_ends_early(content: bytes) -> bool:
    """Does the directory lie beyond the end? Eight bytes say where it lies."""
    order: Literal["little", "big"] = "little" if content.startswith(b"II") else "big"
    return len(content) < 8 or int.from_bytes(content[4:8], order) + 2 > len(content)


_READERS: dict[str, Callable[[bytes], Header]] = {
    "image/jpeg": _jpeg_header,
    "image/png": _png_header,
    "image/tiff": _tiff_header,
}
_ENDS_EARLY: dict[str, Callable[[bytes], bool]] = {
    "image/jpeg": _jpeg_ends_early,
    "image/png": _png_ends_early,
    "image/tiff": _tiff_ends_early,
}
