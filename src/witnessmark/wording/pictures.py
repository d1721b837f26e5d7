"""The sentences of a request for pictures, to somebody who need be no mechanic."""

from witnessmark.catalogue import said


def opening_sentences() -> tuple[str, ...]:
    """What is asked for and what it is for."""
    return (
        said(
            "Before anybody travels, pictures of a few places help to see what can be read on "
            "this car and what would have to be looked at in person."
        ),
        said(
            "This list does not say what ought to be at a place. Please photograph what is "
            "there, as it is. A picture that cannot be taken does not count against the "
            "car: just say that the place could not be reached."
        ),
    )


def kept_as_it_is() -> tuple[str, ...]:
    """What is never done for a picture."""
    return (
        said(
            "Never clean, scrape, sand, wire-brush, polish, paint or chalk a plate, a number or "
            "the metal round it, and put nothing on it. Dirt, paint and rust are part of what we "
            "look at."
        ),
        said("Loosen, bend and remove nothing: no plate, no rivet, no screw, no sticker."),
        said(
            "Brush away loose leaves by hand at most. If in doubt, leave it and take the picture."
        ),
    )


def keeping_safe() -> tuple[str, ...]:
    """How to stay safe; only what can be seen beside the car is asked for."""
    return (
        said(
            "Nothing on this list lies under the car. Please do not go under it, do not lift it "
            "and do not reach below it."
        ),
        said(
            "Engine off and cold, key out, parking brake on, level ground, daylight or the garage "
            "door open. See that the bonnet is held open safely before you lean in, and mind sharp "
            "edges."
        ),
        said(
            "No flame, no cigarette and no mains lamp near fuel or the battery; a torch or the "
            "lamp of a telephone will do. Keep hands, tools and rings off the battery."
        ),
        said(
            "Do not touch old insulation, felt or dust, or blow any away: it can contain "
            "asbestos, and old paint can contain lead."
        ),
    )


def views_of_the_car() -> tuple[str, ...]:
    """Pictures of the whole car, before any single place."""
    return (
        said("The car from each of its four corners, and square on from each side, whole."),
        said("Under the open bonnet: the whole bay from the front, from the left, from the right."),
        said("The inside through each open door."),
        said("The papers that you have: each page whole, both sides, also the blank ones."),
    )


def framing() -> tuple[str, ...]:
    """How to frame and light a place."""
    return (
        said("First the whole panel or part, so that a stranger can see where on the car it is."),
        said(
            "Then close up, square on: the camera straight in front of the surface, the "
            "place filling half of the picture, some of the metal round it on every side, "
            "all of it sharp."
        ),
        said(
            "Then twice more from the same spot in raking light: a torch held low beside "
            "the surface, once from one side and once from another, no flash. Shallow "
            "marks show only by their shadows."
        ),
        said(
            "Hold a ruler or a coin beside the place, in the plane of the surface, in one of the "
            "close pictures. Do not lay it over anything that is written, and do not scratch."
        ),
        said("Rivets, screws, edges and welds near the place: one close picture each."),
        said(
            "If something is upside down, photograph it as it is. Please do not turn, crop "
            "or edit a picture."
        ),
    )


def sending() -> tuple[str, ...]:
    """How the pictures come to the examiner."""
    return (
        said(
            "Send the files as the camera made them, in full size, with the number of the place on "
            "this list and the day. Many ways of sending make a picture smaller, and small marks "
            "are then gone."
        ),
        said(
            "Please say with them who took them, what was moved or opened for them, and "
            "which places could not be reached."
        ),
        said(
            "Pictures of numbers and papers are for the examination alone. Send them to nobody "
            "else and keep them off public pages until their characters are masked."
        ),
    )
