"""`witnessmark next`: what to look at next, and how far one gets in the time there is."""

from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import examined_case
from witnessmark.cli.terminal import Sheet, print_outline, show_problems

if TYPE_CHECKING:
    from witnessmark.examination import Opinion
    from witnessmark.examination.looks import LookLeft

SHORT = "What to look at next."

HELP = """Say what to look at next, and how much fits into the time available.

What did not fit comes first, to be read again, starting with what would move an answer
most; then what has not been looked at, quickest first, with no estimate of its effect.

\b
Example:
  witnessmark next demo/no-papers --minutes 30
"""

MOST_SHOWN = 12
"""Looks that a page lists of each kind; --json gives all."""


def next_look(
    case: CasePath,
    minutes: Annotated[
        int, typer.Option("--minutes", metavar="N", min=1, max=10_000, help="Minutes available.")
    ],
    json: AsJson = False,
) -> None:
    """The next looks of one case."""
    from witnessmark.examination.looks import in_time

    opinion = examined_case(case, minutes, steady=False).opinion
    taken = in_time(opinion.looks, minutes)
    show_problems(opinion.problems)
    if json:
        print_outline(_outline(opinion, taken, minutes))
        return
    sheet = Sheet()
    lay_out(sheet, opinion, taken, minutes)
    sheet.show()


def lay_out(sheet: Sheet, opinion: "Opinion", taken: "tuple[LookLeft, ...]", minutes: int) -> None:
    """The looks one by one, those that fit into the time, what stands beyond this visit."""
    from witnessmark.examination.looks import minutes_of
    from witnessmark.wording import CAUTIONS, minutes_text, order_sentence, stop_sentence

    casefile = opinion.casefile
    sheet.title(f"{casefile.title or casefile.id}: what to look at in {minutes_text(minutes)}")
    if opinion.answer.stops:
        sheet.say(stop_sentence(opinion.answer.stops))
    within = tuple(look for look in opinion.looks if look.is_reachable)
    sheet.heading("The looks, in order")
    sheet.say(
        order_sentence(opinion.answer.stops)
        if within
        else "No look is left that can be had on this car.",
        2,
    )
    lay_out_looks(sheet, opinion, within)
    sheet.heading("What fits into the time, shared access counted once")
    numbers = [str(within.index(look) + 1) for look in taken]
    fits = f"look {', '.join(numbers)}: {minutes_text(minutes_of(taken))}"
    sheet.say(fits if taken else "none", 2)
    beyond = tuple(look for look in opinion.looks if not look.is_reachable)
    if beyond:
        sheet.heading("Beyond this visit")
    lay_out_looks(sheet, opinion, beyond)
    sheet.heading("Before you look")
    for caution in CAUTIONS:
        sheet.say(f"- {caution.heading}: {caution.sentence}", 2, hanging=2)


def lay_out_looks(sheet: Sheet, opinion: "Opinion", looks: "tuple[LookLeft, ...]") -> None:
    """Each look with what it costs, of which questions it speaks, and its caution."""
    from witnessmark.wording import Names, again_sentence, look_text
    from witnessmark.wording.conclusions import heading

    names = Names(opinion.names)
    for place, look in enumerate(looks[:MOST_SHOWN], start=1):
        text = look_text(look)
        sheet.gap()
        sheet.say(f"{place}. {text.prompt}", 2, hanging=3)
        cost = "; ".join(each for each in (text.minutes, text.dismantling) if each)
        spoken_of = (heading(each, names) for each in opinion.weighed if each.about in look.pieces)
        again = again_sentence(look, opinion, names)
        for line in (cost, again or "; ".join(spoken_of), text.caution):
            if line:
                sheet.say(line, 5, hanging=2)
    if len(looks) > MOST_SHOWN:
        sheet.say(f"and {len(looks) - MOST_SHOWN} more (--json lists all).", 2)


def _outline(opinion: "Opinion", taken: "tuple[LookLeft, ...]", minutes: int) -> dict[str, Any]:
    """The same for a machine: the records as they are."""
    return {
        "case": opinion.casefile.id,
        "minutes": minutes,
        "stops": [asdict(each) for each in opinion.answer.stops],
        "looks": [asdict(each) | {"kind": each.kind.name.lower()} for each in opinion.looks],
        "in_time": [each.target for each in taken],
    }
