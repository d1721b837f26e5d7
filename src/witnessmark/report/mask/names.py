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
"""A shorter word is a name only where it has a capital, and only in what somebody typed."""

_DASHES = re.compile(r"[\u2010-\u2015\u2212\ufe58]")
_QUOTES = re.compile(r"[\u2018-\u201b\u2032\u02bc\u00b4`]")
_UNSEEN = frozenset({"Mn", "Me", "Cf"})
_WORD = re.compile(r"[^\W\d_]+(?:[-'][^\W\d_]+)*")
_TOKEN = re.compile(r"[^\W_]+")
_NO_LETTER_BEFORE, _NO_LETTER_AFTER = r"(?<![^\W\d_])", r"(?![^\W\d_])"
_NOTHING_BEFORE, _NOTHING_AFTER = r"(?<![^\W_])", r"(?![^\W_])"
_JOINS = re.compile(r"[\s-]*")
_EVERYDAY = frozenset(
    "am as at be by co go if in is it me no of on or rd st to up us we".split()  # noqa: SIM905
)
"""Words of two letters that name nobody."""


def bare(text: str) -> str:
    """The text without signs on letters and unseen characters, with plain dashes and quotes.

    >>> bare("Lindqvist\\u2013Amory\\u200b, D\\u2019\\u00c9cole")
    "Lindqvist-Amory, D'Ecole"
    """
    return "".join(map(_bare, text))


def _bare(typed: str) -> str:
    shapes = unicodedata.normalize("NFKD", typed)
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


def _can_name(word: str) -> bool:
    """Has it a capital, or is its script one without?"""
    if word[0].lower() == word[0].upper():
        return True
    return word[0].isupper() and len(word) > 1 and word.lower() not in _EVERYDAY


def postcodes_of(text: str) -> Iterator[str]:
    """Words of letters and figures, as a postcode has them, and such words side by side."""
    found = list(_TOKEN.finditer(text))
    for each in found:
        if len(each[0]) >= SHORTEST_NAME and _is_mixed(each[0]):
            yield each[0]
    for one, other in pairwise(found):
        if (
            _is_mixed(one[0])
            and _is_mixed(other[0])
            and not text[one.end() : other.start()].strip()
        ):
            yield f"{one[0]} {other[0]}"


def _is_mixed(word: str) -> bool:
    return any(map(str.isdigit, word)) and any(map(str.isalpha, word))


@dataclass(frozen=True, slots=True)
class NameMask:
    """Finds names: `names` in bare small letters, `ordinary` those that are plain words too."""

    found: re.Pattern[str] | None
    ordinary: frozenset[str]

    def without(self, text: str, left_out: str, *, is_typed: bool) -> str:
        """The text with every name, or several in a row, left out.

        Of what was not typed (`is_typed` False), and of ordinary words, only those with a
        capital are names.
        """
        if self.found is None:
            return text
        shapes = [_bare(typed).casefold() for typed in text]
        places = [at for at, shape in enumerate(shapes) for _ in shape]
        folded = "".join(shapes)
        for start, end in reversed(self._spans(text, folded, places, is_typed)):
            text = f"{text[: places[start]]}{left_out}{text[places[end - 1] + 1 :]}"
        return text

    def _spans(
        self, text: str, folded: str, places: list[int], is_typed: bool
    ) -> list[tuple[int, int]]:
        """Where names stand in the folded text; those that only a space or dash parts are one."""
        assert self.found is not None
        spans: list[tuple[int, int]] = []
        for match in self.found.finditer(folded):
            if not self._counts(match[0], text[places[match.start()]], is_typed):
                continue
            if spans and _JOINS.fullmatch(folded, spans[-1][1], match.start()):
                spans[-1] = (spans[-1][0], match.end())
            else:
                spans.append(match.span())
        return spans

    def _counts(self, word: str, first: str, is_typed: bool) -> bool:
        if len(word) < SHORTEST_NAME and not is_typed:
            return False
        is_strict = not is_typed or len(word) < SHORTEST_NAME or word in self.ordinary
        return not (is_strict and first.islower())


def name_mask(names: Iterable[str], ordinary: Iterable[str]) -> NameMask:
    """The mask of these names, given bare; `ordinary` are words of the book."""
    wanted = sorted({each.casefold() for each in names}, key=lambda each: (-len(each), each))
    joined = "|".join(map(_pattern, wanted))
    plain = frozenset(each.casefold() for each in ordinary if each.islower())
    return NameMask(re.compile(joined) if joined else None, plain)


def _pattern(name: str) -> str:
    """A name between letters of none; figures part names, but not short ones and postcodes."""
    if len(name) < SHORTEST_NAME or not name.replace("-", "").replace("'", "").isalpha():
        spelt = r"[\W_]{0,3}".join(map(re.escape, name.split(" ")))
        return f"{_NOTHING_BEFORE}{spelt}{_NOTHING_AFTER}"
    return f"{_NO_LETTER_BEFORE}{re.escape(name)}{_NO_LETTER_AFTER}"
