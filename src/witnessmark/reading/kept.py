"""What was worked out of a thing that is never altered, kept in it.

To compare or hash a whole book or mark takes far longer than to decode a plate: so it is kept as
a `cached_property` keeps it, by the thing itself, and goes with it. A thing that something is
kept in has no slots.
"""

from collections.abc import Callable


class KeptBeside[K, V]:
    """What follows from each of some things. `name` tells it from what others keep in them, and
    is no name that an attribute could have."""

    def __init__(self, name: str, answer: Callable[[K], V]) -> None:
        self.name, self.answer = f"kept: {name}", answer

    def of(self, thing: K) -> V:
        """What follows from this thing, worked out the first time it is asked."""
        within = vars(thing)
        if self.name not in within:
            within[self.name] = self.answer(thing)
        found: V = within[self.name]
        return found
