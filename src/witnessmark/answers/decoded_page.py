"""The outline of one reading: what one mark says, in ten lines where it is clear."""

import shlex
from collections import Counter
from collections.abc import Iterator
from math import ceil

from witnessmark.answers.decoded import Decoded, unread_condition
from witnessmark.answers.meanings import (
    FEW_DATES,
    LEAST_SHOWN,
    Page,
    Shown,
    merged,
    tell_meanings,
)
from witnessmark.catalogue import all_of, counted, from_to, in_a_row, said
from witnessmark.codebook import Basis, Point
from witnessmark.decoding import SlipKind, as_written, words_around
from witnessmark.outline.records import Outline, Paragraph, Section, Table

ROOM = 10
"""Lines in which a clear reading is told, before its sources."""

ORDINARY = 76
"""Characters of a line on an ordinary terminal."""

MOST_REMARKS = 2
"""Remarks on a page, unless all are asked for."""


def decoded_page(answer: Decoded, shown: Shown) -> Outline:
    """The whole page: the mark, another that was typed with it, the sources of both."""
    page = Page(shown=shown)
    title = _tell_one(page, answer)
    front, sections = tuple(page.blocks), []
    if answer.beside is not None:
        page.blocks.clear()
        beside = said("Typed with it: {mark}", mark=_tell_one(page, answer.beside))
        sections.append(Section(beside, tuple(page.blocks)))
    sections.append(_sources(page, answer))
    return Outline(title, front, tuple(sections), is_numbered=False)


def _tell_one(page: Page, answer: Decoded) -> str:
    """One mark; gives its title."""
    decoding, mark = answer.decoding, answer.mark
    typed = one_line(decoding.reading.as_typed)
    title = f"{mark.name} ({mark.id}): {typed}"
    _tell_slip(page, answer)
    for sentence in (*answer.not_for, *(each.sentence for each in answer.contradictions)):
        page.say(sentence)
    if decoding.is_unlike:
        return title
    _tell_changes(page, answer)
    meanings = merged(decoding.alternatives)
    tell_meanings(page, answer, meanings)
    _tell_doubt(page, answer)
    _tell_known(page, answer, ROOM - _height(title) - _lines_told(page))
    if not page.shown.everything:
        page.meanings_left += sum(each.share < LEAST_SHOWN for each in meanings[1:])
    if answer.given.model_year is None:
        spans = [own.spans for each in meanings[:1] for own in each.fields]
        page.is_year_open |= any(len(each) > FEW_DATES for each in spans)
    return title


def _lines_told(page: Page) -> int:
    """About how many lines the blocks so far take."""
    lines = 0
    for block in page.blocks:
        if isinstance(block, Paragraph):
            lines += _height(block.text)
        elif isinstance(block, Table):
            lines += sum(_height("  ".join(cell.text for cell in row)) for row in block.rows)
        else:
            lines += 2
    return lines


def _height(text: str) -> int:
    """About how many lines a text takes on an ordinary terminal."""
    return ceil(len(text) / ORDINARY)


def one_line(text: str) -> str:
    """A reading on one line: rows parted by a stroke."""
    rows = (" ".join(row.split()) for row in text.splitlines())
    return " / ".join(row for row in rows if row)


def _tell_slip(page: Page, answer: Decoded) -> None:
    """What does not fit the form of the mark, where, and what was expected."""
    slip, typed = answer.decoding.slip, answer.typed
    if slip is None:
        return
    if slip.column is not None:
        page.point(typed, slip.column, slip.sentence)
    else:
        page.say(slip.sentence)
    page.say(said("Expected: {form}", form=slip.expected))
    book, further = page.shown.book or answer.book.id, page.shown.beside
    for other in slip.others[:1]:  # the sentence names them all
        beside = [word for name in further for word in ("--beside", name)]
        command = shlex.join(["witnessmark", "decode", book, other, typed, *beside])
        page.say(said("Ask for that mark: {command}", command=command))
    if answer.decoding.is_unlike and not slip.others:
        command = shlex.join(["witnessmark", "book", "show", book])
        page.say(said("The marks of the book: {command}", command=command))


