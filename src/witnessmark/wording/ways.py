"""The ways in which a second proposition can be true, in plain words."""

from witnessmark.catalogue import as_said, marked
from witnessmark.wording.names import plain_name

WAY_WORDS = {
    # how the structure came to be
    "reshell": marked("another car’s, with this car’s parts moved onto it"),
    "reshell changed": marked(
        "another car’s, its number changed, with this car’s parts moved onto it"
    ),
    "other": marked("another whole car"),
    "other changed": marked("another whole car, its number changed"),
    "new": marked("a new one without a number"),
    "new struck": marked("a new one on which the number was struck"),
    "joined": marked("joined from two cars"),
    # whence a core came
    "first": marked("the first one"),
    "suited": marked("from another car, chosen to fit"),
    "donor": marked("from another car"),
    "other car": marked("from the other car that stands here"),
    "service": marked("supplied new in service"),
    "exchange": marked("a factory exchange piece"),
    # plates and papers
    "later": marked("made later"),
    # what was done to what is struck there
    "made": marked("as it left the works"),
    "struck openly": marked("struck in service"),
    "struck to pass": marked("struck to pass as the first"),
    "number struck": marked("the number alone struck to pass"),
    "removed": marked("taken off"),
}


def way_words(way: str) -> str:
    """A way as a sentence names it; origin and hand are joined.

    >>> way_words("service, struck openly")
    'supplied new in service, struck in service'
    >>> way_words("donor, made")
    'from another car'
    """
    origin, _, hand = way.partition(", ")
    told = [_words(origin)]
    if hand and hand != "made":
        told.append(_words(hand))
    return ", ".join(told)


def _words(name: str) -> str:
    return as_said(WAY_WORDS[name]) if name in WAY_WORDS else plain_name(name)
