"""`witnessmark case add look`: how the metal looks."""

from collections.abc import Sequence
from typing import Annotated

from witnessmark.cli.arguments import CasePath, argument
from witnessmark.cli.entry.change import change_case
from witnessmark.cli.entry.typed import (
    Again,
    By,
    Note,
    Photos,
    SeenHow,
    When,
    options,
    pairs_of,
    part,
)
from witnessmark.entry import CaseDraft, Entered, LookEntered, enter_looks

HELP = """Any place can look factory, doubtful or disturbed; what else to look at there, and
the answers a case can record, are listed by 'witnessmark book show BOOK'. A place at
which a look is noted counts as reached.

\b
Example:
  witnessmark case add look my-sprint scuttle=factory 'scuttle:fixings=round brass rivets'
"""

FORM = "PLACE[:FEATURE]=OUTCOME"
EXAMPLE = "frame rail=factory"


def add_look(
    case: CasePath,
    looks: Annotated[list[str], argument(f"{FORM}...", "Places, and how the metal looks there.")],
    by: By = "",
    when: When = "",
    seen: SeenHow = "",
    again: Again = False,
    photo: Photos = None,
    note: Note = "",
) -> None:
    """Enter looks, and that their places were reached."""
    fields = options(by=by, when=when, seen=seen, again=again, exhibits=photo, note=note)

    def enter(draft: CaseDraft) -> Sequence[str]:
        pairs = pairs_of(looks, FORM, EXAMPLE, draft.problems)
        typed = (LookEntered(*_split(each.left), each.right) for each in pairs)
        return enter_looks(draft, typed, fields)

    change_case(case, "add look", enter)


def _split(typed: Entered) -> tuple[Entered, Entered | None]:
    """The place and the feature of PLACE:FEATURE."""
    place, colon, _ = str(typed.value).partition(":")
    if not colon:
        return typed, None
    at, whole = (typed.source.column or 1) - 1, typed.source.text
    end = at + len(str(typed.value))
    return part(FORM, whole, at, at + len(place)), part(FORM, whole, at + len(place) + 1, end)
