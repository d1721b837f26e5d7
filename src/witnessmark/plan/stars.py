"""The best looks for the minutes there are: of every question, as far as they fit together.

The question of identity comes first with the set that tells most about it; the sets of the
other questions are added, look by look, while time remains.
"""

from dataclasses import dataclass, field

from witnessmark.agreement import compare
from witnessmark.agreement.records import CarMarks
from witnessmark.weighing import Weighing, best_looks
from witnessmark.weighing.records import NextLook


@dataclass(frozen=True, slots=True)
class Stars:
    """The sites of the best looks, and the minutes that these looks take together."""

    sites: frozenset[str] = frozenset()
    minutes: int = 0


@dataclass(slots=True)
class _Round:
    """Looks taken so far: minutes by site, and access by group."""

    given: int
    sites: dict[str, int] = field(default_factory=dict)
    access: dict[str, int] = field(default_factory=dict)

    def take(self, look: NextLook) -> None:
        """Add a look if all still fits into the minutes given."""
        group = look.access_group or f"access to {look.site}"
        sites = self.sites | {look.site: max(self.sites.get(look.site, 0), look.minutes)}
        access = self.access | {group: max(self.access.get(group, 0), look.access_minutes)}
        if sum(sites.values()) + sum(access.values()) <= self.given:
            self.sites, self.access = sites, access

    def minutes(self) -> int:
        """Minutes for the looks taken, a shared access once."""
        return sum(self.sites.values()) + sum(self.access.values())


def stars(car: CarMarks, weighing: Weighing, minutes: int) -> Stars:
    """The sites that the best looks go to, within the minutes."""
    sets = {
        (asked.question, asked.about): best
        for asked, best in best_looks(car, compare(car), minutes)
    }
    taken = _Round(minutes)
    for conclusion in weighing.conclusions:
        best = sets.get((conclusion.question, conclusion.about))
        looks = {look.target: look for look in conclusion.next_looks if look.site}
        for target in best.targets if best else ():
            if target in looks:
                taken.take(looks[target])
    return Stars(frozenset(taken.sites), taken.minutes())
