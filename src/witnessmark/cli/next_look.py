"""`witnessmark next`: what to look at next, by what it tells for the minutes it costs."""

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Annotated, Any

import typer

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.examine import lay_out_settling
from witnessmark.cli.opening import Examined, examined_case
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

MOST_SHOWN = 8
"""Looks that a page lists at least; --json gives all."""

LEAST_BITS = 0.001
"""A page does not say that a look tells less than this about a question."""


def next_look(
    case: CasePath,
    minutes: Annotated[
        int, typer.Option("--minutes", metavar="N", min=1, max=10_000, help="Minutes there are.")
    ],
    json: AsJson = False,
) -> None:
    """The next looks of one case."""
    examined = examined_case(case, minutes)
    asked = questions(examined, minutes)
    show_problems(examined.opinion.problems)
    if json:
        print_outline(_outline(examined.opinion, asked, minutes))
        return
    sheet = Sheet()
    lay_out(sheet, examined.opinion, asked, minutes)
    sheet.show()


@dataclass(frozen=True, slots=True)
class Question:
    """A conclusion, and the set of looks that tells most about it in the time there is."""

    conclusion: "Conclusion"
    best_set: "BestSet | None"


def questions(examined: Examined, minutes: int) -> tuple[Question, ...]:
    """Every conclusion of the Opinion with its best set."""
    from witnessmark.examination import marks_of
    from witnessmark.weighing import best_looks

    opinion = examined.opinion
    car = marks_of(opinion, examined.book)
    sets = {
        (asked.question, asked.about): best
        for asked, best in best_looks(car, opinion.findings, minutes)
    }
    return tuple(
        Question(each, each.best_set or sets.get((each.question, each.about)))
        for each in opinion.weighing.conclusions
    )


def lay_out(sheet: Sheet, opinion: "Opinion", asked: tuple[Question, ...], minutes: int) -> None:
    """The looks one by one, the best set for each question, what stands beyond this visit."""
    from witnessmark.wording import CAUTIONS, Names, minutes_text, odds_sentence

    casefile, conclusions = opinion.casefile, opinion.weighing.conclusions
    names = Names(opinion.names)
    looks = shown_looks(asked)
    sheet.title(f"{casefile.title or casefile.id}: what to look at in {minutes_text(minutes)}")
    lay_out_looks(sheet, looks, names)
    lay_out_best_sets(sheet, asked, looks, names)
    lay_out_beyond(sheet, conclusions, names)
    for said in dict.fromkeys(odds_sentence(conclusion) for conclusion in conclusions):
        sheet.gap()
        sheet.say(said)
    sheet.heading("Before you look")
    for caution in CAUTIONS:
        sheet.say(f"- {caution.heading}: {caution.sentence}", 2, hanging=2)


@dataclass(frozen=True, slots=True)
class Told:
    """One look and what it tells about one question."""

    look: "NextLook"
    conclusion: "Conclusion"

    def bits_per_minute(self) -> float:
        """What it tells for what it costs, access included."""
        return self.look.bits / max(self.look.minutes + self.look.access_minutes, 1)


def shown_looks(asked: tuple[Question, ...]) -> tuple[tuple[Told, ...], ...]:
    """The looks of a page, best first, each with the questions it tells about, best first.

    Those that tell something, and whatever stands in a best set.
    """
    looks: dict[str, list[Told]] = {}
    chosen = {target for each in asked if each.best_set for target in each.best_set.targets}
    for question in asked:
        for look in question.conclusion.next_looks:
            looks.setdefault(look.target, []).append(Told(look, question.conclusion))
    ordered = [sorted(each, key=Told.bits_per_minute, reverse=True) for each in looks.values()]
    ordered.sort(key=lambda told: told[0].bits_per_minute(), reverse=True)
    telling = [told for told in ordered if max(each.look.bits for each in told) >= LEAST_BITS]
    return tuple(
        tuple(told)
        for told in ordered
        if told in telling[:MOST_SHOWN] or chosen & {told[0].look.target, told[0].look.prompt}
    )


