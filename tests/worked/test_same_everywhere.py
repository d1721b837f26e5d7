"""The same case gives the same bytes in every interpreter, whatever order its sets have."""

import os
import subprocess
import sys

from tests.worked.opened import DEMO

STARTER = """
import sys
from witnessmark.cli import cases, main
sys.modules["witnessmark.examination.examine"].DRAWS = 8
main.run()
"""


def test_the_opinion_is_the_same_whatever_the_order_of_sets():
    printed = [
        subprocess.run(
            [sys.executable, "-c", STARTER, "examine", str(DEMO / "panel"), "--json"],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert printed[0] == printed[1]
    assert printed[0].startswith(b"{")
