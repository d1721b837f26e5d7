"""The workshop's pages on a large case: what the server needs for each, on both databases.

    python -m benchmarks.workshop HOME

measures in an interpreter of its own, on an opened and filled workshop. The case has forty
readings and sixty photographs; beside it lie two hundred others. A page is asked for as a browser
asks, through every layer but the socket, after it has been asked for once; what is typed changes
with every question, so that none is answered from what is kept.
"""

import io
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any, Final

from benchmarks.cars import CHECKOUT
from benchmarks.figure import Aim, Figure
from benchmarks.scale import Scale

CASES, READINGS, PHOTOGRAPHS = 200, 40, 60
UPLOADS, UPLOAD_BYTES = 3, 12_000_000
AIM, AIM_LIVE = Aim("under", 80.0), Aim("under", 120.0)
PAGES: Final = ("board", "claim", "plan", "evidence", "story", "weight", "report", "history")
EXAMINERS: Final = 6
"""As many as may have read one mark."""
MARK: Final = "engine_stamp"
AT: Final = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)


def measure(scale: Scale) -> list[Figure]:
    """Every page on SQLite, and on PostgreSQL where `WITNESSMARK_BENCH_DATABASE` names one."""
    figures = []
    server = os.environ.get("WITNESSMARK_BENCH_DATABASE", "")
    found: dict[str, dict[str, list[float]]] = {}
    for name, address in (("SQLite", ""), *((("PostgreSQL", server),) if server else ())):
        with tempfile.TemporaryDirectory() as home:
            command = [sys.executable, "-m", "benchmarks.workshop", home, str(scale.pages)]
            env = {**os.environ, "WITNESSMARK_DATABASE": address}
            done = subprocess.run(command, capture_output=True, text=True, env=env, check=True)
            found[name] = json.loads(done.stdout)
    for name, times in found.items():
        figures += [_figure(name, page, each, found["SQLite"]) for page, each in times.items()]
    return figures


def _figure(name: str, page: str, times: list[float], plain: dict[str, list[float]]) -> Figure:
    unit = "MB" if page == "memory" else "ms"
    aim = AIM_LIVE if "typed" in page else AIM if page in PAGES else None
    other = name != "SQLite"
    return Figure(
        f"workshop on {name}: {page}",
        median(times),
        unit,
        len(times),
        min(times),
        max(times),
        ratio=median(times) / median(plain[page]) if other else None,
        ratio_to="on SQLite" if other else "",
        aim=aim,
    )


def main(home: Path, runs: int) -> None:
    """Fill a workshop, ask for its pages, print milliseconds as JSON."""
    from witnessmark.web import server

    server.prepare(home, database=os.environ.get("WITNESSMARK_DATABASE", ""))
    server.bring_up()
    browser = _filled()
    print(json.dumps(dict(_measured(browser, runs))))


def _filled() -> Any:
    """Cases in the store, and the owner's browser."""
    from django.test import Client

    from witnessmark import store
    from witnessmark.casefile import parse_casefile, render_casefile
    from witnessmark.store import accounts

    accounts.first_owner("Ada", "a long password")
    document = (CHECKOUT / "demo" / "dressed" / "case.json").read_text("utf-8")
    small = parse_casefile(document, "case.json").casefile
    assert small is not None, "the demonstration case is whole"
    for n in range(CASES):
        store.begin(render_casefile(replace(small, id=f"car-{n:03}")), "Ada", "opened", AT)
    store.begin(render_casefile(_large(small)), "Ada", "opened", AT)
    browser = Client(SERVER_NAME="127.0.0.1")
    browser.login(username="Ada", password="a long password")
    return browser


def _large(casefile: Any) -> Any:
    """The case with its marks read by several until there are forty readings, sixty photographs."""
    from witnessmark import store
    from witnessmark.casefile import ExhibitEntry

    once = [each for each in casefile.readings if each.mark != MARK]
    own = [each for each in casefile.readings if each.mark == MARK]
    readings = [replace(each, by=f"Reader {n}") for n in range(EXAMINERS) for each in once]
    exhibits = []
    for n in range(PHOTOGRAPHS):
        kept = store.keep_exhibit(_jpeg(n, 640, 480), f"{n}.jpg", AT)
        entry = ExhibitEntry(id=f"photo-{n}", file=kept.file, sha256=kept.sha256)
        exhibits.append(entry)
    bare = replace(casefile, id="large", readings=tuple([*own, *readings][:READINGS]))
    return _without_exhibits(bare, tuple(exhibits))


