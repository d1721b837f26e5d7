"""`witnessmark report`."""


def test_the_report_is_a_pdf_where_it_was_asked_for(type_in, demo_folder, tmp_path):
    """witnessmark report demo/panel --out panel.pdf"""
    ended = type_in("report", "demo/panel", "--out", "panel.pdf")
    assert (ended.code, ended.out, ended.err) == (0, "panel.pdf\n", "")
    assert (tmp_path / "panel.pdf").read_bytes().startswith(b"%PDF-")


def test_without_a_name_the_report_is_named_after_the_case(type_in, demo_folder, tmp_path):
    """witnessmark report demo/clean"""
    assert type_in("report", "demo/clean").out == "clean.pdf\n"
    assert (tmp_path / "clean.pdf").is_file()


def test_what_is_no_report_is_never_replaced(type_in, demo_folder):
    """--out that names the case itself."""
    document = demo_folder / "panel/case.json"
    before = document.read_bytes()
    ended = type_in("report", "demo/panel", "--out", "demo/panel/case.json")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err == (
        "--out: demo/panel/case.json is there and is no PDF; nothing was written\n"
        "expected a new file name\n"
    )
    assert document.read_bytes() == before


def test_a_report_that_cannot_be_written_leaves_nothing(type_in, demo_folder, tmp_path):
    """The folder is not there."""
    ended = type_in("report", "demo/panel", "--out", "nowhere/panel.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert "nothing was written" in ended.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["demo"]


def test_a_bad_case_gives_no_report(type_in, demo_folder, tmp_path):
    """Problems and exit code 2."""
    (demo_folder / "panel/case.json").write_text("{", "utf-8")
    ended = type_in("report", "demo/panel", "--out", "panel.pdf")
    assert (ended.code, ended.out) == (2, "")
    assert not (tmp_path / "panel.pdf").exists()
