"""A server that is killed at any moment leaves nothing half written and has lost nothing that it
acknowledged."""

import json
import os
import random
import signal
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import pytest
from django.db import connections

from tests.store.cases import AT, CASE
from tests.store.writer import GONE
from witnessmark import store
from witnessmark.store.digest_files import digest_of

CHECKOUT = Path(__file__).resolve().parents[2]
IN_TESTS, PROVED = 20, 500


@pytest.fixture
def writer(home):
    """What splits off one process after another to be killed, which write on one case."""
    store.begin(CASE, "", "", AT)
    database = json.dumps(connections.settings["default"])
    begun = subprocess.Popen(
        (sys.executable, "-m", "tests.store.writer", str(home), database),
        cwd=CHECKOUT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    with begun:  # which closes what it reads, and waits until it has ended
        yield begun
    assert begun.returncode == 0


@pytest.mark.parametrize("times", [IN_TESTS, pytest.param(PROVED, marks=pytest.mark.prove)])
def test_nothing_is_half_written_and_nothing_acknowledged_is_lost(home, writer, times):
    chance = random.Random(times)
    for n in range(times):
        connections.close_all()  # so that whoever opens it next finds it as it was left
        told = killed(writer, n, chance)
        assert told, "a writer got nothing done"
        check(told, since=int(told[0].split()[1]))
    check(told, since=1)
    assert store.orphans().rows == ()
    assert {digest_of(each) for each in home.glob("exhibits/*/*")} == {
        each.stem for each in home.glob("exhibits/*/*")
    }


def killed(writer, number, chance):
    """What a writer had acknowledged when it was killed."""
    print(number, file=writer.stdin, flush=True)
    child, first = int(writer.stdout.readline()), writer.stdout.readline()
    time.sleep(chance.uniform(0, 0.06))
    os.kill(child, signal.SIGKILL)
    return [first, *iter(writer.stdout.readline, GONE)]


def check(told, since):
    """All that was acknowledged is there, and all that is there is whole."""
    kept = [store.revision("sprint", n) for n in range(since, store.head("sprint").number + 1)]
    by_number = {each.number: each for each in kept}
    for line in told:
        exhibit, number, sha256 = line.split()
        assert since > int(number) or by_number[int(number)].sha256 == sha256
        assert digest_of(store.exhibit_path(exhibit)) == exhibit
    for before, after in pairwise(kept):
        assert after.parent == before.sha256
    for each in kept:
        for entry in json.loads(each.text).get("exhibits", ()):
            assert store.exhibit_path(entry["sha256"]).is_file()
