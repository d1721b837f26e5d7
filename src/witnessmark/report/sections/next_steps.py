"""What to do next, in at most three steps: what must not wait, what was found to be read again,
whom to ask, and the first thing that is left to look at."""

from collections.abc import Iterator
from itertools import islice

from witnessmark.casefile.records import PaperState
from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.examination.looks import LookKind, LookLeft, most_moved
from witnessmark.report.sections.matter import LIMITS, OPEN, Matter, whole_car
from witnessmark.weighing import MisfitKind
from witnessmark.wording import again_sentence, look_text, minutes_text
from witnessmark.wording.amounts import clause

STEPS = 3


def next_steps(matter: Matter) -> tuple[str, ...]:
    """The steps, the first that comes to mind first."""
    return tuple(islice(_steps(matter), STEPS))


def _steps(matter: Matter) -> Iterator[str]:
    opinion = matter.opinion
    if opinion.answer.stops:
        yield said(
            "Go to the title or registration authority before anything else, with the readings "
            "and photographs as they are. Until it has answered, clean, loosen and repair nothing, "
            "confront nobody, and complete nothing that depends on the number (section {section}).",
            section=LIMITS,
        )
    elif set(opinion.disturbed) - declared_places(opinion):
        yield said(
            "Take advice from a lawyer before anything is cleaned, repaired, sold or said in "
            "public: at least one place is noted as disturbed (section {section}).",
            section=LIMITS,
        )
    within = worth_looking(opinion)
    for look in within[:1]:
        yield _look(look, matter)
    # Until the authority has answered, nobody else is to be asked.
    if not opinion.answer.stops:
        if any(each.kind is LookKind.AGAIN for each in within):
            yield _to_ask(matter)
        yield from _papers(matter)
    if not whole_car(matter.case):
        yield photograph_wanted()
    if not within:
        yield nothing_left(opinion)


def worth_looking(opinion: Opinion) -> list[LookLeft]:
    """The looks within reach at something new, or that move an answer though it reads so again."""
    return [each for each in opinion.looks if each.is_reachable and _is_worth(each, opinion)]


def nothing_left(opinion: Opinion) -> str:
    """That no look within reach is worth its minutes, and why."""
    if not any(each.is_reachable for each in opinion.looks):
        return said("Nothing within reach is left to look at on the car.")
    return said("Nothing new within reach is left to look at on the car; read again, no mark "
                "would move an answer if it reads the same.")  # fmt: skip


def photograph_wanted() -> str:
    """Asks for the photograph that every report begins with."""
    return said("Photograph the whole car, from the front and from behind: no picture shows it.")


def declared_places(opinion: Opinion) -> set[str]:
    """Where work was declared beforehand that shows there."""
    misfits = opinion.answer.misfits
    return {at for each in misfits if each.kind is MisfitKind.DECLARED for at in each.about}


def _is_worth(look: LookLeft, opinion: Opinion) -> bool:
    """Is it something new, or does an answer move if it reads so again?"""
    if look.kind is not LookKind.AGAIN:
        return True
    moved = most_moved(look.target, opinion.answer)
    return moved is not None and moved.is_told


def _look(look: LookLeft, matter: Matter) -> str:
    """The look, and what it would do or how long it takes."""
    prompt = look_text(look).prompt
    stands = again_sentence(look, matter.opinion, matter.names)
    if stands:
        return f"{prompt} {stands}"
    return said("{look} It takes {minutes}.", look=prompt, minutes=minutes_text(look.cost))


def _to_ask(matter: Matter) -> str:
    if clause(matter.case.assignment.owner_reply):
        return said("Read the owner’s reply in section {section}.", section=OPEN)
    return said(
        "Ask the owner or seller what is known about it, and for papers; until they have "
        "answered, agree to nothing that depends on it."
    )


def _papers(matter: Matter) -> Iterator[str]:
    """The first paper that is awaited, else one that nobody asked for."""
    states = {
        paper.state: matter.names.paper(paper.mark, paper.name)
        for paper in reversed(matter.case.papers)
    }
    if name := states.get(PaperState.AWAITED):
        yield said("Wait for the {paper}, which has been asked for.", paper=name)
    elif name := states.get(PaperState.NOT_ASKED_FOR):
        yield said("Ask for the {paper}.", paper=name)
