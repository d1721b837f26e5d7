"""`witnessmark examine`: the whole examination of a case, on a page or as JSON."""

from typing import TYPE_CHECKING, Annotated

import typer

from witnessmark.cli.arguments import AsJson
from witnessmark.cli.case_upgrade import lay_out_upgrade
from witnessmark.cli.examine_table import examine_table
from witnessmark.cli.opening import Examined, examined_case
from witnessmark.cli.problems import OneCase, typed
from witnessmark.cli.terminal import Sheet, print_json, refuse, show_problems

if TYPE_CHECKING:
    from witnessmark.examination import Opinion
    from witnessmark.weighing import Weighed
    from witnessmark.wording import ConclusionText

SHORT = "What the numbers of a case say, and why."

HELP = """Examine a case: what the numbers say about each question, then why.

Prints what does not fit, then every conclusion with its likelihood ratio, its band and
words, what drives it, what cannot be established and what is left to look at.

With --csv, many cases at once, one row for each question of each case: the ratio without its
band, and what does not fit. A case with an error gets no row; its problem is reported and
the other cases continue.

\b
Examples:
  witnessmark examine demo/clean
  witnessmark examine demo/clean demo/panel --csv
"""

MOST_LOOKS = 5
"""Looks listed; --json gives all."""

MOST_CONTRIBUTIONS = 5
"""Evidence items listed with one conclusion; --json gives all."""


CasePaths = Annotated[
    list[str],
    typer.Argument(metavar="CASE...", help="A case, its folder or its case.json; more with --csv."),
]


def examine(
    cases: CasePaths,
    json: AsJson = False,
    csv: Annotated[bool, typer.Option("--csv", help="Print one row per question, as CSV.")] = False,
    jobs: Annotated[
        int,
        typer.Option(
            "--jobs", metavar="N", min=1, max=256, help="How many cases at once, with --csv."
        ),
    ] = 1,
) -> None:
    """Examine one case, or print the ratios of many."""
    from witnessmark.examination import render_opinion

    if csv:
        raise typer.Exit(examine_table(cases, jobs))
    if len(cases) > 1:
        refuse((OneCase(typed("CASE", cases[1]), len(cases)),))
    examined = examined_case(cases[0])
    show_problems(examined.opinion.problems)
    if json:
        print_json(render_opinion(examined.opinion))
        return
    sheet = Sheet()
    lay_out(sheet, examined)
    sheet.show()


def lay_out(sheet: Sheet, examined: Examined) -> None:
    """The page of one Opinion: what the numbers say, then why, then what it does not cover."""
    from witnessmark.wording.books import other_book_sentences

    opinion = examined.opinion
    casefile, book = opinion.casefile, opinion.book
    sheet.title(casefile.title or casefile.id)
    sheet.pairs(
        (
            ("case", casefile.id),
            ("claim", casefile.claim.text),
            ("made by", casefile.claim.made_by),
            ("code book", f"{book.title}, version {book.version}"),
            *(("beside it", f"{each.title}, version {each.version}") for each in opinion.beside),
        )
    )
    for each in other_book_sentences(opinion):
        sheet.say(each, 2)
    lay_out_upgrade(sheet, examined.opened)
    lay_out_typing(sheet, opinion)
    lay_out_misfits(sheet, opinion)
    sheet.heading("What the numbers say")
    lay_out_answers(sheet, opinion)
    lay_out_looks(sheet, opinion)
    lay_out_reasons(sheet, opinion)
    lay_out_findings(sheet, examined)
    lay_out_disclosure(sheet, opinion)
    lay_out_vouched(sheet, opinion)
    lay_out_limits(sheet, opinion)


def lay_out_typing(sheet: Sheet, opinion: "Opinion") -> None:
    """What was typed in a form that its mark has not, before anything is built on it."""
    from witnessmark.wording import Names, typing_sentences

    told = typing_sentences(opinion.decodings, Names(opinion.names))
    if told:
        sheet.heading("Look again at what was typed")
    for each in told:
        sheet.say(f"- {each}", 2, hanging=2)


def lay_out_misfits(sheet: Sheet, opinion: "Opinion") -> None:
    """Whose matter it is, and what does not fit, before any number."""
    from witnessmark.wording import misfit_sentence, misfits_beside, stop_sentence

    answer = opinion.answer
    sheet.heading("What does not fit")
    if answer.stops:
        sheet.say(stop_sentence(answer.stops), 2)
    for each in misfits_beside(answer):
        sheet.say(f"- {misfit_sentence(each)}", 2, hanging=2)
    if not answer.misfits:
        sheet.say("Nothing that was noted contradicts anything else.", 2)


def lay_out_answers(sheet: Sheet, opinion: "Opinion") -> None:
    """Each conclusion in short: the words with what they speak for, the ratio with its band."""
    from witnessmark.wording import Favours, Names, conclusion_text, steadiness_sentence
    from witnessmark.wording.conclusions import favours_of

    for weighed in opinion.weighed:
        text = conclusion_text(weighed, Names(opinion.names))
        sheet.gap()
        sheet.say(text.heading, 2)
        for line in in_short(weighed, text):
            sheet.say(line, 4, hanging=2)
        if favours_of(weighed) is Favours.SECOND and text.split:
            sheet.say(text.split, 4, hanging=2)
    if opinion.steadiness is not None:
        sheet.gap()
        sheet.say(steadiness_sentence(opinion.steadiness.draws), 2)


