"""What the first page says of the metal itself, whatever its characters read.

A part that the car does not have, a mark that is missing and a place that looks disturbed
speak as loudly as numbers that differ, and a reader must not look for them further on.
"""

from witnessmark.casefile.records import AttachmentSeen, SiteState
from witnessmark.catalogue import said
from witnessmark.report.sections.client_open import Front, declared_places

NAMES_SHOWN = 6


def metal_lines(front: Front) -> tuple[str, ...]:
    """Each kind of thing in one line; none where nothing of it was noted."""
    return tuple(
        said("{what}: {names}.", what=what, names=_few(names))
        for what, names in (
            (
                said("The car lacks the part that should bear"),
                _marks(front, AttachmentSeen.NO_SUCH_PART),
            ),
            (said("Kept apart from the car"), _marks(front, AttachmentSeen.DETACHED)),
            (said("Looked at, and nothing was there"), _absent(front)),
            (said("Looks disturbed"), _disturbed(front, is_declared=False)),
            (said("Looks disturbed, as declared"), _disturbed(front, is_declared=True)),
        )
        if names
    )


def _marks(front: Front, attachment: AttachmentSeen) -> list[str]:
    return [
        front.names.mark(mark)
        for site in front.opinion.sites
        if site.is_noted and site.attachment is attachment
        for mark in site.marks
    ]


def _absent(front: Front) -> list[str]:
    return [
        front.names.mark(mark)
        for site in front.opinion.sites
        if site.state is SiteState.ABSENT and site.attachment is not AttachmentSeen.NO_SUCH_PART
        for mark in site.marks
    ]


def _disturbed(front: Front, *, is_declared: bool) -> list[str]:
    """The places that look so to somebody here."""
    declared = declared_places(front.opinion)
    sites = front.opinion.disturbed
    return [front.names.any(site) for site in sites if (site in declared) is is_declared]


def _few(names: list[str]) -> str:
    left = len(names) - NAMES_SHOWN
    if left <= 0:
        return "; ".join(names)
    return said("{names}; {number} more", names="; ".join(names[:NAMES_SHOWN]), number=left)
