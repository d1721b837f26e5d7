"""What stands beside a place or a paper: whether it is on the car, and where it is."""

from collections.abc import Iterator

from witnessmark.casefile.records import AttachmentSeen, PaperState, SiteState
from witnessmark.catalogue import as_said, in_a_row, marked, said
from witnessmark.examination import PlaceOutcome, SiteOutcome
from witnessmark.wording.amounts import capital, sentence
from witnessmark.wording.terms import term

PAPER_SENTENCES = {
    PaperState.IN_HAND: marked("In hand: the paper itself was seen."),
    PaperState.COPY: marked("A copy was seen, not the paper itself."),
    PaperState.AWAITED: marked("Asked for and awaited; it says nothing yet."),
    PaperState.REFUSED: marked("Asked for and refused; the refusal is recorded and not weighed."),
    PaperState.LOST: marked("Said to be lost; it says nothing either way."),
    PaperState.NOT_ASKED_FOR: marked("Not asked for; it says nothing either way."),
}

ATTACHMENT_SENTENCES = {
    AttachmentSeen.IN_PLACE: "",
    AttachmentSeen.DETACHED: marked("The part that bears the mark is kept apart from the car."),
    AttachmentSeen.NO_SUCH_PART: marked("The car lacks the part that should bear the mark."),
}

ENDED_SENTENCES = {
    SiteState.FOUND_ILLEGIBLE: marked("{name}: found and illegible."),
    SiteState.ABSENT: marked("{name}: absent; somebody looked, and nothing is there."),
    SiteState.NOT_ACCESSIBLE: marked("{name}: not accessible."),
}


def place_sentence(attachment: AttachmentSeen, reason: str) -> str:
    """Whether the part that bears the mark is on the car, and why a place ended as it did, in
    the examiner's words where there are any."""
    told = ATTACHMENT_SENTENCES[attachment]
    return " ".join(filter(None, (as_said(told) if told else "", sentence(reason))))


def ended_sentence(outcome: SiteOutcome) -> str:
    """How a place or a mark of which nothing was read ended, and why; empty of any other."""
    message = ENDED_SENTENCES.get(outcome.state)
    if message is None:
        return ""
    told = as_said(message, name=capital(outcome.mark or outcome.name))
    return in_a_row(filter(None, (told, sentence(outcome.reason))))


def marks_otherwise(place: PlaceOutcome) -> Iterator[str]:
    """The marks of a place that ended otherwise than the place as a whole, each with why."""
    for each in place.outcomes:
        if each.mark and each.state is not place.state:
            told = said("{mark}: {state}.", mark=capital(each.mark), state=term(each.state))
            yield in_a_row((told, sentence(each.reason)), " ") if each.is_noted else told


def paper_sentence(state: PaperState) -> str:
    """Where the paper is, in words."""
    return as_said(PAPER_SENTENCES[state])
