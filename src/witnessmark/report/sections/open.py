"""What is not known, what could change an answer, and what was said against what was found."""

from collections.abc import Iterable, Iterator

from witnessmark.catalogue import counted, said
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind, LookLeft, most_moved
from witnessmark.examination.papers import sources_read
from witnessmark.outline.records import (
    Block,
    Bullets,
    Fact,
    Facts,
    Heading,
    Paragraph,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.sections.awaited import awaited_blocks
from witnessmark.report.sections.matter import Matter
from witnessmark.report.sections.not_seen import NotSeen, papers_told, unreadable
from witnessmark.report.sections.others import told_by_others
from witnessmark.report.sections.to_ask import questions_box
from witnessmark.weighing import Standing, Weighed
from witnessmark.wording import (
    Names,
    again_sentence,
    look_text,
    looks_about,
    order_sentence,
    spelled,
    standing_sentence,
    term,
    then_words,
)
from witnessmark.wording.amounts import capital, clause, sentence
from witnessmark.wording.conclusions import about_words

LOOKS_SHOWN = 6
SOURCES_SHOWN = 6


def open_section(matter: Matter) -> Section:
    """Not seen; not established; what could move an answer; what was said."""
    return Section(
        said("What is not known, and what was said"),
        (
            *unseen_blocks(matter),
            *unsettled_blocks(matter),
            *moving_blocks(matter),
            *awaited_blocks(matter),
            *disclosure_blocks(matter),
            *questions_box(matter),
            *told_by_others(matter),
        ),
    )


def unseen_blocks(matter: Matter) -> Iterator[Block]:
    """What this Opinion does not cover, in its own words; what could not be read; the papers."""
    yield Heading(said("What was not seen, and why"))
    held = {each.mark for each in matter.case.papers}
    limits = matter.opinion.limitations
    if told := tuple(sentence(e.sentence) for e in limits if e.paper not in held):
        yield Bullets(told)
    elif not limits:
        yield Paragraph(said("Every place that the code book expects was looked at."))
    facts = [
        *(Fact(each.kind, _in_a_line(each)) for each in unreadable(matter)),
        *(Fact(capital(name), told) for name, told in papers_told(matter)),
    ]
    if facts:
        yield Facts(tuple(facts))


def _in_a_line(kind: NotSeen) -> str:
    things = (
        said("{name}: {how}", name=n, how=clause(how)) if how else n for n, how in kind.things
    )
    return sentence("; ".join(things))


def unsettled_blocks(matter: Matter) -> Iterator[Block]:
    """What is open, not examined or not to be established, with what speaks of it elsewhere."""
    if not matter.opinion.weighed:
        return
    titles = {
        Standing.CANNOT_BE_ESTABLISHED: said("Cannot be established"),
        Standing.NOT_EXAMINED: said("Not examined"),
        Standing.OPEN: said("Open"),
    }
    found = {
        title: [each for each in matter.opinion.weighed if each.standing is standing]
        for standing, title in titles.items()
    }
    yield Heading(said("What cannot be established, and what bears on it"))
    if not any(found.values()):
        yield Paragraph(said("Every question has an answer, as strong as its words."))
        return
    yield Facts(
        tuple(
            Fact(title, _told(unsettled, matter)) for title, unsettled in found.items() if unsettled
        )
    )
    every = [each for some in found.values() for each in some]
    on_car = _bearing(found[titles[Standing.CANNOT_BE_ESTABLISHED]], matter, (LookKind.PLACE,))
    beyond = _bearing(every, matter, (LookKind.PAPER, LookKind.SOURCE))
    for told, lines in (
        (said("On the car, these bear on it, and give no figure:"), on_car),
        (said("Beyond the car, these bear on it, whatever they turn out to say:"), beyond),
        (said("These were read already:"), tuple(_read(every, matter))),
    ):
        if lines:
            yield Paragraph(told, "lead")
            yield Bullets(lines[:SOURCES_SHOWN])


def _told(unsettled: list[Weighed], matter: Matter) -> str:
    names = "; ".join(about_words(each, matter.names) for each in unsettled)
    return f"{sentence(names)} {standing_sentence(unsettled[0])}".strip()


def _bearing(
    unsettled: list[Weighed], matter: Matter, kinds: tuple[LookKind, ...]
) -> tuple[str, ...]:
    """Looks of these kinds that speak of these questions."""
    looks = tuple(look for look in matter.opinion.looks if look.kind in kinds)
    found = (look_text(look).prompt for each in unsettled for look in looks_about(looks, each))
    return tuple(dict.fromkeys(found))


def _read(unsettled: list[Weighed], matter: Matter) -> Iterator[str]:
    """What the papers told of these questions that the book names as sources and that were read."""
    opinion, asked = matter.opinion, {each.about for each in unsettled}
    stated: dict[tuple[str, str], list[str]] = {}
    for bearing in sources_read(matter.book, opinion.context, opinion.decodings):
        if bearing.question in asked:
            stated.setdefault((bearing.question, bearing.paper), []).append(bearing.item)
    for (about, paper), items in stated.items():
        read = [
            said("{text} ({item})", text=meaning.code, item=matter.names.item(meaning.says))
            for decoding in opinion.decodings
            if decoding.mark == paper
            for alternative in decoding.alternatives[:1]
            for meaning in alternative.fields
            if meaning.says in items
        ]
        of, by = capital(matter.names.piece(about)), matter.names.mark(paper)
        if read:
            told = ", ".join(dict.fromkeys(read))
            yield said("{about}: the {paper} reads {stated}.", about=of, paper=by, stated=told)
        else:
            yield said(
                "{about}: the {paper} was read and does not answer this.", about=of, paper=by
            )


# ----------------------------------------------------------------- what could move an answer


def moving_blocks(matter: Matter) -> Iterator[Block]:
    """The first looks within reach, with their minutes and what they bear on."""
    within = [look for look in matter.opinion.looks if look.is_reachable]
    yield Heading(said("What could move an answer"))
    if not within:
        yield Paragraph(said("No further look is possible on this car."))
        return
    yield Paragraph(order_sentence(matter.opinion.answer.stops), "lead")
    yield looks_table(within[:LOOKS_SHOWN], matter.opinion, is_dense=True)
    rest = len(within) - LOOKS_SHOWN
    if rest > 0:
        yield Paragraph(
            counted(
                "{number} further look within reach takes longer.",
                "{number} further looks within reach take longer.",
                rest,
            ),
            "quiet",
        )


def looks_table(looks: Iterable[LookLeft], opinion: Opinion, *, is_dense: bool = False) -> Table:
    """Each look with what it costs, of which questions it speaks, and its caution, once for all
    that have the same."""
    head = (said("Look"), said("What it bears on"), said("Time and dismantling"))
    rows, minded = [], set[str]()
    for each in looks:
        caution = look_text(each).caution
        rows.append(_look_row(each, opinion, "" if caution in minded else caution))
        minded.add(caution)
    return Table(head, tuple(rows), (5, 4, 3), is_dense=is_dense)


def _look_row(look: LookLeft, opinion: Opinion, caution: str) -> tuple[TableCell, ...]:
    text, names = look_text(look), Names(opinion.names)
    stands = again_sentence(look, opinion, names)
    below = tuple(filter(None, (stands, _words_after(look, opinion), caution)))
    spoken_of = dict.fromkeys(
        capital(about_words(each, names)) for each in opinion.weighed if each.about in look.pieces
    )
    return (
        TableCell(text.prompt, below, about=(look.target,)),
        TableCell("\n".join(spoken_of) or "; ".join(map(names.piece, look.pieces))),
        TableCell(text.minutes, (text.dismantling,) if text.dismantling else ()),
    )


def _words_after(look: LookLeft, opinion: Opinion) -> str:
    """The words of the answer that it moves most, now and then."""
    moved = most_moved(look.target, opinion.answer) if look.kind is LookKind.AGAIN else None
    if moved is None or not moved.is_told:
        return ""
    weighed = next(e for e in opinion.weighed if e.conclusion is moved.conclusion)
    now = then_words(weighed, 0.0).words
    then = then_words(weighed, moved.log10_lr - moved.conclusion.log10_lr).words
    if now == then:
        return said("Its words stay the same: {words}.", words=now)
    return said("Its words: {now} now, {then} then.", now=now, then=then)


# --------------------------------------------------------------------------- what was said


def disclosure_blocks(matter: Matter) -> Iterator[Block]:
    """What was said against what was found, statement by statement: no ratio."""
    yield Heading(said("What was said, against what was found"))
    if not matter.opinion.disclosure:
        yield Paragraph(said("No statement about a part of the car was recorded."))
        return
    claim = matter.case.claim
    if claim.statements:
        told = spelled(
            "{count} statement, made by {name}.",
            "{count} statements, made by {name}.",
            len(claim.statements),
            name=clause(claim.made_by) or said("somebody whom the case does not name"),
        )
        yield Paragraph(capital(told), "lead")
    rows = tuple(
        (
            TableCell(capital(matter.names.any(each.about)), strong=True),
            TableCell(each.says or said("nothing"), (each.declared,) if each.declared else ()),
            TableCell(each.found),
            TableCell(capital(term(each.outcome)), strong=True),
        )
        for each in matter.opinion.disclosure
    )
    titles = (said("About"), said("What was said"), said("What was found"), said("Outcome"))
    yield Table(titles, rows, (2, 4, 5, 1.6), is_dense=True)
