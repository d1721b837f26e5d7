"""An exhibit counts only as the very file that was entered, whole, and inside its folder."""

import hashlib
import io
import os
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageFile

from tests.examples import tried_on
from witnessmark.casefile import ExhibitEntry, ExhibitFolder, open_case, parse_casefile
from witnessmark.casefile.pictures import media_type_by_content, read_header
from witnessmark.problem import render_all


def picture(kind: str, width_px: int = 48, height_px: int = 32) -> bytes:
    """A small picture with something in it."""
    stream = io.BytesIO()
    image = Image.linear_gradient("L").resize((width_px, height_px)).convert("RGB")
    image.save(stream, kind)
    return stream.getvalue()


def png_header(width_px: int, height_px: int) -> bytes:
    """A PNG of 60 bytes that says it is this large."""

    def chunk(name: bytes, content: bytes) -> bytes:
        check_sum = zlib.crc32(name + content)
        return struct.pack(">I", len(content)) + name + content + struct.pack(">I", check_sum)

    size = struct.pack(">IIBBBBB", width_px, height_px, 8, 2, 0, 0, 0)
    parts = chunk(b"IHDR", size), chunk(b"IDAT", zlib.compress(b"")), chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


PDF = b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n9\n%%EOF\n"
WHOLE = {
    "a.jpg": picture("JPEG"),
    "a.png": picture("PNG"),
    "a.tif": picture("TIFF"),
    "a.pdf": PDF,
}


@pytest.fixture
def folder(tmp_path: Path) -> ExhibitFolder:
    """A case's folder of exhibits, with one of each kind."""
    (tmp_path / "exhibits").mkdir()
    for file, content in WHOLE.items():
        (tmp_path / "exhibits" / file).write_bytes(content)
    return ExhibitFolder(tmp_path / "exhibits")


def entry(file: str, content: bytes) -> ExhibitEntry:
    return ExhibitEntry(id="photo", file=file, sha256=hashlib.sha256(content).hexdigest())


def sentences(folder: ExhibitFolder, file: str, content: bytes) -> list[str]:
    """What is said about a file that was entered with this content."""
    read = folder.read(entry(file, content))
    assert (read.exhibit is None) == bool(read.problems)
    return [each.sentence() for each in read.problems]


def put_there(folder: ExhibitFolder, file: str, content: bytes) -> bytes:
    """Put a file there."""
    (folder.folder / file).write_bytes(content)
    return content


def put(folder: ExhibitFolder, file: str, content: bytes) -> list[str]:
    """Put a file there, enter it, and hear what is said."""
    (folder.folder / file).write_bytes(content)
    return sentences(folder, file, content)


@pytest.mark.parametrize(
    ("file", "media_type", "width_px"),
    [
        ("a.jpg", "image/jpeg", 48),
        ("a.png", "image/png", 48),
        ("a.tif", "image/tiff", 48),
        ("a.pdf", "application/pdf", 0),
    ],
)
def test_a_whole_file_is_given_byte_for_byte(folder, file, media_type, width_px):
    exhibit = folder.read(entry(file, WHOLE[file])).exhibit
    assert exhibit is not None
    assert exhibit.content == WHOLE[file]
    assert (exhibit.media_type, exhibit.width_px) == (media_type, width_px)


def test_no_pixel_is_unpacked_to_tell_whether_a_picture_is_sound(folder, monkeypatch):
    def unpack(self):
        raise AssertionError("a pixel was unpacked")

    monkeypatch.setattr(ImageFile.ImageFile, "load", unpack)
    for file in ("a.jpg", "a.png", "a.tif"):
        assert sentences(folder, file, WHOLE[file]) == []


def test_the_reader_of_pictures_is_not_loaded_with_the_room():
    code = "import sys, witnessmark.casefile; print('PIL' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "False\n"


def test_other_bytes_than_those_entered_are_told(folder):
    read = folder.read(entry("a.pdf", b"something else"))
    found, entered = (hashlib.sha256(each).hexdigest() for each in (PDF, b"something else"))
    assert read.exhibit is None
    assert render_all(read.problems) == (
        f"'exhibits/a.pdf' is not the file that was entered: its SHA-256 is {found}\n"
        f"expected {entered}"
    )


def test_a_file_that_is_not_there_is_told_at_its_place_in_the_case(tmp_path):
    text = f"""{{"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",
 "exhibits": [{{"id": "e", "file": "a.jpg",
               "sha256": "{"0" * 64}"}}]}}"""
    (tmp_path / "case.json").write_text(text, "utf-8")
    opened = open_case(tmp_path)
    assert opened.casefile is not None
    assert render_all(opened.problems) == (
        f"{tmp_path}/case.json:2:35: 'exhibits/a.jpg' is not there\n"
        '     "exhibits": [{"id": "e", "file": "a.jpg",\n'
        "                                      ^^^^^^^\n"
        "expected the file beside the case, in exhibits/"
    )
    assert open_case(tmp_path, check_exhibits=False).problems == ()


