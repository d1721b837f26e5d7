"""`witnessmark next`: what to look at next, by what it tells for the minutes it costs."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import examined_case
from witnessmark.cli.terminal import Sheet, print_outline, show_problems

if TYPE_CHECKING:
    from witnessmark.examination import Opinion
    from witnessmark.weighing.records import BestSet, Conclusion, NextLook
    from witnessmark.wording import Names

SHORT = "What to look at next."

HELP = """Say what to look at next, and the best set of looks for the time there is.

Looks come in order of expected information by the minute, for each question.

\b
Example:
  witnessmark next demo/no-papers --minutes 30
"""

MOST_SHOWN = 6
"""Looks listed with one question; --json gives all."""


def next_look(
    case: CasePath,
    minutes: Annotated[
        int, typer.Option("--minutes", metavar="N", min=0, max=10_000, help="Minutes there are.")
    ],
    json: AsJson = False,
) -> None:
    """The next looks of one case."""
    opinion = examined_case(case, minutes).opinion
    show_problems(opinion.problems)
    if json:
        print_outline(_outline(opinion, minutes))
        return
    sheet = Sheet()
    lay_out(sheet, opinion, minutes)
    sheet.show()


def lay_out(sheet: Sheet, opinion: "Opinion", minutes: int) -> None:
    """Per question: the best set, then the looks one by one, then what stands beyond reach."""
    from witnessmark.wording import CAUTIONS, Names, minutes_text

    casefile = opinion.casefile
    sheet.title(f"{casefile.title or casefile.id}: what to look at in {minutes_text(minutes)}")
    for conclusion in opinion.weighing.conclusions:
        if conclusion.next_looks or conclusion.settled_by:
            lay_out_question(sheet, conclusion, Names(opinion.names))
    sheet.heading("Before you look")
    for caution in CAUTIONS:
        sheet.say(f"- {caution.heading}: {caution.sentence}", 2, hanging=2)


def lay_out_question(sheet: Sheet, conclusion: "Conclusion", names: "Names") -> None:
    """The looks that speak to one question."""
    from witnessmark.wording import count_text, next_look_text, odds_sentence, settling_texts
    from witnessmark.wording.conclusions import heading

    sheet.heading(heading(conclusion, names))
    if conclusion.best_set is not None:
        sheet.say(_best(conclusion.best_set, conclusion.next_looks, names), 2)
    for place, look in enumerate(conclusion.next_looks[:MOST_SHOWN], start=1):
        text = next_look_text(look, names)
        sheet.gap()
        sheet.say(f"{place}. {text.prompt}", 2, hanging=3)
        sheet.say(f"{text.bits} in {text.minutes}; {text.bits_per_minute} a minute", 5)
        for each in (text.dismantling, text.outcomes, text.caution):
            if each:
                sheet.say(each, 5)
    left = len(conclusion.next_looks) - MOST_SHOWN
    if left > 0:
        sheet.say(f"and {count_text(left, 'look')} that would tell less (--json lists all).", 5)
    if conclusion.settled_by:
        sheet.gap()
        sheet.say("Beyond this car:", 2)
    for settling in settling_texts(conclusion, names):
        sheet.say(f"- {settling.name} {settling.needs}", 4, hanging=2)
    sheet.gap()
    sheet.say(odds_sentence(conclusion), 2)


def _best(best: "BestSet", looks: "tuple[NextLook, ...]", names: "Names") -> str:
    from witnessmark.wording import best_set_sentence

    prompts = {look.target: look.prompt for look in looks}
    looked = tuple(prompts.get(target) or names.any(target) for target in best.targets)
    return best_set_sentence(best, looked)


def _outline(opinion: "Opinion", minutes: int) -> dict[str, Any]:
    """The same for a machine: the records as they are."""
    from dataclasses import asdict

    return {
        "case": opinion.casefile.id,
        "minutes": minutes,
        "questions": [
            {
                "question": conclusion.question.value,
                "about": conclusion.about,
                "is_established": conclusion.is_established,
                "odds_used": conclusion.odds_used,
                "odds_are_stated": conclusion.odds_are_stated,
                "best_set": asdict(conclusion.best_set) if conclusion.best_set else None,
                "next_looks": [asdict(look) for look in conclusion.next_looks],
                "settled_by": [asdict(look) for look in conclusion.settled_by],
            }
            for conclusion in opinion.weighing.conclusions
        ],
    }
