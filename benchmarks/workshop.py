"""The workshop's pages on a large case: what the server needs for each, on both databases.

    python -m benchmarks.workshop HOME RUNS CASES

measures in an interpreter of its own, on an opened and filled workshop. The case has forty
readings and sixty photographs; beside it lie two hundred others, or as many as are asked for. A
page is asked for as a browser asks, through every layer but the socket, after it has been asked
for once and what it lets be made behind it is done; what is typed changes with every question, so
that none is answered from what is kept. A first visit is that after a reading was saved.
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
from contextlib import nullcontext
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any, Final

from benchmarks import postgresql
from benchmarks.cars import CHECKOUT
from benchmarks.figure import Aim, Figure
from benchmarks.scale import Scale

READINGS, PHOTOGRAPHS = 40, 60
UPLOADS, UPLOAD_BYTES = 3, 12_000_000
AIM, AIM_LIVE = Aim("under", 80.0), Aim("under", 120.0)
PAGES: Final = ("board", "claim", "plan", "evidence", "story", "weight", "report", "history")
EXAMINERS: Final = 6
"""As many as may have read one mark."""
MARK, SITE = "engine_stamp", "engine_deck"
AT_MARK: Final = ("large", SITE)
AT: Final = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)


def measure(scale: Scale) -> list[Figure]:
    """Every page on SQLite, and on PostgreSQL where its programs are, or where
    `WITNESSMARK_BENCH_DATABASE` names an empty database."""
    found = {"SQLite": _found("", scale)}
    given = os.environ.get("WITNESSMARK_BENCH_DATABASE", "")
    with nullcontext(given) if given else postgresql.served() as address:
        if address:
            found["PostgreSQL"] = _found(address, scale)
    plain = found["SQLite"]
    return [_figure(name, page, found[name][page], plain) for page in plain for name in found]


def _found(address: str, scale: Scale) -> dict[str, list[float]]:
    """The milliseconds of each page with the database at this address."""
    with tempfile.TemporaryDirectory() as home:
        asked = (home, str(scale.visits), str(scale.cases))
        command = [sys.executable, "-m", "benchmarks.workshop", *asked]
        env = {**os.environ, "WITNESSMARK_DATABASE": address}
        done = subprocess.run(command, stdout=subprocess.PIPE, text=True, env=env, check=True)
        times: dict[str, list[float]] = json.loads(done.stdout)
        return times


def _figure(name: str, page: str, times: list[float], plain: dict[str, list[float]]) -> Figure:
    unit = "MB" if page == "memory" else "ms"
    aim = AIM_LIVE if "live" in page else AIM if page in PAGES else None
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


def main(home: Path, runs: int, cases: int) -> None:
    """Fill a workshop, ask for its pages, print milliseconds as JSON."""
    from witnessmark.web import server

    server.prepare(home, database=os.environ.get("WITNESSMARK_DATABASE", ""))
    server.bring_up()
    browser = _filled(cases)
    print(json.dumps(dict(_measured(browser, runs))))


def _filled(cases: int) -> Any:
    """Cases in the store, and the owner's browser."""
    from django.test import Client

    from witnessmark import store
    from witnessmark.casefile import parse_casefile, render_casefile
    from witnessmark.store import accounts

    accounts.first_owner("Ada", "a long password")
    document = (CHECKOUT / "demo" / "dressed" / "case.json").read_text("utf-8")
    small = parse_casefile(document, "case.json").casefile
    assert small is not None, "the demonstration case is whole"
    for n in range(cases):
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
        ask = partial(browser.get, address, follow=True)
        _timed(ask, 0)
        _until_quiet()
        yield page, _timed(ask, runs, warm=0)
        _until_quiet()
    yield "a reading typed, shown live", list(_typed(browser, "reading_live", runs))
    follows = dict[str, list[float]]()
    yield "a reading typed and saved", list(_typed(browser, "reading", runs, follows))
    yield from follows.items()
    yield "a page while three photographs of 12 MB come in", _while_uploading(browser, runs)
    yield "memory", [_megabytes()]


def _typed(
    browser: Any, name: str, runs: int, follows: dict[str, list[float]] | None = None
) -> Iterator[float]:
    """A reading of one mark, another each time; into `follows` what is asked for behind it, and
    the first visits."""
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
        if follows is not None:
            asked = {
                "what depends on a reading saved": reverse("evidence_follows", args=AT_MARK),
                "story, first visit": reverse("story", args=["large"]),
                "weight, first visit": reverse("weight", args=["large"]),
            }
            for each, behind in asked.items():
                times = follows.setdefault(each, [])
                times += _timed(partial(browser.get, behind), 1, warm=0)
            del times[: n < 0]
        if n >= 0:
            yield spent


def _until_quiet() -> None:
    """Wait until nothing is made behind the pages."""
    from witnessmark.web.report.worker import QUICK as SHEETS
    from witnessmark.web.report.worker import SLOW
    from witnessmark.web.weight.one_at_a_time import BEHIND

    while SHEETS.is_busy or SLOW.is_busy or BEHIND.is_busy:
        time.sleep(0.05)


def _timed(ask: Callable[[], Any], runs: int, warm: int = 1) -> list[float]:
    found = []
    for n in range(-warm, runs):
        start = time.perf_counter()
        answer = ask()
        spent = (time.perf_counter() - start) * 1e3
        assert answer.status_code == 200, answer.status_code
        if n >= 0:
            found.append(spent)
    return found


def _while_uploading(browser: Any, runs: int) -> list[float]:
    """The story's page while three photographs are being received, again and again; each that has
    come is a change of the case."""
    from django.urls import reverse

    address, found = reverse("story", args=["large"]), list[float]()
    for turn in range(runs):
        found += _in_one_turn(
            browser, address, [_noise(UPLOADS * turn + n) for n in range(UPLOADS)]
        )
    return found


def _in_one_turn(browser: Any, address: str, files: list[bytes]) -> list[float]:
    from django.core.files.uploadedfile import SimpleUploadedFile
    from django.urls import reverse

    found = list[float]()
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
            found += _timed(partial(browser.get, address), 1, warm=0)
    assert {each.result().status_code for each in going} <= {200, 302, 303}
    return found


def _megabytes() -> float:
    import resource

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
