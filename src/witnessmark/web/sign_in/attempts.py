"""How often somebody was wrong at the door, and how long they wait for it."""

import math
import time
from threading import Lock
from typing import Final

FREE: Final = 5
"""Wrong passwords before anybody waits."""
LONGEST_SECONDS: Final = 300
MOST_DOUBLINGS: Final = LONGEST_SECONDS.bit_length()
"""Of the wait; more make it no longer."""
MOST_KEPT: Final = 10_000


class Attempts:
    """Wrong passwords from an address, and of a name from there, in this one process. Never of a
    name alone: whoever guesses elsewhere would lock its owner out."""

    def __init__(self) -> None:
        self._wrong: dict[str, tuple[int, float]] = {}
        self._lock = Lock()

    def seconds_to_wait(self, name: str, address: str) -> int:
        """How long until somebody may try again; 0: now."""
        with self._lock:
            waits = (self._until(key) - time.monotonic() for key in _keys(name, address))
            return max(0, *(math.ceil(each) for each in waits))

    def note(self, name: str, address: str) -> None:
        """One more wrong one."""
        with self._lock:
            if len(self._wrong) > MOST_KEPT:
                self._wrong.clear()
            for key in _keys(name, address):
                self._wrong[key] = (self._wrong.get(key, (0, 0.0))[0] + 1, time.monotonic())

    def forget(self, name: str, address: str) -> None:
        """They were right."""
        with self._lock:
            for key in _keys(name, address):
                self._wrong.pop(key, None)

    def _until(self, key: str) -> float:
        wrong, last = self._wrong.get(key, (0, 0.0))
        doublings = min(wrong - FREE + 1, MOST_DOUBLINGS)
        return last + min(LONGEST_SECONDS, 2**doublings) if wrong >= FREE else 0.0


def _keys(name: str, address: str) -> tuple[str, str]:
    return f"address {address} name {name.casefold()}", f"address {address}"


ATTEMPTS: Final = Attempts()
