"""The code books of this workshop: those that come with it, and its own below its folder."""

import os
import re
import threading
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings
from django.core.signals import request_finished, request_started

from witnessmark.casefile import Casefile
from witnessmark.entry import KnownBooks

BOOKS_NAME = "books"

_PLAIN = re.compile(r"[a-z0-9][a-z0-9._-]{0,79}", re.IGNORECASE)

_KNOWN: dict[str, KnownBooks] = {}
_LOCK = threading.Lock()
_REQUEST = threading.local()


def home_books() -> Path:
    """The folder of the workshop's own books."""
    return Path(settings.WITNESSMARK_HOME) / BOOKS_NAME


def is_plain(name: str) -> bool:
    """Can a book of this workshop be called so?"""
    return _PLAIN.fullmatch(name) is not None


def folder_for(casefile: Casefile) -> Path | None:
    """Where the books of a case are looked for beside those that come with the program; None
    where it names one by a path, which no case in a workshop does."""
    names = (casefile.book, *casefile.beside)
    return home_books() if all(map(is_plain, names)) else None


def state() -> str:
    """What tells whether an own book has changed: names, sizes and times of its files. The folder
    is walked once in a request, however often it is asked."""
    if not getattr(_REQUEST, "is_on", False):
        return _walked()
    if _REQUEST.state is None:
        _REQUEST.state = _walked()
    return str(_REQUEST.state)


def have_changed() -> None:
    """An own book was written in this request: the folder is to be walked again."""
    _REQUEST.state = None


def _walked() -> str:
    return "\n".join(sorted(_files(str(home_books()))))


def _files(folder: str) -> Iterator[str]:
    """A line for each file below a folder."""
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return
    for each in entries:
        if each.is_dir(follow_symlinks=False):
            yield from _files(each.path)
        else:
            found = each.stat(follow_symlinks=False)
            yield f"{each.path} {found.st_size} {found.st_mtime_ns}"


def _begin(**_: object) -> None:
    _REQUEST.is_on, _REQUEST.state = True, None


def _end(**_: object) -> None:
    _REQUEST.is_on = False


def known(state_now: str) -> KnownBooks:
    """The books that were opened while the own ones stood like this."""
    with _LOCK:
        if state_now not in _KNOWN:
            _KNOWN.clear()
        return _KNOWN.setdefault(state_now, {})


request_started.connect(_begin)
request_finished.connect(_end)
