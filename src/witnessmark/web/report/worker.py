"""What takes seconds is made behind the pages: one thing after the other, in two lanes, so that a
sheet does not wait for a report. No page is held by it, and none makes the same thing twice.
"""

import logging
import threading
from collections.abc import Callable
from queue import Full, Queue

from django.db import connections

MOST_WAITING = 40
"""So much may wait in one lane; who asks for more asks again later."""
MOST_FAILED = 200

_LOG = logging.getLogger(__name__)


class Lane:
    """One thread that makes one thing after the other; it starts with the first and ends with
    the program."""

    def __init__(self) -> None:
        self._waiting: Queue[tuple[str, Callable[[], None]]] = Queue(MOST_WAITING)
        self._asked: set[str] = set()
        self._failed: dict[str, None] = {}
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None

    def ask(self, key: str, job: Callable[[], None]) -> bool:
        """Let this be made, once; False where it cannot even wait."""
        with self._lock:
            if key in self._asked:
                return True
            try:
                self._waiting.put_nowait((key, job))
            except Full:
                return False
            self._asked.add(key)
            self._failed.pop(key, None)
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, daemon=True, name="made behind")
                self._thread.start()
        return True

    @property
    def is_busy(self) -> bool:
        """Is anything waiting, or being made?"""
        return bool(self._asked)

    def is_asked(self, key: str) -> bool:
        """Is it waiting, or being made?"""
        return key in self._asked

    def has_failed(self, key: str) -> bool:
        """Did a mistake of the program end it?"""
        return key in self._failed

    def make(self, key: str, job: Callable[[], None]) -> None:
        """Make it now; a mistake ends this one alone."""
        try:
            job()
        except Exception:
            _LOG.exception("%s could not be made", key)
            with self._lock:
                self._failed[key] = None
                while len(self._failed) > MOST_FAILED:
                    self._failed.pop(next(iter(self._failed)))
        finally:
            self._asked.discard(key)

    def _run(self) -> None:
        while True:
            key, job = self._waiting.get()
            self.make(key, job)
            connections.close_all()


QUICK, SLOW = Lane(), Lane()
"""What needs an answer alone, and what needs to know how far it rests on assumptions."""
