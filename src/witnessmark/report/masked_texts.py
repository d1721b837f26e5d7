"""Serials and names inside running text: found however they are typed, and masked.

Words that somebody typed are masked with little trust: every number that could
be a serial, or a piece of one, goes. Sentences of our own hold dates, ratios and
codes beside the serials of the case, so only those serials are looked for there.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from witnessmark.report.masked_signs import HIDDEN, SAME_PLACE, Number, Signs

SHORTEST = 3
"""A run of so many characters of a serial is a piece of it."""
LONG = 5
"""A number of so many figures is hidden wherever somebody typed it."""

_LOOKALIKES = {"0": "0OQ", "O": "0OQ", "Q": "0OQ", "1": "1IL", "I": "1IL"}
_BETWEEN = r"[\W_]{0,3}"
_NARROW = r"[\s\u00ad\u200b-\u200d\u2060\u2010-\u2015-]{0,1}"
_YEAR = re.compile(r"(?:1[789]|20)\d\d")
_DATE = re.compile(
    r"(?<!\d)(?:(?:1[789]|20)\d\d-[01]\d(?:-[0-3]\d)?|[0-3]?\d[./][01]?\d[./](?:(?:1[789]|20)\d\d|\d\d)"
    r"|[0-2]?\d:[0-5]\d(?::[0-5]\d)?)(?!\d)"
)
_FIGURES = re.compile(r"\d(?:[\s.,/\u2010-\u2015-]?\d)*")
_ANY_SIGN = re.escape(SAME_PLACE + HIDDEN)
_BESIDE_SIGNS = re.compile(rf"\d+(?=[{_ANY_SIGN}])|(?<=[{_ANY_SIGN}])\d+")
_FIRST_HELD = 0xE100
"""From here on, signs that no font shows hold the places of whole marks."""
_TOKEN = re.compile(r"[0-9A-Z]{3,}")


@dataclass(frozen=True, slots=True)
class Plain:
    """A text in plain capitals, one for one, with the place of each in the text as typed."""

    text: str
    places: tuple[int, ...]


def plain(text: str) -> Plain:
    """Wide, raised and circled figures as plain ones, small letters as capitals."""
    characters: list[str] = []
    places: list[int] = []
    for at, typed in enumerate(text):
        for each in unicodedata.normalize("NFKC", typed):
            figure = unicodedata.decimal(each, None)
            shape = each.upper() if figure is None else str(figure)
            characters.append(shape if len(shape) == 1 else each)
            places.append(at)
    return Plain("".join(characters), tuple(places))


@dataclass(frozen=True, slots=True)
class Pattern:
    """How a serial is found, and which of its groups stands at which place of the number."""

    found: re.Pattern[str]
    number: Number


@dataclass(slots=True)
class TextMask:
    """Masks texts of one case; `hidden` are words that stand for people and places."""

    signs: Signs
    loose: tuple[Pattern, ...]
    strict: tuple[Pattern, ...]
    runs: frozenset[str]
    names: re.Pattern[str] | None
    left_out: str
    typed: dict[str, str] = field(default_factory=dict)
    marks: dict[str, str] = field(default_factory=dict)
    """Whole marks as read, with how the copy shows them: so they stand wherever they are typed."""

    def typed_text(self, text: str) -> str:
        """What somebody typed, without serials, unknown long numbers, people and places."""
        if text not in self.typed:
            self.typed[text] = self._without_names(self._typed(text))
        return self.typed[text]

    def own_text(self, text: str) -> str:
        """A sentence of our own: typed texts within it, then the serials of the case."""
        if not text or text.isspace():
            return text
        for typed in sorted(self.typed, key=len, reverse=True):
            if self.typed[typed] != typed and typed in text:
                text = text.replace(typed, self.typed[typed])
        return self._without_names(self._serials(text, self.strict))

    def holds_serial(self, text: str) -> bool:
        """Is a whole serial of the case left in this text?"""
        read = plain(text).text
        return any(each.found.search(read) for each in self.strict if each.number.is_whole)

    def _typed(self, text: str) -> str:
        """Whole marks first, each held by one sign while the rest is masked."""
        held: list[str] = []
        for read, shown in self.marks.items():
            pattern = re.compile(
                r"(?<![^\W_])" + _BETWEEN.join(map(re.escape, read)) + r"(?![^\W_])", re.IGNORECASE
            )
            if pattern.search(text):
                text = pattern.sub(chr(_FIRST_HELD + len(held)), text)
                held.append(shown)
        text = self._without_marks(text)
        for at, shown in enumerate(held):
            text = text.replace(chr(_FIRST_HELD + at), shown)
        return text

    def _without_marks(self, text: str) -> str:
        text = self._serials(text, self.loose)
        kept = [range(*match.span()) for match in _DATE.finditer(plain(text).text)]
        text = _hidden(text, _FIGURES, lambda found: self._suspect(found, kept))
        text = _hidden(text, _TOKEN, self._pieces)
        return _hidden(text, _BESIDE_SIGNS, lambda found: [range(*found.span())])

    def _suspect(self, found: re.Match[str], kept: list[range]) -> list[range]:
        """Figures that are many, or four that are no year; a date is left as it stands."""
        if any(found.start() in each for each in kept):
            return []
        figures = re.sub(r"\D", "", found[0])
        is_year = len(figures) == len(found[0]) and _YEAR.fullmatch(figures)
        many = len(figures) >= LONG or (len(figures) == LONG - 1 and not is_year)
        return [range(*found.span())] if many else []

    def _pieces(self, found: re.Match[str]) -> list[range]:
        """Stretches of a word that are pieces of a serial."""
        word = found[0]
        if _YEAR.fullmatch(word) or not any(map(str.isdigit, word)):
            return []
        starts = range(len(word) - SHORTEST + 1)
        begun = found.start()
        return [
            range(begun + at, begun + at + SHORTEST)
            for at in starts
            if word[at : at + SHORTEST] in self.runs
        ]

    def _serials(self, text: str, patterns: Iterable[Pattern]) -> str:
        for each in patterns:
            read = plain(text)
            for match in reversed(list(each.found.finditer(read.text))):
                text = self._signed(text, read, match, each.number)
                read = plain(text)
        return text

    def _signed(self, text: str, read: Plain, match: re.Match[str], number: Number) -> str:
        """The text with each character of this serial replaced by its sign."""
        letters = list(text)
        places = self.signs.places(list(number.units), number.item, number.part)
        for at, unit in enumerate(number.units, start=1):
            for place in range(*match.span(at)):
                if not read.text[place].isalnum():
                    continue
                clear = len(unit) == 1 and unit.isalnum()
                character = unit if clear else read.text[place]
                sign = self.signs.sign(number.item, places[at - 1], character)
                letters[read.places[place]] = sign
        return "".join(letters)

    def _without_names(self, text: str) -> str:
        if self.names is None:
            return text
        return self.names.sub(lambda _: self.left_out, text)


def _hidden(
    text: str, pattern: re.Pattern[str], which: Callable[[re.Match[str]], list[range]]
) -> str:
    """The text with the letters and figures of some stretches hidden."""
    read = plain(text)
    letters = list(text)
    for match in pattern.finditer(read.text):
        for stretch in which(match):
            for place in stretch:
                if read.text[place].isalnum():
                    letters[read.places[place]] = HIDDEN
    return "".join(letters)


def text_mask(signs: Signs, names: Iterable[str], left_out: str) -> TextMask:
    """The mask of a case, from its signs and the words that stand for people and places."""
    numbers = sorted(set(signs.numbers), key=lambda each: -len(each.units))
    known = [each for each in numbers if _can_be_found(each)]
    words = sorted(set(names), key=len, reverse=True)
    joined = "|".join(re.escape(each) for each in words)
    return TextMask(
        signs,
        tuple(_pattern(each, _BETWEEN, "") for each in known),
        tuple(_strict(each) for each in known if not _reads_as_year(each)),
        frozenset(run for each in known for run in _runs(each)),
        re.compile(rf"(?<!\w)(?:{joined})(?:[ -]+(?:{joined}))*(?!\w)") if joined else None,
        left_out,
    )


def _can_be_found(number: Number) -> bool:
    """Is it long enough, and no mere word of letters?"""
    clear = [unit for unit in number.units if unit not in "?~_…"]
    has_figure = any(map(str.isdigit, "".join(clear)))
    return len(clear) >= SHORTEST and (has_figure or len(clear) >= LONG)


def _strict(number: Number) -> Pattern:
    """A short number counts only where it stands alone."""
    if len(number.units) >= LONG:
        return _pattern(number, _NARROW, "")
    return _pattern(number, "", r"[0-9A-Z.,]")


def _reads_as_year(number: Number) -> bool:
    return bool(_YEAR.fullmatch("".join(number.units)))


def _pattern(number: Number, between: str, not_beside: str) -> Pattern:
    groups = between.join(f"({_characters(unit)})" for unit in number.units)
    if not_beside:
        groups = f"(?<!{not_beside}){groups}(?![0-9A-Z]|[.,][0-9])"
    return Pattern(re.compile(groups), number)


def _characters(unit: str) -> str:
    """What one unit can be typed as: its twins, one of its set, any for a place worn away."""
    if unit == "…":
        return "…?"
    if unit in "?~_":
        return f"[0-9A-Z{re.escape(unit)}]"
    members = unit.strip("[]")
    shapes = "".join(dict.fromkeys("".join(_LOOKALIKES.get(each, each) for each in members)))
    one = f"[{re.escape(shapes)}]"
    return rf"\[[{re.escape(shapes)}]+\]|{one}" if unit.startswith("[") else one


def _runs(number: Number) -> set[str]:
    """Every stretch of clear characters as long as a piece must be."""
    text = "".join(unit if len(unit) == 1 and unit.isalnum() else " " for unit in number.units)
    stretches = (text[at : at + SHORTEST] for at in range(len(text) - SHORTEST + 1))
    return {each for each in stretches if " " not in each}
