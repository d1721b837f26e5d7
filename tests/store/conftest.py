"""A store of each kind of database, empty for every test."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import django
import pytest
from pytest_django.plugin import DjangoDbBlocker

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.store.settings")
django.setup()

from tests.store.stores import (  # noqa: E402  # Django first
    POSTGRESQL,
    SQLITE,
    Server,
    Stores,
    server_binaries,
)


@pytest.fixture(scope="session")
def stores() -> Iterator[Stores]:
    """What makes stores, on a server too where this machine has one."""
    # A socket's path must be short, and the server's own user must reach it.
    folder = Path(tempfile.mkdtemp(prefix="wm-"))
    folder.chmod(0o755)
    binaries = server_binaries()
    server = Server(binaries, folder / "server") if binaries else None
    if server:
        server.start()
    yield Stores(folder, server)
    if server:
        server.stop()
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(params=[SQLITE, POSTGRESQL])
def kind(request: pytest.FixtureRequest, stores: Stores) -> str:
    """Each kind of database."""
    if request.param == POSTGRESQL and stores.server is None:
        pytest.skip("no PostgreSQL server on this machine")
    return str(request.param)


@pytest.fixture
def home(kind: str, stores: Stores, django_db_blocker: DjangoDbBlocker) -> Iterator[Path]:
    """The folder of an empty store that is open."""
    with django_db_blocker.unblock(), stores.opened(kind) as folder:
        yield folder
