"""The first page: what a client needs to know, in plain words, on one page.

Nothing on it needs the rest of the report to be understood. Long lists are cut to
what matters most, and say where the rest is.
"""

from collections import Counter
from collections.abc import Iterator, Mapping

from witnessmark.catalogue import as_said, said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.examination.records import DisclosureOutcome
from witnessmark.outline.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Table,
    TableCell,
)
from witnessmark.report.sections.client_differ import differ_blocks
from witnessmark.report.sections.client_open import (
    MOST_CLAIM,
    MOST_NAME,
    MOST_TEXT,
    Front,
    clipped,
    contradictions,
    inside,
    more,
    next_step,
    not_established,
    not_seen,
)
from witnessmark.report.sections.seen import part_seen, unseen_words
from witnessmark.weighing import (
    CAP_LOG10,
    FEWEST_TURNED,
    SAYING_LOG10,
    Asked,
    Standing,
    Weighed,
)
from witnessmark.wording import (
    Favours,
    Names,
    Toward,
    date_text,
    listed,
    lr_text,
    shipped_scale,
    term,
    verbal_equivalent,
)
from witnessmark.wording.amounts import capital, clause, sentence, times_text
from witnessmark.wording.books import other_book_sentences
from witnessmark.wording.conclusions import favours_of

CONCLUSIONS_SHOWN = 10
STATEMENTS_TOLD = 3


