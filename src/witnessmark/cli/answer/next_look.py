"""`witnessmark next`: what to look at next, and how far one gets in the time there is."""

from dataclasses import asdict
from typing import Annotated, Any

import typer

from witnessmark.cli.arguments import MINUTES, AsJson, CasePath, LanguageOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.problems import NoMinutes
from witnessmark.cli.terminal import print_outline, print_record, refuse, show_problems
from witnessmark.examination import Opinion
from witnessmark.examination.looks import in_time
from witnessmark.report.sheets.next_looks import next_looks
from witnessmark.source import Source

HELP = """What did not fit comes first, to be read again, starting with what would move an answer
most; then what has not been looked at, quickest first, with no estimate of its effect.
Without --minutes the case says how long there is (`minutes_available`).

\b
Example:
  witnessmark next demo/no-papers --minutes 30
"""


def next_look(
    case: CasePath,
    minutes: Annotated[int | None, MINUTES] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Every look in full, and every caution.")
    ] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """The next looks of one case."""
    examined = examined_case(case, minutes, steady=False)
    opinion = examined.opinion
    minutes = opinion.casefile.assignment.minutes_available
    if minutes is None:
        refuse((NoMinutes(Source("--minutes"), case),))
    show_problems(opinion.problems)
    if json:
        print_record(_rendered(opinion, minutes))
    else:
        print_outline(next_looks(opinion, examined.book, minutes, everything))


def _rendered(opinion: Opinion, minutes: int) -> dict[str, Any]:
    """The same for a machine: the records as they are."""
    return {
        "case": opinion.casefile.id,
        "minutes": minutes,
        "stops": [asdict(each) for each in opinion.answer.stops],
        "looks": [asdict(each) | {"kind": each.kind.name.lower()} for each in opinion.looks],
        "in_time": [each.target for each in in_time(opinion.looks, minutes)],
    }
