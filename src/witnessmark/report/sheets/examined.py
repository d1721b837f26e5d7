"""What an examination says on a screen: in short; one question, or all of it, on demand.

It is made of what the report's first page is made of, so that screen and paper never say two
things of one car.
"""

from collections.abc import Iterable, Iterator

from witnessmark.catalogue import as_said, in_a_row, marked, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.names import plain_name
from witnessmark.examination import Opinion
from witnessmark.outline.records import (
    Block,
    Fact,
    Facts,
    Outline,
    Paragraph,
    Table,
    TableCell,
)
from witnessmark.report.sections.answered import is_declared, most_important, strength
from witnessmark.report.sections.known import MOST_REMARKS, to_vouch_for, with_remarks
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.next_steps import (
    next_steps,
    nothing_left,
    worth_looking,
)
from witnessmark.report.sections.not_seen import unseen
from witnessmark.report.sections.page_one import does_not_fit, question
from witnessmark.report.sections.weight import conclusion_in_full
from witnessmark.weighing import FEWEST_TURNED, Asked, Standing, Weighed
from witnessmark.wording import (
    Favours,
    Names,
    listed,
    look_name,
    lr_text,
    minutes_text,
    misfit_sentence,
    misfits_beside,
    stop_sentence,
    term,
)
from witnessmark.wording.amounts import capital, clipped, few, sentence
from witnessmark.wording.books import other_book_sentences
from witnessmark.wording.conclusions import about_words, favours_of

ROWS_SHOWN = 6
"""Conclusions with a row, unless more tell against the claim."""

MOST_TOLD, MOST_NAMES = 125, 115
"""Characters of the first thing that does not fit, and of a list of names: two lines of each."""

LOOKS_SHOWN = 2

TOWARD = {
    Favours.FIRST: marked("{words} for"),
    Favours.SECOND: marked("{words} against"),
    Favours.NEITHER: marked("{words}"),
}
TONES = {Favours.FIRST: "for", Favours.SECOND: "against", Favours.NEITHER: ""}


def examined_in_short(opinion: Opinion, book: CodeBook) -> Outline:
    """A screenful: what does not fit, each conclusion in a row, what was not seen, what next."""
    matter = Matter(voiced(opinion), book)
    stop = stop_sentence(matter.opinion.answer.stops)
    blocks = (
        *(Paragraph(each, "strong") for each in other_book_sentences(matter.opinion)),
        *([Paragraph(stop, "strong")] if stop else []),
        *_misfits(matter),
        *_concluded(matter),
        Facts(tuple(_besides(matter))),
        *_beside(matter),
        Paragraph(_more(matter), "quiet"),
    )
    return Outline(question(matter), blocks)


def _beside(matter: Matter) -> Iterator[Block]:
    """The books, where there are several."""
    opinion = matter.opinion
    if opinion.beside:
        books = (
            said("By the book {book}, version {version}.", book=each.id, version=each.version)
            for each in (opinion.book, *opinion.beside)
        )
        yield Paragraph(in_a_row(books), "quiet")


def _misfits(matter: Matter) -> Iterator[Block]:
    """The first in a sentence, unless that the car is a matter for the authority stands there;
    the others by name."""
    found = does_not_fit(matter)
    if not (found or matter.opinion.answer.stops):
        quiet = [misfit_sentence(each) for each in misfits_beside(matter.opinion.answer)]
        told = quiet or [said("Nothing that was noted contradicts anything else.")]
        yield Paragraph(_shortly(told[0]))
    for text, _ in found[:1] if not matter.opinion.answer.stops else ():
        yield Paragraph(said("Does not fit: {first}", first=_shortly(text)), "against")
    rest = found if matter.opinion.answer.stops else found[1:]
    about = (next((e for e in reversed(some) if e != "claim"), "claim") for _, some in rest)
    names = tuple(dict.fromkeys(map(matter.names.any, about)))
    if names:
        shown = few(names, MOST_NAMES, "; ")
        yield Paragraph(said("Nor do these fit: {names}.", names=shown), "against")


def _shortly(text: str) -> str:
    """A text, or its first sentence where all of it is too long."""
    first, stop, _ = text.partition(". ")
    return text if len(text) <= MOST_TOLD else clipped(first + stop, MOST_TOLD)


def _answered(matter: Matter) -> list[Weighed]:
    """The conclusions with a ratio that have a row: those of the report's first page, fewer."""
    first = [e for e in most_important(matter.opinion.weighed) if e.standing.has_figure]
    against = sum(favours_of(each) is Favours.SECOND for each in first)
    return first[: max(ROWS_SHOWN, against)]


def _concluded(matter: Matter) -> Iterator[Block]:
    """A row each: the words, the ratio, in how many trials with other assumed rates it pointed
    the other way."""
    if rows := tuple(_row(each, matter) for each in _answered(matter)):
        steadiness = matter.opinion.steadiness
        turned = said("Turned/{draws}", draws=steadiness.draws) if steadiness else ""
        head = (said("Question"), said("How strongly"), said("LR"), turned)
        yield Table(head, rows, (3.0, 4.2, 1.2, 1.2), is_dense=True)


