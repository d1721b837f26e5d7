"""The first page: what a client needs to know, in plain words, on one page.

Nothing on it needs the rest of the report to be understood. Long lists are cut to
what matters most, and say where the rest stands.
"""

from collections.abc import Mapping

from witnessmark.catalogue import as_said, counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.report.client_differ_sections import differ_blocks
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
from witnessmark.weighing.conclude import CAP_LOG10
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
from witnessmark.wording.amounts import capital, clause, sentence, times_text

CONCLUSIONS_SHOWN = 10


def client_page(opinion: Opinion, book: CodeBook, places: Mapping[str, int]) -> tuple[Block, ...]:
    """The blocks of the first page, in the order in which a client asks."""
    front = Front(opinion, book, Names(opinion.names), places)
    return (
        Facts(_asked(front)),
        Heading(said("What was concluded, and how strongly")),
        *_concluded(front),
        *differ_blocks(front),
        Heading(said("What was not seen")),
        Bullets(not_seen(front)),
        Heading(said("What cannot be established, and what would settle it")),
        *(Paragraph(each) for each in not_established(front)),
        Heading(said("The next step")),
        Paragraph(next_step(front)),
    )


def _asked(front: Front) -> tuple[Fact, ...]:
    """What was asked, what is claimed, and who looked with what interest."""
    return (
        Fact(said("What was asked"), _purpose(front)),
        Fact(said("What is claimed"), _claimed(front)),
        Fact(said("Who looked"), _looked(front)),
    )


def _purpose(front: Front) -> str:
    """What for, by whom and for whom; what is not stated is said to be so."""
    assignment = front.opinion.casefile.assignment
    purpose = sentence(clipped(assignment.purpose, MOST_TEXT))
    client = clause(clipped(assignment.client, MOST_NAME))
    users = clipped(_lower(assignment.intended_users), MOST_TEXT)
    purpose = purpose or said("For what is not stated.")
    if client and users:
        return said(
            "{purpose} Asked by {client}; for {users}.",
            purpose=purpose,
            client=client,
            users=users,
        )
    if client:
        return said(
            "{purpose} Asked by {client}; for whom is not stated.", purpose=purpose, client=client
        )
    if users:
        return said("{purpose} By whom is not stated; for {users}.", purpose=purpose, users=users)
    return said("{purpose} By whom and for whom is not stated.", purpose=purpose)


def _claimed(front: Front) -> str:
    """The claim in its words, and whose words they are."""
    claim = front.opinion.casefile.claim
    text, who = clipped(claim.text, MOST_CLAIM), clipped(claim.made_by, MOST_NAME)
    if not text:
        return said("The claim is not stated in words.")
    if not who:
        return said("“{claim}” (who claims it is not stated)", claim=text)
    return said("“{claim}” ({who})", claim=text, who=who)


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
    blocks: list[Block] = [Table(head, rows, (1.7, 2.5, 4.0, 3.2), is_dense=True)]
    if rest:
        blocks.append(Paragraph(more(rest, front.section("summary"))))
    direction = Paragraph(_direction(conclusions, front.names), "strong")
    return [*blocks, direction, Paragraph(_scale(), "quiet")]


def _most_important(conclusions: tuple[Conclusion, ...]) -> tuple[Conclusion, ...]:
    """Identity and the car as claimed, then the answers that say most; in their own order."""
    first = (Question.IDENTITY, Question.CONFIGURATION)
    ranked = sorted(conclusions, key=lambda c: (c.question not in first, -abs(c.lr.log10_lr)))
    kept = {id(each) for each in ranked[:CONCLUSIONS_SHOWN]}
    return tuple(each for each in conclusions if id(each) in kept)


def _row(conclusion: Conclusion, front: Front) -> tuple[TableCell, ...]:
    unseen = unseen_words(part_seen(conclusion, front.opinion, front.book))
    return (
        TableCell(capital(_about(conclusion, front.names)), strong=True),
        TableCell(_strength(conclusion), strong=True),
        TableCell(_supported(conclusion), (unseen,) if unseen else ()),
        _figures(conclusion),
    )


def _figures(conclusion: Conclusion) -> TableCell:
    """How many times more probable, the way that the words go; LR and bounds below."""
    lr = conclusion.lr
    below = said(
        "LR {ratio}, bounds {low} to {high}",
        ratio=lr_text(lr.log10_lr),
        low=lr_text(lr.log10_lr_low, Toward.DOWN),
        high=lr_text(lr.log10_lr_high, Toward.UP),
    )
    if verbal_equivalent(lr.log10_lr).favours is Favours.NEITHER:
        return TableCell(said("About as probable either way"), (below,))
    return TableCell(
        said("{times} times more probable if so", times=times_text(lr.log10_lr)), (below,)
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


def _strength(conclusion: Conclusion) -> str:
    """The words of the scale; where a question has no answer, that first and they after."""
    verbal = verbal_equivalent(conclusion.lr.log10_lr)
    is_neither = verbal.favours is Favours.NEITHER
    match conclusion.standing:
        case Standing.CANNOT_BE_ESTABLISHED if is_neither:
            return said("Cannot be established; the findings lean neither way")
        case Standing.CANNOT_BE_ESTABLISHED:
            return said(
                "Cannot be established; the findings give {words} to this",
                words=verbal.words,
            )
        case Standing.OPEN if is_neither:
            return said("Open; the findings lean neither way")
        case Standing.OPEN:
            return said("Open; the findings give {words} to this", words=verbal.words)
        case Standing.ANSWERED:
            return said("No support either way") if is_neither else capital(verbal.words)


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
    """The words that a report can give, and what its figures mean."""
    words = tuple(
        as_said(band.words) for band in shipped_scale().bands[1:] if band.log10_lr_from <= CAP_LOG10
    )
    return said(
        "The words go from {least} through {between} to {most}; no ratio is given beyond {cap}. "
        "“Times more probable” speaks of the findings, and never says how probable the claim "
        "itself is. LR is the same ratio, always for the claim: below 1 (such as 1/20) it speaks "
        "against. Its bounds say how far it moves if the assumed rates are wrong.",
        least=words[0],
        between=", ".join(words[1:-1]),
        most=words[-1],
        cap=lr_text(CAP_LOG10),
    )
