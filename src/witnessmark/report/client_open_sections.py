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
from witnessmark.report.closing_sections import looks_altered
from witnessmark.weighing.records import Conclusion, NextLook, Standing
from witnessmark.wording import Names, minutes_text, next_look_text, settling_texts, term
from witnessmark.wording.amounts import clause, sentence
from witnessmark.wording.sites import UNSEEN

NAMES_SHOWN = 10
QUESTIONS_SHOWN = 4
SETTLING_SHOWN = 2
MOST_NAME, MOST_REASON, MOST_TEXT, MOST_CLAIM = 120, 70, 150, 260
"""Characters of a name, of a reason, of a sentence and of the claim; the rest stands later."""
LEAST_BITS = 0.01


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
        _with_reason(site.name, site.state.value, site.reason)
        for site in front.opinion.sites
        if site.state in UNSEEN
    ]
    lines = (
        _line(said("Places on the car"), places, front),
        *_not_in_person(front),
        _line(said("No character could be made out"), _illegible(front), front),
        _line(said("Typed in a form that the mark has not"), _misfitting(front), front),
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
    return [front.names.mark(mark) for mark in front.opinion.illegible_marks]


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
    states = {paper.mark: paper.state for paper in opinion.casefile.papers}
    held = (PaperState.IN_HAND, PaperState.COPY)
    found = []
    for mark in front.book.marks_for(opinion.context):
        state = states.get(mark.id, PaperState.NOT_ASKED_FOR)
        if mark.kind is MarkKind.PAPER and state not in held:
            found.append(_with_reason(mark.name, state.value, ""))
    return found


def not_established(front: Front) -> list[str]:
    """The questions left open, and what could settle them."""
    conclusions = front.opinion.weighing.conclusions
    unsettled = [each for each in conclusions if each.standing is not Standing.ANSWERED]
    if not unsettled:
        answered = said("Every question above has an answer, as strong as its words.")
        if not _papers(front):
            return [answered]
        papers = said("What could still change one: the papers that were not seen, named above.")
        return [f"{answered} {papers}"]
    whether = tuple(
        said("whether {proposition}", proposition=inside(each.pair.first))
        for each in unsettled[:QUESTIONS_SHOWN]
    )
    lines = [sentence("; ".join(whether))]
    if len(unsettled) > QUESTIONS_SHOWN:
        lines.append(more(len(unsettled) - QUESTIONS_SHOWN, front.section("settling")))
    wanted = dict.fromkeys(
        text.name.partition(": ")[0]  # what it is, without how to ask for it
        for each in unsettled
        for text in settling_texts(each, front.names)[:1]
        if text.needs
    )
    if not wanted:
        return [*lines, said("Nothing that the code book knows would settle it.")]
    told = " ".join(sentence(clipped(name, MOST_TEXT)) for name in tuple(wanted)[:SETTLING_SHOWN])
    lines.append(said("What could settle it: {sources}", sources=told))
    if len(wanted) > SETTLING_SHOWN:
        lines.append(more(len(wanted) - SETTLING_SHOWN, front.section("settling")))
    return [" ".join(lines)]


def next_step(front: Front) -> str:
    """The one thing to do next."""
    opinion = front.opinion
    if looks_altered(opinion):
        return said(
            "Take advice from a lawyer before anything is cleaned, repaired, sold or said in "
            "public: at least one place is noted as disturbed, or what is struck there is more "
            "probable if it was struck later. Whom to ask stands in section {section}.",
            section=front.section("referral"),
        )
    source = _settling_source(front)
    if source:
        return source
    look = max(_reachable(opinion.weighing.conclusions), key=_per_minute, default=None)
    if look is not None and look.bits >= LEAST_BITS:
        text = next_look_text(look, front.names)
        return said(
            "{look} This tells most for its time ({minutes}).",
            look=text.prompt,
            minutes=minutes_text(look.minutes + look.access_minutes),
        )
    return _paper_step(front)


def _settling_source(front: Front) -> str:
    """What could settle the first question that cannot be established on the car."""
    for each in front.opinion.weighing.conclusions:
        if each.standing is not Standing.CANNOT_BE_ESTABLISHED:
            continue
        for text in settling_texts(each, front.names)[:1]:
            if text.needs:
                return said(
                    "{source} It is what could settle most directly whether {proposition}.",
                    source=sentence(clipped(text.name, MOST_CLAIM)),
                    proposition=inside(each.pair.first),
                )
    return ""


def _reachable(conclusions: tuple[Conclusion, ...]) -> list[NextLook]:
    return [look for each in conclusions for look in each.next_looks]


def _per_minute(look: NextLook) -> float:
    return look.bits / max(1, look.minutes + look.access_minutes)


def _paper_step(front: Front) -> str:
    """The first paper that is awaited, else one that nobody asked for, else nothing."""
    states = {paper.mark: paper.state for paper in front.opinion.casefile.papers}
    for mark, state in states.items():
        if state is PaperState.AWAITED:
            return said(
                "Wait for the {paper}, which was asked for; no further look at the car would "
                "tell much more.",
                paper=front.names.mark(mark),
            )
    for mark, state in states.items():
        if state is PaperState.NOT_ASKED_FOR:
            return said(
                "Ask for the {paper}, which nobody has asked for; no further look at the car "
                "would tell much more.",
                paper=front.names.mark(mark),
            )
    return said("Nothing within reach would tell much more.")
