"""The invented Opinion, for every test of the figures."""

import importlib.util
from pathlib import Path

import pytest

_SPEC = importlib.util.spec_from_file_location(
    "invented_opinion", Path(__file__).parent.parent / "report" / "invented_opinion.py"
)
assert _SPEC is not None
assert _SPEC.loader is not None
invented = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(invented)


@pytest.fixture
def opinion():
    """A full Opinion about an invented car."""
    return invented.opinion()
