"""A server that is killed at any moment leaves nothing half written and has lost nothing that it
acknowledged."""

import json
import os
import random
import signal
import time
from contextlib import suppress
from itertools import count, pairwise

import pytest
from django.db import connections

from tests.store.cases import AT, CASE, picture
from witnessmark import store
from witnessmark.store.digest_files import digest_of

IN_TESTS, PROVED = 20, 500
LONG = (pytest.mark.prove, pytest.mark.long)


@pytest.mark.parametrize("times", [IN_TESTS, pytest.param(PROVED, marks=LONG)])
def test_nothing_is_half_written_and_nothing_acknowledged_is_lost(home, times):
    store.begin(CASE, "", "", AT)
    chance = random.Random(times)
    connections.close_all()
    for n in range(times):
        told = killed(n, chance)
        connections.close_all()
        assert told, "a writer got nothing done"
        check(told, since=int(told[0].split()[1]))
        connections.close_all()
    check(told, since=1)
    assert {digest_of(each) for each in home.glob("exhibits/*/*")} == {
        each.stem for each in home.glob("exhibits/*/*")
    }


def killed(number, chance):
    """What a writer had acknowledged when it was killed."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reading)
            write(number, writing)
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading, encoding="ascii") as told:
        first = told.readline()
        time.sleep(chance.uniform(0, 0.06))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return [first, *told]


def write(number, told):
    """Picture, revision, picture, revision …, each told once it is kept."""
    with suppress(KeyboardInterrupt):
        for n in count():
            kept = store.keep_exhibit(picture(number * 1000 + n, 64), "", AT)
            seen = store.head("sprint")
            values = json.loads(seen.text)
            values["exhibits"] = [{"id": "e", "file": kept.file, "sha256": kept.sha256}]
            made = store.revise("sprint", seen.number, json.dumps(values), who="", did="", at=AT)
            os.write(told, f"{kept.sha256} {made.kept.number} {made.kept.sha256}\n".encode())


def check(told, since):
    """All that was acknowledged is there, and all that is there is whole."""
    kept = [store.revision("sprint", n) for n in range(since, store.head("sprint").number + 1)]
    by_number = {each.number: each for each in kept}
    for line in told:
        if line.endswith("\n"):
            exhibit, number, sha256 = line.split()
            assert since > int(number) or by_number[int(number)].sha256 == sha256
            assert digest_of(store.exhibit_path(exhibit)) == exhibit
    for before, after in pairwise(kept):
        assert after.parent == before.sha256
    for each in kept:
        for entry in json.loads(each.text).get("exhibits", ()):
            assert store.exhibit_path(entry["sha256"]).is_file()
    assert store.orphans().rows == ()