def _tell_changes(page: Page, answer: Decoded) -> None:
    """What is read otherwise than it was typed, and what was passed over."""
    reading = answer.decoding.reading
    places: dict[str, list[str]] = {}
    for change in reading.changes:
        if change.typed != change.normalised:
            places.setdefault(change.reason, []).append(str(change.column))
    if places:
        page.say(said("Read as {reading}.", reading=reading.normalised))
    for reason, columns in places.items():
        page.say(
            counted(
                "At place {places} of what was typed: {reason}.",
                "At places {places} of what was typed: {reason}.",
                len(columns),
                places=all_of(columns),
                reason=reason,
            )
        )
    around = words_around(answer.decoding)
    if around:
        words = ", ".join(one_line(each) for each in around)
        page.say(said("Ignored as not part of the mark: {words}", words=words))


def _tell_doubt(page: Page, answer: Decoded) -> None:
    """What is left over and what was not typed."""
    decoding = answer.decoding
    if decoding.unread:
        page.say(
            said("Left over: {text}, which no field of this mark explains.", text=decoding.unread)
        )
    if decoding.missing and not (decoding.slip and decoding.slip.kind is SlipKind.SHORT):
        names = Counter(answer.names.get(each, each) for each in decoding.missing)
        told = (
            name if number == 1 else said("{name} ({number} times)", name=name, number=number)
            for name, number in names.items()
        )
        missing = in_a_row(told, ", ")
        page.say(said("Nothing, or too little, was read in: {fields}.", fields=missing))


type _Known = tuple[str, "Basis", str]


def _tell_known(page: Page, answer: Decoded, room: int) -> None:
    """What the number's own rules say, known cars and remarks, as far as there is room for it."""
    notes, points = answer.decoding.notes, answer.points
    known = [(each.sentence, each.basis, each.source) for each in notes]
    known += [
        (_known_car(answer, each), each.citation.basis, each.citation.source) for each in points
    ]
    rules = answer.rules
    known += [(r.sentence.rstrip(".") + ".", r.citation.basis, r.citation.source) for r in rules]
    remarks = [
        (each.sentence, each.citation.basis, each.citation.source)
        for each in (answer.remarks if page.shown.remarks else answer.fitting)
    ]
    if page.shown.remarks:
        told = [*known, *remarks]
    else:
        told = _chosen(known, [] if answer.decoding.slip else remarks, room)
    for sentence, basis, source in told:
        page.say(f"{sentence} {page.cite(basis, source)}")
    page.remarks_left += len(known) + len(answer.remarks) - len(told)


def _known_car(answer: Decoded, point: Point) -> str:
    """What is known of a car or a range of numbers in which this one lies."""
    item = answer.book.item(point.item)
    ends = (point.first, point.last or point.first)
    number = from_to(*(as_written(answer.book, item, end) if item else end for end in ends))
    condition = unread_condition(answer.decoding, answer.book, point)
    if condition:
        number = said("{number}, with {condition}", number=number, condition=condition)
    days = tuple(dict.fromkeys(filter(None, (point.date_first, point.date_last))))
    if not (point.dated and days):
        return said("Known about {number}: {meaning}.", number=number, meaning=point.meaning)
    return said(
        "Known about {number}: {meaning} ({dated} {days}).",
        number=number,
        meaning=point.meaning,
        dated=point.dated,
        days=from_to(days[0], days[-1]),
    )


def _chosen(known: list[_Known], remarks: list[_Known], room: int) -> list[_Known]:
    """In turn what there is room for, the first that is known of the number always; on a page
    that is longer already one thing."""
    told: list[_Known] = []
    is_long = room <= 0
    for each in (*known, *remarks[:MOST_REMARKS]):
        room -= _height(f"{each[0]} [99]")
        if room < 0 and (told or not (each in known or is_long)):
            break
        told.append(each)
    return told


def _sources(page: Page, answer: Decoded) -> Section:
    """On what all of it rests, each source on one line; then how to see more."""
    book = answer.described_by
    by = said("By the book {book}, version {version}.", book=book.id, version=book.version)
    options = ", ".join(_options(page))
    if options:
        by = f"{by} {said('More: {options}.', options=options)}"
    cited = tuple(Paragraph(f"[{number}] {line}") for line, number in page.sources.items())
    return Section(said("Sources") if cited else "", (*cited, Paragraph(by)))


def _options(page: Page) -> Iterator[str]:
    """The options that show what the page leaves out."""
    if page.is_year_open:
        yield said("--year N narrows it")
    if page.meanings_left:
        yield counted(
            "--all ({number} meaning under 1 %)",
            "--all ({number} meanings under 1 %)",
            page.meanings_left,
        )
    if page.remarks_left:
        yield f"--remarks ({page.remarks_left})"
