"""`witnessmark case add look`: how the metal looks."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated

from witnessmark.casefile import LookSeen
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, argument
from witnessmark.cli.entry.draft import (
    CaseDraft,
    Entered,
    change_case,
    named_in_a_row,
    place_name,
    placed,
    reached,
)
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
from witnessmark.examination.entries import with_place_reached
from witnessmark.wording.amounts import capital

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
        old = len(draft.casefile.looks)
        for pair in pairs_of(looks, FORM, EXAMPLE, draft.problems):
            place, feature = _split(pair.left)
            site = placed(draft, place)
            if site is not None:
                named = {"site": replace(place, value=site[0]), "outcome": pair.right}
                named |= {} if feature is None else {"feature": feature}
                draft.add("looks", LookSeen, {**named, **fields})
        draft.in_book_words("looks")
        told = []
        for each in draft.casefile.looks[old:]:
            draft.casefile = with_place_reached(draft.casefile, each.site)
            told.append(
                said(
                    "{place}, {feature}: {outcome}",
                    place=capital(place_name(draft, each.site)),
                    feature=each.feature.replace("_", " "),
                    outcome=each.outcome,
                )
            )
        return (named_in_a_row(told), reached(draft))

    change_case(case, "add look", enter)


def _split(typed: Entered) -> tuple[Entered, Entered | None]:
    """The place and the feature of PLACE:FEATURE."""
    place, colon, _ = str(typed.value).partition(":")
    if not colon:
        return typed, None
    at, whole = (typed.source.column or 1) - 1, typed.source.text
    end = at + len(str(typed.value))
    return part(FORM, whole, at, at + len(place)), part(FORM, whole, at + len(place) + 1, end)
