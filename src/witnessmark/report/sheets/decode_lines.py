"""What each code of a car says, one line a code, under the questions that a person would ask."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import chain

from witnessmark.catalogue import counted, said
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, Mark, MarkKind
from witnessmark.codebook.records import Basis, ItemKind
from witnessmark.dates import DateSpan
from witnessmark.day_words import day_text
from witnessmark.decoding.put_together import fields_in_order
from witnessmark.decoding.records import Decoding, FieldMeaning
from witnessmark.examination import Opinion
from witnessmark.figures.plate_codes import PlateCode, plate_codes
from witnessmark.reading.records import CellKind
from witnessmark.wording import Names, date_text
from witnessmark.wording.amounts import capital

FEW_DATES = 3
"""So many dates are told one by one; of more only how many, and between which."""

FEW_MEANINGS = 3
UNREAD = "?~…"
"""Signs of places that say nothing."""


class Topic(StrEnum):
    """A question that somebody asks about a car."""

    CAR = "car"
    COLOUR = "colour"
    RUNNING = "running"
    OPTIONS = "options"


_RUNNING = frozenset(
    {"engine", "block", "head", "intake", "carburettor", "displacement", "gearbox", "transmission"}
    | {"automatic", "gear", "th400", "axle", "housing"}
)
_OPTIONS = frozenset({"extra", "extras", "option", "options", "package", "equipment"})
_COLOUR = frozenset(
    {"paint", "colour", "color", "trim", "interior", "upholstery", "seat", "roof", "top", "stripe"}
)
_PLANNED = frozenset({"planned", "scheduled"})


@dataclass(frozen=True, slots=True)
class CodeLine:
    """One code: which item it says, what that is in words, as it was read, and where.

    `value` is by what it is known to say the same as another code; `number` is its number in
    the drawing of the main mark, 0 for other marks; `also` holds other characters that say the
    same, each with its mark.
    """

    topic: Topic
    item: str
    says: str
    value: str
    read: str
    marks: tuple[str, ...]
    number: int = 0
    is_number: bool = False
    is_paper: bool = False
    is_identity: bool = False
    is_from_memory: bool = False
    also: tuple[tuple[str, str], ...] = ()


def clearest(decodings: Iterable[Decoding]) -> tuple[Decoding, ...]:
    """One decoding a mark: of the reading with the most clear characters, the first of those."""
    best: dict[str, Decoding] = {}
    for each in decodings:
        if each.mark not in best or _clear(each) > _clear(best[each.mark]):
            best[each.mark] = each
    return tuple(best.values())


def _clear(decoding: Decoding) -> int:
    return sum(cell.kind is CellKind.CLEAR for cell in decoding.reading.cells)


def main_of(decodings: Iterable[Decoding], book: CodeBook) -> tuple[Mark, Decoding] | None:
    """The plate or label with the most fields; where none was read, such a mark of the car."""
    read = [(mark, each) for each in decodings if (mark := book.mark(each.mark))]
    on_car = [each for each in read if each[0].kind is not MarkKind.PAPER]
    plates = [each for each in on_car if each[0].kind in (MarkKind.PLATE, MarkKind.LABEL)]
    return max(plates or on_car, key=lambda each: len(each[0].fields), default=None)


def code_lines(
    opinion: Opinion, decodings: tuple[Decoding, ...], main: Mark | None, book: CodeBook
) -> tuple[CodeLine, ...]:
    """The codes of all marks: those of the main mark first, each said once."""
    names = Names(opinion.names)
    read = [(mark, each) for each in decodings if (mark := book.mark(each.mark))]
    read.sort(key=lambda each: (each[0] is not main, each[0].kind is MarkKind.PAPER))
    return _merged(chain.from_iterable(_lines_of(*each, book, names, main) for each in read))


def _lines_of(
    mark: Mark, decoding: Decoding, book: CodeBook, names: Names, main: Mark | None
) -> Iterable[CodeLine]:
    fields = fields_in_order(book, mark)
    for field, code in zip(fields, plate_codes(mark, decoding, book), strict=True):
        item = book.item(field.says)
        if mark is not main and (code.is_empty or not code.read.strip(UNREAD)):
            continue
        name = item.name if item else field.name
        meanings = _meanings(field, decoding)
        says, is_from_memory = _told(field, code, meanings, name)
        yield CodeLine(
            topic_of(field.says, item.home if item else ""),
            field.says,
            says,
            meanings[0].value if meanings and len(code.says) == 1 else says,
            code.read,
            (names.mark(mark.id),),
            code.number if mark is main else 0,
            item is not None and item.kind is ItemKind.NUMBER,
            mark.kind is MarkKind.PAPER,
            is_identity=item is not None and item.identification,
            is_from_memory=is_from_memory,
        )


def topic_of(item: str, home: str) -> Topic:
    """The question that an item of a code book answers.

    >>> topic_of("upper_paint", ""), topic_of("axle_ratio", ""), topic_of("model", "")
    (<Topic.COLOUR: 'colour'>, <Topic.RUNNING: 'running'>, <Topic.CAR: 'car'>)
    """
    words = frozenset(item.replace("-", "_").split("_"))
    if words & _OPTIONS:
        return Topic.OPTIONS
    if home in ("engine", "gearbox", "axle") or words & _RUNNING:
        return Topic.RUNNING
    return Topic.COLOUR if words & _COLOUR else Topic.CAR


def _merged(lines: Iterable[CodeLine]) -> tuple[CodeLine, ...]:
    """Each item and value once; papers only where no mark of the car says the item."""
    kept: dict[tuple[str, str], CodeLine] = {}
    on_car: set[str] = set()
    for line in lines:
        key = (line.item, "" if line.is_number else line.value)
        if line.is_paper and (line.is_number or line.item in on_car):
            continue
        if not line.is_paper:
            on_car.add(line.item)
        old = kept.get(key)
        if old is None:
            kept[key] = line
        elif line.number:
            kept[(line.item, f"{line.value} {line.number}")] = line
        else:
            kept[key] = _joined(old, line)
    return tuple(kept.values())


def _joined(old: CodeLine, new: CodeLine) -> CodeLine:
    """The line with another mark that says the same."""
    if new.read == old.read:
        marks = old.marks if old.number else tuple(dict.fromkeys((*old.marks, *new.marks)))
        return replace(old, marks=marks)
    if any(read == new.read for read, _ in old.also):
        return old
    return replace(old, also=(*old.also, (new.read, new.marks[0])))


def _told(
    field: Field, code: PlateCode, meanings: list[FieldMeaning], name: str
) -> tuple[str, bool]:
    """What one code says, in words, with how exactly; and whether that is from memory."""
    if code.is_empty:
        return _empty(field, name)
    if not code.read and field.optional:
        return said("{name}: nothing here, as the book allows", name=capital(name)), False
    if not code.is_listed:
        told = said("{name}: not in the book, which is no fault of the car", name=capital(name))
        return told, False
    spans = tuple(dict.fromkeys(span for each in meanings for span in each.spans))
    text = dates_told(spans) if spans else _choices(code.says).removeprefix(f"{name} ")
    if text == said("a number, as it was read"):
        return capital(name), False
    told = said("{name}: {meaning}", name=capital(name), meaning=text)
    is_from_memory = bool(meanings) and meanings[0].basis is Basis.MEMORY
    if is_from_memory:
        told = _from_memory(told)
    return _planned(told, name) if spans else told, is_from_memory


def _empty(field: Field, name: str) -> tuple[str, bool]:
    """An empty window, with what the book says that it means."""
    if field.empty is None:
        silent = said(
            "{name}: left empty; the book does not say what that means", name=capital(name)
        )
        return silent, False
    told = said(
        "{name}: left empty, which says: {meaning}",
        name=capital(name),
        meaning=field.empty.meaning,
    )
    is_from_memory = field.empty.citation.basis is Basis.MEMORY
    return _from_memory(told) if is_from_memory else told, is_from_memory


def _from_memory(told: str) -> str:
    return said("{told} (from memory)", told=told)


def _meanings(field: Field, decoding: Decoding) -> list[FieldMeaning]:
    """The listed meanings of a field, the likeliest first."""
    shares: dict[FieldMeaning, float] = {}
    for alternative in decoding.alternatives:
        for each in alternative.fields:
            if each.field == field.id and each.listed:
                shares[each] = shares.get(each, 0.0) + alternative.share
    return sorted(shares, key=lambda each: -shares[each])


def _choices(says: tuple[str, ...]) -> str:
    """The first few meanings one after the other; of more, how many."""
    told = " ".join(says[:FEW_MEANINGS])
    left = len(says) - FEW_MEANINGS
    if left > 0:
        return counted(
            "{told} and {number} other meaning", "{told} and {number} other meanings", left,
            told=told,
        )  # fmt: skip
    return told


def dates_told(spans: tuple[DateSpan, ...]) -> str:
    """The days that a date code may mean: a few one by one, of more how many, between which."""
    days = {day_text(span.first) if span.first == span.last else "" for span in spans}
    if len(spans) > FEW_DATES and len(days) == 1 and "" not in days:
        return said(
            "{day} of one of {number} years from {first} to {last}; the mark does not say which",
            day=days.pop(),
            number=len(spans),
            first=min(span.first.year for span in spans),
            last=max(span.last.year for span in spans),
        )
    if len(spans) > FEW_DATES:
        return said(
            "one of {number} dates from {first} to {last}; the mark does not say which",
            number=len(spans),
            first=date_text(min(span.first for span in spans)),
            last=date_text(max(span.last for span in spans)),
        )
    told = _span(spans[0])
    for span in spans[1:]:
        told = said("{this} or {other}", this=told, other=_span(span))
    return told


def _span(span: DateSpan) -> str:
    """A day, or the days of a week or a month: so a reader sees how exact it is."""
    first, last = span.first, span.last
    if first == last:
        return date_text(first)
    if (first.year, first.month) == (last.year, last.month):
        return said("{first} to {last}", first=first.day, last=date_text(last))
    return said("{first} to {last}", first=date_text(first), last=date_text(last))


def _planned(told: str, name: str) -> str:
    """Says of a planned date that it is only that."""
    if _PLANNED & frozenset(name.lower().split()):
        return said("{told}; a planned date, not the date of building", told=told)
    return told
