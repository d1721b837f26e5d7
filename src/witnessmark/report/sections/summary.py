"""The summary: what does not fit, the conclusions kept apart, what to look at next."""

from collections.abc import Iterable

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind, LookLeft
from witnessmark.examination.papers import sources_read
from witnessmark.figures import weight_strips
from witnessmark.outline.records import (
    Block,
    Bullets,
    Card,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.drawn import drawings
from witnessmark.report.sections.seen import part_seen, unseen_words
from witnessmark.weighing import Standing, Weighed
from witnessmark.wording import (
    Names,
    again_sentence,
    conclusion_text,
    look_text,
    looks_about,
    misfit_sentence,
    order_sentence,
    scale_sentence,
    spelled,
    standing_in_short,
    standing_sentence,
    steadiness_sentence,
    stop_sentence,
    term,
)
from witnessmark.wording.amounts import capital
from witnessmark.wording.conclusions import favours_of, heading

LOOKS_SHOWN = 8


def summary_section(opinion: Opinion, book: CodeBook) -> Section:
    """What does not fit before any number; the conclusions, kept apart, and the strips."""
    names = Names(opinion.names)
    cards = [
        _card(each, opinion, book, names) for each in opinion.weighed if each.standing.has_figure
    ]
    intro = said(
        "Five kinds of conclusion are kept apart: identity; plates and papers; "
        "configuration, item by item; assemblies; and what was said about the car. They "
        "are not added up. Each is given in full further on, with what drives it and what "
        "it assumes."
    )
    blocks: list[Block] = [*misfit_blocks(opinion), Paragraph(intro), *cards]
    blocks.extend(_aside(opinion, names))
    if opinion.steadiness is not None:
        blocks.append(Paragraph(steadiness_sentence(opinion.steadiness.draws), "quiet"))
        blocks.append(Paragraph(scale_sentence(), "quiet"))
    blocks.extend(_disclosure(opinion, book, names))
    if cards:
        blocks.extend(drawings(weight_strips(opinion)))
    return Section(said("Summary"), tuple(blocks))


def misfit_blocks(opinion: Opinion) -> list[Block]:
    """That it is a matter for the authority; what does not fit, the impossible first."""
    answer = opinion.answer
    blocks: list[Block] = []
    if answer.stops:
        blocks.append(Paragraph(stop_sentence(answer.stops), "strong"))
    blocks.append(Heading(said("What does not fit")))
    told = tuple(map(misfit_sentence, answer.misfits))
    nothing = said("Nothing that was noted contradicts anything else.")
    return [*blocks, Bullets(told) if told else Paragraph(nothing)]


def _card(weighed: Weighed, opinion: Opinion, book: CodeBook, names: Names) -> Card:
    return Card(
        conclusion_text(weighed, names),
        favours_of(weighed).value,
        standing_in_short(weighed),
        unseen_words(part_seen(weighed, opinion, book)),
    )


def _aside(opinion: Opinion, names: Names) -> list[Block]:
    """What was not examined and what cannot be established, by name: neither has a ratio."""
    return [
        Paragraph(
            said(
                "{standing}: {conclusions}.",
                standing=capital(term(standing)),
                conclusions="; ".join(heading(each, names) for each in found),
            )
        )
        for standing in Standing
        if not standing.has_figure
        if (found := [each for each in opinion.weighed if each.standing is standing])
    ]


def _disclosure(opinion: Opinion, book: CodeBook, names: Names) -> list[Block]:
    """What was said against what was found, statement by statement: no ratio."""
    head: list[Block] = [Heading(said("Disclosure: what was said against what was found"))]
    if not opinion.disclosure:
        none = said("No statement about a part of the car was recorded.")
        return [*head, Paragraph(none)]
    rows = tuple(
        (
            TableCell(capital(names.any(each.about)), strong=True),
            TableCell(each.says, (each.declared,) if each.declared else ()),
            TableCell(each.found, _below(each.about, opinion, book)),
            TableCell(capital(term(each.outcome)), strong=True),
        )
        for each in opinion.disclosure
    )
    titles = (said("About"), said("What was said"), said("What was found"), said("Outcome"))
    return [*head, *_speaker(opinion), Table(titles, rows, (2, 4, 5, 1.6))]


def _below(about: str, opinion: Opinion, book: CodeBook) -> tuple[str, ...]:
    """How the part was seen of which something was found, if not in person."""
    seen = [
        unseen_words(part_seen(each, opinion, book))
        for each in opinion.weighed
        if each.about == about
    ]
    return tuple(each for each in seen[:1] if each)


def _speaker(opinion: Opinion) -> list[Block]:
    """Who made the statements, and how many there are."""
    claim = opinion.casefile.claim
    if not claim.statements:
        return []
    who = claim.made_by or said("somebody whom the case does not name")
    told = spelled(
        "{count} statement, made by {name}. Where a row gives no statement, something was "
        "found about which nothing was said.",
        "{count} statements, made by {name}. Where a row gives no statement, something was "
        "found about which nothing was said.",
        len(claim.statements),
        name=who,
    )
    return [Paragraph(capital(told), "lead")]


def settling_section(opinion: Opinion, book: CodeBook) -> Section:
    """What is open, not examined or not to be established, and what is left to look at of it."""
    names = Names(opinion.names)
    blocks: list[Block] = []
    titles = {
        Standing.CANNOT_BE_ESTABLISHED: said("Cannot be established"),
        Standing.NOT_EXAMINED: said("Not examined"),
        Standing.OPEN: said("Open"),
    }
    for standing, title in titles.items():
        unsettled = [each for each in opinion.weighed if each.standing is standing]
        if unsettled:
            blocks.append(Heading(title))
            blocks.append(Bullets(tuple(_pair_line(each, names) for each in unsettled)))
            blocks.append(Paragraph(standing_sentence(unsettled[0])))
            if standing is Standing.CANNOT_BE_ESTABLISHED:
                blocks.extend(_on_the_car(unsettled, opinion.looks))
            blocks.extend(_sources(unsettled, opinion.looks))
            blocks.extend(_read(unsettled, opinion, book))
    if not blocks:
        answered = said(
            "Every question that has a likelihood ratio is answered beyond 3 either way, "
            "at the weaker end of its band too. The next section gives what could still "
            "change an answer."
        )
        blocks.append(Paragraph(answered))
    title = said("What is open, what cannot be established, and what bears on it")
    return Section(title, tuple(blocks))


def _pair_line(weighed: Weighed, names: Names) -> str:
    text = weighed.pair.first.strip().rstrip(".")
    proposition = text[:1].lower() + text[1:]
    return said(
        "{heading}: whether {proposition}",
        heading=heading(weighed, names),
        proposition=proposition,
    )


def _on_the_car(unsettled: list[Weighed], looks: tuple[LookLeft, ...]) -> list[Block]:
    """Places whose features speak of a part on which nothing gives a figure."""
    places = tuple(look for look in looks if look.kind is LookKind.PLACE)
    found = dict.fromkeys(
        look_text(look).prompt for each in unsettled for look in looks_about(places, each)
    )
    if not found:
        return []
    told = said("On the car, these bear on it, and give no figure:")
    return [Paragraph(told, "lead"), Bullets(tuple(found))]


def _sources(unsettled: list[Weighed], looks: tuple[LookLeft, ...]) -> list[Block]:
    """Papers and sources beyond the car that speak of these questions."""
    beyond = tuple(look for look in looks if look.kind >= LookKind.PAPER)
    found = dict.fromkeys(
        look_text(look).prompt for each in unsettled for look in looks_about(beyond, each)
    )
    if not found:
        return []
    told = said("Beyond the car, these bear on it, whatever they turn out to say:")
    return [Paragraph(told, "lead"), Bullets(tuple(found))]


def _read(unsettled: list[Weighed], opinion: Opinion, book: CodeBook) -> list[Block]:
    """What the papers told of these questions that the book names as sources and that were read."""
    names, asked = Names(opinion.names), {each.about for each in unsettled}
    stated: dict[tuple[str, str], list[str]] = {}
    for bearing in sources_read(book, opinion.context, opinion.decodings):
        if bearing.question in asked:
            stated.setdefault((bearing.question, bearing.paper), []).append(bearing.item)
    if not stated:
        return []
    told = tuple(_told(opinion, names, *which, items) for which, items in stated.items())
    return [Paragraph(said("These were read already:"), "lead"), Bullets(told)]


def _told(opinion: Opinion, names: Names, about: str, paper: str, items: list[str]) -> str:
    """What a paper reads of these items, at its likeliest, or that it does not answer this."""
    read = [
        said("{text} ({item})", text=meaning.code, item=names.item(meaning.says))
        for decoding in opinion.decodings
        if decoding.mark == paper
        for alternative in decoding.alternatives[:1]
        for meaning in alternative.fields
        if meaning.says in items
    ]
    about, paper = capital(names.piece(about)), names.mark(paper)
    if not read:
        return said(
            "{about}: the {paper} was read and does not answer this.", about=about, paper=paper
        )
    stated = ", ".join(dict.fromkeys(read))
    return said("{about}: the {paper} reads {stated}.", about=about, paper=paper, stated=stated)


def next_looks_section(opinion: Opinion) -> Section:
    """What to look at next: again what did not fit, then what is left, the shortest first."""
    within = [look for look in opinion.looks if look.is_reachable]
    blocks: list[Block] = []
    if within:
        blocks += [
            Paragraph(order_sentence(opinion.answer.stops), "lead"),
            looks_table(within[:LOOKS_SHOWN], opinion),
        ]
    else:
        blocks.append(Paragraph(said("No further look is possible on this car.")))
    rest = len(within) - LOOKS_SHOWN
    if rest > 0:
        further = counted(
            "{number} further look within reach takes longer.",
            "{number} further looks within reach take longer.",
            rest,
        )
        blocks.append(Paragraph(further, "quiet"))
    return Section(said("What to look at next"), tuple(blocks))


def looks_table(looks: Iterable[LookLeft], opinion: Opinion) -> Table:
    """Each look with what it costs, of which questions it speaks, and its caution."""
    head = (said("Look"), said("What it bears on"), said("Time and dismantling"))
    names = Names(opinion.names)
    return Table(head, tuple(_look_row(each, opinion, names) for each in looks), (5, 4, 3))


def _look_row(look: LookLeft, opinion: Opinion, names: Names) -> tuple[TableCell, ...]:
    text = look_text(look)
    below = tuple(filter(None, (again_sentence(look, opinion, names), text.caution)))
    spoken_of = dict.fromkeys(
        heading(each, names) for each in opinion.weighed if each.about in look.pieces
    )
    return (
        TableCell(text.prompt, below),
        TableCell("\n".join(spoken_of) or "; ".join(map(names.piece, look.pieces))),
        TableCell(text.minutes, (text.dismantling,) if text.dismantling else ()),
    )
