"""How a number can be typed: plain shapes of characters, lookalikes, and what may part them."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from witnessmark.report.mask.signs import Number

SHORTEST = 3
"""A run of so many characters of a serial is a piece of it."""
TEXTS_HELD = 2_000
"""Each text is looked through for every serial: it is made plain once for all of them."""
LONG = 5
"""A number of so many figures is hidden wherever somebody typed it."""

YEAR = re.compile(r"(?:1[789]|20)\d\d")

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
_LOOKALIKES = {each: twins for twins in _TWINS for each in twins}
_FIGURE_OF = str.maketrans({each: twins[0] for twins in _TWINS for each in twins})
_DOUBT = "?~_"
_BETWEEN = r"[\W_]{0,3}"
_NARROW = r"[\s\u00ad\u200b-\u200d\u2060\u2010-\u2015-]{0,1}"


@dataclass(frozen=True, slots=True)
class Plain:
    """A text in plain capitals, one for one, with the place of each in the text as typed."""

    text: str
    places: tuple[int, ...]

    def word(self, at: int) -> tuple[int, int]:
        """Where the word of the letter or figure at this place begins and ends."""
        start = end = at
        while start and self._joins(start):
            start -= 1
        while end + 1 < len(self.text) and self._joins(end + 1):
            end += 1
        return start, end + 1

    def _joins(self, at: int) -> bool:
        """Do this character and the one before it stand in one word?"""
        both = self.text[at - 1 : at + 1]
        return both.isalnum() and self.places[at] - self.places[at - 1] <= 1


@lru_cache(maxsize=TEXTS_HELD)
def plain(text: str) -> Plain:
    """Figures of every kind and script as plain ones, small letters as capitals."""
    characters: list[str] = []
    places: list[int] = []
    for at, typed in enumerate(text):
        shapes = _shapes_of(typed)
        characters.append(shapes)
        places.extend([at] * len(shapes))
    return Plain("".join(characters), tuple(places))


@cache
def _shapes_of(typed: str) -> str:
    """The plain characters that one typed character stands for."""
    found = []
    for each in _figure(typed) or unicodedata.normalize("NFKC", typed):
        shape = _figure(each) or each.upper()
        found.append(shape if len(shape) == 1 else each)
    return "".join(found)


def _figure(typed: str) -> str:
    """The one figure that a character stands for, in whatever shape; nothing for any other.

    >>> _figure("\u278e"), _figure("\u4e94"), _figure("\u2161"), _figure("x"), _figure("\u2469")
    ('5', '5', '2', '', '')
    """
    worth = unicodedata.numeric(typed, None)
    return str(int(worth)) if worth is not None and worth in range(10) else ""


@lru_cache(maxsize=TEXTS_HELD)
def letters_alone(text: str) -> Plain:
    """Letters and figures in plain capitals, without anything between.

    >>> letters_alone("(5) ... 8\\u0301\\u200e").text
    '58'
    """
    read = plain(text)
    kept = [pair for pair in zip(read.text, read.places, strict=True) if pair[0].isalnum()]
    return Plain("".join(each for each, _ in kept), tuple(place for _, place in kept))


@dataclass(frozen=True, slots=True)
class Pattern:
    """How a serial is found, and which of its groups stands at which place of the number.

    `is_alone`: it is looked for in letters and figures alone, whatever stands between them.
    """

    found: re.Pattern[str]
    number: Number
    is_alone: bool = False

    def read(self, text: str) -> Plain:
        """The text as this pattern reads it."""
        return letters_alone(text) if self.is_alone else plain(text)

    def matches(self, read: Plain) -> list[re.Match[str]]:
        """Where the number stands in a text so read."""
        return [each for each in self.found.finditer(read.text) if self._counts(each, read)]

    def _counts(self, match: re.Match[str], read: Plain) -> bool:
        """Is it no mere word? A letter is a figure in a word that has one, or is all here."""
        units = self.number.units
        if any(map(str.isdigit, "".join(units))) and not any(map(str.isdigit, match[0])):
            return read.word(match.start()) == match.span()
        for at, unit in enumerate(units, start=1):
            for place in range(*match.span(at)):
                if read.text[place].isdigit() or read.text[place] in unit or unit in _DOUBT:
                    continue
                start, end = read.word(place)
                is_inside = match.start() <= start and end <= match.end()
                if not is_inside and not any(map(str.isdigit, read.text[start:end])):
                    return False
        return True


def can_be_found(number: Number) -> bool:
    """Is it long enough, and no mere word of letters?"""
    clear = [unit for unit in number.units if unit not in "?~_…"]
    has_figure = any(map(str.isdigit, "".join(clear)))
    return len(clear) >= SHORTEST and (has_figure or len(clear) >= LONG)


def loose(number: Number) -> tuple[Pattern, ...]:
    """A number whatever parts its characters; of one in doubt, with its signs of doubt too."""
    groups = "".join(f"({_alone(unit)})" for unit in number.units)
    found = Pattern(re.compile(groups), number, is_alone=True)
    if not any(unit in _DOUBT or unit == "…" for unit in number.units):
        return (found,)
    return found, _pattern(number, _BETWEEN, "")


def strict(number: Number) -> Pattern:
    """A number as it stands in sentences of our own; a short one only where it stands alone."""
    if len(number.units) >= LONG:
        return _pattern(number, _NARROW, "")
    return _pattern(number, "", r"[0-9A-Z.,]")


def reads_as_year(number: Number) -> bool:
    """Can it be taken for a year?"""
    return bool(YEAR.fullmatch("".join(number.units)))


def _pattern(number: Number, between: str, not_beside: str) -> Pattern:
    groups = between.join(f"({_characters(unit)})" for unit in number.units)
    if not_beside:
        groups = f"(?<!{not_beside}){groups}(?![0-9A-Z]|[.,][0-9])"
    return Pattern(re.compile(groups), number)


def _characters(unit: str) -> str:
    """What one unit can be typed as: its twins, one of its set, any for a place worn away."""
    if unit == "…":
        return "…?"
    if unit in _DOUBT:
        return f"[0-9A-Z{re.escape(unit)}]"
    shapes = _shapes(unit)
    return rf"\[{shapes}+\]|{shapes}" if unit.startswith("[") else shapes


def _alone(unit: str) -> str:
    """The same among letters and figures alone, where signs of doubt do not stand."""
    if unit == "…":
        return ""
    if unit in _DOUBT:
        return "[0-9]?"
    shapes = _shapes(unit)
    return f"{shapes}{{1,{len(unit) - 2}}}" if unit.startswith("[") else shapes


def _shapes(unit: str) -> str:
    members = unit.strip("[]")
    shapes = "".join(dict.fromkeys("".join(_LOOKALIKES.get(each, each) for each in members)))
    return f"[{re.escape(shapes)}]"


def runs(text: str) -> set[str]:
    """Every stretch of letters and figures as long as a piece must be."""
    stretches = (text[at : at + SHORTEST] for at in range(len(text) - SHORTEST + 1))
    return {each for each in stretches if each.isalnum()}


def clear_text(number: Number) -> str:
    """Its clear characters, a space for any other."""
    return "".join(unit if len(unit) == 1 and unit.isalnum() else " " for unit in number.units)


def as_figures(text: str) -> str:
    """The text with a figure for each letter that looks like one.

    >>> as_figures("S8Z")
    '582'
    """
    return text.translate(_FIGURE_OF)
