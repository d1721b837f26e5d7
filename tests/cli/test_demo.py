"""`witnessmark demo`."""

import json

from witnessmark.cli.document.demo import CARS


def test_each_car_gets_a_report_and_an_opinion(type_in, demo_folder, tmp_path):
    """The example of its help, run as it stands."""
    shown = type_in("demo", "--help")
    assert (shown.code, shown.err) == (0, "")
    assert type_in("demo", "-h").out == shown.out
    assert shown.out.count("    witnessmark ") == 1
    assert "    witnessmark demo --out out/demo\n" in shown.out
    ended = type_in("demo", "--out", "out/demo")
    assert (ended.code, ended.err) == (0, "")
    for car in CARS:
        assert (tmp_path / f"out/demo/{car}.pdf").read_bytes().startswith(b"%PDF-")
        opinion = json.loads((tmp_path / f"out/demo/{car}.json").read_text("utf-8"))
        case = json.loads((demo_folder / car / "case.json").read_text("utf-8"))
        assert opinion["casefile"]["id"] == case["id"]
        assert f"out/demo/{car}.pdf" in ended.out
    assert sorted(path.name for path in (tmp_path / "out/demo").iterdir()) == sorted(
        f"{car}{kind}" for car in CARS for kind in (".pdf", ".json", "-annex.pdf", "-annex.html")
    )


def test_cars_that_are_elsewhere_are_named(type_in, tmp_path):
    """What is expected, and how to say where it is."""
    (tmp_path / "elsewhere").mkdir()
    ended = type_in("demo", "--cars", "elsewhere")
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.count("there is no demonstration case at elsewhere/") == 6
    assert "name it with --cars DIR" in ended.err
    assert not (tmp_path / "out").exists()


def test_a_place_that_cannot_be_written_is_a_problem(type_in, demo_folder, tmp_path):
    """A file stands where the folder should go."""
    (tmp_path / "out").write_text("x")
    ended = type_in("demo", "--out", "out/demo")
    assert (ended.code, ended.out) == (2, "")
    assert "cannot write out/demo" in ended.err
