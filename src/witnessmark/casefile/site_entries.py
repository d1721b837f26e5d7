"""Which entry of a case speaks of a mark, and how a place ended as a whole."""

from collections.abc import Iterable

from witnessmark.casefile.records import SiteSeen, SiteState

UNSEEN = (SiteState.NOT_ACCESSIBLE, SiteState.NOT_LOOKED_FOR)
"""The states of a place or a mark that nobody saw."""


class SiteEntries:
    """The entries of a case by place and mark; of two for the same, the first counts.

    >>> pad = SiteSeen(site="pad", state=SiteState.NOT_ACCESSIBLE)
    >>> date = SiteSeen(site="pad", mark="pad_date", state=SiteState.FOUND_ILLEGIBLE)
    >>> entries = SiteEntries((pad, date))
    >>> entries.of("pad", "pad_date").state.value, entries.of("pad", "pad_number") is pad
    ('found and illegible', True)
    >>> entries.state("pad").value, entries.state("rail")
    ('found and illegible', None)
    """

    def __init__(self, entries: Iterable[SiteSeen]) -> None:
        self._entries: dict[tuple[str, str], SiteSeen] = {}
        self._states: dict[str, SiteState] = {}
        order = list(SiteState)
        for each in entries:
            self._entries.setdefault((each.site, each.mark), each)
            best = self._states.get(each.site, each.state)
            self._states[each.site] = min(best, each.state, key=order.index)

    def of(self, site: str, mark: str) -> SiteSeen | None:
        """The entry of this mark at its site, else that of the site; None where neither is."""
        return self._entries.get((site, mark)) or self._entries.get((site, ""))

    def state(self, site: str) -> SiteState | None:
        """How a place ended as a whole: as that of its entries from which most was got."""
        return self._states.get(site)
