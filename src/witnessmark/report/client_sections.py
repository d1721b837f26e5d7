"""The first page: what a client needs to know, in plain words, on one page.

Nothing on it needs the rest of the report to be understood. Long lists are cut to
what matters most, and say where the rest stands.
"""

from collections.abc import Mapping

from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.report.client_open_sections import (
    MOST_CLAIM,
    MOST_NAME,
    MOST_TEXT,
    Front,
    clipped,
    inside,
    more,
    next_step,
    not_established,
    not_seen,
)
from witnessmark.report.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Table,
    TableCell,
)
from witnessmark.report.seen import part_seen, unseen_words
from witnessmark.weighing.records import Conclusion, Question, Standing
from witnessmark.wording import (
    Favours,
    Names,
    Toward,
    date_text,
    listed,
    lr_text,
    shipped_scale,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.catalogue import as_said, counted, said

CONCLUSIONS_SHOWN = 10


def client_page(opinion: Opinion, book: CodeBook, places: Mapping[str, int]) -> tuple[Block, ...]:
    """The blocks of the first page, in the order in which a client asks."""
    front = Front(opinion, book, Names(opinion.names), places)
    return (
        Facts(_asked(front)),
        Heading(said("What was concluded, and how strongly")),
        *_concluded(front),
        Heading(said("What was not seen")),
        Bullets(not_seen(front)),
        Heading(said("What cannot be established, and what would settle it")),
        *(Paragraph(each) for each in not_established(front)),
        Heading(said("The next step")),
        Paragraph(next_step(front)),
    )


def _asked(front: Front) -> tuple[Fact, ...]:
    """What was asked, what is claimed, and who looked with what interest."""
    assignment, claim = front.opinion.casefile.assignment, front.opinion.casefile.claim
    not_stated = said("not stated")
    asked = said(
        "{purpose} Asked by {client}; for {users}.",
        purpose=sentence(clipped(assignment.purpose, MOST_TEXT) or not_stated),
        client=clause(clipped(assignment.client, MOST_NAME)) or not_stated,
        users=clipped(_lower(assignment.intended_users), MOST_TEXT) or not_stated,
    )
    claimed = said(
        "“{claim}” ({who})",
        claim=clipped(claim.text, MOST_CLAIM) or not_stated,
        who=clipped(claim.made_by, MOST_NAME) or not_stated,
    )
    return (
        Fact(said("What was asked"), asked),
        Fact(said("What is claimed"), claimed),
        Fact(said("Who looked"), _looked(front)),
    )


def _looked(front: Front) -> str:
    """The examiners, the day of the visit, and what they declared."""
    case = front.opinion.casefile
    examiners = case.assignment.examiners
    not_stated = said("not stated")
    interest = "; ".join(
        said(
            "{name}: {interest}",
            name=each.name,
            interest=clause(each.declared_interest) or not_stated,
        )
        for each in examiners
    )
    by = listed(tuple(each.name for each in examiners)) or not_stated
    return said(
        "{names}, on {day}. Declared interest: {interest}",
        names=clipped(by, MOST_NAME),
        day=date_text(case.visit.date) if case.visit.date else not_stated,
        interest=sentence(clipped(interest, MOST_CLAIM) or not_stated),
    )


def _lower(text: str) -> str:
    """A phrase that goes on inside a sentence: a small letter before a small one."""
    text = clause(text)
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text


def _concluded(front: Front) -> list[Block]:
    """One row for each question: the words first, the figure last; then how far they hold."""
    conclusions = front.opinion.weighing.conclusions
    if not conclusions:
        return [Paragraph(said("No question could be asked of what was brought."))]
    shown = _most_important(conclusions)
    rows = tuple(_row(each, front) for each in shown)
    rest = len(conclusions) - len(shown)
    head = (said("About"), said("How strongly"), said("For what"), said("In figures"))
    blocks: list[Block] = [Table(head, rows, (1.9, 2.1, 5, 1.8), is_dense=True)]
    notes = [_direction(conclusions, front.names), _scale()]
    if rest:
        notes.insert(0, more(rest, front.section("summary")))
    return [*blocks, Paragraph(" ".join(notes), "quiet")]


def _most_important(conclusions: tuple[Conclusion, ...]) -> tuple[Conclusion, ...]:
    """Identity and the car as claimed, then the answers that say most; in their own order."""
    first = (Question.IDENTITY, Question.CONFIGURATION)
    ranked = sorted(conclusions, key=lambda c: (c.question not in first, -abs(c.lr.log10_lr)))
    kept = {id(each) for each in ranked[:CONCLUSIONS_SHOWN]}
    return tuple(each for each in conclusions if id(each) in kept)


def _row(conclusion: Conclusion, front: Front) -> tuple[TableCell, ...]:
    unseen = unseen_words(part_seen(conclusion, front.opinion, front.book))
    lr = conclusion.lr
    low, high = lr_text(lr.log10_lr_low, Toward.DOWN), lr_text(lr.log10_lr_high, Toward.UP)
    return (
        TableCell(capital(_about(conclusion, front.names)), strong=True),
        _strength(conclusion),
        TableCell(_supported(conclusion), (unseen,) if unseen else ()),
        TableCell(
            said("LR {ratio}", ratio=lr_text(lr.log10_lr)),
            (said("{low} to {high}", low=low, high=high),),
        ),
    )


def _about(conclusion: Conclusion, names: Names) -> str:
    match conclusion.question:
        case Question.CONFIGURATION:
            return said("the car as claimed")
        case Question.IDENTITY:
            return said("identity: {part}", part=names.assembly(conclusion.about))
        case Question.ASSEMBLY:
            return names.assembly(conclusion.about)
        case _:
            return names.mark(conclusion.about)


def _strength(conclusion: Conclusion) -> TableCell:
    """The words of the scale; below them, that a question stays without an answer."""
    verbal = verbal_equivalent(conclusion.lr.log10_lr)
    words = capital(verbal.words)
    if verbal.favours is Favours.NEITHER:
        words = said("No support either way")
    match conclusion.standing:
        case Standing.CANNOT_BE_ESTABLISHED:
            return TableCell(words, (said("Cannot be established"),), strong=True)
        case Standing.OPEN:
            return TableCell(words, (said("Open"),), strong=True)
        case Standing.ANSWERED:
            return TableCell(words, strong=True)


def _supported(conclusion: Conclusion) -> str:
    """The proposition that the findings support, or the question that they leave."""
    pair = conclusion.pair
    match verbal_equivalent(conclusion.lr.log10_lr).favours:
        case Favours.NEITHER:
            return said("Whether {proposition}.", proposition=inside(pair.first))
        case Favours.FIRST:
            return sentence(pair.first)
        case Favours.SECOND:
            return sentence(pair.second)


def _direction(conclusions: tuple[Conclusion, ...], names: Names) -> str:
    """For which questions the answer keeps its direction whatever the assumed rates are."""
    kept = [each for each in conclusions if _keeps_direction(each)]
    if len(kept) == len(conclusions):
        return said(
            "The rates behind these answers are assumed; with all of them wrong by a factor of "
            "three in odds, each in its worst direction, every answer keeps its direction."
        )
    if not kept:
        return said(
            "The rates behind these answers are assumed; with all of them wrong by a factor of "
            "three in odds, each in its worst direction, every one of these answers could turn."
        )
    about = "; ".join(dict.fromkeys(_about(each, names) for each in kept))
    return counted(
        "The rates behind these answers are assumed; with all of them wrong by a factor of "
        "three in odds, each in its worst direction, only this keeps its direction: {kept}. "
        "The others could turn.",
        "The rates behind these answers are assumed; with all of them wrong by a factor of "
        "three in odds, each in its worst direction, only these keep their direction: {kept}. "
        "The others could turn.",
        len(kept),
        kept=about,
    )


def _keeps_direction(conclusion: Conclusion) -> bool:
    ends = (conclusion.lr.log10_lr_low, conclusion.lr.log10_lr_high)
    favours = {verbal_equivalent(end).favours for end in ends}
    return len(favours) == 1 and Favours.NEITHER not in favours


def _scale() -> str:
    words = tuple(as_said(band.words) for band in shipped_scale().bands[1:])
    return said(
        "The words go from {least} by {between} to {most}. The figure LR, with its bounds below "
        "it, is how many times more probable the findings are if the claim is true in this point "
        "than if it is not; it is not the probability of either.",
        least=words[0],
        between=", ".join(words[1:-1]),
        most=words[-1],
    )
