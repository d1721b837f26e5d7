"""What is installed from a wheel, outside any checkout, has all that it needs."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
ONE_CAR = """
from functools import partial
from witnessmark.cli import cases, main
from witnessmark.cli.document import demo
demo.CARS = ("clean",)
demo.examined_case = partial(cases.examined_case, steady=False)
cases.examine = partial(cases.examine, at_once=True)
raise SystemExit(main.answer(["demo", "--out", "out"]))
"""
"""Of what is worked out for a report only the ratios: the rest asks the wheel for nothing more."""


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The wheel, unpacked as an installer would."""
    folder = tmp_path_factory.mktemp("wheel")
    build = (sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder))
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(folder / "site")
    return folder / "site"


def python(installed, code, where):
    """Run with the unpacked package, in a folder of its own."""
    return subprocess.run(
        (sys.executable, "-c", code),
        cwd=where,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_wheel_has_its_demonstration(installed, tmp_path):
    """witnessmark demo, of one car"""
    ended = python(installed, ONE_CAR, tmp_path)
    assert (ended.returncode, ended.stderr) == (0, "")
    assert (tmp_path / "out/clean.pdf").read_bytes().startswith(b"%PDF-")


def test_a_wheel_has_the_pages_that_its_messages_name(installed, tmp_path):
    """And its help says where they are."""
    for name in ("codebook.md", "catalogue/witnessmark.pot"):
        assert (installed / "witnessmark/docs" / name).is_file()
    code = "from witnessmark.cli.main import answer; answer(['--help'])"
    shown = "".join(python(installed, code, tmp_path).stdout.split())  # a path may be wrapped
    assert f"Thepagesthatmessagesnamearein{installed}/witnessmark/docs." in shown


def test_a_wheel_holds_the_six_cars_and_no_tool_that_draws_them(installed):
    """Each as it stands in demo/."""
    cars = sorted(path.parent.name for path in (ROOT / "demo").glob("*/case.json"))
    assert sorted(path.name for path in (installed / "witnessmark/demo").iterdir()) == cars
    assert len(cars) == 6
