"""What people typed: a text stands as a whole, or it is left out as a whole.

No number is looked for, so that nobody can hide one: a text stands where its only figures are
those of years and dates, nothing in it counts in words, no word looks like a code and nobody is
named who must not be. A finished page is swept for whole serials besides.
"""

import re
import unicodedata
from calendar import month_name
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache

from witnessmark.report.mask.names import NameMask, bare
from witnessmark.report.mask.signs import Signs

LONG = 5
"""A number of so many characters is swept for whatever parts them; a shorter one as a word."""
SHORT = 4
"""A shorter number than this is not swept for: it stands among shares and amounts."""

YEAR = re.compile(r"(?:1[789]|20)\d\d")
_MONTHS = "|".join(month_name[1:])
_DATES = re.compile(
    rf"(?<![\w.,/+-])(?:{YEAR.pattern}(?:-{YEAR.pattern}|-[01]\d(?:-[0-3]\d)?|s)?"
    rf"|[0-3]?\d[./][01]?\d[./]{YEAR.pattern}"
    rf"|[0-3]?\d(?= (?:{_MONTHS})\b))(?![\w/+-]|[.,]\d)"
)
_ONES = re.compile(
    r"\b(?:oh|zero|nought|naught|nil|one|two|three|four|five|six|seven|eight|nine|ten|eleven"
    r"|twelve|double|treble|triple)\b",
    re.IGNORECASE,
)
MOST_ONES = 2
"""More small numbers in words than these can be the figures of a number, one by one."""
_LARGE = re.compile(
    r"hundred|thousand|million|twenty|thirty|fou?rty|fifty|sixty|seventy|eighty|ninety"
    r"|(?:thir|four|fif|six|seven|eigh|nine)teen",
    re.IGNORECASE,
)
_WORD = re.compile(r"[^\W_]+")
_FIGURE = re.compile(r"\d")
_NOT_ASCII = re.compile(r"[^\x00-\x7f]")
_LIKE_CODE = re.compile(r"(?<![^\W_])[^\W_]*[a-z][A-Z][^\W_]*")
"""Words with a capital behind a small letter."""
_TWINS = (
    "0OQ\u041e\u039f",
    "1IL\u0406\u0399",
    "2Z\u0396",
    "3E\u0417",
    "5S\u0405",
    "6G",
    "8B\u0412\u0392",
)
"""Characters that are typed for each other; those of other scripts look the same."""
_FIGURE_OF = str.maketrans({each: twins[0] for twins in _TWINS for each in twins})


@dataclass(slots=True)
class TextMask:
    """Masks texts of one case; `names` finds words that stand for people and places.

    `numbers` are its whole numbers, in capitals; `words` are those of the book, `known` its names
    of things and rows.
    """

    signs: Signs
    numbers: frozenset[str]
    names: NameMask
    words: frozenset[str]
    known: frozenset[str]
    left_out: str
    typed: dict[str, str] = field(default_factory=dict)
    """What was typed and is left out, with what stands in its place."""

    def typed_text(self, text: str) -> str:
        """What somebody typed, or that it is left out."""
        if not text.strip() or self._tells_nothing(text):
            return text
        self.typed[text] = self.left_out
        return self.left_out

    def known_text(self, text: str) -> str:
        """A name of the code book, or what somebody typed in its place."""
        return text if text in self.known else self.typed_text(text)

    def claimed(self, text: str, item: str) -> str:
        """A claimed code: a year, or a value that the book names for this item, stands; any other
        is typed."""
        is_year = len(text) <= SHORT and text.isdecimal()
        return text if is_year or f"{item} {text}" in self.known else self.known_text(text)

    def signed_text(self, text: str) -> str:
        """The name of somebody who signs: it stands where it tells no number."""
        if self._holds_number(text):
            self.typed[text] = self.left_out
        return self.typed.get(text, text)

    def id_text(self, text: str) -> str:
        """A case's short name: what is no plain word or year in it is hidden."""
        return _WORD.sub(lambda found: self._id_word(found[0]), text)

    def _id_word(self, word: str) -> str:
        is_plain = not self.names.is_named_in(word) and not self._holds_number(word)
        return word if is_plain else self.signs.hidden * len(word)

    def holds_serial(self, text: str) -> bool:
        """Is a whole serial of the case left in this text, a long one whatever parts it?"""
        plain = unicodedata.normalize("NFKC", text).upper()
        words = _WORD.findall(plain)
        joined, figures = "".join(words), "".join(map(_as_figures, words))
        alone = set(re.split(r"[^\w.,]+|[.,](?!\d)", plain))
        return any(
            each in joined or each.translate(_FIGURE_OF) in figures
            if len(each) >= LONG
            else each in alone and not YEAR.fullmatch(each)
            for each in self.numbers
        )

    def _tells_nothing(self, text: str) -> bool:
        return not ("@" in text or self._holds_number(text) or self.names.is_named_in(text))

    def _holds_number(self, text: str) -> bool:
        """Can a number be told by this text, in figures, in words or in a code?"""
        plain = bare(text)
        dates = [re.sub(r"\D", "", found[0]) for found in _DATES.finditer(plain)]
        if _FIGURE.search(_DATES.sub("", plain)) or any(map(_is_figure, _NOT_ASCII.findall(plain))):
            return True
        if any(self._is_piece(each) for each in dates) or self.holds_serial(text):
            return True
        if _LARGE.search(plain) or len(_ONES.findall(plain)) > MOST_ONES:
            return True
        return any(each not in self.words for each in _LIKE_CODE.findall(plain))

    def _is_piece(self, figures: str) -> bool:
        """Does a date hold four figures of a serial in a row, or a serial this date?"""
        runs = {figures[at : at + SHORT] for at in range(len(figures) - SHORT + 1)}
        return any(run in number for run in runs for number in self.numbers)


def _is_figure(character: str) -> bool:
    return unicodedata.numeric(character, None) is not None


@lru_cache(maxsize=4096)
def _as_figures(word: str) -> str:
    """A word with figures for letters that look so, where it has a figure or no other letter.

    >>> _as_figures("S8Z"), _as_figures("SO"), _as_figures("SEAT")
    ('582', '50', 'SEAT')
    """
    figures = word.translate(_FIGURE_OF)
    return figures if any(map(str.isdigit, word)) or figures.isdigit() else word


def text_mask(
    signs: Signs, names: NameMask, words: Iterable[str], known: Iterable[str], left_out: str
) -> TextMask:
    """The mask of a case, from its signs, the names that must not stand, and what is the book's."""
    whole = ("".join(each.units).upper() for each in signs.numbers if each.is_whole)
    numbers = frozenset(each for each in whole if len(each) >= SHORT)
    return TextMask(signs, numbers, names, frozenset(words), frozenset(known), left_out)
