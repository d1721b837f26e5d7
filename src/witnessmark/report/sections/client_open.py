"""What the first page says of the unseen, of the unsettled, and of the one next step.

Each in a line or two: a list is cut to what matters most and says where the rest stands.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from witnessmark.casefile.records import PaperState, Seen
from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind, LookLeft, most_moved
from witnessmark.examination.papers import HELD, paper_states
from witnessmark.outline.records import Block, Bullets, Heading, Paragraph
from witnessmark.weighing import Misfit, MisfitKind, Standing
from witnessmark.wording import (
    Names,
    again_sentence,
    look_text,
    looks_about,
    minutes_text,
    misfit_sentence,
    misfits_beside,
    stop_sentence,
    term,
)
from witnessmark.wording.amounts import clause, sentence
from witnessmark.wording.sites import UNSEEN

NAMES_SHOWN = 10
QUESTIONS_SHOWN = 4
SOURCES_SHOWN = 2
MISFITS_SHOWN = 4
MOST_NAME, MOST_REASON, MOST_TEXT, MOST_CLAIM = 120, 70, 150, 260
"""Characters of a name, of a reason, of a sentence and of the claim; the rest stands later."""


@dataclass(frozen=True, slots=True)
class Front:
    """What the first page is made from; `places` are the numbers of the sections by key."""

    opinion: Opinion
    book: CodeBook
    names: Names
    places: Mapping[str, int]

    def section(self, key: str) -> int:
        """The number of a section."""
        return self.places[key]


def clipped(text: str, most: int) -> str:
    """The text, cut after a whole word where it is longer than `most` characters.

    >>> clipped("A Sprint of 1955 with its own frame", 20)
    'A Sprint of 1955…'
    """
    text = " ".join(text.split())
    if len(text) <= most:
        return text
    cut = text[:most]
    return clause(cut.rpartition(" ")[0] or cut) + "…"


def more(number: int, section: int) -> str:
    """How many more there are, and in which section."""
    return counted(
        "And {number} more, see section {section}.",
        "And {number} more, see section {section}.",
        number,
        section=section,
    )


def inside(proposition: str) -> str:
    """A proposition inside a sentence."""
    text = clause(proposition)
    return text[:1].lower() + text[1:]


def not_seen(front: Front) -> tuple[str, ...]:
    """Places, marks known from pictures only, papers: each kind in one line."""
    places = [
        _with_reason(site.name, site.state.value, site.reason if site.is_noted else "")
        for site in front.opinion.sites
        if site.state in UNSEEN
    ]
    lines = (
        _line(said("Places on the car"), places, front),
        *_not_in_person(front),
        _line(said("No character could be made out"), _illegible(front), front),
        _line(said("Typed in a form that the mark does not have"), _misfitting(front), front),
        _line(said("Papers"), _papers(front), front),
    )
    told = tuple(line for line in lines if line)
    return told or (
        said("Every place that the code book expects was looked at, and every paper was in hand."),
    )


def _with_reason(name: str, state: str, reason: str) -> str:
    if reason.strip():
        why = clause(clipped(reason, MOST_REASON))
        return said("{name} ({state}: {reason})", name=name, state=term(state), reason=why)
    return said("{name} ({state})", name=name, state=term(state))


def _line(label: str, names: list[str], front: Front) -> str:
    """One kind of thing that was not seen; cut where the list is long."""
    if not names:
        return ""
    shown, rest = names[:NAMES_SHOWN], len(names) - NAMES_SHOWN
    told = said("{label}: {names}.", label=label, names="; ".join(shown))
    return f"{told} {more(rest, front.section('limits'))}" if rest > 0 else told


def _not_in_person(front: Front) -> list[str]:
    """Marks that nobody read on the metal or on the paper itself."""
    ways: dict[str, set[Seen]] = {}
    for each in front.opinion.decodings:
        ways.setdefault(each.mark, set()).add(each.reading.seen)
    labels = (
        (Seen.PHOTOGRAPH, said("Read from photographs only")),
        (Seen.COPY, said("Read from a copy only")),
        (Seen.TOLD, said("Only told of")),
    )
    return [
        _line(
            label,
            [
                front.names.mark(mark)
                for mark, seen in ways.items()
                if Seen.IN_PERSON not in seen and min(seen, key=tuple(Seen).index) is way
            ],
            front,
        )
        for way, label in labels
    ]


def _illegible(front: Front) -> list[str]:
    """Marks of which nothing can be read, but for those that make the car a matter for the
    authority: these are told first."""
    stops = {each.about for each in front.opinion.answer.stops}
    return [front.names.mark(mark) for mark in front.opinion.illegible_marks if mark not in stops]


def _misfitting(front: Front) -> list[str]:
    """Marks of which what was typed does not fit the form, with what is amiss; said once
    where several read it alike."""
    told = (
        said(
            "{mark} ({reason})",
            mark=front.names.mark(each.mark),
            reason=inside(clipped(each.slip.sentence, MOST_REASON)),
        )
        for each in front.opinion.decodings
        if each.slip is not None
    )
    return list(dict.fromkeys(told))


def _papers(front: Front) -> list[str]:
    """The papers that the car should have and that nobody held, with where they are."""
    opinion = front.opinion
    states = paper_states(opinion.casefile, opinion.decodings)
    found = []
    for mark in front.book.marks_for(opinion.context):
        state = states.get(mark.id, PaperState.NOT_ASKED_FOR)
        if mark.kind is MarkKind.PAPER and state not in HELD:
            found.append(_with_reason(mark.name, state.value, ""))
    return found


def told_misfits(front: Front) -> list[Misfit]:
    """What the first page says does not fit."""
    quiet = (MisfitKind.DECLARED, MisfitKind.TOLD)
    return [each for each in misfits_beside(front.opinion.answer) if each.kind not in quiet]


def contradictions(front: Front) -> tuple[Block, ...]:
    """Before any number: that it is a matter for the authority, and what does not fit, the
    impossible first. What is only told carries no weight and stands later."""
    answer = front.opinion.answer
    misfits = told_misfits(front)
    if not misfits and not answer.stops:
        return ()
    blocks: list[Block] = [Heading(said("What does not fit"))]
    if answer.stops:
        blocks.append(Paragraph(stop_sentence(answer.stops), "strong"))
    lines = [misfit_sentence(each) for each in misfits[:MISFITS_SHOWN]]
    if len(misfits) > MISFITS_SHOWN:
        lines.append(more(len(misfits) - MISFITS_SHOWN, front.section("summary")))
    if lines:
        blocks.append(Bullets(tuple(lines)))
    return tuple(blocks)


def not_established(front: Front) -> list[str]:
    """The questions that have no figure, and what bears on them and on those left open."""
    weighed = front.opinion.weighed
    unsettled = [each for each in weighed if each.standing is not Standing.ANSWERED]
    if not unsettled:
        answered = said("Every question above has an answer, as strong as its words.")
        if not _papers(front):
            return [answered]
        papers = said("What could still change one is the papers that were not seen, named above.")
        return [f"{answered} {papers}"]
    lines = _without_figure(front)
    beyond = tuple(look for look in front.opinion.looks if look.kind is LookKind.SOURCE)
    wanted = dict.fromkeys(
        look.prompt.partition(": ")[0]  # what it is, without how to ask for it
        for each in unsettled
        for look in looks_about(beyond, each)[:1]
    )
    if wanted:
        shown = tuple(wanted)[:SOURCES_SHOWN]
        told = " ".join(sentence(clipped(name, MOST_TEXT)) for name in shown)
        lines.append(
            said(
                "What bears on what is open or not established, beyond the car: {sources}",
                sources=told,
            )
        )
    return [" ".join(lines)]


def _without_figure(front: Front) -> list[str]:
    """The questions that the table above does not hold: what cannot be established, then what
    nobody looked at."""
    found = [each for each in front.opinion.weighed if not each.standing.has_figure]
    if not found:
        return [said("Every question has a figure above; one that is called open is not answered.")]
    found.sort(key=lambda each: each.standing is Standing.NOT_EXAMINED)
    shown: dict[Standing, list[str]] = {}
    for each in found[:QUESTIONS_SHOWN]:
        whether = said("whether {proposition}", proposition=inside(each.pair.first))
        shown.setdefault(each.standing, []).append(whether)
    untold, unseen = (
        "; ".join(shown.get(standing, ()))
        for standing in (Standing.CANNOT_BE_ESTABLISHED, Standing.NOT_EXAMINED)
    )
    lines = [sentence(untold)] if untold else []
    if unseen:
        lines.append(said("Not examined: {questions}.", questions=unseen))
    if len(found) > QUESTIONS_SHOWN:
        lines.append(more(len(found) - QUESTIONS_SHOWN, front.section("settling")))
    return lines


def next_step(front: Front) -> str:
    """The one thing to do next."""
    opinion = front.opinion
    if opinion.answer.stops:
        return said(
            "Go to the title or registration authority before anything else, with the "
            "readings and photographs as they are. Until it has answered: clean, loosen "
            "and repair nothing, confront nobody, and complete nothing that depends on the "
            "number. Section {section} says to whom each matter belongs.",
            section=front.section("referral"),
        )
    advice = _advice(front)
    within = [
        look
        for look in opinion.looks
        if look.is_reachable and (look.kind is not LookKind.AGAIN or _is_moving(look, opinion))
    ]
    if within and within[0].kind is LookKind.AGAIN:
        stands = again_sentence(within[0], opinion, front.names)
        steps = (look_text(within[0]).prompt, stands, advice or _to_ask(opinion))
        return " ".join(each for each in steps if each)
    if advice:
        return advice
    return _look_step(front, within[0]) if within else _paper_step(front)


def _advice(front: Front) -> str:
    """To ask a lawyer, where a place looks disturbed and nobody had said so."""
    if not set(front.opinion.disturbed) - declared_places(front.opinion):
        return ""
    return said(
        "Take advice from a lawyer before anything is cleaned, repaired, sold or said in "
        "public: at least one place is noted as disturbed. Section {section} says whom to "
        "ask.",
        section=front.section("referral"),
    )


def _is_moving(look: LookLeft, opinion: Opinion) -> bool:
    """Does an answer move if it is read again and reads so?"""
    moved = most_moved(look.target, opinion.answer)
    return moved is not None and moved.is_told


def declared_places(opinion: Opinion) -> set[str]:
    """Where work was declared beforehand that shows there."""
    misfits = opinion.answer.misfits
    return {at for each in misfits if each.kind is MisfitKind.DECLARED for at in each.about}


def _to_ask(opinion: Opinion) -> str:
    """Whom to ask before money changes hands; nothing where the owner's reply is noted."""
    if opinion.casefile.assignment.owner_reply.strip():
        return ""
    return said(
        "Then ask the owner or seller what is known about it, and for papers; until they "
        "have answered, agree to nothing that depends on it."
    )


