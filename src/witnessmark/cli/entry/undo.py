"""`witnessmark case undo`: the last change of a case taken back, as a revision of its own."""

from pathlib import Path
from typing import Annotated

from witnessmark.casefile.folder import document_of, read_document
from witnessmark.casefile.revisions import Alteration
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, option
from witnessmark.cli.entry.change import now, settled, who_types, writing_alone
from witnessmark.cli.terminal import known, print_line

HELP = """Changes are taken back one by one, the latest first; what was written into case.json
by other means counts as one. Nothing is lost: each state stays among the revisions
(see 'witnessmark case history'), and photographs stay in exhibits/.

\b
Example:
  witnessmark case undo my-sprint
"""


def case_undo(
    case: CasePath,
    to: Annotated[int | None, option("N", "Back to what it was at revision N.", min=1)] = None,
) -> None:
    """Take back the last change that stands."""
    document = document_of(Path(case))
    with writing_alone(document):
        revisions = settled(document)
        was = known(read_document(document, str(document)))
        moment = now()
        known(revisions.found(was, moment))
        undone = None if to is not None else known(revisions.to_undo())
        wanted = to if undone is None else undone.number - 1
        goal = known(revisions.read(wanted or 0))
        did = (
            said("back to revision {number}", number=goal.number)
            if undone is None
            else said("took back: {change}", change=undone.did)
        )
        change = Alteration(goal.case, did, who_types(), moment, undone.number if undone else None)
        made = known(revisions.record(was, change))
    print_line(f"{did[:1].upper()}{did[1:]}")
    print_line(
        said(
            "Revision {number}: the case is as it was at {goal}.",
            number=made.number,
            goal=goal.number,
        )
    )
