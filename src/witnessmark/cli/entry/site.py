"""`witnessmark case add site`: how places ended."""

from collections.abc import Sequence
from typing import Annotated

from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.change import change_case
from witnessmark.cli.entry.typed import Photos, options, pairs_of
from witnessmark.entry import CaseDraft, enter_sites

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
        pairs = pairs_of(sites, FORM, EXAMPLE, draft.problems)
        return enter_sites(draft, pairs, fields)

    change_case(case, "add site", enter)
