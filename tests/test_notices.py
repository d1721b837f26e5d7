"""NOTICES is of today: the fonts in the package and the libraries that it runs with."""

import runpy
import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
FONT = ROOT / "src/witnessmark/report/press/fonts/SourceSans3-Regular.otf"


def maker():
    """The names of the script that writes the page."""
    return runpy.run_path(str(ROOT / "bin" / "notices"))


def test_the_notices_are_of_today():
    """Write them again with `make docs`."""
    assert (ROOT / "NOTICES").read_text("utf-8") == maker()["notices"]()


def test_a_library_that_only_the_tests_need_is_not_among_them():
    """What runs the program is: also what a library of its own asks for."""
    named = maker()["run_with"]()
    assert {"numpy", "pydantic-core"} <= named
    assert named.isdisjoint({"pytest", "hypothesis", "matplotlib"})


@pytest.mark.parametrize("name", ["Other.otf", "vendored.js"])
def test_a_file_of_others_without_its_licence_is_named(tmp_path, name):
    """A font whose licence does not stand beside it, and a kind of file that is not ours."""
    shutil.copy(FONT, tmp_path / name)
    with pytest.raises(SystemExit, match=f"{name}: no licence stands beside it"):
        maker()["fonts"](tmp_path)