@pytest.mark.parametrize(
    "file", ["../case.json", "/etc/passwd", "..\\a.jpg", "x/../a.jpg", "a\0.jpg"]
)
def test_a_name_that_leads_elsewhere_opens_nothing(folder, file, monkeypatch):
    def opened(*_):
        raise AssertionError("a file was opened")

    monkeypatch.setattr(Path, "open", opened)
    monkeypatch.setattr(Path, "resolve", opened)
    (said,) = sentences(folder, file, b"")
    assert said.startswith("the file name ")


def test_a_link_that_leads_out_of_the_folder_is_refused(folder, tmp_path):
    (tmp_path / "secret.jpg").write_bytes(WHOLE["a.jpg"])
    (folder.folder / "b.jpg").symlink_to(tmp_path / "secret.jpg")
    assert sentences(folder, "b.jpg", WHOLE["a.jpg"]) == [
        "'exhibits/b.jpg' is a link that leads out of the folder"
    ]


def test_a_folder_of_exhibits_that_is_itself_a_link_is_refused(folder, tmp_path):
    (tmp_path / "case").mkdir()
    (tmp_path / "case" / "exhibits").symlink_to(folder.folder)
    assert sentences(ExhibitFolder(tmp_path / "case" / "exhibits"), "a.jpg", WHOLE["a.jpg"]) == [
        "'exhibits/a.jpg' is a link that leads out of the folder"
    ]


def test_a_link_inside_the_folder_is_followed_and_a_circle_of_links_is_not(folder):
    (folder.folder / "b.jpg").symlink_to("a.jpg")
    (folder.folder / "c.jpg").symlink_to("d.jpg")
    (folder.folder / "d.jpg").symlink_to("c.jpg")
    assert sentences(folder, "b.jpg", WHOLE["a.jpg"]) == []
    (said,) = sentences(folder, "c.jpg", WHOLE["a.jpg"])
    assert said.startswith("'exhibits/c.jpg' ")


def test_what_is_not_a_file_is_never_opened(folder):
    """A pipe would be waited on for ever."""
    os.mkfifo(folder.folder / "pipe.jpg")
    (folder.folder / "folder.jpg").mkdir()
    for file in ("pipe.jpg", "folder.jpg"):
        assert sentences(folder, file, b"") == [
            f"'exhibits/{file}' cannot be read: it is not a file"
        ]


def test_a_file_that_the_system_refuses_is_told(folder, monkeypatch):
    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert sentences(folder, "a.jpg", WHOLE["a.jpg"]) == [
        "'exhibits/a.jpg' cannot be read: Permission denied"
    ]


def test_a_file_larger_than_an_exhibit_may_be_is_refused(folder):
    with (folder.folder / "b.png").open("wb") as stream:
        stream.truncate(50_000_001)
    assert sentences(folder, "b.png", b"") == ["'exhibits/b.png' is larger than 50 MB"]


@pytest.mark.parametrize(
    ("width_px", "height_px"), [(60_000, 2_001), (2_147_483_647, 2_147_483_647), (12_000, 12_000)]
)
def test_a_picture_that_claims_too_many_pixels_is_refused_by_its_header(
    folder, width_px, height_px
):
    bomb = png_header(width_px, height_px)
    assert len(bomb) < 80
    assert put(folder, "b.png", bomb) == [
        f"'exhibits/b.png' is a picture of {width_px} × {height_px} pixels"
    ]


def test_a_picture_of_too_many_rows_or_columns_is_refused_by_its_header(folder):
    """Room is set aside for each of them: eighty bytes took 3.8 GB."""
    for size in ((1, 120_000_000), (120_000_000, 1), (1, 65_536)):
        read = folder.read(entry("b.png", put_there(folder, "b.png", png_header(*size))))
        assert render_all(read.problems) == (
            f"'exhibits/b.png' is a picture of {size[0]} × {size[1]} pixels\n"
            "expected at most 65535 pixels a side"
        )
    assert put(folder, "b.png", png_header(1, 65_535)) == []


@pytest.mark.parametrize(
    "pieces",
    [
        [],
        [(273, 12, 1, 5), (279, 4, 1, 4)],
        [(273, 4, 1, 8)],
        [(273, 4, 1, 8), (279, 4, 1, 0)],
        [(273, 2, 1, 8), (279, 2, 1, 8)],
    ],
    ids=["no place", "a place with a fraction", "no length", "a length of nothing", "letters"],
)
def test_a_tiff_that_does_not_say_where_its_pixels_lie_is_refused(folder, pieces, recwarn, capfd):
    """Fifty bytes passed, and the report stopped at them."""
    tags = [(256, 4, 1, 4), (257, 3, 1, 4), *pieces]
    directory = b"".join(struct.pack("<HHII", *tag) for tag in tags)
    content = b"II*\0\x08\0\0\0" + struct.pack("<H", len(tags)) + directory + b"\0" * 12
    assert put(folder, "b.tif", content) == ["'exhibits/b.tif' cannot be deciphered"]
    assert not recwarn
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("brand", [b"heic", b"mif1", b"avif"])
def test_a_picture_as_phones_keep_it_is_refused_with_the_way_to_export_it(folder, brand):
    """By what it is, and by its name alone."""
    content = b"\0\0\0\x18ftyp" + brand + b"\0\0\0\0"
    read = folder.read(entry("b.jpg", put_there(folder, "b.jpg", content)))
    wanted = (
        "\nexpected a JPEG of it: set the phone's camera to JPEG before the visit; from a "
        "picture already taken, export a full-size JPEG and keep the original beside the "
        "case"
    )
    assert render_all(read.problems) == (
        "'exhibits/b.jpg' is a HEIC picture, as phones store them, which cannot be read" + wanted
    )
    assert render_all(folder.read(entry("IMG_1.HEIC", content)).problems) == (
        (
            "the file name 'IMG_1.HEIC' has the ending of a HEIC picture, as phones store "
            "them, which cannot be read"
        )
        + wanted
    )


