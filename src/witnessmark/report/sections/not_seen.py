"""What was not seen, or not in person, kind by kind: in short for the first page, with the
reasons further on. Both from one list."""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.casefile.records import AttachmentSeen, Paper, PaperState, Seen
from witnessmark.casefile.site_entries import UNSEEN
from witnessmark.catalogue import counted, in_a_row, said
from witnessmark.codebook.marks import MarkKind
from witnessmark.examination import SiteOutcome
from witnessmark.examination.papers import HELD, paper_states
from witnessmark.report.sections.matter import OPEN, Matter
from witnessmark.wording import paper_sentence, term
from witnessmark.wording.amounts import clause, inside, sentence

NAMES_SHOWN = 6
MOST_REASON = 70


@dataclass(frozen=True, slots=True)
class NotSeen:
    """One kind of thing that was not seen: its name, and what is of it, each with how or why."""

    kind: str
    things: tuple[tuple[str, str], ...]


def unseen(matter: Matter) -> tuple[NotSeen, ...]:
    """All that was not seen by the examiners as it is."""
    found = (
        NotSeen(said("Places on the car"), tuple(_places(matter))),
        NotSeen(said("Single marks at places seen"), tuple(_marks(matter))),
        NotSeen(
            said("Kept apart from the car"),
            tuple((matter.names.mark(mark), "") for mark in detached(matter)),
        ),
        *_not_in_person(matter),
        *unreadable(matter),
        NotSeen(said("Papers"), tuple(papers_not_held(matter))),
    )
    return tuple(each for each in found if each.things)


def unreadable(matter: Matter) -> tuple[NotSeen, ...]:
    """What was seen and could not be read, or not as its mark stands."""
    illegible = tuple(_illegible(matter))
    misfitting = tuple(_misfitting(matter))
    found = (
        NotSeen(said("No character could be made out"), illegible),
        NotSeen(said("Typed in a form that the mark does not have"), misfitting),
    )
    return tuple(each for each in found if each.things)


def not_seen(matter: Matter) -> tuple[str, ...]:
    """The same in a line for each kind; a long list is cut and says where the rest is."""
    lines = tuple(map(_line, unseen(matter)))
    all_seen = said(
        "Every place that the code book expects was looked at; every paper was in hand."
    )
    return (*(lines or (all_seen,)), said("No register of theft or finance was searched."))


def _line(kind: NotSeen) -> str:
    shown = "; ".join(
        said("{name} ({how})", name=name, how=clause(how))
        if how and len(how) <= MOST_REASON
        else name
        for name, how in kind.things[:NAMES_SHOWN]
    )
    told = said("{label}: {names}.", label=kind.kind, names=shown)
    rest = len(kind.things) - NAMES_SHOWN
    if rest <= 0:
        return told
    more = counted(
        "And {number} more, see section {section}.",
        "And {number} more, see section {section}.",
        rest,
        section=OPEN,
    )
    return f"{told} {more}"


def _places(matter: Matter) -> Iterator[tuple[str, str]]:
    for place in matter.opinion.places:
        if place.state in UNSEEN:
            yield place.name, _why(next(e for e in place.unseen if e.state is place.state))


def _marks(matter: Matter) -> Iterator[tuple[str, str]]:
    for place in matter.opinion.places:
        for each in place.unseen if place.state not in UNSEEN else ():
            yield each.mark, _why(each)


def _why(outcome: SiteOutcome) -> str:
    """The reason that was noted, else how it ended."""
    return (clause(outcome.reason) if outcome.is_noted else "") or term(outcome.state)


def detached(matter: Matter) -> Iterator[str]:
    """Marks on parts that are not on the car."""
    for site in matter.opinion.sites:
        if site.is_noted and site.attachment is AttachmentSeen.DETACHED:
            yield from site.marks


def _not_in_person(matter: Matter) -> Iterator[NotSeen]:
    """Marks that nobody read on the metal or on the paper itself."""
    ways: dict[str, set[Seen]] = {}
    for each in matter.opinion.decodings:
        ways.setdefault(each.mark, set()).add(each.reading.seen)
    labels = (
        (Seen.PHOTOGRAPH, said("Read from photographs only")),
        (Seen.COPY, said("Read from a copy only")),
        (Seen.TOLD, said("Only told of")),
    )
    for way, label in labels:
        yield NotSeen(
            label,
            tuple(
                (matter.names.mark(mark), "")
                for mark, seen in ways.items()
                if Seen.IN_PERSON not in seen and min(seen, key=tuple(Seen).index) is way
            ),
        )


def _illegible(matter: Matter) -> Iterator[tuple[str, str]]:
    """Marks of which nothing can be read, but for those that make the car a matter for the
    authority: these are told first."""
    stops = {each.about for each in matter.opinion.answer.stops}
    for mark in matter.opinion.illegible_marks:
        if mark not in stops:
            yield matter.names.mark(mark), ""


def _misfitting(matter: Matter) -> Iterator[tuple[str, str]]:
    """What was typed that does not fit the form of its mark; once where several read it alike."""
    told = dict.fromkeys(
        (matter.names.mark(each.mark), inside(each.slip.sentence))
        for each in matter.opinion.decodings
        if each.slip is not None
    )
    yield from told


def papers_not_held(
    matter: Matter, held: tuple[PaperState, ...] = HELD
) -> Iterator[tuple[str, str]]:
    """The papers that the car should have and that nobody held, with where they are."""
    states = paper_states(matter.case, matter.opinion.decodings)
    for mark in matter.book.marks_for(matter.opinion.context):
        state = states.get(mark.id, PaperState.NOT_ASKED_FOR)
        if mark.kind is MarkKind.PAPER and state not in held:
            yield mark.name, term(state)


def papers_told(matter: Matter) -> Iterator[tuple[str, str]]:
    """Every paper of the case with where it is, what it was copied from, and the note."""
    for paper in matter.case.papers:
        source = matter.names.mark_or_words(paper.copied_from) if paper.copied_from else ""
        copied = said("Copied from the {source}: not a witness in its own right.", source=source)
        parts = (
            paper_sentence(paper.state),
            _unlisted(paper),
            _says(paper, matter),
            copied if source else "",
            sentence(paper.note),
        )
        yield matter.names.paper(paper.mark, paper.name), " ".join(filter(None, parts))


def _unlisted(paper: Paper) -> str:
    """That a paper is none of the code book's."""
    if not paper.kind:
        return ""
    kind = term(paper.kind)
    return said("No paper of the code book: {kind}. It is told and not weighed.", kind=kind)


def _says(paper: Paper, matter: Matter) -> str:
    """What a paper says of the car, item by item, and whether the claim says the same."""
    told = []
    for each in paper.says:
        claimed = matter.case.claim.items.get(each.item)
        shown = said(
            "{item} {value}",
            item=matter.names.item(each.item),
            value=matter.names.value(each.value, each.item),
        )
        if claimed is None:
            told.append(shown)
        elif claimed == each.value:
            told.append(said("{item}, as claimed", item=shown))
        else:
            value = matter.names.value(claimed, each.item)
            told.append(said("{item}, where the claim says {claimed}", item=shown, claimed=value))
    return said("It says: {items}.", items=in_a_row(told, "; ")) if told else ""
