"""Settings that every test shares: how many examples a property is tried on, what is left out."""

import atexit
import os
import shutil
import sys
import tempfile
from pathlib import Path

import django
import pytest
from hypothesis import settings

# The benchmarks are not part of the package: they are imported from the checkout.
CHECKOUT = str(Path(__file__).resolve().parents[1])
if CHECKOUT not in sys.path:
    sys.path.insert(0, CHECKOUT)

# No test asserts a time, so no property test may fail for being slow.
# `make test` tries the same examples every time, so that what it finds is of the change at hand;
# `make fuzz` and `make prove` draw new ones.
settings.register_profile("house", deadline=None, max_examples=40, derandomize=True)
settings.register_profile("fuzz", deadline=None, max_examples=100)
settings.load_profile("house")

# The workshop's settings want a folder: tests of its pages give each its own.
os.environ["WITNESSMARK_HOME"] = tempfile.mkdtemp(prefix="witnessmark-")
atexit.register(shutil.rmtree, os.environ["WITNESSMARK_HOME"], ignore_errors=True)
os.environ["DJANGO_SETTINGS_MODULE"] = "witnessmark.web.settings"
django.setup()

NOT_PROVED = "not prove and not browser"
"""What `make test` asks for."""


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """The proving ground loads libraries for seconds: not where all its tests are left out."""
    is_left_out = config.option.markexpr == NOT_PROVED
    return True if is_left_out and collection_path.name == "benchmarks" else None


@pytest.fixture(scope="session", autouse=True)
def examined_once(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Where the processes of one run find what another has examined already."""
    from tests import examined  # late: the process that only hands out tests needs none of it

    examined.share(tmp_path_factory.getbasetemp())
