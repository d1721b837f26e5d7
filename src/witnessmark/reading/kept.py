"""What was worked out of a thing that is never altered, kept beside it.

It is kept by the thing's identity, since to compare or hash a whole book or mark takes far
longer than to decode a plate; the thing itself is kept too, so that no other can take its
place.
"""

from collections.abc import Callable


class KeptBeside[K, V]:
    """What follows from each of some things; with one more than `most`, all is forgotten."""

    def __init__(self, answer: Callable[[K], V], most: int) -> None:
        self.answer, self.most = answer, most
        self.known: dict[int, tuple[K, V]] = {}

    def of(self, thing: K) -> V:
        """What follows from this thing, worked out the first time it is asked."""
        known = self.known.get(id(thing))
        if known is None or known[0] is not thing:
            if len(self.known) >= self.most:
                self.known.clear()
            known = self.known[id(thing)] = (thing, self.answer(thing))
        return known[1]
