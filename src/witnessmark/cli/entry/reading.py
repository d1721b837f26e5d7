"""`witnessmark case add reading`: what was read of marks, as it stands on the car."""

from collections.abc import Sequence
from typing import Annotated

import typer

from witnessmark.cli.arguments import CasePath, argument, option
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
)
from witnessmark.entry import CaseDraft, Entered, enter_readings
from witnessmark.source import Source

HELP = """Type each mark as it stands on the car: several lines with " / " between them, the
windows of a plate with spaces or |. The signs of doubt are those of 'witnessmark
decode --help'. The place of a mark counts as read, illegible or absent by what was
read of it. What does not fit a mark is kept, and said at once.

\b
Example:
  witnessmark case add reading my-sprint 'frame stamp=4 70[08]1?3' 'block number=S28117'
"""

FORM = "MARK=READING"
EXAMPLE = "frame stamp=4 70[08]1?3"


def add_reading(
    case: CasePath,
    readings: Annotated[list[str], argument(f"{FORM}...", "Marks, and what each says.")],
    by: By = "",
    when: When = "",
    seen: SeenHow = "",
    legibility: Annotated[str, option("WORD", "clear (the default), worn or poor.")] = "",
    orientation: Annotated[str, option("WORD", "upright, upside down, sideways or unsure.")] = "",
    again: Again = False,
    blind: Annotated[
        bool, typer.Option("--blind", help="The reader did not know the claimed number.")
    ] = False,
    photo: Photos = None,
    note: Note = "",
) -> None:
    """Enter readings, and how the place of each ended."""
    fields = options(
        by=by,
        when=when,
        seen=seen,
        legibility=legibility,
        orientation=orientation,
        again=again,
        exhibits=photo,
        note=note,
    )
    if blind:
        fields["claim_known"] = Entered(False, Source("--blind"))

    def enter(draft: CaseDraft) -> Sequence[str]:
        pairs = pairs_of(readings, FORM, EXAMPLE, draft.problems)
        return enter_readings(draft, pairs, fields)

    change_case(case, "add reading", enter)
