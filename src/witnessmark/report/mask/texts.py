"""Serials and names inside running text: found however they are typed, and masked.

Words that somebody typed are masked with little trust: every number that could
be a serial, or a piece of one, goes. Sentences of our own hold dates, ratios and
codes beside the serials of the case, so only those serials are looked for there.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from witnessmark.report.mask.names import NameMask
from witnessmark.report.mask.shapes import (
    LONG,
    SHORTEST,
    YEAR,
    Pattern,
    Plain,
    as_figures,
    can_be_found,
    clear_text,
    letters_alone,
    loose,
    plain,
    reads_as_year,
    runs,
    strict,
)
from witnessmark.report.mask.signs import Number, Signs

_BETWEEN = r"[\W_]{0,3}"
_DATE = re.compile(
    r"(?<!\d)(?:(?:1[789]|20)\d\d-[01]\d(?:-[0-3]\d)?|[0-3]?\d[./][01]?\d[./](?:(?:1[789]|20)\d\d|\d\d)"
    r"|[0-2]?\d:[0-5]\d(?::[0-5]\d)?)(?!\d)"
)
_SHORT_DATE = re.compile(r"\d+[./]\d+[./]\d\d")
"""A date that writes its year with two figures reads like a number in three parts."""
_FIGURES = re.compile(r"\d(?:[\s.,/_\u00b7\u2010-\u2015-]?\d)*")
_FIRST_HELD = 0xE100
"""From here on, signs that no font shows hold the places of whole marks."""
_TOKEN = re.compile(r"[0-9A-Z]{3,}")


@dataclass(slots=True)
class TextMask:
    """Masks texts of one case; `names` finds words that stand for people and places."""

    signs: Signs
    loose: tuple[Pattern, ...]
    strict: tuple[Pattern, ...]
    runs: frozenset[str]
    names: NameMask
    left_out: str
    typed: dict[str, str] = field(default_factory=dict)
    marks: dict[str, str] = field(default_factory=dict)
    """Whole marks as read, with how the copy shows them: so they stand wherever they are typed."""

    def typed_text(self, text: str) -> str:
        """What somebody typed, without serials, unknown long numbers, people and places."""
        if text not in self.typed:
            masked = self._typed(text)
            self.typed[text] = self.names.without(masked, self.left_out, is_typed=True)
        return self.typed[text]

    def signed_text(self, text: str) -> str:
        """The name of somebody who signs: it stands, but no serial in it."""
        self.typed[text] = self._typed(text)
        return self.typed[text]

    def id_text(self, text: str) -> str:
        """A case's short name: a year too may be a piece of a serial there, whatever parts it."""
        shown = self.typed_text(text)
        self.typed[text] = self._hidden(shown, _TOKEN, self._pieces, letters_alone(shown))
        return self.typed[text]

    def own_text(self, text: str) -> str:
        """A sentence of our own: typed texts within it, then the serials of the case."""
        if not text or text.isspace():
            return text
        for typed in sorted(self.typed, key=len, reverse=True):
            if self.typed[typed] != typed and typed in text:
                text = text.replace(typed, self.typed[typed])
        text = self._serials(text, self.strict)
        return self.names.without(text, self.left_out, is_typed=False)

    def holds_serial(self, text: str) -> bool:
        """Is a whole serial of the case left in this text, a long one whatever parts it?"""
        long = (each for each in self.loose if len(each.number.units) >= LONG)
        return any(
            each.matches(each.read(text)) for each in (*self.strict, *long) if each.number.is_whole
        )

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
        kept = [
            range(*match.span())
            for match in _DATE.finditer(plain(text).text)
            if not (_SHORT_DATE.fullmatch(match[0]) and self._holds_piece(match[0]))
        ]
        text = self._hidden(text, _FIGURES, lambda found: self._suspect(found, kept))
        text = self._hidden(text, _TOKEN, self._pieces_but_years)
        any_sign = re.escape(self.signs.alphabet + self.signs.hidden)
        beside = re.compile(rf"\d+(?=[{any_sign}])|(?<=[{any_sign}])\d+")
        return self._hidden(text, beside, lambda found: [range(*found.span())])

    def _suspect(self, found: re.Match[str], kept: list[range]) -> list[range]:
        """Figures that are many, four that are no year, or a parted piece; a date stands."""
        if any(found.start() in each for each in kept):
            return []
        figures = re.sub(r"\D", "", found[0])
        is_year = len(figures) == len(found[0]) and YEAR.fullmatch(figures)
        many = len(figures) >= LONG or (len(figures) == LONG - 1 and not is_year)
        parted = len(figures) < len(found[0]) and self._holds_piece(figures)
        return [range(*found.span())] if many or parted else []

    def _holds_piece(self, figures: str) -> bool:
        """Is a piece of a serial among these figures, whatever parts them?"""
        bare = re.sub(r"\D", "", figures)
        return any(bare[at : at + SHORTEST] in self.runs for at in range(len(bare) - SHORTEST + 1))

    def _pieces_but_years(self, found: re.Match[str]) -> list[range]:
        return [] if YEAR.fullmatch(found[0]) else self._pieces(found)

    def _pieces(self, found: re.Match[str]) -> list[range]:
        """Stretches of a word with a figure that are pieces of a serial, or look like one."""
        word, begun = found[0], found.start()
        if not any(map(str.isdigit, word)):
            return []
        stretches = {at: word[at : at + SHORTEST] for at in range(len(word) - SHORTEST + 1)}
        return [
            range(begun + at, begun + at + SHORTEST)
            for at, piece in stretches.items()
            if piece in self.runs
            or (any(map(str.isdigit, piece)) and as_figures(piece) in self.runs)
        ]

    def _serials(self, text: str, patterns: Iterable[Pattern]) -> str:
        for each in patterns:
            read = each.read(text)
            for match in each.matches(read):
                text = self._signed(text, read, match, each.number)
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
                typed = read.text[place]
                character = unit if clear else typed if typed in unit else as_figures(typed)
                sign = self.signs.sign(number.item, places[at - 1], character)
                letters[read.places[place]] = sign
        return "".join(letters)

    def _hidden(
        self,
        text: str,
        pattern: re.Pattern[str],
        which: Callable[[re.Match[str]], list[range]],
        alone: Plain | None = None,
    ) -> str:
        """The text with the letters and figures of some stretches hidden."""
        read = alone or plain(text)
        letters = list(text)
        for match in pattern.finditer(read.text):
            for stretch in which(match):
                for place in stretch:
                    if read.text[place].isalnum():
                        letters[read.places[place]] = self.signs.hidden
        return "".join(letters)


def text_mask(signs: Signs, names: NameMask, left_out: str) -> TextMask:
    """The mask of a case, from its signs and the words that stand for people and places."""
    numbers = sorted(set(signs.numbers), key=lambda each: -len(each.units))
    known = [each for each in numbers if can_be_found(each)]
    texts = [clear_text(each) for each in known]
    return TextMask(
        signs,
        tuple(pattern for each in known for pattern in loose(each)),
        tuple(strict(each) for each in known if not reads_as_year(each)),
        frozenset(run for text in texts for run in (*runs(text), *runs(as_figures(text)))),
        names,
        left_out,
    )
