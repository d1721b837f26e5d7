"""The sentences of a request for pictures, to somebody who need be no mechanic."""

from witnessmark.catalogue import counted, said


def asked() -> str:
    """What is asked for and what it is for."""
    return said(
        "Please photograph these places as they are. The list does not say what ought to be "
        "there; “nothing there” and “could not be reached” are answers too, and do not count "
        "against the car."
    )


def greeting(car: str) -> str:
    """How a message with the request begins."""
    return said("Good day, this is about your {car}.", car=car)


def reply_wanted(name: str, to: str, day: str) -> tuple[str, ...]:
    """Who asks, where the pictures go and by when; what is not known is left out."""
    who = said("{name} asks for these pictures.", name=name) if name else ""
    where = ""
    if to and day:
        where = said("Please send them to {address} by {day}.", address=to, day=day)
    elif to:
        where = said("Please send them to {address}.", address=to)
    elif day:
        where = said("Please send them by {day}.", day=day)
    return (" ".join(filter(None, (who, where))),) if who or where else ()


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
    return (
        said("Clean, scrape, polish, chalk, loosen and remove nothing."),
        said("Do not go under the car, lift it or reach below it."),
        said("Engine off and cold; no flame near fuel or battery."),
        said("Leave old felt and dust alone: they can hold asbestos or lead."),
    )


def framing() -> tuple[str, ...]:
    """How to frame and light a place."""
    return (
        said("First the whole panel or part, so that a stranger can place it."),
        said("Then close, square on and sharp, with metal on every side."),
        said("Then twice in raking light: a torch held low, on either side."),
        said("In one of them a ruler or a coin beside it, never over it."),
        said("Do not turn, crop or edit a picture."),
    )


def sending() -> tuple[str, ...]:
    """How the pictures come to the examiner; that none is published stands on the page's foot."""
    return (
        said("Send the files in full size, with the number of each, the day and who took them."),
    )


def message_rules() -> tuple[str, ...]:
    """How, what never, and how to send it, in a few lines."""
    return (
        said(
            "Each place: the whole part, then close and square on, then twice with a torch held "
            "low beside it, once with a ruler or a coin. Please do not turn, crop or edit."
        ),
        said(
            "Clean, scrape, loosen and remove nothing. Do not go under the car. Engine off and "
            "cold, no flame near fuel, and leave old felt and dust alone: it can contain asbestos "
            "or lead."
        ),
        said(
            "Send the files in full size with their numbers and the day. Please keep pictures of "
            "numbers and papers off public pages."
        ),
    )
