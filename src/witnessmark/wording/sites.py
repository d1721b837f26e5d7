"""One sentence for each way in which an expected site can end."""

from witnessmark.casefile.records import AttachmentSeen, PaperState, SiteState
from witnessmark.catalogue import as_said, marked, said
from witnessmark.wording.amounts import clause, sentence
from witnessmark.wording.terms import term

ILLEGIBLE = marked("Looked at, and no character of what stands there could be made out.")

SITE_SENTENCES = {
    SiteState.READ: marked("Looked at, and what stands there was read."),
    SiteState.FOUND_ILLEGIBLE: ILLEGIBLE,
    SiteState.ABSENT: marked("Looked at, and nothing was there."),
    SiteState.NOT_ACCESSIBLE: marked(
        "Could not be reached on this visit; it says nothing either way."
    ),
    SiteState.NOT_LOOKED_FOR: marked("Was not looked for; it says nothing either way."),
}

PAPER_SENTENCES = {
    PaperState.IN_HAND: marked("In hand: the paper itself was seen."),
    PaperState.COPY: marked("A copy was seen, not the paper itself."),
    PaperState.AWAITED: marked("Asked for and awaited; it says nothing yet."),
    PaperState.REFUSED: marked("Asked for and refused; the refusal is recorded and not weighed."),
    PaperState.LOST: marked("Said to be lost; it says nothing either way."),
    PaperState.NOT_ASKED_FOR: marked("Not asked for; it says nothing either way."),
}

UNSEEN = frozenset({SiteState.NOT_ACCESSIBLE, SiteState.NOT_LOOKED_FOR})


ATTACHMENT_SENTENCES = {
    AttachmentSeen.IN_PLACE: "",
    AttachmentSeen.DETACHED: marked("The part that bears the mark is kept apart from the car."),
    AttachmentSeen.NO_SUCH_PART: marked("The car lacks the part that should bear the mark."),
}


def site_sentence(
    state: SiteState,
    reason: str = "",
    attachment: AttachmentSeen = AttachmentSeen.IN_PLACE,
    *,
    is_legible: bool = True,
) -> str:
    """How the site ended, and why, in the examiner's words where there are any."""
    ended = SITE_SENTENCES[state]
    if state is SiteState.READ and not is_legible:
        ended = ILLEGIBLE
    told = (ended, ATTACHMENT_SENTENCES[attachment])
    parts = (*(as_said(each) for each in told if each), sentence(reason))
    return " ".join(each for each in parts if each.strip(" ."))


def unseen_sentence(name: str, state: SiteState, reason: str) -> str:
    """What was not seen and why, for the list of what the report does not cover."""
    if reason.strip():
        told = said(
            "{place} was {state}: {reason}",
            place=name,
            state=term(state),
            reason=clause(reason),
        )
    else:
        told = said("{place} was {state} (no reason was noted)", place=name, state=term(state))
    return sentence(told)


def paper_sentence(state: PaperState) -> str:
    """Where the paper is, in words."""
    return as_said(PAPER_SENTENCES[state])
