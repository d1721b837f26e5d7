"""`witnessmark case history`: every revision of a case: when, who, what."""

from pathlib import Path

from witnessmark.casefile.folder import document_of, read_document
from witnessmark.casefile.revisions import Revision, Revisions, digest
from witnessmark.catalogue import said
from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.terminal import known, print_outline, print_record, refuse
from witnessmark.documents.open_row import as_json
from witnessmark.outline.records import Outline, Paragraph, Table, TableCell
from witnessmark.problem import Problem

HELP = """The revisions lie in revisions/ beside case.json, each with the whole document as it
was then; --json prints them all but that.

\b
Example:
  witnessmark case history my-sprint
"""


def case_history(case: CasePath, json: AsJson = False) -> None:
    """List the revisions, the first one first."""
    document = document_of(Path(case))
    now = known(read_document(document, str(document)))
    found = tuple(Revisions(document).all())
    problems = [each for each in found if isinstance(each, Problem)]
    read = [each for each in found if isinstance(each, Revision)]
    if json:
        print_record([{k: v for k, v in as_json(each).items() if k != "case"} for each in read])
    else:
        print_outline(_page(case, read, digest(now)))
    if problems:
        refuse(problems)


def _page(case: str, revisions: list[Revision], now: str) -> Outline:
    """A row for each revision, and whether the document is as the last one says."""
    head = (said("Revision"), said("When"), said("Who"), said("What was done"))
    rows = tuple(
        tuple(
            map(
                TableCell,
                (
                    str(each.number),
                    each.when.isoformat(" ", "minutes") if each.when else "",
                    each.who,
                    each.did,
                ),
            )
        )
        for each in revisions
    )
    told = []
    if not revisions:
        told.append(said("No change of this case was made by a command."))
    elif revisions[-1].sha256 != now:
        told.append(
            said("Since then the document was written by other means; it is kept with the next "
                 "change.")
        )  # fmt: skip
    table = (Table(head, rows, (1, 3, 2, 6)),) if rows else ()
    return Outline(said("Revisions of {case}", case=case), (*table, *map(Paragraph, told)))
