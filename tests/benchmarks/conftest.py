"""The benchmarks are no part of the package: they are imported from the checkout, and all that
is tested here waits for `make prove`."""

import sys
from pathlib import Path

import pytest

CHECKOUT = str(Path(__file__).resolve().parents[2])

if CHECKOUT not in sys.path:
    sys.path.insert(0, CHECKOUT)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test of this folder is one of `make prove`."""
    for item in items:
        if item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.prove)
