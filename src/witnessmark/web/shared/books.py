"""The code books of this workshop: those that come with it, and its own below its folder."""

import re
import threading
from pathlib import Path

from django.conf import settings

from witnessmark.casefile import Casefile
from witnessmark.entry import KnownBooks

BOOKS_NAME = "books"

_PLAIN = re.compile(r"[a-z0-9][a-z0-9._-]{0,79}", re.IGNORECASE)

_KNOWN: dict[str, KnownBooks] = {}
_LOCK = threading.Lock()


def home_books() -> Path:
    """The folder of the workshop's own books."""
    return Path(settings.WITNESSMARK_HOME) / BOOKS_NAME


def folder_for(casefile: Casefile) -> Path | None:
    """Where the books of a case are looked for beside those that come with the program; None
    where it names one by a path, which no case in a workshop does."""
    names = (casefile.book, *casefile.beside)
    return home_books() if all(_PLAIN.fullmatch(each) for each in names) else None


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
