"""The code books of this workshop: those that come with it, and its own below its folder."""

import threading
from pathlib import Path

from django.conf import settings

from witnessmark.entry import KnownBooks

BOOKS_NAME = "books"

_KNOWN: dict[str, KnownBooks] = {}
_LOCK = threading.Lock()


def home_books() -> Path:
    """The folder of the workshop's own books."""
    return Path(settings.WITNESSMARK_HOME) / BOOKS_NAME


def state() -> str:
    """What tells whether an own book has changed: names, sizes and times of its files."""
    folder = home_books()
    if not folder.is_dir():
        return ""
    files = sorted(each for each in folder.rglob("*") if each.is_file())
    stats = ((each, each.stat()) for each in files)
    return "\n".join(f"{each} {found.st_size} {found.st_mtime_ns}" for each, found in stats)


def known(state_now: str) -> KnownBooks:
    """The books that were opened while the own ones stood like this."""
    with _LOCK:
        if state_now not in _KNOWN:
            _KNOWN.clear()
        return _KNOWN.setdefault(state_now, {})
