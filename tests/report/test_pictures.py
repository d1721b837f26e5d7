"""A photograph is made ready for the page, or named as missing; no file stops a report."""

import io
import os
import struct
import subprocess
import sys
import zlib
from hashlib import sha256
from pathlib import Path

import pytest
from PIL import Image

from witnessmark.casefile import ExhibitEntry
from witnessmark.report.mask.pictures import masked_pictures
from witnessmark.report.press.pictures import NO_PICTURE, TOO_LARGE, prepare_pictures
from witnessmark.report.press.typst_press import press


def entry(content: bytes) -> ExhibitEntry:
    """The entry of a picture that shows no number."""
    digest = sha256(content).hexdigest()
    return ExhibitEntry(id="x", file="x.tif", sha256=digest, number_regions=())


def prepared(content: bytes):
    """The picture on the page, and in the masked copy."""
    one = entry(content)
    exhibits = {"x": content}
    return prepare_pictures((one,), exhibits)[0], masked_pictures((one,), exhibits, {"x": "x"})[0]


def tiff(*tags: tuple[int, int, int, int], content: bytes = b"") -> bytes:
    """A TIFF of one directory."""
    directory = b"".join(struct.pack("<HHII", *tag) for tag in tags)
    return b"II*\0\x08\0\0\0" + struct.pack("<H", len(tags)) + directory + b"\0" * 4 + content


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_a_grey_scan_in_sixteen_bits_keeps_its_tones(kind):
    """From black over grey to white; all of it came out white."""
    row = b"".join(struct.pack("<H", tone) * 32 for tone in (0, 0x8000, 0xFFFF))
    scan = Image.frombytes("I;16", (96, 32), row * 32)
    stream = io.BytesIO()
    scan.save(stream, kind)
    for shown in prepared(stream.getvalue()):
        with Image.open(io.BytesIO(shown.jpeg)) as image:
            tones = [image.getpixel((at, 16)) for at in (16, 48, 80)]
        assert tones == [(0, 0, 0), (128, 128, 128), (255, 255, 255)]


@pytest.mark.parametrize(
    ("content", "missing"),
    [
        (tiff((256, 4, 1, 4), (257, 3, 1, 4), (273, 12, 1, 5)), NO_PICTURE),
        (tiff((256, 4, 1, 4), (257, 4, 1, 4), (273, 4, 1, 8), (279, 4, 1, 4), (700, 12, 1, 3)),
         NO_PICTURE),
        (tiff((256, 4, 1, 4), (257, 4, 1, 4), (277, 3, 1, 50)), NO_PICTURE),
    ],
    ids=["a place with a fraction", "a note that is a number", "fifty samples"],
)  # fmt: skip
def test_a_picture_that_no_reader_makes_out_is_named_as_missing(content, missing, recwarn, capfd):
    """Whatever its reader stumbles over; nothing of it, nor of a library's path, is printed."""
    shown, masked = prepared(content)
    assert (shown.jpeg, shown.missing) == (b"", missing)
    assert masked.jpeg == b""
    assert not recwarn
    assert capfd.readouterr() == ("", "")


def test_a_picture_of_one_endless_column_takes_no_room():
    """Eighty bytes took 3.8 GB."""

    def chunk(name: bytes, content: bytes) -> bytes:
        end = struct.pack(">I", zlib.crc32(name + content))
        return struct.pack(">I", len(content)) + name + content + end

    size = struct.pack(">IIBBBBB", 1, 120_000_000, 8, 0, 0, 0, 0)
    parts = chunk(b"IHDR", size), chunk(b"IDAT", zlib.compress(b"\0")), chunk(b"IEND", b"")
    shown, masked = prepared(b"\x89PNG\r\n\x1a\n" + b"".join(parts))
    assert (shown.jpeg, shown.missing) == (b"", TOO_LARGE)
    assert masked.jpeg == b""


def test_the_folder_of_the_press_is_closed_to_others():
    """Photographs lie in it unmasked while a report is set."""
    assert Path(press().folder.name).stat().st_mode & 0o777 == 0o700


WAITING = """
import signal
from witnessmark.cli import main
from witnessmark.report.press.typst_press import press
main.answer = lambda _: (print(press().folder.name, flush=True), signal.pause())
main.run()
"""


def test_a_press_that_is_stopped_leaves_nothing_and_one_that_is_killed_is_swept(tmp_path):
    """SIGTERM ends it as an answer does; after a kill the next press clears up, and only that."""

    def started() -> tuple[subprocess.Popen[str], Path]:
        command = [sys.executable, "-c", WAITING]
        where = {**os.environ, "TMPDIR": str(tmp_path)}
        run = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=where)
        assert run.stdout is not None
        return run, Path(run.stdout.readline().strip())

    killed, left = started()
    killed.kill()
    killed.wait()
    assert left.is_dir()
    living, kept = started()
    assert not left.exists()
    stopped, cleared = started()
    assert kept.is_dir()
    stopped.terminate()
    assert stopped.wait() == 143
    assert not cleared.exists()
    assert kept.is_dir()
    living.kill()
    living.wait()


def test_a_library_below_says_nothing_on_the_screen(capfd):
    """A scan whose packed bytes are broken: libtiff writes to the error stream past Python."""
    stream = io.BytesIO()
    Image.new("L", (64, 64), 100).save(stream, "TIFF", compression="tiff_lzw")
    broken = bytearray(stream.getvalue())
    broken[8:60] = b"\xff" * 52
    shown, masked = prepared(bytes(broken))
    assert shown.missing == NO_PICTURE
    assert masked.missing
    assert capfd.readouterr().err == ""
    os.write(2, b"heard again")
    assert capfd.readouterr().err == "heard again"
