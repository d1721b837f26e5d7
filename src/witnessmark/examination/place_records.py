"""How places of a car ended, and their marks: each fact once, places from single marks."""

from dataclasses import dataclass

from witnessmark.casefile.records import AttachmentSeen, SiteState
from witnessmark.casefile.site_entries import UNSEEN
from witnessmark.catalogue import said


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteOutcome:
    """One expected site, or one mark of it, and how it ended; where nothing was noted it was not
    looked for. `marks` are those that it speaks of, `mark` the name of the one that is told
    apart from its place."""

    site: str
    name: str
    where: str
    state: SiteState
    reason: str
    marks: tuple[str, ...]
    is_noted: bool
    attachment: AttachmentSeen = AttachmentSeen.IN_PLACE
    mark: str = ""

    @property
    def told(self) -> str:
        """The name of the place, and that of the mark where it speaks of one alone."""
        if not self.mark:
            return self.name
        return said("{place}: {mark}", place=self.name, mark=self.mark)


@dataclass(frozen=True, slots=True)
class PlaceOutcome:
    """A place by its number on every page of a report, and all that ended there."""

    number: int
    outcomes: tuple[SiteOutcome, ...]

    @property
    def site(self) -> str:
        """Its id."""
        return self.outcomes[0].site

    @property
    def name(self) -> str:
        """What the book calls it."""
        return self.outcomes[0].name

    @property
    def where(self) -> str:
        """Where it is."""
        return self.outcomes[0].where

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of which anything is told."""
        return tuple(dict.fromkeys(mark for each in self.outcomes for mark in each.marks))

    @property
    def state(self) -> SiteState:
        """How it ended as a whole: as that from which most was got, so that a place at which
        anything was seen is never one that was not."""
        return min((each.state for each in self.outcomes), key=tuple(SiteState).index)

    @property
    def unseen(self) -> tuple[SiteOutcome, ...]:
        """What of it nobody saw: the place, or single marks of one that was seen."""
        return tuple(each for each in self.outcomes if each.state in UNSEEN)


def places_of(outcomes: tuple[SiteOutcome, ...]) -> tuple[PlaceOutcome, ...]:
    """The places to which outcomes belong, each once, in their order."""
    found: dict[str, list[SiteOutcome]] = {}
    for each in outcomes:
        found.setdefault(each.site, []).append(each)
    return tuple(PlaceOutcome(at, tuple(some)) for at, some in enumerate(found.values(), 1))
