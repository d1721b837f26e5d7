"""The page of `witnessmark decode`: what one mark says, in ten lines where it is clear."""

import shlex
from dataclasses import dataclass
from typing import TYPE_CHECKING

from witnessmark.cli.decode_meanings import (
    FEW_DATES,
    LEAST_SHOWN,
    Page,
    Shown,
    lay_out_meanings,
    merged,
)
from witnessmark.cli.terminal import Sheet, count

if TYPE_CHECKING:
    from witnessmark.cli.decode_answer import Answer
    from witnessmark.codebook.date_records import Point
    from witnessmark.codebook.records import Basis

ROOM = 10
"""Lines in which a clear reading is told, before its sources."""

MOST_REMARKS = 2
"""Remarks on a page, unless all are asked for."""


@dataclass(frozen=True, slots=True)
class Hidden:
    """What a page leaves out: unlikely meanings, remarks, the year that would narrow a date."""

    meanings: int = 0
    remarks: int = 0
    is_year_open: bool = False

    def and_of(self, other: "Hidden") -> "Hidden":
        """What two marks leave out together."""
        return Hidden(
            self.meanings + other.meanings,
            self.remarks + other.remarks,
            self.is_year_open or other.is_year_open,
        )

    def options(self) -> list[str]:
        """The options that show it."""
        return [
            *(["--year N narrows it"] if self.is_year_open else []),
            *([f"--all ({count(self.meanings, 'meaning')} under 1 %)"] if self.meanings else []),
            *([f"--remarks ({self.remarks})"] if self.remarks else []),
        ]


def lay_out(sheet: Sheet, answer: "Answer", shown: Shown) -> None:
    """The whole page: the mark, another that was typed with it, the sources of both."""
    page = Page(sheet, shown)
    hidden = _lay_out_one(page, answer, "")
    if answer.beside is not None:
        sheet.gap()
        hidden = hidden.and_of(_lay_out_one(page, answer.beside, "Typed with it: "))
    _lay_out_sources(page, answer, hidden)


def _lay_out_one(page: Page, answer: "Answer", before: str) -> Hidden:
    """One mark; gives what was left out."""
    decoding, mark, sheet = answer.decoding, answer.mark, page.sheet
    told_before = sheet.lines_told()
    typed = one_line(decoding.reading.as_typed)
    sheet.title(f"{before}{mark.name} ({mark.id}), {answer.described_by.title}: {typed}")
    _lay_out_slip(page, answer)
    for sentence in (*answer.not_for, *(each.sentence for each in answer.contradictions)):
        page.say(sentence)
    if decoding.is_unlike:
        return Hidden()
    _lay_out_changes(page, answer)
    meanings = merged(decoding.alternatives)
    lay_out_meanings(page, answer, meanings)
    _lay_out_doubt(page, answer)
    left = _lay_out_known(page, answer, ROOM - (sheet.lines_told() - told_before))
    small = sum(each.share < LEAST_SHOWN for each in meanings[1:])
    is_open = any(len(own.spans) > FEW_DATES for each in meanings[:1] for own in each.fields)
    return Hidden(
        0 if page.shown.everything else small, left, is_open and answer.given.model_year is None
    )


def one_line(text: str) -> str:
    """A reading on one line: rows parted by a stroke."""
    rows = (" ".join(row.split()) for row in text.splitlines())
    return " / ".join(row for row in rows if row)


def _lay_out_slip(page: Page, answer: "Answer") -> None:
    """What does not fit the form of the mark, where, and what was expected."""
    slip, typed = answer.decoding.slip, answer.typed
    if slip is None:
        return
    if slip.column is not None:
        page.sheet.pointed_at(typed, slip.column, slip.sentence, 2)
    else:
        page.say(slip.sentence)
    page.say(f"Expected: {slip.expected}")
    book, further = page.shown.book or answer.book.id, page.shown.beside
    for other in slip.others:
        beside = [word for name in further for word in ("--beside", name)]
        command = shlex.join(["witnessmark", "decode", book, other, typed, *beside])
        page.say(f"Ask for that mark: {command}")
    if answer.decoding.is_unlike and not slip.others:
        page.say(f"The marks of the book: {shlex.join(['witnessmark', 'book', 'show', book])}")


