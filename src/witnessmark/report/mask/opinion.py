"""An Opinion without serials, people and places.

Conclusions, ratios and bounds stay as they were reckoned from the whole
numbers; only what is said of them is masked.
"""

import re
from dataclasses import dataclass, fields, is_dataclass, replace
from enum import Enum
from typing import Any

from witnessmark.agreement.records import Finding, Subject
from witnessmark.catalogue import said
from witnessmark.codebook.book import CodeBook
from witnessmark.decoding.records import Alternative, Decoding, FieldCells, FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.reading.records import Cell, Reading
from witnessmark.report.mask.case import book_words, left_out, masked_case, names_of
from witnessmark.report.mask.names import name_mask
from witnessmark.report.mask.shapes import LONG
from witnessmark.report.mask.signs import TITLE, Signs, main_item, signs_of, spilt_before
from witnessmark.report.mask.texts import TextMask, text_mask

_SHOWN_SIGNS = re.compile(r"[0-9A-Z\[\]/?~_…]+")


@dataclass(frozen=True, slots=True)
class Masked:
    """A masked Opinion, with the mask by which it was made."""

    opinion: Opinion
    mask: TextMask


def mask_of(opinion: Opinion, book: CodeBook, one_sign: str = "") -> TextMask:
    """The mask of a case's texts; with `one_sign`, that one hides every character."""
    signs = signs_of(opinion, book, one_sign)
    mask = text_mask(signs, name_mask(names_of(opinion), book_words(opinion)), left_out())
    mask.marks.update(_whole_marks(opinion, signs))
    return mask


def masked(opinion: Opinion, book: CodeBook, one_sign: str = "") -> Masked:
    """The Opinion with its serials, people and places masked, the same way everywhere."""
    mask = mask_of(opinion, book, one_sign)
    signs = mask.signs
    decodings = tuple(_decoding(each, signs, mask) for each in opinion.decodings)
    read = {
        (old.mark, old.reading.as_typed): new.reading.as_typed
        for old, new in zip(opinion.decodings, decodings, strict=True)
    }
    case = masked_case(opinion, mask, signs, read)
    who = {
        old.by: new.by for old, new in zip(opinion.casefile.readings, case.readings, strict=True)
    }
    decodings = tuple(_read_by(each, who) for each in decodings)
    says = {(each.mark, c.field): c.says for each in opinion.decodings for c in each.field_cells}
    findings = tuple(_finding(each, opinion, signs, mask, says) for each in opinion.findings)
    exact = {
        old.observation: new.observation
        for old, new in zip(opinion.findings, findings, strict=True)
        if old.observation
    }
    by_text = {typed: shown for (_, typed), shown in read.items() if typed != shown}
    words = _Words(mask, exact, dict(sorted(by_text.items(), key=lambda each: -len(each[0]))))
    rest = {
        name: _walked(getattr(opinion, name), words)
        for name in ("sites", "answer", "disclosure", "limitations")
    }
    made = replace(
        opinion, casefile=case, decodings=decodings, findings=findings, problems=(), title=None,
        **rest,
    )  # fmt: skip
    return Masked(made, mask)


def _read_by(decoding: Decoding, who: dict[str, str]) -> Decoding:
    """The decoding with its reader as the masked case names him."""
    by = decoding.reading.by
    if not by:
        return decoding
    return replace(decoding, reading=replace(decoding.reading, by=who.get(by, left_out())))


def _whole_marks(opinion: Opinion, signs: Signs) -> dict[str, str]:
    """Marks that hold a number among other codes, every character clear, longest first."""
    found: dict[str, str] = {}
    for each in opinion.decodings:
        cells = each.reading.cells
        read = "".join(cell.sign() for cell in cells)
        shown = _reading(each.reading, _shown_cells(each, signs))
        if len(read) >= LONG and read.isalnum() and shown.as_typed != each.reading.as_typed:
            found[read] = shown.as_typed
    return dict(sorted(found.items(), key=lambda pair: -len(pair[0])))


@dataclass(frozen=True, slots=True)
class _Words:
    """How a sentence of our own is masked: as a finding, by the readings in it, then by serials."""

    mask: TextMask
    exact: dict[str, str]
    read: dict[str, str]

    def masked(self, text: str) -> str:
        for old, new in self.exact.items():
            if old in text:
                text = text.replace(old, new)
        for typed, shown in self.read.items():
            if len(typed) >= 3 and typed in text:
                text = text.replace(typed, shown)
        return self.mask.own_text(text)