def _without_exhibits(casefile: Any, exhibits: tuple[Any, ...]) -> Any:
    """The case with these exhibits in place of its own, each shown by some reading."""
    shown = [each.id for each in exhibits]
    readings = tuple(
        replace(each, exhibits=(shown[n % len(shown)],)) for n, each in enumerate(casefile.readings)
    )
    return replace(
        casefile,
        exhibits=exhibits,
        readings=readings,
        looks=tuple(replace(each, exhibits=()) for each in casefile.looks),
        sites=tuple(replace(each, exhibits=()) for each in casefile.sites),
        papers=tuple(replace(each, exhibits=()) for each in casefile.papers),
        title_paper=replace(casefile.title_paper, exhibits=()),
        assignment=replace(casefile.assignment, examiners=casefile.assignment.examiners),
    )


def _jpeg(seed: int, width: int, height: int) -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (width, height), (4 * seed % 256, 255 - 4 * seed % 256, 120)).save(out, "JPEG")
    return out.getvalue()


def _noise(seed: int) -> bytes:
    """A photograph of about twelve megabytes, which no JPEG can make smaller."""
    import numpy as np
    from PIL import Image

    drawn = np.random.default_rng(seed).integers(0, 255, (3000, 4000, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(drawn).save(out, "JPEG", quality=88)
    return out.getvalue()


def _measured(browser: Any, runs: int) -> Iterator[tuple[str, list[float]]]:
    from django.urls import reverse

    for page in PAGES:
        parts = [] if page == "board" else ["large"]
        address = reverse(page, args=parts)
        yield page, _timed(partial(browser.get, address, follow=True), runs)
    yield "a reading typed, shown live", list(_typed(browser, "reading_live", runs))
    yield "a reading typed and saved", list(_typed(browser, "reading", runs))
    yield "a page while three photographs of 12 MB come in", _while_uploading(browser, runs)
    yield "memory", [_megabytes()]


def _typed(browser: Any, name: str, runs: int) -> Iterator[float]:
    """A reading of one mark, another each time."""
    from django.urls import reverse

    from witnessmark import store

    address = reverse(name, args=["large", MARK])
    for n in range(-1, runs):
        base = str(store.head("large").number)
        form = {"text": f"S28{100 + n}", "by": "Ada", "base": base}
        start = time.perf_counter()
        answer = browser.post(address, form, headers={"hx-request": "true"})
        spent = (time.perf_counter() - start) * 1e3
        assert answer.status_code == 200, (answer.status_code, answer.content[:400])
        if n >= 0:
            yield spent


def _timed(ask: Callable[[], Any], runs: int) -> list[float]:
    found = []
    for n in range(-1, runs):
        start = time.perf_counter()
        answer = ask()
        spent = (time.perf_counter() - start) * 1e3
        assert answer.status_code == 200, answer.status_code
        if n >= 0:
            found.append(spent)
    return found


def _while_uploading(browser: Any, runs: int) -> list[float]:
    """The story's page while three photographs are being received."""
    from django.core.files.uploadedfile import SimpleUploadedFile
    from django.urls import reverse

    address, found = reverse("story", args=["large"]), list[float]()
    files = [_noise(n) for n in range(UPLOADS)]
    with ThreadPoolExecutor(UPLOADS) as sending:
        going = [
            sending.submit(
                browser.post,
                reverse("photos", args=["large"]),
                {"photo": SimpleUploadedFile(f"{n}.jpg", each, "image/jpeg"), "base": "1"},
            )
            for n, each in enumerate(files)
        ]
        while not all(each.done() for each in going) or not found:
            found += _timed(lambda: browser.get(address), 1)
    assert {each.result().status_code for each in going} <= {200, 302, 303}
    return found


def _megabytes() -> float:
    import resource

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
