"""`witnessmark case add statement`: what was said about the car before anybody looked."""

from collections.abc import Sequence
from typing import Annotated

from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.change import change_case
from witnessmark.cli.entry.typed import options, pairs_of
from witnessmark.entry import CaseDraft, enter_statements

HELP = """ABOUT is a part, a mark or a paper of the book, or car; then follow the speaker's
own words. What they declare, in fixed words, makes a finding 'as declared':
--origin first, another car's, supplied new, replaced or made later; --work skimmed,
struck openly, removed, repaired, repainted or refitted; --work-by dealer, works,
office, restorer or owner.

\b
Example:
  witnessmark case add statement my-sprint 'engine=Service block of 1961.' --origin 'supplied new'
"""

FORM = "ABOUT=WORDS"
EXAMPLE = "engine=Service block of 1961."


def add_statement(
    case: CasePath,
    statements: Annotated[list[str], argument(f"{FORM}...", "Parts, and what is said of each.")],
    origin: Annotated[str, option("WORDS", "Where it is said to have come from.")] = "",
    work: Annotated[str, option("WORDS", "What is said to have been done to it.")] = "",
    work_by: Annotated[str, option("WHO", "Who is said to have done it.")] = "",
    paper: Annotated[str, option("PAPER", "The paper that says so.")] = "",
) -> None:
    """Enter statements."""
    fields = options(origin=origin, work=work, work_by=work_by, paper=paper)

    def enter(draft: CaseDraft) -> Sequence[str]:
        pairs = pairs_of(statements, FORM, EXAMPLE, draft.problems)
        return enter_statements(draft, pairs, fields)

    change_case(case, "add statement", enter)
