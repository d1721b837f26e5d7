"""The sentences of a request for pictures, to somebody who need be no mechanic."""

from witnessmark.catalogue import as_said, counted, said
from witnessmark.wording.word_tables import word_table


def asked() -> str:
    """What is asked for and what it is for."""
    return said(
        "Please photograph these places as they are. The list does not say what ought to be "
        "there; “nothing there” and “could not be reached” are answers too, and do not count "
        "against the car."
    )


def reply_wanted(name: str, to: str, day: str) -> tuple[str, ...]:
    """Who asks, where the pictures go and by when; what is not known is left out."""
    told = (
        said("From: {name}", name=name) if name else "",
        said("Please reply to: {address}", address=to) if to else "",
        said("By: {day}", day=day) if day else "",
    )
    return (" · ".join(filter(None, told)),) if any(told) else ()


def car_views() -> tuple[tuple[str, str], ...]:
    """Pictures of the whole car, before any single place: what, and how."""
    return (
        (said("whole car"), said("from each of its four corners, and square on from each side")),
        (said("under the open bonnet"), said("the whole bay from the front, left and right")),
        (said("papers"), said("each page whole, both sides, also the blank ones")),
    )


def map_told(number: int) -> str:
    """What the drawing of the request shows."""
    return counted(
        "The car from above and from its left side, with the number of each place that the code "
        "book puts on it, of {number} picture.",
        "The car from above and from its left side, with the number of each place that the code "
        "book puts on it, of {number} pictures.",
        number,
    )


def kept_as_it_is() -> tuple[str, ...]:
    """What is never done for a picture, and how to stay safe beside the car."""
    return _of("kept as it is")


def framing() -> tuple[str, ...]:
    """How to frame and light a place."""
    return _of("framing")


def sending() -> tuple[str, ...]:
    """How the pictures come to the examiner."""
    return _of("sending")


def message_rules() -> tuple[str, ...]:
    """How, what never, and how to send it, in a few lines."""
    return _of("message rules")


def _of(rule: str) -> tuple[str, ...]:
    """The sentences of one kind."""
    return tuple(as_said(each) for each, of in word_table("pictures").items() if of == rule)