def lay_out_looks(sheet: Sheet, looks: tuple[tuple[Told, ...], ...], names: "Names") -> None:
    """Each look once: what it costs, what it tells about which question, its caution."""
    from witnessmark.wording import next_look_text
    from witnessmark.wording.conclusions import heading

    sheet.heading("The looks, best first by what they tell in a minute")
    if not looks:
        sheet.say("No look that is left on this car would tell anything.", 2)
    for place, told in enumerate(looks, start=1):
        best = told[0]
        text = next_look_text(best.look, names)
        sheet.gap()
        sheet.say(f"{place}. {text.prompt}", 2, hanging=3)
        sheet.say(f"{text.minutes}; {text.dismantling}", 5)
        said = f"{text.bits}. {text.outcomes}"
        sheet.say(f"{heading(best.conclusion, names)}: {said}", 5, hanging=2)
        for each in told[1:]:
            if each.look.bits >= LEAST_BITS:
                bits = next_look_text(each.look, names).bits
                sheet.say(f"{heading(each.conclusion, names)}: {bits}", 5, hanging=2)
        if text.caution:
            sheet.say(text.caution, 5)


def lay_out_best_sets(
    sheet: Sheet,
    asked: tuple[Question, ...],
    looks: tuple[tuple[Told, ...], ...],
    names: "Names",
) -> None:
    """For each question the looks, by their numbers, that together tell most in the time."""
    from witnessmark.wording import bits_text, listed, minutes_text
    from witnessmark.wording.conclusions import heading

    sheet.heading("The best set for each question, shared access counted once")
    numbers: dict[str, int] = {}
    for place, told in enumerate(looks, start=1):  # a set names its looks by either
        numbers[told[0].look.target] = numbers[told[0].look.prompt] = place
    rows = []
    for question in asked:
        best = question.best_set
        if best is not None and best.targets:
            listed_ones = sorted(numbers[each] for each in best.targets if each in numbers)
            others = tuple(names.any(each) for each in best.targets if each not in numbers)
            chosen = listed((*(f"look {number}" for number in listed_ones), *others))
            said = f"{chosen}: {bits_text(best.bits)} in {minutes_text(best.minutes)}"
        else:
            said = "none in this time"
        rows.append((heading(question.conclusion, names), said))
    sheet.table(rows)


def lay_out_beyond(sheet: Sheet, conclusions: "tuple[Conclusion, ...]", names: "Names") -> None:
    """For questions without an answer: papers, archives and laboratories that could settle them."""
    from witnessmark.weighing.records import Standing
    from witnessmark.wording.conclusions import heading

    unanswered = [c for c in conclusions if c.standing is not Standing.ANSWERED and c.settled_by]
    if unanswered:
        sheet.heading("What could settle the questions that are left, beyond this visit")
    for conclusion in unanswered:
        sheet.gap()
        sheet.say(heading(conclusion, names), 2)
        lay_out_settling(sheet, conclusion, names)


def _outline(opinion: "Opinion", asked: tuple[Question, ...], minutes: int) -> dict[str, Any]:
    """The same for a machine: the records as they are."""
    return {
        "case": opinion.casefile.id,
        "minutes": minutes,
        "questions": [
            {
                "question": conclusion.question.value,
                "about": conclusion.about,
                "standing": conclusion.standing.value,
                "odds_used": conclusion.odds_used,
                "odds_are_stated": conclusion.odds_are_stated,
                "best_set": asdict(best_set) if best_set else None,
                "next_looks": [asdict(look) for look in conclusion.next_looks],
                "settled_by": [asdict(look) for look in conclusion.settled_by],
            }
            for conclusion, best_set in ((each.conclusion, each.best_set) for each in asked)
        ],
    }