def test_a_picture_just_below_the_limit_is_taken(folder):
    assert put(folder, "b.png", png_header(12_000, 10_000)) == []


def test_a_jpeg_that_claims_too_many_pixels_is_refused_by_its_header(folder):
    start = WHOLE["a.jpg"].index(b"\xff\xc0") + 5
    bomb = WHOLE["a.jpg"][:start] + struct.pack(">HH", 65_000, 65_000) + WHOLE["a.jpg"][start + 4 :]
    assert put(folder, "b.jpg", bomb) == ["'exhibits/b.jpg' is a picture of 65000 × 65000 pixels"]


@pytest.mark.parametrize("file", sorted(WHOLE))
def test_a_file_cut_off_anywhere_is_refused(folder, file):
    """At a thousand places, or each."""
    whole = WHOLE[file].rstrip() if file == "a.pdf" else WHOLE[file]
    for length in range(0, len(whole), 1 + len(whole) // 1000):
        (said,) = put(folder, file, whole[:length])
        assert said in (
            f"'exhibits/{file}' breaks off before its end",
            f"'exhibits/{file}' is of a kind that cannot be read",
            f"'exhibits/{file}' cannot be deciphered",
        ), length
    assert put(folder, file, whole[: len(whole) * 3 // 4]) == [
        f"'exhibits/{file}' breaks off before its end"
    ]


def test_the_end_of_a_small_picture_inside_is_not_taken_for_the_end_of_the_whole(folder):
    small, large = picture("JPEG", 8, 8), picture("JPEG", 480, 320)
    segment = b"\xff\xe1" + struct.pack(">H", len(small) + 2) + small
    with_preview = large[:2] + segment + large[2:]
    assert put(folder, "b.jpg", with_preview) == []
    assert put(folder, "b.jpg", with_preview[:-40]) == [
        "'exhibits/b.jpg' breaks off before its end"
    ]


def test_a_png_with_a_changed_byte_inside_is_refused(folder):
    changed = bytearray(WHOLE["a.png"])
    changed[len(changed) // 2] ^= 0x10
    assert put(folder, "b.png", bytes(changed)) == ["'exhibits/b.png' cannot be deciphered"]


def test_a_file_of_another_kind_than_its_name_says_is_told(folder):
    assert put(folder, "b.png", WHOLE["a.jpg"]) == [
        "'exhibits/b.png' is named as a PNG picture but holds a JPEG picture"
    ]
    assert put(folder, "b.pdf", b"MZ\x90\x00") == [
        "'exhibits/b.pdf' is of a kind that cannot be read"
    ]
    assert put(folder, "c.pdf", b"") == ["'exhibits/c.pdf' is of a kind that cannot be read"]


def test_everything_wrong_with_one_file_is_told_at_once(folder):
    (folder.folder / "b.png").write_bytes(WHOLE["a.jpg"][:-2])
    assert len(sentences(folder, "b.png", b"entered")) == 3


def test_all_exhibits_of_a_case_are_checked_one_after_the_other(folder):
    text = f"""{{"format": "witnessmark-case", "format_version": 2, "id": "a", "book": "b",
 "exhibits": [{{"id": "1", "file": "a.jpg", "sha256": "{"0" * 64}"}},
              {{"id": "2", "file": "a.pdf", "sha256": "{hashlib.sha256(PDF).hexdigest()}"}},
              {{"id": "3", "file": "gone.pdf", "sha256": "{"0" * 64}"}}]}}"""
    parsed = parse_casefile(text, "case.json")
    assert parsed.casefile is not None
    problems = folder.check(parsed.casefile, parsed.places)
    assert [each.source.line for each in problems] == [2, 4]


@tried_on(2000)
@given(
    st.sampled_from(sorted(WHOLE)),
    st.lists(st.tuples(st.integers(0, 2000), st.binary(max_size=6)), min_size=1, max_size=4),
    st.integers(0, 4000),
)
def test_any_bytes_in_an_exhibit_are_answered(file, changes, length):
    content = bytearray(WHOLE[file][:length] if length < 3000 else WHOLE[file])
    for offset, instead in changes:
        at = offset % (len(content) + 1)
        content[at : at + len(instead)] = instead
    media_type = media_type_by_content(bytes(content))
    if media_type is not None:
        header = read_header(bytes(content), media_type)
        assert header.width_px >= 0
        assert header.height_px >= 0
