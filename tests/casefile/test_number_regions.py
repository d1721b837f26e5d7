"""Where a picture shows numbers: recorded in pixels of the upright picture, and within it."""

import hashlib
import io
import json

import pytest
from PIL import Image

from witnessmark.casefile import open_case, parse_casefile
from witnessmark.problem import render_all


def photograph(turn: int = 1, form: str = "JPEG") -> bytes:
    """A picture of 48 × 32 pixels as the file holds it, taken with the camera this way up."""
    notes = Image.Exif()
    notes[274] = turn
    stream = io.BytesIO()
    Image.new("RGB", (48, 32), (90, 90, 90)).save(stream, form, exif=notes)
    return stream.getvalue()


def case_with(content: bytes, regions: object, file: str = "a.jpg") -> str:
    """A case with one exhibit."""
    entry = {
        "id": "photo",
        "file": file,
        "sha256": hashlib.sha256(content).hexdigest(),
        "number_regions": regions,
    }
    head = {"format": "witnessmark-case", "format_version": 2, "id": "x", "book": "b"}
    return json.dumps({**head, "exhibits": [entry]}, indent=2)


def faults(tmp_path, content: bytes, regions: object, file: str = "a.jpg") -> str:
    """What is wrong with such a case in a folder."""
    (tmp_path / "exhibits").mkdir(exist_ok=True)
    (tmp_path / "exhibits" / file).write_bytes(content)
    (tmp_path / "case.json").write_text(case_with(content, regions, file), "utf-8")
    return render_all(open_case(tmp_path).problems)


def region(left: int, top: int, width: int, height: int) -> dict[str, int]:
    """A region as it stands in a case."""
    return {"left": left, "top": top, "width": width, "height": height}


@pytest.mark.parametrize("regions", [None, [], [region(0, 0, 48, 32)], [region(47, 31, 1, 1)]])
def test_no_regions_none_known_and_regions_in_the_picture_are_sound(tmp_path, regions):
    assert faults(tmp_path, photograph(), regions) == ""


@pytest.mark.parametrize("outside", [region(0, 0, 49, 32), region(40, 10, 9, 1)])
def test_a_region_that_reaches_beyond_the_picture_is_named_with_its_place(tmp_path, outside):
    said = faults(tmp_path, photograph(), [region(0, 0, 4, 4), outside])
    text = case_with(photograph(), [region(0, 0, 4, 4), outside])
    line = 1 + [at for at, each in enumerate(text.split("\n")) if '"left"' in each][1]
    assert f"case.json:{line}:" in said
    assert "which has 48 × 32 pixels when it stands upright" in said
    assert "^" in said


@pytest.mark.parametrize("form", ["JPEG", "TIFF", "PNG"])
@pytest.mark.parametrize("turn", range(1, 9))
def test_the_picture_is_measured_upright(tmp_path, form, turn):
    """A camera held on its side: 48 × 32 in the file is 32 × 48 to the eye."""
    file = {"JPEG": "a.jpg", "TIFF": "a.tif", "PNG": "a.png"}[form]
    high = [region(0, 0, 32, 48)]
    assert (faults(tmp_path, photograph(turn, form), high, file) == "") == (turn > 4)


def test_a_paper_kept_as_a_pdf_has_no_regions(tmp_path):
    content = b"%PDF-1.7\ntrailer\n%%EOF\n"
    said = faults(tmp_path, content, [region(0, 0, 1, 1)], "a.pdf")
    assert "has no pixels" in said


@pytest.mark.parametrize(
    ("regions", "said"),
    [
        ([region(-1, 0, 4, 4)], "'left' is -1"),
        ([region(0, 0, 0, 4)], "'width' is 0"),
        ([{"left": 1}], "'top' is missing"),
        ([[1, 2, 3, 4]], "an object in { }"),
        ("everywhere", "a list in [ ]"),
        ([region(0, 0, 10**9, 4)], "'width' is 1000000000"),
    ],
)
def test_what_is_no_region_is_told_with_its_place(regions, said):
    found = parse_casefile(case_with(photograph(), regions), "case.json")
    assert found.casefile is None
    told = render_all(found.problems)
    assert said in told
    assert told.startswith("case.json:")
