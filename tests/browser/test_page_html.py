"""The page for a browser, in one: nothing is wider than the window, in the light and in the dark.

The page stands in a frame of the
width that is tried; what surrounds it measures, since the page itself runs nothing.
"""

import shutil
import subprocess
from itertools import product

import pytest

from tests.report.test_html import page_of
from witnessmark.report import build_outline
from witnessmark.report.outline import build_annex

pytestmark = pytest.mark.browser

BROWSER = shutil.which("chromium-headless-shell") or shutil.which("chromium")
OPTIONS = ("--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking")
WIDTHS = (360, 1280)
SCHEMES = {"dark": 0, "light": 1}
PAPER = {"dark": "rgb(20, 24, 29)", "light": "rgb(255, 255, 255)"}
MEASURED = """<!doctype html><title>x</title><iframe id="f" src="page.html"></iframe><script>
const frame = document.getElementById("f"), told = [];
frame.height = 800;
frame.onload = () => {
  const page = frame.contentDocument;
  for (const width of %s) {
    frame.width = width;
    const body = frame.contentWindow.getComputedStyle(page.body);
    told.push([page.documentElement.scrollWidth, width, body.backgroundColor].join(";"));
  }
  document.title = told.join("|");
};
</script>"""


@pytest.mark.parametrize(("build", "scheme"), [*product((build_outline, build_annex), SCHEMES)])
def test_no_page_is_wider_than_its_window(tmp_path, build, scheme):
    (tmp_path / "page.html").write_text(page_of("altered", build), "utf-8")
    (tmp_path / "measured.html").write_text(MEASURED % list(WIDTHS), "utf-8")
    asked = (f"--blink-settings=preferredColorScheme={SCHEMES[scheme]}", "--dump-dom")
    local = "--allow-file-access-from-files"
    command = (BROWSER, *OPTIONS, *asked, local, "--virtual-time-budget=4000")
    place = (tmp_path / "measured.html").as_uri()
    done = subprocess.run((*command, place), capture_output=True, text=True, timeout=120)
    told = done.stdout.split("<title>")[1].split("</title>")[0].split("|")
    # A bar to scroll by may leave the page less than the width that is named.
    wide = [each.split(";") for each in told]
    assert [int(width) for _, width, _ in wide] == list(WIDTHS)
    assert all(int(page) <= int(width) for page, width, _ in wide)
    assert {ground for *_, ground in wide} == {PAPER[scheme]}
