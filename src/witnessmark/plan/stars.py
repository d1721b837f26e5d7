"""The places for the minutes there are: what did not fit first, then the shortest looks."""

from dataclasses import dataclass

from witnessmark.examination.looks import LookLeft, in_time, minutes_of


@dataclass(frozen=True, slots=True)
class Stars:
    """The sites of the looks that fit, and the minutes that these looks take together."""

    sites: frozenset[str] = frozenset()
    minutes: int = 0


def stars(looks: tuple[LookLeft, ...], minutes: int) -> Stars:
    """The sites that the looks go to, in their order, within the minutes."""
    taken = in_time(looks, minutes)
    return Stars(frozenset(look.site for look in taken), minutes_of(taken))