def _walked(value: Any, words: _Words) -> Any:
    """A record with every text in it masked."""
    if isinstance(value, Enum):
        return value
    if isinstance(value, str):
        return words.masked(value)
    if isinstance(value, tuple):
        return tuple(_walked(each, words) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        update = {each.name: _walked(getattr(value, each.name), words) for each in fields(value)}
        return replace(value, **update)
    return value


def _decoding(decoding: Decoding, signs: Signs, mask: TextMask) -> Decoding:
    """A decoding with its numbers masked, as read and as meant."""
    shown = _shown_cells(decoding, signs)
    bears_number = any(each.says in signs.items for each in decoding.field_cells)
    return replace(
        decoding,
        reading=_reading(decoding.reading, shown),
        alternatives=tuple(
            _alternative(each, decoding, signs, mask) for each in decoding.alternatives
        ),
        field_cells=tuple(_field_cells(each, signs) for each in decoding.field_cells),
        unread=_blanked(decoding.unread, signs)
        if bears_number
        else mask.typed_text(decoding.unread),
        unexplained=(),
        notes=(),
        problems=(),
    )


def _blanked(text: str, signs: Signs) -> str:
    return "".join(signs.hidden if each.isalnum() else each for each in text)


def _shown_cells(decoding: Decoding, signs: Signs) -> dict[int, Cell]:
    """By column, every cell as the copy shows it: of a number, and of no field, masked."""
    shown: dict[int, Cell] = {}
    for each in decoding.field_cells:
        for old, new in zip(each.cells, _field_cells(each, signs).cells, strict=True):
            shown[old.column] = new
    for each in decoding.field_cells:
        spilt = spilt_before(decoding, each) if each.says in signs.items else ()
        if spilt:
            whole = replace(each, part="all", cells=(*spilt, *each.cells))
            for old, new in zip(spilt, _field_cells(whole, signs).cells, strict=False):
                shown[old.column] = new
    bears_number = any(each.says in signs.items for each in decoding.field_cells)
    for cell in decoding.reading.cells:
        if cell.column not in shown:
            hidden = signs.hidden * len(cell.characters)
            shown[cell.column] = replace(cell, characters=hidden) if bears_number else cell
    return shown


def _field_cells(number: FieldCells, signs: Signs) -> FieldCells:
    if number.says not in signs.items:
        return number
    units = [cell.sign() for cell in number.cells]
    places = signs.places([*units, "…"] if number.missing else units, number.says, number.part)
    cells = tuple(
        replace(
            cell,
            characters="".join(signs.sign(number.says, place, each) for each in cell.characters),
        )
        for cell, place in zip(number.cells, places, strict=False)
    )
    return replace(number, cells=cells)


def _reading(reading: Reading, shown: dict[int, Cell]) -> Reading:
    """A reading typed in the signs of its cells; what was no sign of the notation goes."""
    cells = tuple(shown[cell.column] for cell in reading.cells)
    hidden = {old.column for old, new in zip(reading.cells, cells, strict=True) if old != new}
    windows = [""] * (max((cell.window for cell in cells), default=0) + 1)
    for cell in cells:
        windows[cell.window] += cell.sign()
    return replace(
        reading,
        as_typed=_as_typed(reading, shown, hidden),
        normalised=" | ".join(windows),
        cells=cells,
        changes=tuple(each for each in reading.changes if each.column not in hidden),
        problems=(),
    )


def _as_typed(reading: Reading, shown: dict[int, Cell], hidden: set[int]) -> str:
    text = reading.as_typed
    columns = {cell.column for cell in reading.cells}
    parts: list[str] = []
    at = 0
    while at < len(text):
        column, width = at + 1, 1
        if text[at] == "[" and column in columns:
            width = text.find("]", at) - at + 1
        if column in hidden:
            parts.append(shown[column].sign())
        elif column in columns:
            parts.append(text[at : at + width])
        elif text[at] in " |":
            parts.append(text[at])
        at += max(1, width)
    return "".join(parts)


def _alternative(
    alternative: Alternative, decoding: Decoding, signs: Signs, mask: TextMask
) -> Alternative:
    parts = {each.field: each.part for each in decoding.field_cells}
    return replace(
        alternative,
        fields=tuple(_meant(each, parts, signs, mask) for each in alternative.fields),
    )


def _meant(
    meant: FieldMeaning, parts: dict[str, str], signs: Signs, mask: TextMask
) -> FieldMeaning:
    if meant.says not in signs.items:
        return meant
    part = parts.get(meant.field, "all")
    code, value = (signs.masked(each, meant.says, part) for each in (meant.code, meant.value))
    meaning = meant.meaning
    for number in sorted({meant.code, meant.value} - {"", "_"}, key=len, reverse=True):
        meaning = meaning.replace(number, signs.masked(number, meant.says, part))
    return replace(meant, code=code, value=value, meaning=mask.own_text(meaning))


def _finding(
    finding: Finding,
    opinion: Opinion,
    signs: Signs,
    mask: TextMask,
    says: dict[tuple[str, str], str],
) -> Finding:
    """A finding whose numbers are masked, also where single places of them are named."""
    parts = {(each.mark, c.field): c.part for each in opinion.decodings for c in each.field_cells}
    subjects: list[Subject] = []
    shown: dict[str, str] = {}
    item = ""
    for subject in finding.subjects:
        about = says.get((subject.mark, subject.field), subject.field)
        if subject.mark == TITLE:
            about = main_item(opinion, signs.items)
        elif about not in signs.items and finding.topic in signs.items:
            about = finding.topic
        if about in signs.items:
            item = item or about
            part = parts.get((subject.mark, subject.field), "all")
            shown[subject.shown] = signs.masked(subject.shown, about, part)
            subject = replace(subject, shown=shown[subject.shown])
        subjects.append(subject)
    if not item:
        texts = finding.observation, finding.inference, finding.brief
        observation, inference, brief = map(mask.own_text, texts)
        return replace(finding, observation=observation, inference=inference, brief=brief)
    told = _Told(item, signs, mask, dict(sorted(shown.items(), key=lambda each: -len(each[0]))))
    is_title = any(subject.mark == TITLE for subject in finding.subjects)
    return replace(
        finding,
        subjects=tuple(subjects),
        observation=told.observed(finding.observation, is_title),
        inference=told.masked(finding.inference),
        brief="" if is_title else told.masked(finding.brief),
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """How the sentences of one finding about a number are masked."""

    item: str
    signs: Signs
    mask: TextMask
    shown: dict[str, str]

    def observed(self, text: str, is_title: bool) -> str:
        if is_title:
            text = self._first_sentence(text)
        return self.masked(text)

    def masked(self, text: str) -> str:
        for old, new in self.shown.items():
            if old:
                text = text.replace(old, new)
        text = _places_shown().sub(self._place, text)
        return self.mask.own_text(text)

    def _first_sentence(self, text: str) -> str:
        """What stands on title and mark; which characters part them is not repeated."""
        ends = [text.rfind(each) + len(each) for each in self.shown if each in text]
        return text[: max(ends)] + "." if ends else ""

    def _place(self, found: re.Match[str]) -> str:
        """One place of two numbers, with signs for the characters."""
        told = found.groupdict()
        place, length = told.get("place"), told.get("length")
        at = int(length) - int(place) if place and length else None
        first, second = (self._signs(told.get(each, ""), at) for each in ("first", "second"))
        return _place_shown(place or "", length or "", first, second)

    def _signs(self, text: str, from_end: int | None) -> str:
        if not _SHOWN_SIGNS.fullmatch(text):
            return text
        return "".join(
            self.signs.sign(self.item, from_end, each) if each.isalnum() else each for each in text
        )


def _place_shown(place: str, length: str, first: str, second: str) -> str:
    """One place of two numbers and what stands there on each, as a finding tells it."""
    where = said("place {place} of {length}", place=place, length=length)
    return said("{place} ({first} and {second})", place=where, first=first, second=second)


def _places_shown() -> re.Pattern[str]:
    """How such a place is found, in the language of the page."""
    held = {"place": "\ue000", "length": "\ue001", "first": "\ue002", "second": "\ue003"}
    signs = f"{_SHOWN_SIGNS.pattern}|{re.escape(said('nothing'))}"
    groups = {"place": r"\d+", "length": r"\d+", "first": signs, "second": signs}
    pattern = re.escape(_place_shown(*held.values()))
    for name, sign in held.items():
        pattern = pattern.replace(sign, f"(?P<{name}>{groups[name]})", 1)
        pattern = pattern.replace(sign, f"(?P={name})")
    return re.compile(pattern)
