"""`witnessmark masked-copy`."""

import json


def test_the_copy_is_a_pdf_where_it_was_asked_for(type_in, demo_folder, tmp_path):
    """witnessmark masked-copy demo/panel --out panel-masked.pdf --paper letter"""
    words = ("masked-copy", "demo/panel", "--out", "panel-masked.pdf", "--paper", "letter")
    ended = type_in(*words)
    assert (ended.code, ended.out, ended.err) == (0, "panel-masked.pdf\n", "")
    content = (tmp_path / "panel-masked.pdf").read_bytes()
    assert content.startswith(b"%PDF-")
    assert b"/MediaBox [0 0 612 792]" in content or b"/MediaBox[0 0 612 792]" in content


def test_what_is_left_out_is_said(type_in, demo_folder, tmp_path):
    """The ledger of the car without papers shows the numbers of other cars."""
    ended = type_in("masked-copy", "demo/no-papers")
    told = " ".join(ended.out.split())
    caption = "The archive's picture of the bound volume: stub of the missing leaf"
    assert told == f"no-papers-masked.pdf Photographs left out: {caption} (ledger)."
    assert (tmp_path / "no-papers-masked.pdf").is_file()


def test_a_case_named_after_its_number_gives_a_file_that_is_not(type_in, demo_folder, tmp_path):
    """The id of the case is masked in the name of the file too, and that is said."""
    document = demo_folder / "panel/case.json"
    case = json.loads(document.read_text("utf-8"))
    document.write_text(json.dumps({**case, "id": "car-582063"}), "utf-8")
    ended = type_in("masked-copy", "demo/panel")
    assert ended.code == 0
    assert ended.out.startswith("car-xxxxxx-masked.pdf\n")
    assert "The name of the case holds a number" in ended.out
    assert "582063" not in ended.out
    assert (tmp_path / "car-xxxxxx-masked.pdf").is_file()


def test_a_copy_that_would_hold_a_serial_is_not_written(
    type_in, demo_folder, tmp_path, monkeypatch
):
    """Problems and exit code 2, and the number is not repeated."""
    monkeypatch.setattr(
        "witnessmark.report.mask.texts.TextMask.typed_text", lambda self, text: text
    )
    ended = type_in("masked-copy", "demo/altered", "--out", "a.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert "a full number of this car would appear in the masked copy" in ended.err
    assert "700236" not in ended.err
    assert not (tmp_path / "a.pdf").exists()


def test_what_is_no_pdf_is_never_replaced(type_in, demo_folder):
    """--out that names the case itself."""
    document = demo_folder / "panel/case.json"
    before = document.read_bytes()
    ended = type_in("masked-copy", "demo/panel", "--out", "demo/panel/case.json")
    assert (ended.code, ended.out) == (2, "")
    assert document.read_bytes() == before


def test_a_region_outside_its_picture_is_told_with_its_place(type_in, demo_folder):
    """case.json, line and column."""
    document = demo_folder / "panel/case.json"
    case = json.loads(document.read_text("utf-8"))
    shown = next(each for each in case["exhibits"] if each["number_regions"])
    shown["number_regions"][0]["width"] = 5000
    document.write_text(json.dumps(case, indent=2), "utf-8")
    ended = type_in("masked-copy", "demo/panel")
    assert (ended.code, ended.out) == (2, "")
    assert "the region reaches beyond" in ended.err
    assert "case.json:" in ended.err
