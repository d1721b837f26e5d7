"""Settings for the tests of the store alone: a database and a folder, no page."""

import os
import tempfile
from pathlib import Path

WITNESSMARK_HOME = Path(os.environ.get("WITNESSMARK_HOME") or tempfile.gettempdir())
SECRET_KEY = "of the tests"
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "witnessmark.store",
]
USE_TZ = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": WITNESSMARK_HOME / "workshop.sqlite3",
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
            " PRAGMA foreign_keys=ON;",
        },
    }
}