def in_short(weighed: "Weighed", text: "ConclusionText") -> list[str]:
    """What is supported, in words, then the figure and its band; of what has no answer, that it
    has none."""
    from witnessmark.weighing import Standing
    from witnessmark.wording import Favours, verbal_equivalent
    from witnessmark.wording.conclusions import favours_of, turned_text

    if weighed.standing in (Standing.NOT_EXAMINED, Standing.CANNOT_BE_ESTABLISHED):
        return [text.words]
    if weighed.word_log10_lr is None or weighed.turned is None:
        return [f"LR {text.lr}"]
    words = verbal_equivalent(weighed.word_log10_lr).words
    match favours_of(weighed):
        case Favours.FIRST:
            words = f"{words}: {text.first}"
        case Favours.SECOND:
            words = f"{words}: {text.second}"
        case Favours.NEITHER:
            words = f"{text.words}: {text.first}"
    told = f"LR {text.lr}, band {text.lr_low} to {text.lr_high}"
    told += f"; {turned_text(weighed.turned)} of {weighed.draws} pointed the other way"
    return [f"open; {words}" if weighed.standing is Standing.OPEN else words, told]


def lay_out_looks(sheet: Sheet, opinion: "Opinion") -> None:
    """What is left to look at, what did not fit first."""
    from witnessmark.wording import Names, again_sentence, look_text, order_sentence

    sheet.heading("What is left to look at")
    if not opinion.looks:
        sheet.say("Nothing that the code book knows of.", 2)
        return
    sheet.say(order_sentence(opinion.answer.stops), 2)
    for look in opinion.looks[:MOST_LOOKS]:
        text, again = look_text(look), again_sentence(look, opinion, Names(opinion.names))
        told = " ".join(each for each in (text.prompt, again, text.minutes) if each)
        sheet.say(f"- {told}", 2, hanging=2)
    left = len(opinion.looks) - MOST_LOOKS
    if left > 0:
        sheet.say(f"and {left} more (`witnessmark next` and --json list them).", 2)


def lay_out_reasons(sheet: Sheet, opinion: "Opinion") -> None:
    """Each conclusion with its pair, its sentences and what drives it."""
    from witnessmark.wording import Names, conclusion_text, standing_sentence

    sheet.heading("Why")
    for weighed in opinion.weighed:
        text = conclusion_text(weighed, Names(opinion.names))
        sheet.gap()
        sheet.say(text.heading, 2)
        sheet.pairs((("first proposition", text.first), ("second", text.second)), 4)
        said = (text.sentence, standing_sentence(weighed), text.band, text.capped, text.split)
        for each in dict.fromkeys((*said, text.leading, text.posterior)):
            if each:
                sheet.say(each, 4)
        lay_out_contributions(sheet, weighed)


def lay_out_contributions(sheet: Sheet, weighed: "Weighed") -> None:
    """What was noted that moves the conclusion most."""
    from witnessmark.wording import count_text, log10_text

    told = [c for c in weighed.contributions if log10_text(c.log10_lr_change) != "0.00"]
    if not told:
        return
    sheet.say("What drives it, as change of log10 LR:", 4)
    sheet.table(((log10_text(c.log10_lr_change), c.sentence) for c in told[:MOST_CONTRIBUTIONS]), 6)
    left = len(told) - MOST_CONTRIBUTIONS
    if left > 0:
        sheet.say(f"and {count_text(left, 'smaller one')} (--json lists all).", 6)


def lay_out_findings(sheet: Sheet, examined: Examined) -> None:
    """The comparisons that do not simply agree; those that do are counted."""
    from witnessmark.agreement.records import Outcome
    from witnessmark.wording.first_look import OUTCOME_HEADINGS, first_look_sentence

    findings = examined.opinion.findings
    sheet.heading("What the marks say about each other")
    sheet.say(first_look_sentence(tuple(finding.outcome for finding in findings)), 2)
    for outcome in (Outcome.DIFFER, Outcome.UNDECIDED):
        found = [finding for finding in findings if finding.outcome is outcome]
        if found:
            sheet.gap()
            sheet.say(f"{OUTCOME_HEADINGS[outcome]}:", 2)
        for finding in found:
            sheet.say(f"- {finding.observation} {finding.inference}", 4, hanging=2)


def lay_out_disclosure(sheet: Sheet, opinion: "Opinion") -> None:
    """What is said about the car against what was found."""
    if opinion.disclosure:
        sheet.heading("What is said, against what was found")
    for each in opinion.disclosure:
        sheet.say(f"- {each.outcome}: {each.says}", 2, hanging=2)
        sheet.say(each.found, 4)


def lay_out_vouched(sheet: Sheet, opinion: "Opinion") -> None:
    """The rows from memory that an examiner answers for."""
    from witnessmark.wording.vouching import vouched_sentence

    vouched = opinion.casefile.circumstances.vouched
    if vouched:
        sheet.heading("What an examiner vouches for")
    for each in vouched:
        sheet.say(f"- {vouched_sentence(each)}", 2, hanging=2)


def lay_out_limits(sheet: Sheet, opinion: "Opinion") -> None:
    """What the Opinion does not cover, what was not seen among it."""
    if opinion.limitations:
        sheet.heading("What this does not cover")
    for limitation in opinion.limitations:
        sheet.say(f"- {limitation.sentence}", 2, hanging=2)
