"""`witnessmark examine`: the whole examination of a case, on a page or as JSON."""

from typing import TYPE_CHECKING

from witnessmark.cli.arguments import AsJson, CasePath
from witnessmark.cli.opening import Examined, examined_case
from witnessmark.cli.terminal import Sheet, print_json, show_problems

if TYPE_CHECKING:
    from witnessmark.examination import Opinion
    from witnessmark.weighing.records import Conclusion
    from witnessmark.wording import Names

SHORT = "What the numbers of a case say, and why."

HELP = """Examine a case: what the numbers say about each question, then why.

Prints every conclusion with its likelihood ratio, words and bounds, what drives
it, what cannot be established and what would settle it.

\b
Example:
  witnessmark examine demo/clean
"""

MOST_SETTLING = 5
"""Papers, archives and laboratories listed with one question; --json gives all."""

MOST_CONTRIBUTIONS = 5
"""Evidence items listed with one conclusion; --json gives all."""


def examine(case: CasePath, json: AsJson = False) -> None:
    """Examine one case."""
    from witnessmark.examination import render_opinion

    examined = examined_case(case)
    show_problems(examined.opinion.problems)
    if json:
        print_json(render_opinion(examined.opinion))
        return
    sheet = Sheet()
    lay_out(sheet, examined)
    sheet.show()


def lay_out(sheet: Sheet, examined: Examined) -> None:
    """The page of one Opinion: what the numbers say, then why, then what it does not cover."""
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
    lay_out_typing(sheet, opinion)
    sheet.heading("What the numbers say")
    lay_out_answers(sheet, opinion)
    lay_out_open_questions(sheet, opinion)
    lay_out_reasons(sheet, opinion)
    lay_out_groups(sheet, opinion)
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


def lay_out_answers(sheet: Sheet, opinion: "Opinion") -> None:
    """Each conclusion in short: the words, the ratio and its bounds, what they speak for."""
    from witnessmark.weighing.records import Standing
    from witnessmark.wording import Favours, Names, conclusion_text, verbal_equivalent

    weighing = opinion.weighing
    for conclusion in weighing.conclusions:
        text = conclusion_text(conclusion, weighing, Names(opinion.names))
        answer = f"{text.words}; LR {text.lr}, bounds {text.lr_low} to {text.lr_high}"
        if conclusion.standing is not Standing.ANSWERED:
            answer = f"{conclusion.standing.value}; {answer}"
        sheet.gap()
        sheet.say(text.heading, 2)
        sheet.say(answer, 4)
        favours = verbal_equivalent(conclusion.lr.log10_lr).favours
        if favours is Favours.FIRST:
            sheet.say(f"First proposition: {text.first}", 4, hanging=2)
        elif favours is Favours.SECOND:
            sheet.say(f"Second proposition: {text.second}", 4, hanging=2)
            if text.split:
                sheet.say(text.split, 4)


def lay_out_open_questions(sheet: Sheet, opinion: "Opinion") -> None:
    """What is open or cannot be established, and what would settle it."""
    from witnessmark.weighing.records import Standing
    from witnessmark.wording import Names, standing_sentence
    from witnessmark.wording.conclusions import heading

    names = Names(opinion.names)
    for standing, title in (
        (Standing.CANNOT_BE_ESTABLISHED, "What cannot be established, and what would settle it"),
        (Standing.OPEN, "What is open"),
    ):
        unanswered = [c for c in opinion.weighing.conclusions if c.standing is standing]
        if unanswered:
            sheet.heading(title)
        for conclusion in unanswered:
            sheet.gap()
            sheet.say(heading(conclusion, names), 2)
            sheet.say(standing_sentence(conclusion), 4)
            lay_out_settling(sheet, conclusion, names)


def lay_out_settling(sheet: Sheet, conclusion: "Conclusion", names: "Names") -> None:
    """What is beyond reach and could settle one question, with what it would need to say.

    What could not take the ratio far enough whatever it said is left to --json.
    """
    from witnessmark.wording import settling_texts
    from witnessmark.wording.settling import SETTLING_LOG10_LR

    texts = zip(conclusion.settled_by, settling_texts(conclusion, names), strict=True)
    could = [
        text
        for look, text in texts
        if any(abs(outcome.log10_lr) > SETTLING_LOG10_LR for outcome in look.outcomes)
    ]
    for text in could[:MOST_SETTLING]:
        sheet.say(f"- {text.name} {text.needs}", 4, hanging=2)
    left = len(conclusion.settled_by) - len(could[:MOST_SETTLING])
    if could and left > 0:
        sheet.say(f"and {left} more (--json lists all).", 4)
    elif left > 0:
        sheet.say(
            f"Of the {left} sources beyond this visit that are known, none would take it there "
            "by itself (--json lists them).",
            4,
        )


def lay_out_reasons(sheet: Sheet, opinion: "Opinion") -> None:
    """Each conclusion with its pair, its sentences and what drives it."""
    from witnessmark.wording import Names, conclusion_text

    weighing = opinion.weighing
    rests_on = []
    sheet.heading("Why")
    for conclusion in weighing.conclusions:
        text = conclusion_text(conclusion, weighing, Names(opinion.names))
        sheet.gap()
        sheet.say(text.heading, 2)
        sheet.pairs((("first proposition", text.first), ("second", text.second)), 4)
        said = (text.sentence, text.bounds, text.capped, text.split, text.leading)
        for each in (*said, text.posterior):
            if each:
                sheet.say(each, 4)
        lay_out_contributions(sheet, conclusion)
        rests_on.append(text.rests_on)
    for said_once in filter(None, dict.fromkeys(rests_on)):
        sheet.gap()
        sheet.say(said_once, 2)


def lay_out_contributions(sheet: Sheet, conclusion: "Conclusion") -> None:
    """The evidence items that move the conclusion most."""
    from witnessmark.wording import count_text, log10_text

    told = [c for c in conclusion.contributions if log10_text(c.log10_lr_change) != "0.00"]
    if not told:
        return
    sheet.say("What drives it, as change of log10 LR:", 4)
    sheet.table(
        ((log10_text(c.log10_lr_change), c.item.sentence) for c in told[:MOST_CONTRIBUTIONS]), 6
    )
    left = len(told) - MOST_CONTRIBUTIONS
    if left > 0:
        sheet.say(f"and {count_text(left, 'smaller one')} (--json lists all).", 6)


def lay_out_groups(sheet: Sheet, opinion: "Opinion") -> None:
    """Which marks speak of one car."""
    from witnessmark.wording import Names, grouping_sentence

    if opinion.weighing.groups:
        sheet.heading("Which marks speak of one car")
    for group in opinion.weighing.groups:
        sheet.say(f"- {grouping_sentence(group, Names(opinion.names))}", 2, hanging=2)


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
