"""A writer for the tests that kill it: `python -m tests.store.writer HOME DATABASE`.

It loads all that writing needs, and for each number that it is sent it splits off a process, which
says who it is and then what it has kept, until it is killed; then `GONE` is said. There is no
thread here that a split could cut in two. A pipe takes such a line in one piece, so that none is
half said.
"""

import json
import os
import sys
from itertools import count
from pathlib import Path

import django

GONE = "gone\n"


def kept_once(seed: int) -> str:
    """Keep a picture, then a revision that names it; what was acknowledged, as a line."""
    from tests.store.cases import AT, picture
    from witnessmark import store

    kept = store.keep_exhibit(picture(seed, 64), "", AT)
    seen = store.head("sprint")
    values = json.loads(seen.text)
    values["exhibits"] = [{"id": "e", "file": kept.file, "sha256": kept.sha256}]
    made = store.revise("sprint", seen.number, json.dumps(values), who="", did="", at=AT)
    return f"{kept.sha256} {made.kept.number} {made.kept.sha256}\n"


def write_until_killed(number: int) -> None:
    """Picture, revision, picture, revision …, each told once it is kept."""
    for n in count(number * 1000):
        tell(kept_once(n))


def tell(line: str) -> None:
    """Say it at once."""
    os.write(sys.stdout.fileno(), line.encode())


def split(number: int) -> None:
    """Let a process write until it is killed."""
    child = os.fork()
    if child:
        os.waitpid(child, 0)
        tell(GONE)
        return
    try:
        tell(f"{os.getpid()}\n")
        write_until_killed(number)
    finally:
        os._exit(1)


def main(home: str, database: str) -> None:
    """A process for each number that comes."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.store.settings"
    django.setup()
    from tests.store.stores import using

    with using(json.loads(database), Path(home)):
        kept_once(-1)
    with using(json.loads(database), Path(home)):  # no connection is handed down
        for line in sys.stdin:
            split(int(line))


if __name__ == "__main__":
    main(*sys.argv[1:])
