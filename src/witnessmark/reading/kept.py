"""What was worked out of a thing that is never altered, kept in it.

To compare or hash a whole book or mark takes far longer than to decode a plate: so it is kept as
a `cached_property` keeps it, by the thing itself, and goes with it. A thing that something is
kept in has no slots.
"""

from collections.abc import Callable


def kept_beside[K, V](answer: Callable[[K], V]) -> Callable[[K], V]:
    """What follows from a thing, worked out the first time it is asked and kept in the thing,
    under a name that no attribute could have."""
    name = f"kept: {answer.__module__} {answer.__qualname__}"

    def of(thing: K) -> V:
        within = vars(thing)
        if name not in within:
            within[name] = answer(thing)
        found: V = within[name]
        return found

    of.__doc__ = answer.__doc__
    return of