def client_page(opinion: Opinion, book: CodeBook, places: Mapping[str, int]) -> tuple[Block, ...]:
    """The blocks of the first page, in the order in which a client asks."""
    front = Front(opinion, book, Names(opinion.names), places)
    return (
        *(Paragraph(each, "strong") for each in other_book_sentences(opinion)),
        Facts(_asked(front)),
        *contradictions(front),
        Heading(said("What was concluded, and how strongly")),
        *concluded(front),
        *differ_blocks(front),
        Heading(said("What was not seen")),
        Bullets(not_seen(front)),
        Heading(said("What cannot be established")),
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
    """The purpose, the client and the intended users; what is not stated is said not to be."""
    assignment = front.opinion.casefile.assignment
    purpose = sentence(clipped(assignment.purpose, MOST_TEXT))
    client = clause(clipped(assignment.client, MOST_NAME))
    users = clipped(_lower(assignment.intended_users), MOST_TEXT)
    purpose = purpose or said("The purpose is not stated.")
    if client and users:
        return said(
            "{purpose} Requested by {client}, for {users}.",
            purpose=purpose,
            client=client,
            users=users,
        )
    if client:
        return said(
            "{purpose} Requested by {client}; the intended users are not stated.",
            purpose=purpose,
            client=client,
        )
    if users:
        return said(
            "{purpose} The client is not stated; for {users}.", purpose=purpose, users=users
        )
    return said("{purpose} The client and the intended users are not stated.", purpose=purpose)


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


def concluded(front: Front) -> list[Block]:
    """One row for each question that has a figure: the words first, the figure last; then how
    far they hold."""
    if not front.opinion.weighed:
        return [Paragraph(said("What was supplied allows no question to be asked."))]
    conclusions = tuple(each for each in front.opinion.weighed if each.standing.has_figure)
    shown = _most_important(conclusions)
    rows = tuple(_row(each, front) for each in shown)
    rest = len(conclusions) - len(shown)
    rows += tuple(_disclosed(front))
    if not rows:
        return [Paragraph(said("Nothing that was noted bears on any question."))]
    head = (said("About"), said("How strongly"), said("For what"), said("In figures"))
    blocks: list[Block] = [Table(head, rows, (1.7, 2.5, 4.0, 3.2), is_dense=True)]
    if rest:
        blocks.append(Paragraph(more(rest, front.section("summary"))))
    steadiness = front.opinion.steadiness
    if steadiness is not None:
        blocks.append(Paragraph(_scale(steadiness.draws), "quiet"))
    return blocks


def _most_important(conclusions: tuple[Weighed, ...]) -> tuple[Weighed, ...]:
    """Identity, what speaks against the claim and every assembly, then the answers that say most
    at their weaker end; what speaks against the claim stands before the rest."""

    def first(each: Weighed) -> tuple[bool, bool]:
        return each.question is not Asked.IDENTITY, each.log10_lr >= -SAYING_LOG10

    def rank(at: int) -> tuple[bool, bool, bool, float]:
        each = conclusions[at]
        return *first(each), each.question is not Asked.CORE, -abs(each.weaker_log10_lr)

    kept = sorted(sorted(range(len(conclusions)), key=rank)[:CONCLUSIONS_SHOWN])
    return tuple(sorted((conclusions[at] for at in kept), key=first))


def _row(conclusion: Weighed, front: Front) -> tuple[TableCell, ...]:
    unseen = unseen_words(part_seen(conclusion, front.opinion, front.book))
    value = front.opinion.casefile.claim.items.get(conclusion.about, "")
    is_item = conclusion.question is Asked.ITEM and value
    below = (front.names.value(value, conclusion.about),) if is_item else ()
    return (
        TableCell(capital(_about(conclusion, front.names)), below, strong=True),
        TableCell(_strength(conclusion), strong=True),
        TableCell(_supported(conclusion), (unseen,) if unseen else ()),
        _figures(conclusion),
    )


def _disclosed(front: Front) -> Iterator[tuple[TableCell, ...]]:
    """What was said against what was found: how many statements of each outcome, those told
    that differ or are as declared; no ratio."""
    found = front.opinion.disclosure
    outcomes = Counter(term(each.outcome) for each in found)
    told = tuple(
        said("{outcome}: “{says}”", outcome=capital(term(each.outcome)), says=clause(each.says))
        for each in found
        if each.says and each.outcome in (DisclosureOutcome.DIFFERS, DisclosureOutcome.AS_DECLARED)
    )
    if found:
        counts = "; ".join(f"{word}: {number}" for word, number in outcomes.items())
        yield (
            TableCell(said("What was said about it"), strong=True),
            TableCell(capital(counts), strong=True),
            TableCell("; ".join(clipped(each, MOST_TEXT) for each in told[:STATEMENTS_TOLD])),
            TableCell(""),
        )


def _figures(conclusion: Weighed) -> TableCell:
    """How many times more probable, in the direction of the words; LR and band below."""
    low, high, turned = conclusion.log10_lr_low, conclusion.log10_lr_high, conclusion.turned
    ratio, below = said("LR {ratio}", ratio=lr_text(conclusion.log10_lr)), ""
    if low is not None and high is not None and turned is not None:
        below = said(
            "band {low} to {high}",
            low=lr_text(low, Toward.DOWN),
            high=lr_text(high, Toward.UP),
        )
        if turned >= FEWEST_TURNED:
            told = said("{turned} of {draws} turned", turned=turned, draws=conclusion.draws)
            below = f"{below}; {told}"
    if favours_of(conclusion) is Favours.NEITHER:
        return TableCell(ratio, (below,) if below else ())
    times = times_text(conclusion.log10_lr)
    below = said("{ratio}, {band}", ratio=ratio, band=below) if below else ratio
    return TableCell(said("{times} times more probable if so", times=times), (below,))


def _about(conclusion: Weighed, names: Names) -> str:
    match conclusion.question:
        case Asked.IDENTITY:
            return said("identity: {part}", part=names.assembly(conclusion.about))
        case Asked.STAMP:
            return said("what is struck on the {part}", part=names.piece(conclusion.about))
        case Asked.ITEM:
            return said("claimed {item}", item=names.item(conclusion.about))
        case _:
            return names.piece(conclusion.about)


def _strength(conclusion: Weighed) -> str:
    """The words of the scale, at the weaker of ratio and band; where there is no answer, that."""
    if conclusion.word_log10_lr is None:
        return ""
    verbal = verbal_equivalent(conclusion.word_log10_lr)
    is_neither = verbal.favours is Favours.NEITHER
    if conclusion.standing is Standing.ANSWERED:
        return capital(verbal.words)
    if is_neither:
        return said("Open; the findings lean neither way")
    return said("Open; the findings lend {words} to this", words=verbal.words)


def _supported(conclusion: Weighed) -> str:
    """The proposition that the findings support, or the question that they leave."""
    pair = conclusion.pair
    match favours_of(conclusion):
        case Favours.NEITHER:
            return said("Whether {proposition}.", proposition=inside(pair.first))
        case Favours.FIRST:
            return sentence(pair.first)
        case Favours.SECOND:
            return sentence(pair.second)


def _scale(draws: int) -> str:
    """The words that a report can give, and what its figures mean."""
    words = tuple(
        as_said(band.words) for band in shipped_scale().bands[1:] if band.log10_lr_from <= CAP_LOG10
    )
    return said(
        "The words range from {least} through {between} to {most}; no ratio is given "
        "beyond {cap}. “Times more probable” refers to the findings and never says how "
        "probable the claim itself is. LR is the same ratio, always stated for the claim: "
        "below 1 (such as 1/20) it tells against it. All assumed rates were varied "
        "together {draws} times; nine answers in ten lay within the band, and the words "
        "are those of its weaker end. Where {turned} or more turned, that is, favoured the "
        "other side, the row says how many.",
        draws=draws,
        turned=FEWEST_TURNED,
        least=words[0],
        between=", ".join(words[1:-1]),
        most=words[-1],
        cap=lr_text(CAP_LOG10),
    )
