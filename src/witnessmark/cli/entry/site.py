"""`witnessmark case add site`: how places ended."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Annotated

from witnessmark.casefile import SiteSeen, SiteState
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.draft import (
    CaseDraft,
    Entered,
    change_case,
    named_in_a_row,
    place_name,
    placed,
)
from witnessmark.cli.entry.typed import EnteredPair, Photos, in_words, options, pairs_of
from witnessmark.wording.amounts import capital
from witnessmark.wording.terms import term

HELP = """A place is named by itself or by a mark that it bears; where it bears several, the
mark alone is meant. STATE is one of: read, found and illegible, absent, not
accessible, not looked for.

\b
Example:
  witnessmark case add site my-sprint 'seat pan=not accessible' --reason 'Seat bolts seized.'
"""

FORM = "PLACE=STATE"
EXAMPLE = "seat pan=not accessible"


def add_site(
    case: CasePath,
    sites: Annotated[list[str], argument(f"{FORM}...", "Places, and how each ended.")],
    reason: Annotated[str, option("TEXT", "Why it was not read.")] = "",
    attachment: Annotated[
        str, option("WORDS", "in place, present but detached, or the car has no such part.")
    ] = "",
    photo: Photos = None,
) -> None:
    """Enter how places ended."""
    fields = options(reason=reason, attachment=attachment, exhibits=photo)

    def enter(draft: CaseDraft) -> Sequence[str]:
        told = []
        for pair in pairs_of(sites, FORM, EXAMPLE, draft.problems):
            at = _put(draft, pair, fields)
            if at is not None:
                entry = draft.casefile.sites[at]
                place = place_name(draft, entry.site, entry.mark)
                told.append(said("{place}: {state}", place=capital(place), state=term(entry.state)))
        return (named_in_a_row(told),)

    change_case(case, "add site", enter)


def _put(draft: CaseDraft, pair: EnteredPair, fields: Mapping[str, Entered]) -> int | None:
    """Put the state at the entry of the place or the mark that is named, or add one; gives which
    it is, None where something is at fault."""
    place = placed(draft, pair.left)
    if place is None:
        return None
    state = {"state": in_words(pair.right, SiteState), **fields}
    entries = draft.casefile.sites
    at = next((n for n, e in enumerate(entries) if (e.site, e.mark) == place), len(entries))
    site, mark = (replace(pair.left, value=each) for each in place)
    return draft.enter("sites", at, SiteSeen, {"site": site, "mark": mark}, state)
