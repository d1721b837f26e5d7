"""Words that name people and places, found however they are typed.

Texts are compared without the signs on letters, in small letters, with plain dashes
and quotes and without characters that no font shows.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

SHORTEST_NAME = 3
"""A shorter word is a name only where it has a capital."""
TELLING = 5
"""A name of so many letters is found within other words too."""

_DASHES = re.compile(r"[\u2010-\u2015\u2212\ufe58]")
_QUOTES = re.compile(r"[\u2018-\u201b\u2032\u02bc\u00b4`]")
_UNSEEN = frozenset({"Mn", "Me", "Cf"})
_WORD = re.compile(r"[^\W\d_]+(?:[-'][^\W\d_]+)*")
_EVERYDAY = frozenset(
    "am as at be by co go if in is it me no of on or rd st to up us we".split()  # noqa: SIM905
)
"""Words of two letters that name nobody."""


def bare(text: str) -> str:
    """The text without signs on letters and unseen characters, with plain dashes and quotes.

    >>> bare("Lindqvist\\u2013Amory\\u200b, D\\u2019\\u00c9cole")
    "Lindqvist-Amory, D'Ecole"
    """
    if text.isascii():
        return text.replace("`", "'")
    shapes = unicodedata.normalize("NFKD", text)
    seen = "".join(each for each in shapes if unicodedata.category(each) not in _UNSEEN)
    return _QUOTES.sub("'", _DASHES.sub("-", seen))


def words_of(text: str) -> Iterator[re.Match[str]]:
    """The words of a bare text; a double name is one."""
    return _WORD.finditer(text)


def forms_of(word: str) -> Iterator[str]:
    """A name, written in one too, and each half of a double one that can be a name itself."""
    if not _can_name(word):
        return
    halves = re.split("[-']", word)
    yield word
    if len(halves) > 1:
        yield "".join(halves)
        yield from (each for each in halves if len(each) >= SHORTEST_NAME and _can_name(each))


def joined(text: str) -> Iterator[str]:
    """Two names side by side in a bare text, written in one, in either order."""
    for one, other in pairwise(found[0] for found in words_of(text)):
        if _can_name(one) and _can_name(other):
            yield from (one + other, other + one)


def _can_name(word: str) -> bool:
    """Has it a capital, or is its script one without?"""
    if word[0].lower() == word[0].upper():
        return True
    return word[0].isupper() and len(word) > 1 and word.lower() not in _EVERYDAY


@dataclass(frozen=True, slots=True)
class NameMask:
    """Finds names: `found` in bare small letters, `ordinary` those that are plain words too."""

    found: re.Pattern[str] | None
    ordinary: frozenset[str]

    def is_named_in(self, text: str) -> bool:
        """Does the text name anybody? Of ordinary and very short words only those with a
        capital are names."""
        if self.found is None:
            return False
        plain = bare(text)
        return any(self._counts(match[0]) for match in self.found.finditer(plain))

    def _counts(self, word: str) -> bool:
        is_strict = len(word) < SHORTEST_NAME or word.casefold() in self.ordinary
        return not (is_strict and word[0].islower())


def name_mask(names: Iterable[str], ordinary: Iterable[str]) -> NameMask:
    """The mask of these names, given bare; `ordinary` are words of the book."""
    plain = frozenset(each.casefold() for each in ordinary if each.islower())
    wanted = sorted({each.casefold() for each in names}, key=lambda each: (-len(each), each))
    patterns = [
        re.escape(each)
        if len(each) >= TELLING and each not in plain
        else rf"(?<![^\W\d_]){re.escape(each)}(?![^\W\d_])"
        for each in wanted
    ]
    found = re.compile("|".join(patterns), re.IGNORECASE) if patterns else None
    return NameMask(found, plain)
