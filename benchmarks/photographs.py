"""The report of a case with many large photographs: how long it takes, and the memory.

    python -m benchmarks.photographs FOLDER

prints the report of the case in FOLDER in milliseconds and the peak in MB, in an
interpreter of its own. The photographs are noise, which a JPEG can hardly make
smaller: about 12 MB each at 12 million pixels.
"""

import io
import subprocess
import sys
import time
from dataclasses import replace
from datetime import date
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from PIL import Image

from benchmarks.cars import CHECKOUT, opened_car
from benchmarks.figure import Figure
from benchmarks.memory import peak_mb
from benchmarks.scale import Scale
from witnessmark.casefile import open_case, render_casefile
from witnessmark.casefile.records import ExhibitEntry
from witnessmark.examination import examine
from witnessmark.report import render_report

CAR = "clean"
WIDTH, HEIGHT, QUALITY = 4000, 3000, 92
PRINTED = date(2026, 1, 1)


def measure(scale: Scale) -> list[Figure]:
    """Time and memory of a report with photographs, each beside the same report without any."""
    with TemporaryDirectory() as folder:
        many, none = Path(folder, "many"), Path(folder, "none")
        size = _write_case(many, scale.photographs) / max(1, scale.photographs) / 1e6
        _write_case(none, 0)
        milliseconds, peak = _printed(many)
        bare_milliseconds, bare_peak = _printed(none)
    what = f"{scale.photographs} photographs of {size:.0f} MB"
    time_beside = f"the report without them ({bare_milliseconds:,.0f} ms)"
    peak_beside = f"the report without them ({bare_peak:,.0f} MB)"
    note = "noise, 12 million pixels each; examined, reduced, printed in an interpreter of its own"
    return [
        Figure(
            f"report with {what}",
            milliseconds,
            "ms",
            1,
            ratio=milliseconds / bare_milliseconds,
            ratio_to=time_beside,
            note=note,
        ),
        Figure(
            f"peak memory with {what}",
            peak,
            "MB",
            1,
            ratio=peak / bare_peak,
            ratio_to=peak_beside,
            note="each file is read when its picture is made",
        ),
    ]


def _write_case(folder: Path, count: int) -> int:
    """A demonstration case with so many photographs and no others; their bytes."""
    exhibits = folder / "exhibits"
    exhibits.mkdir(parents=True)
    entries, total = [], 0
    plain = _noise() if count else b""
    for number in range(count):
        content = _numbered(plain, number)
        digest = sha256(content).hexdigest()
        (exhibits / f"{digest}.jpg").write_bytes(content)
        caption = f"Photograph {number + 1}"
        entries.append(
            ExhibitEntry(id=f"x{number}", file=f"{digest}.jpg", sha256=digest, caption=caption)
        )
        total += len(content)
    case = replace(opened_car(CAR).casefile, exhibits=tuple(entries))
    (folder / "case.json").write_text(render_casefile(case), "utf-8")
    return total


def _noise() -> bytes:
    pixels = np.random.default_rng(1).integers(0, 256, (HEIGHT, WIDTH, 3), dtype=np.uint8)
    stream = io.BytesIO()
    Image.fromarray(pixels).save(stream, "JPEG", quality=QUALITY)
    return stream.getvalue()


def _numbered(jpeg: bytes, number: int) -> bytes:
    """The picture with a comment of its own, so that no two are the same file."""
    comment = f"photograph {number}".encode()
    segment = b"\xff\xfe" + (len(comment) + 2).to_bytes(2, "big") + comment
    return jpeg[:2] + segment + jpeg[2:]


def _printed(folder: Path) -> tuple[float, float]:
    """Milliseconds and peak MB of an interpreter that makes the report of this case."""
    ended = subprocess.run(
        [sys.executable, "-m", "benchmarks.photographs", str(folder)],
        capture_output=True,
        text=True,
        check=True,
        cwd=CHECKOUT,
    )
    milliseconds, peak = ended.stdout.split()
    return float(milliseconds), float(peak)


def main(folder: str) -> None:
    """Examine and report, and print what it took."""
    start = time.perf_counter()
    opened = open_case(Path(folder))
    assert opened.casefile is not None
    car = replace(opened_car(CAR), casefile=opened.casefile)
    # How far it rests on assumed rates is not drawn: it would cover what pictures cost.
    opinion = examine(car.casefile, car.book, car.version, steady=False)
    exhibits = opened.exhibits.contents(car.casefile.exhibits)
    render_report(opinion, car.book, exhibits, PRINTED)
    print((time.perf_counter() - start) * 1e3, peak_mb())


if __name__ == "__main__":
    main(sys.argv[1])
