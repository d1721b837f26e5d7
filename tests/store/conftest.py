"""A store of each kind of database, empty for every test."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import django
import pytest

_ASIDE = Path(tempfile.mkdtemp(prefix="witnessmark-store-"))
os.environ.setdefault("WITNESSMARK_HOME", str(_ASIDE))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.store.settings")
django.setup()
