"""One sentence for each way in which an expected site can end."""

from witnessmark.casefile.records import AttachmentSeen, PaperState, SiteState
from witnessmark.wording.amounts import clause, sentence

SITE_SENTENCES = {
    SiteState.READ: "Looked at, and what stands there was read.",
    SiteState.ABSENT: "Looked at, and nothing was there.",
    SiteState.NOT_ACCESSIBLE: "Could not be reached on this visit; it says nothing either way.",
    SiteState.NOT_LOOKED_FOR: "Was not looked for; it says nothing either way.",
}

PAPER_SENTENCES = {
    PaperState.IN_HAND: "In hand: the paper itself was seen.",
    PaperState.COPY: "A copy was seen, not the paper itself.",
    PaperState.AWAITED: "Asked for and awaited; it says nothing yet.",
    PaperState.REFUSED: "Asked for and refused; the refusal is recorded and not weighed.",
    PaperState.LOST: "Said to be lost; it says nothing either way.",
    PaperState.NOT_ASKED_FOR: "Not asked for; it says nothing either way.",
}

UNSEEN = frozenset({SiteState.NOT_ACCESSIBLE, SiteState.NOT_LOOKED_FOR})


ATTACHMENT_SENTENCES = {
    AttachmentSeen.IN_PLACE: "",
    AttachmentSeen.DETACHED: "The part that bears the mark is kept apart from the car.",
    AttachmentSeen.NO_SUCH_PART: "The car has no such part as should bear the mark.",
}


def site_sentence(
    state: SiteState, reason: str = "", attachment: AttachmentSeen = AttachmentSeen.IN_PLACE
) -> str:
    """How the site ended, and why, in the examiner's words where there are any."""
    said = (SITE_SENTENCES[state], ATTACHMENT_SENTENCES[attachment], sentence(reason))
    return " ".join(each for each in said if each.strip(" ."))


def unseen_sentence(name: str, state: SiteState, reason: str) -> str:
    """What was not seen and why, for the list of what the report does not cover."""
    why = f": {clause(reason)}" if reason.strip() else " (no reason was noted)"
    return sentence(f"{name} was {state.value}{why}")


def paper_sentence(state: PaperState) -> str:
    """Where the paper is, in words."""
    return PAPER_SENTENCES[state]
