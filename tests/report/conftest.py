"""The invented Opinion, for every test of the report."""

import importlib.util
import sys
from pathlib import Path

import pytest

_SPEC = importlib.util.spec_from_file_location(
    "invented_opinion", Path(__file__).with_name("invented_opinion.py")
)
assert _SPEC is not None
assert _SPEC.loader is not None
invented = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(invented)
sys.modules["invented_opinion"] = invented


@pytest.fixture
def opinion():
    """A full Opinion about an invented car."""
    return invented.opinion()


@pytest.fixture
def exhibits():
    """Its photographs by exhibit id."""
    return dict(invented.EXHIBITS)


@pytest.fixture
def printed():
    """The day on which the report is printed."""
    return invented.PRINTED