def _lay_out_changes(page: Page, answer: "Answer") -> None:
    """What is read otherwise than it was typed, and what was passed over."""
    from witnessmark.decoding.render import words_around

    reading = answer.decoding.reading
    places: dict[str, list[str]] = {}
    for change in reading.changes:
        if change.typed != change.normalised:
            places.setdefault(change.reason, []).append(str(change.column))
    if places:
        page.say(f"Read as {reading.normalised}.")
    for reason, columns in places.items():
        at = f"place{'s' if len(columns) > 1 else ''} {_listed(columns)}"
        page.say(f"At {at} of what was typed: {reason}.")
    around = words_around(answer.decoding)
    if around:
        words = ", ".join(one_line(each) for each in around)
        page.say(f"Passed over as no part of the mark: {words}")


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _lay_out_doubt(page: Page, answer: "Answer") -> None:
    """What is left over and what was not typed."""
    decoding = answer.decoding
    if decoding.unread:
        page.say(f"Left over: {decoding.unread}, which no field of this mark explains.")
    if decoding.missing and not (decoding.slip and decoding.slip.kind == "short"):
        missing = ", ".join(answer.names.get(each, each) for each in decoding.missing)
        page.say(f"Nothing, or too little, was read of: {missing}.")


type _Known = tuple[str, "Basis", str]


def _lay_out_known(page: Page, answer: "Answer", room: int) -> int:
    """What the number's own rules say, known cars and remarks, as far as there is room for it;
    gives how many are left."""
    notes, points = answer.decoding.notes, answer.points
    known = [(each.sentence, each.basis, each.source) for each in notes]
    known += [(_known_car(each), each.citation.basis, each.citation.source) for each in points]
    rules = answer.rules
    known += [(r.sentence.rstrip(".") + ".", r.citation.basis, r.citation.source) for r in rules]
    remarks = [
        (each.sentence, each.citation.basis, each.citation.source)
        for each in (answer.remarks if page.shown.remarks else answer.fitting)
    ]
    if page.shown.remarks:
        told = [*known, *remarks]
    else:
        told = _chosen(page.sheet, known, [] if answer.decoding.slip else remarks, room)
    if told:
        page.sheet.gap()
    for sentence, basis, source in told:
        page.say(f"{sentence} {page.cite(basis, source)}")
    return len(known) + len(answer.remarks) - len(told)


def _known_car(point: "Point") -> str:
    """What is known of a car or a range of numbers in which this one lies."""
    last = point.last or point.first
    number = point.first if last == point.first else f"{point.first} to {last}"
    days = " to ".join(dict.fromkeys(filter(None, (point.date_first, point.date_last))))
    dated = f" ({point.dated} {days})" if point.dated and days else ""
    return f"Known of {number}: {point.meaning}{dated}."


def _chosen(sheet: Sheet, known: list[_Known], remarks: list[_Known], room: int) -> list[_Known]:
    """In turn what there is room for, the first that is known of the number always; on a page
    that is longer already one thing."""
    told: list[_Known] = []
    is_long = room <= 0
    for each in (*known, *remarks[:MOST_REMARKS]):
        room -= sheet.height(f"{each[0]} [99]", 2, 2)
        if room < 0 and (told or not (each in known or is_long)):
            break
        told.append(each)
    return told


def _lay_out_sources(page: Page, answer: "Answer", hidden: Hidden) -> None:
    """On what all of it rests, each source on one line; then how to see more."""
    if page.sources:
        page.sheet.heading("Sources")
    for line, number in page.sources.items():
        page.sheet.say(f"[{number}] {line}", 2, hanging=4)
    more = f" More: {', '.join(hidden.options())}." if hidden.options() else ""
    book = answer.described_by
    page.sheet.say(f"By the book {book.id}, version {book.version}.{more}", 2)
