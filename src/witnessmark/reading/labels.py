"""Words that stand on a mark, or are written beside a reading of it, and say nothing.

A plate names its rows (TR, PNT), a label its numbers (DOT), and whoever copies a
number to a letter or a page puts "No." or the name of the mark before it.
"""

from functools import lru_cache

from witnessmark.codebook import Field

EVERYWHERE = frozenset({
    "no", "nr", "num", "number", "numbers", "serial", "ser", "sn", "code", "codes", "stamp",
    "stamped", "stamping", "plate", "tag", "label", "reads", "read", "says", "date", "dated",
    "mark", "the", "is", "on", "at", "of", "and", "vin", "chassis", "engine", "motor", "block",
    "pad",
    "trans", "transmission", "gearbox", "axle", "rear", "body", "paint", "pnt", "color",
    "colour", "trim", "tr", "style", "st", "bdy", "dot", "dso", "model", "series", "seq",
    "sequence", "unit", "type", "year", "yr", "mfd", "mfr", "build", "built",
})  # fmt: skip
"""Words written beside a number anywhere, in small letters."""


@lru_cache(maxsize=4096)
def _letters_of(text: str) -> tuple[str, ...]:
    """The words of a heading, each as its letters and figures."""
    words = ("".join(c for c in word if c.isalnum()) for word in text.split())
    return tuple(word for word in words if word)


def labels_before(field: Field) -> tuple[str, ...]:
    """What may stand right before a field, each without blanks, dashes and stops."""
    texts = ("".join(_letters_of(field.before)), "".join(_letters_of(field.heading)))
    return tuple(dict.fromkeys(text for text in texts if text))


def labels_of(fields: tuple[Field, ...]) -> frozenset[str]:
    """All words that may stand beside these fields, in small letters.

    A word that heads one field alone stands before that field and nowhere else.
    """
    named = {
        word.casefold()
        for field in fields
        for text in (field.before, field.heading)
        for word in _letters_of(text)
        if word.isalpha()
    }
    own = {text.casefold() for field in fields for text in labels_before(field)}
    return (EVERYWHERE | named) - own