def _more(matter: Matter) -> str:
    """What a ratio is not, and how to see the rest."""
    shown = _answered(matter)
    left = [e for e in matter.opinion.weighed if e.standing.has_figure and e not in shown]
    if not left:
        return said("LR is never the probability of the claim. More: --why QUESTION, --all.")
    return said(
        "LR is never the probability of the claim. More: --why QUESTION, --all (also: {names}).",
        names="; ".join(_named(left, matter)),
    )


def _named(conclusions: list[Weighed], matter: Matter) -> Iterator[str]:
    """Conclusions by name, those on what is struck somewhere in one."""
    struck = [each for each in conclusions if each.question is Asked.STAMP]
    if len(struck) > 1:
        parts = listed(tuple(matter.names.piece(each.about) for each in struck))
        yield said("stampings on {parts}", parts=parts)
    for each in conclusions:
        if each not in struck or len(struck) == 1:
            yield about_words(each, matter.names)


def _row(conclusion: Weighed, matter: Matter) -> tuple[TableCell, ...]:
    favours, turned = favours_of(conclusion), conclusion.turned
    words = as_said(TOWARD[favours], words=strength(conclusion)).strip()
    if is_declared(conclusion, matter):
        words = said("{supported}, as declared", supported=words)
    few = said("under {number}", number=FEWEST_TURNED)
    return (
        TableCell(capital(about_words(conclusion, matter.names)), tone=TONES[favours]),
        TableCell(words),
        TableCell(lr_text(conclusion.log10_lr)),
        TableCell("" if turned is None else few if turned < FEWEST_TURNED else str(turned)),
    )


def _besides(matter: Matter) -> Iterator[Fact]:
    """What has no answer, what was said, what was not seen, what to do and to look at next."""
    opinion = matter.opinion
    open_ = [
        said(
            "{names} ({standing})",
            names=few([about_words(each, matter.names) for each in found], MOST_NAMES // 2),
            standing=term(standing),
        )
        for standing in Standing
        if not standing.has_figure
        if (found := [each for each in opinion.weighed if each.standing is standing])
    ]
    if open_:
        yield Fact(said("No answer"), "; ".join(open_))
    said_of = [each for each in opinion.disclosure if each.says]
    outcomes = dict.fromkeys(term(each.outcome) for each in said_of)
    counts = (f"{w}: {sum(term(e.outcome) == w for e in said_of)}" for w in outcomes)
    if said_of:
        yield Fact(said("What was said"), "; ".join(counts))
    yield Fact(said("Not seen"), _unseen(matter) or said("Every place and paper was seen."))
    for step in next_steps(matter)[:1] if not opinion.answer.stops else ():
        yield Fact(said("Do next"), step)
    told = [
        said("{look}, {minutes}", look=look_name(e, matter.names), minutes=minutes_text(e.cost))
        for e in worth_looking(opinion)[:LOOKS_SHOWN]
    ]
    yield Fact(said("Look next"), sentence("; ".join(told)) or nothing_left(opinion))


def _unseen(matter: Matter) -> str:
    """Each kind of thing with their names, as far as there is room; then with their number."""
    told = ""
    for each in unseen(matter):
        names = ", ".join(name for name, _ in each.things)
        whole = said("{label}: {names}", label=each.kind, names=names)
        if len(told) + len(whole) > MOST_NAMES:
            whole = said("{label}: {number}", label=each.kind, number=len(each.things))
        told = f"{told}; {whole}" if told else whole
    return told


def weighed_about(opinion: Opinion, text: str) -> list[Weighed]:
    """The conclusions that somebody means: by what they are about, as a row of the screen names
    it or by its id, or by the kind of question."""
    names, meant = Names(opinion.names), plain_name(text)
    return [
        each
        for each in opinion.weighed
        if meant
        in map(
            plain_name,
            (each.about, each.question.value, names.piece(each.about), about_words(each, names)),
        )
    ]


def examined_why(
    opinion: Opinion, book: CodeBook, weighed: Iterable[Weighed], most: int | None = MOST_REMARKS
) -> Outline:
    """Some conclusions in full: what is said, what drives it, on what it rests, with at most
    so many remarks of the book about each piece, or all."""
    opinion, names = voiced(opinion), Names(opinion.names)
    blocks: list[Block] = []
    for each, remarks in with_remarks(map(voiced, weighed), opinion, book, most):
        blocks.extend(conclusion_in_full(each, opinion, book, names))
        blocks.extend(map(Paragraph, (*to_vouch_for(each, opinion, book), *remarks)))
    return Outline(opinion.casefile.title or opinion.casefile.id, tuple(blocks))


def concluded_in_short(opinion: Opinion, book: CodeBook, *after: Block) -> Outline:
    """The claim, each conclusion in a row, and what else is to be said after it."""
    opinion = voiced(opinion)
    matter = Matter(opinion, book)
    blocks = (Paragraph(opinion.casefile.claim.text), *_concluded(matter), *after)
    return Outline(opinion.casefile.title, blocks, case_id=opinion.casefile.id)
