"""The ways in which a second proposition can be true, in plain words."""

from witnessmark.catalogue import as_said
from witnessmark.wording.names import plain_name
from witnessmark.wording.word_tables import word_table

WAY_WORDS = word_table("way_words")


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
