"""Characters that can be shown: what cannot be printed is written as its code point.

A name that somebody typed may hold characters that print nothing, turn the
direction of the line round, or break a file format. They are not dropped: they
stand in the text as their code point, so that a reader sees that they were there.

>>> visible("4K\\u202e17\\x07")
'4K‹U+202E›17‹U+0007›'
"""

import unicodedata


def visible(text: str) -> str:
    """The text with every character that cannot be shown written as its code point.

    A tab or a space of any width is one space; line ends stay, in one form.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text if text.isprintable() else "".join(map(_shown, text))


def _shown(character: str) -> str:
    if character.isprintable() or character == "\n":
        return character
    if character == "\t" or unicodedata.category(character) == "Zs":
        return " "
    return code_point(character)


def code_point(character: str) -> str:
    """One character as its code point, in brackets that no mark bears."""
    return f"‹U+{ord(character):04X}›"


def one_line(text: str) -> str:
    """The text on one line, fit to be shown."""
    return " ".join(visible(text).split())
