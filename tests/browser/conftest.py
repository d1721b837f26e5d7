"""A workshop as people open it, served by its own server, and a real browser in front of it.

Every message of the browser's console, every script that breaks and every refusal of the content
security policy is a fault of the page, and fails the test that opened it.
"""

import gzip
import io
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from socket import socket
from time import monotonic, sleep
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

BROWSER = shutil.which("chromium")
DEMO = Path(__file__).resolve().parents[2] / "demo"
AXE = gzip.decompress((Path(__file__).parent / "axe-core" / "axe.min.js.gz").read_bytes()).decode()
NAME, PASSWORD = "Ada Brandt", "oxblood seats 1955"
DESK, PHONE = {"width": 1280, "height": 900}, {"width": 390, "height": 844}
SECONDS_TO_OPEN = 60
expect.set_options(timeout=20_000)
SERVE = "import sys; from witnessmark.cli.main import run; sys.argv[0] = 'witnessmark'; run()"
INTENDED = ("422 (Unprocessable", "404 (Not Found)", "403 (Forbidden)", "401 (Unauthorized)")
"""Answers that a test asks for on purpose; the browser notes each as a fault of its own."""
LEFT = ("htmx:afterRequest", "htmx:sendAbort", "htmx:sendError")
"""What is noted where a page is left, or the workshop is gone, while a form sends itself."""


@dataclass
class Workshop:
    """A workshop that is served: its address and its folder."""

    address: str
    home: Path
    process: subprocess.Popen[bytes] = field(repr=False)

    def __call__(self, path: str) -> str:
        """The address of a page."""
        return self.address + path


def launched_with() -> dict[str, object]:
    """Debian's browser, without what reaches for a network."""
    assert BROWSER, "these tests want a browser: apt install chromium"
    off = ("quic", "background-networking", "component-update", "sync", "gpu")
    return {
        "executable_path": BROWSER,
        "args": [
            "--headless",
            "--no-sandbox",
            "--no-first-run",
            *(f"--disable-{e}" for e in off),
        ],
    }


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict[str, object]:
    """How the browser is started."""
    return launched_with()


def free_port() -> int:
    """A port that nobody uses now."""
    with socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


def opened(home: Path, port: int = 0) -> Workshop:
    """Serve a workshop in this folder, at this port or a free one, and wait until it answers."""
    port = port or free_port()
    command = (sys.executable, "-c", SERVE, "serve", "--home", str(home), "--port", str(port))
    process = subprocess.Popen((*command, "--quiet"), stdout=subprocess.PIPE, stderr=None)
    address, until = f"http://127.0.0.1:{port}", monotonic() + SECONDS_TO_OPEN
    while monotonic() < until:
        assert process.poll() is None, "the workshop did not open"
        try:
            with urlopen(f"{address}/static/sheet.css", timeout=5):
                return Workshop(address, home, process)
        except (URLError, OSError):
            sleep(0.1)
    raise AssertionError("the workshop does not answer")


@pytest.fixture(scope="session")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workshop]:
    """One workshop for all tests, each of which makes cases of its own."""
    serving = opened(tmp_path_factory.mktemp("home"))
    yield serving
    serving.process.terminate()
    assert serving.process.wait(20) == 0


@pytest.fixture(scope="session")
def owner_state(workshop: Workshop, browser: Browser) -> dict[str, object]:
    """The cookies of the owner, who is the first to open this workshop."""
    page = browser.new_page()
    begun(page, workshop)
    kept: dict[str, object] = dict(page.context.storage_state())
    page.close()
    return kept


def begun(page: Page, workshop: Workshop) -> None:
    """The first owner opens a workshop that nobody has an account in."""
    page.goto(workshop("/"))
    page.get_by_label("Name").fill(NAME)
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("The password again").fill(PASSWORD)
    page.get_by_role("button", name="Open the workshop").click()
    page.wait_for_url(workshop("/"))


def packed(name: str) -> dict[str, str | bytes]:
    """A demonstration case as a zip of its folder, as a file field takes it."""
    stream, folder = io.BytesIO(), DEMO / name
    with zipfile.ZipFile(stream, "w") as out:
        for each in (folder / "case.json", *sorted((folder / "exhibits").iterdir())):
            out.write(each, f"{name}/{each.relative_to(folder)}")
    return {"name": f"{name}.zip", "mimeType": "application/zip", "buffer": stream.getvalue()}


def brought(page: Page, workshop: Workshop, name: str, case: str) -> str:
    """Bring a demonstration case in by the page for it; gives its short name here."""
    page.goto(workshop("/bring-in"))
    page.get_by_label("The file").set_input_files(files=packed(name))  # type: ignore[arg-type]
    page.get_by_label("Short name here").fill(case)
    page.get_by_role("button", name="Bring it in").click()
    page.wait_for_url(workshop(f"/cases/{case}/claim"))
    return case


@pytest.fixture(scope="session")
def new_case(
    workshop: Workshop, owner_state: dict[str, object], browser: Browser
) -> Callable[[str], str]:
    """One more case like this demonstration car, which no other test writes into."""
    numbers = count(1)

    def new_case(name: str) -> str:
        context = browser.new_context(storage_state=owner_state)  # type: ignore[arg-type]
        case = brought(context.new_page(), workshop, name, f"{name}-{next(numbers)}")
        context.close()
        return case

    return new_case


class Watched:
    """Contexts of the browser whose faults are collected."""

    def __init__(self, browser: Browser) -> None:
        self.browser, self.faults = browser, list[str]()
        self.contexts: list[BrowserContext] = []

    def page(self, **asked: object) -> Page:
        """A page in a context of its own."""
        context = self.browser.new_context(**asked)  # type: ignore[arg-type]
        context.set_default_timeout(20_000)
        self.contexts.append(context)
        context.on("console", lambda said: self._note(said.type, said.text))
        context.on("weberror", lambda fault: self.faults.append(str(fault.error)))
        context.on("response", lambda answer: self._answered(answer.status, answer.url))
        return context.new_page()

    def _answered(self, status: int, address: str) -> None:
        if status >= 500 or (status >= 400 and "/static/" in address):
            self.faults.append(f"{status} {address}")

    def _note(self, kind: str, text: str) -> None:
        if kind in ("error", "warning") and not any(each in text for each in (*INTENDED, *LEFT)):
            self.faults.append(text)


@pytest.fixture
def watched(browser: Browser) -> Iterator[Watched]:
    """Whatever the browser finds wrong with a page fails the test."""
    found = Watched(browser)
    yield found
    for each in found.contexts:
        each.close()
    assert found.faults == []


@pytest.fixture(params=["desk", "phone"])
def page(request, watched: Watched, owner_state: dict[str, object]) -> Page:
    """The owner's page at the width of a desk and of a phone."""
    size = DESK if request.param == "desk" else PHONE
    asked = {"storage_state": owner_state, "viewport": size, "accept_downloads": True}
    return watched.page(**asked, is_mobile=False, has_touch=request.param == "phone")
