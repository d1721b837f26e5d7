"""Draws the photographs of the six demonstration cars.

    python demo/draw_photographs.py

Everything in them is invented, so they are drawn: each picture is written to the
car's `exhibits/` under its SHA-256, and the car's `case.json` is told the new
names. Drawn again on the same machine, a picture has the same bytes.
"""

import hashlib
import json
from pathlib import Path

from drawing.saloons import PHOTOGRAPHS

DEMO = Path(__file__).resolve().parent


def draw_car(folder: Path, car: str) -> None:
    """Draw one car's pictures into `folder` and enter their digests in its case."""
    case_file = folder / "case.json"
    case = json.loads(case_file.read_text("utf-8"))
    exhibits = folder / "exhibits"
    exhibits.mkdir(exist_ok=True)
    names = set()
    for entry in case["exhibits"]:
        picture = PHOTOGRAPHS[car][entry["id"]]()
        digest = hashlib.sha256(picture).hexdigest()
        entry["sha256"], entry["file"] = digest, f"{digest}.jpg"
        (exhibits / entry["file"]).write_bytes(picture)
        names.add(entry["file"])
    for stale in exhibits.glob("*.jpg"):
        if stale.name not in names:
            stale.unlink()
    case_file.write_text(json.dumps(case, indent=2, ensure_ascii=False) + "\n", "utf-8")


if __name__ == "__main__":
    for car in PHOTOGRAPHS:
        draw_car(DEMO / car, car)
