"""A store of each kind of database, empty for every test."""

import os
import tempfile
from pathlib import Path

import django

_ASIDE = Path(tempfile.mkdtemp(prefix="witnessmark-store-"))
os.environ.setdefault("WITNESSMARK_HOME", str(_ASIDE))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.store.settings")
django.setup()
