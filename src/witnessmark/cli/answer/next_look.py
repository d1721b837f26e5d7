"""`witnessmark next`: what to look at next, and how far one gets in the time there is."""

from dataclasses import asdict
from typing import Annotated, Any

from witnessmark.cli.arguments import MINUTES, AsJson, CasePath, LanguageOption
from witnessmark.cli.cases import examined_case
from witnessmark.cli.terminal import print_outline, print_record, show_problems
from witnessmark.examination import Opinion
from witnessmark.examination.looks import in_time
from witnessmark.report.sheets.next_looks import next_looks

HELP = """What did not fit comes first, to be read again, starting with what would move an answer
most; then what has not been looked at, quickest first, with no estimate of its effect.

\b
Example:
  witnessmark next demo/no-papers --minutes 30
"""


def next_look(
    case: CasePath,
    minutes: Annotated[int, MINUTES],
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """The next looks of one case."""
    opinion = examined_case(case, minutes, steady=False).opinion
    show_problems(opinion.problems)
    if json:
        print_record(_rendered(opinion, minutes))
    else:
        print_outline(next_looks(opinion, minutes))


def _rendered(opinion: Opinion, minutes: int) -> dict[str, Any]:
    """The same for a machine: the records as they are."""
    return {
        "case": opinion.casefile.id,
        "minutes": minutes,
        "stops": [asdict(each) for each in opinion.answer.stops],
        "looks": [asdict(each) | {"kind": each.kind.name.lower()} for each in opinion.looks],
        "in_time": [each.target for each in in_time(opinion.looks, minutes)],
    }
