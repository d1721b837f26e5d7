"""Settings for the tests of the store alone: a database and a folder, no page."""

import tempfile
from pathlib import Path

WITNESSMARK_HOME = Path(tempfile.gettempdir()) / "witnessmark-no-home"
SECRET_KEY = "of the tests"
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "witnessmark.store",
]
USE_TZ = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
DATABASES = {"default": {"ENGINE": "django.db.backends.sqlite3", "NAME": ":memory:"}}
