"""Work that takes seconds, done behind the pages by one thread: the newest asked for is next.

A page asks, is told that it is not there yet, and asks again; no thread of the server waits.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any

KEPT = 32


@dataclass(slots=True, kw_only=True)
class OneAtATime:
    """What was asked for and is not begun, by whose it is; what was made; what failed."""

    lock: threading.Condition = field(default_factory=threading.Condition)
    waiting: dict[Hashable, tuple[Hashable, Callable[[], Any]]] = field(default_factory=dict)
    at_work: Hashable = None
    done: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)
    failed: dict[Hashable, Exception] = field(default_factory=dict)
    thread: threading.Thread | None = None

    @property
    def is_busy(self) -> bool:
        """Is anything waiting, or being made?"""
        with self.lock:
            return bool(self.waiting) or self.at_work is not None

    def made(self, key: Hashable) -> Any:
        """What was made under this key; None where it was not yet."""
        with self.lock:
            return self.done.get(key)

    def ask[T](self, whose: Hashable, key: Hashable, make: Callable[[], T]) -> T | None:
        """What is under this key, or None until it is made. What the same one asked for before and
        is not begun is made no more."""
        with self.lock:
            if key in self.done:
                self.done.move_to_end(key)
                found: T = self.done[key]
                return found
            if key in self.failed:
                raise self.failed.pop(key)
            self.waiting.pop(whose, None)
            if key != self.at_work:
                self.waiting[whose] = (key, make)
                self._begin()
            return None

    def _begin(self) -> None:
        """A thread that works, unless there is one; it ends with the program."""
        if self.thread is None or not self.thread.is_alive():
            self.thread = threading.Thread(target=self._work, name="steadiness", daemon=True)
            self.thread.start()
        self.lock.notify()

    def _work(self) -> None:
        while True:
            with self.lock:
                while not self.waiting:
                    self.lock.wait()
                self.at_work, make = self.waiting.pop(next(reversed(self.waiting)))
            self._make(make)

    def _make(self, make: Callable[[], Any]) -> None:
        """Make it; whoever asks next is told of a mistake."""
        try:
            made, fault = make(), None
        except Exception as caught:
            made, fault = None, caught
        with self.lock:
            if fault is None:
                self.done[self.at_work] = made
            else:
                self.failed[self.at_work] = fault
            if len(self.done) > KEPT:
                self.done.popitem(last=False)
            self.at_work = None


BEHIND = OneAtATime()
"""The one of this workshop."""
