"""`python -m benchmarks.proving`: run the worlds, print the table, write docs/proving.md.

`--cases N` of every world: 600 or more is a long run, and sets the intervals of the tests.
`--write DIR` writes ordinary case folders of one world with the truth beside them instead.
"""

import os

os.environ.setdefault("OMP_NUM_THREADS", "1")  # one process a core does better than threads
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import argparse
import pickle
import sys
from dataclasses import fields
from pathlib import Path

from benchmarks.proving import page
from benchmarks.proving.cases import write_cases
from benchmarks.proving.evidence import Run, run_worlds
from benchmarks.proving.world import WORLDS, world_named

CHECKOUT = Path(__file__).resolve().parents[2]
LONG = 600
"""From so many cases on a run sets the intervals that the tests hold the reduced run to."""
KEPT = CHECKOUT / "out" / "proving.pickle"
"""The answers of the last run of all worlds."""


def main(arguments: list[str] | None = None) -> int:
    """Run what is asked for; 0 whatever the figures say."""
    asked = _parser().parse_args(arguments)
    if asked.write is not None:
        write_cases(world_named(asked.world or "plain"), asked.seed, asked.cases, asked.write)
        print(f"{asked.cases} cases and their truth are in {asked.write}")
        return 0
    if asked.again:
        run = pickle.loads(KEPT.read_bytes())
    else:
        worlds = WORLDS if asked.world is None else (world_named(asked.world),)
        run = run_worlds(worlds, Run(*(getattr(asked, f.name) for f in fields(Run))), _say)
        if asked.world is None:
            KEPT.parent.mkdir(exist_ok=True)
            KEPT.write_bytes(pickle.dumps(run))
    print(page.table_of(run), end="")
    if asked.world is None:
        text = page.page_of(run, CHECKOUT / "docs")
        (CHECKOUT / "docs" / "proving.md").write_text(text, "utf-8")
        if run.run.cases >= LONG:
            page.write_intervals(run, CHECKOUT / "benchmarks" / "proving" / "intervals.csv")
        print("written: docs/proving.md")
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m benchmarks.proving", description=__doc__)
    parser.add_argument("--cases", type=int, default=200, metavar="N", help="of every world")
    parser.add_argument("--training", type=int, default=400, metavar="N", help="for the rivals")
    parser.add_argument("--bank", type=int, default=420_000, metavar="N", help="lives counted")
    bands = "cases of every world whose bands are drawn"
    parser.add_argument("--bands", type=int, default=0, metavar="N", help=bands)
    parser.add_argument("--draws", type=int, default=32, metavar="N", help="for each band")
    parser.add_argument("--seed", type=int, default=3)
    names = [world.name for world in WORLDS]
    parser.add_argument("--world", choices=names, help="this world only; writes no page")
    parser.add_argument("--again", action="store_true", help="the page anew from the last run")
    parser.add_argument("--write", type=Path, metavar="DIR", help="write case folders there")
    return parser


def _say(what: str) -> None:
    print(what, file=sys.stderr, flush=True)


if __name__ == "__main__":
    sys.exit(main())