def _look_step(front: Front, look: LookLeft) -> str:
    """A look not yet taken, with what it speaks of and how long it takes."""
    prompt, minutes = look_text(look).prompt, minutes_text(look.cost)
    of = next((each for each in front.opinion.weighed if each.about in look.pieces), None)
    if of is None:
        return said("{look} It takes {minutes}.", look=prompt, minutes=minutes)
    return said(
        "{look} It takes {minutes} and bears on whether {proposition}.",
        look=prompt,
        minutes=minutes,
        proposition=inside(of.pair.first),
    )


def _paper_step(front: Front) -> str:
    """The first paper that is awaited, else one that nobody asked for, else nothing."""
    states = {paper.mark: paper.state for paper in front.opinion.casefile.papers}
    for mark, state in states.items():
        if state is PaperState.AWAITED:
            return said(
                "Wait for the {paper}, which has been asked for, before anything is "
                "agreed; nothing within reach would change an answer if it reads the same "
                "again.",
                paper=front.names.mark(mark),
            )
    for mark, state in states.items():
        if state is PaperState.NOT_ASKED_FOR:
            return said(
                "Ask for the {paper}, which has not been asked for; nothing within reach "
                "would change an answer if it reads the same again.",
                paper=front.names.mark(mark),
            )
    return said("Nothing within reach is left to look at.")
