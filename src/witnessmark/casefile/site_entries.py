"""Which entry of a case speaks of a mark, and how a place ended as a whole."""

from collections.abc import Iterable

from witnessmark.casefile.records import SiteSeen, SiteState


def entry_of(entries: Iterable[SiteSeen], site: str, mark: str = "") -> SiteSeen | None:
    """The entry of this mark at its site, else that of the site; None where there is neither.

    >>> pad = SiteSeen(site="pad", state=SiteState.READ)
    >>> date = SiteSeen(site="pad", mark="pad_date", state=SiteState.FOUND_ILLEGIBLE)
    >>> entry_of((pad, date), "pad", "pad_date").state.value
    'found and illegible'
    """
    there = [each for each in entries if each.site == site and each.mark in ("", mark)]
    return next((each for each in there if each.mark == mark), there[0] if there else None)


def site_state(entries: Iterable[SiteSeen], site: str) -> SiteState | None:
    """How a place ended as a whole: as that of its entries from which most was got."""
    states = [each.state for each in entries if each.site == site]
    return min(states, key=list(SiteState).index, default=None)
