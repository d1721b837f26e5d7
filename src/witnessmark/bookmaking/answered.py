"""What a book can answer of a car, for somebody who looks at one: a dozen lines in plain words.

An item is answered in the years in which a row that weighs reads it, explained only where all of
its rows are from memory, and open where a mark bears it and no row does. Where more rows are from
memory than not it stands under both.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import IntEnum, StrEnum

from witnessmark.bookmaking.listing import BookListed, FieldListed, Listed
from witnessmark.codebook import CodeBook
from witnessmark.codebook.coverage import year_ranges
from witnessmark.codebook.marks import Field, Mark, MarkKind
from witnessmark.codebook.records import AssemblyKind, Item, ItemKind

MOST_NAMES = 8
"""More names in one cell are counted and not told: the figures behind name them all."""

BUILT = "when the car was built, by its number"
MOST_MARKS = 1000
"""What rests on no mark, but on the number itself, is told first."""
MOST_RANGES = 3
"""Years that fall into more stretches are not told one by one."""


class AskedOf(StrEnum):
    """What somebody asks about, in the order in which they are asked."""

    IDENTITY = "identity number"
    PLATE = "plates and labels"
    BODY = "body and frame"
    ENGINE = "engine"
    GEARBOX = "gearbox"
    AXLE = "axle"
    DATES = "dates"
    PAINT = "paint and trim"
    OPTIONS = "options"
    PAPERS = "papers"
    YEARS = "years"


WORDS = {
    AskedOf.PAINT: ("paint", "trim", "colour", "interior", "seat", "vinyl"),
    AskedOf.OPTIONS: ("option", "package", "extra", "equipment"),
}
"""Words in an item's name by which it is told what has no kind of its own."""
OF_KIND = {
    AssemblyKind.ENGINE: AskedOf.ENGINE,
    AssemblyKind.GEARBOX: AskedOf.GEARBOX,
    AssemblyKind.AXLE: AskedOf.AXLE,
    AssemblyKind.FRAME: AskedOf.BODY,
    AssemblyKind.BODY: AskedOf.BODY,
    AssemblyKind.SHELL: AskedOf.BODY,
}


class Known(IntEnum):
    """How far something is known, the least first."""

    OPEN = 0
    EXPLAINED = 1
    COMPARED = 2
    IN_SOME_CODES = 3
    ANSWERED = 4


NOTES = {Known.COMPARED: "by comparison", Known.IN_SOME_CODES: "little of it"}


@dataclass(frozen=True, slots=True)
class Answered:
    """One line: what is answered, what only explained, what is open; each names items."""

    subject: AskedOf
    answered: tuple[str, ...]
    explained: tuple[str, ...]
    open: tuple[str, ...]


@dataclass(slots=True, kw_only=True)
class _Seen:
    """An item over the years: how far it is known, and on how many marks it stands."""

    name: str
    subject: AskedOf
    is_number: bool = False
    is_on_papers: bool = False
    is_partial: bool = False
    years: dict[int, Known] = field(default_factory=dict)
    marks: dict[int, int] = field(default_factory=dict)

    def meet(self, year: int, known: Known) -> None:
        """It is known so far at least in that year."""
        self.years[year] = max(self.years.get(year, Known.OPEN), known)

    def add(self, read: FieldListed, *, weighs: bool, tells: bool) -> None:
        """One mark more bears it; what its field adds to what is known of it, where that tells."""
        for span in read.years:
            for year in range(span.first_year, span.last_year + 1):
                self.marks[year] = self.marks.get(year, 0) + weighs
                if tells:
                    self.meet(year, _known(span.listed, weighs=weighs))


def answered(listed: BookListed) -> tuple[Answered, ...]:
    """The lines of one book."""
    book = listed.book
    seen = tuple(_seen(listed))
    lines = []
    for subject in AskedOf:
        if subject is AskedOf.PAPERS:
            lines.append(_papers(book))
        elif subject is AskedOf.YEARS:
            lines.append(_years(book, seen))
        else:
            lines.append(_line(subject, [each for each in seen if each.subject is subject]))
    return tuple(lines)


def _line(subject: AskedOf, seen: list[_Seen]) -> Answered:
    if not seen:
        return Answered(subject, (), (), ("no mark is described",))
    # What the car says in most places is told first.
    seen = sorted(seen, key=lambda each: -max(each.marks.values(), default=MOST_MARKS))
    answered = (Known.ANSWERED, Known.IN_SOME_CODES, Known.COMPARED)
    return Answered(
        subject,
        tuple(name for known in answered for name in _names(seen, known)),
        (*_names(seen, Known.EXPLAINED), *_names(seen, Known.IN_SOME_CODES, "the rest")),
        tuple(_names(seen, Known.OPEN)),
    )


def _names(seen: Iterable[_Seen], known: Known, note: str = "") -> Iterator[str]:
    """The items that are known so far in some years, with these unless they are all."""
    for each in seen:
        years = {year for year, so_far in each.years.items() if so_far is known}
        notes = [_when(years)] if len(years) < len(each.years) else []
        notes += filter(None, [note or NOTES.get(known, "")])
        notes += ["in part"] if each.is_partial and known is Known.ANSWERED else []
        notes += ["on papers"] if each.is_on_papers else []
        if years:
            yield f"{each.name} ({', '.join(notes)})" if notes else each.name


def _when(years: set[int]) -> str:
    """The years, or that there are some: the figures name them all."""
    ranges = year_ranges(years)
    return ranges if ranges.count(",") < MOST_RANGES else "some years"


def _seen(listed: BookListed) -> Iterator[_Seen]:
    """Every item that a mark says, in the order of the book; papers only where no other does."""
    book, found = listed.book, dict[str, _Seen]()
    subjects = _subjects(book)
    items = {item.id: item for item in book.items}
    on_car = {f.says for m in book.marks if m.kind is not MarkKind.PAPER for f in m.fields}
    for mark in listed.marks:
        is_paper = mark.mark.kind is MarkKind.PAPER
        for own, read in zip(mark.mark.fields, mark.fields, strict=True):
            item = items.get(own.says)
            if item is None:
                continue
            is_number = item.kind is ItemKind.NUMBER
            is_only_on_papers = item.id not in on_car
            new = _Seen(
                name=item.name,
                subject=subjects[item.id],
                is_number=is_number,
                is_on_papers=is_only_on_papers,
            )
            seen, tells = found.setdefault(item.name, new), is_only_on_papers or not is_paper
            seen.add(read, weighs=mark.mark.argues, tells=tells)
            seen.is_partial |= tells and (own.has_gaps or (is_number and item.has_gaps))
    for each in found.values():
        for year in each.years if each.is_number else ():
            # Two marks that bear one number are set against each other without any list.
            if each.marks[year] > 1:
                each.meet(year, Known.COMPARED)
        yield each
    yield _built(book)


def _built(book: CodeBook) -> _Seen:
    """When the car was built, by the cars of known number and day."""
    years = range(book.first_year, book.last_year + 1)
    built = _Seen(name=BUILT, subject=AskedOf.DATES, is_partial=True)
    built.years = dict.fromkeys(years, Known.OPEN)
    naming = _naming(book)
    for point in book.points:
        if point.item in naming and (point.date_first or point.date_last):
            known = Known.ANSWERED if point.citation.basis.weighs else Known.EXPLAINED
            for year in range(point.applies.first_year, point.applies.last_year + 1):
                built.meet(year, known)
    return built


def _known(rows: Listed, *, weighs: bool) -> Known:
    """How far rows of these bases go on a mark that may be weighed or not."""
    if not rows.total():
        return Known.OPEN
    if not weighs or rows.total() == rows.memory:
        return Known.EXPLAINED
    return Known.ANSWERED if rows.memory * 2 <= rows.total() else Known.IN_SOME_CODES


def _subjects(book: CodeBook) -> dict[str, AskedOf]:
    """Under which line each item stands."""
    kinds = {each.id: each.kind for each in book.assemblies}
    naming = _naming(book)
    identity = {each for mark in book.marks for each in _beside_the_number(mark, naming)}
    # A part that bears the car's number says more of the car than of itself.
    own = [mark for mark in book.marks if not naming & {each.says for each in mark.fields}]
    borne = {
        each.says: kinds[mark.assembly]
        for mark in reversed(own)
        for each in mark.fields
        if mark.assembly in kinds
    }
    return {
        item.id: _subject(item, item.id in identity, kinds.get(item.home) or borne.get(item.id))
        for item in book.items
    }


def _naming(book: CodeBook) -> frozenset[str]:
    """The number by which the maker names the car."""
    return frozenset(item.id for item in book.items if item.identification)


def _subject(item: Item, is_of_number: bool, kind: AssemblyKind | None) -> AskedOf:
    if item.kind is ItemKind.DATE:
        return AskedOf.DATES
    subject = OF_KIND.get(kind, AskedOf.PLATE) if kind is not None else AskedOf.PLATE
    if is_of_number and subject in (AskedOf.PLATE, AskedOf.BODY):
        return AskedOf.IDENTITY
    for worded, words in WORDS.items():
        if any(word in item.name.lower() for word in words):
            return worded
    return subject


def _beside_the_number(mark: Mark, naming: frozenset[str]) -> Iterator[str]:
    """The items that stand in one window with the identification number."""

    def window(each: Field) -> tuple[int, int]:
        return (each.row, each.column) if mark.windows else (1, 1)

    windows = {window(each) for each in mark.fields if each.says in naming}
    if mark.kind is not MarkKind.PAPER:
        yield from (each.says for each in mark.fields if window(each) in windows)


def _papers(book: CodeBook) -> Answered:
    """The papers themselves: what they say is in the other lines."""
    papers = [mark for mark in book.marks if mark.kind is MarkKind.PAPER]
    read = dict.fromkeys(mark.name for mark in papers if mark.argues)
    told = dict.fromkeys(mark.name for mark in papers if not mark.argues)
    return Answered(
        AskedOf.PAPERS, tuple(read), tuple(told), () if papers else ("no paper is described",)
    )


def _years(book: CodeBook, seen: tuple[_Seen, ...]) -> Answered:
    """For which years the identity number is answered at all."""
    best = dict.fromkeys(range(book.first_year, book.last_year + 1), Known.OPEN)
    for each in seen:
        if each.subject is AskedOf.IDENTITY:
            for year, so_far in each.years.items():
                best[year] = max(best.get(year, Known.OPEN), so_far)

    def of(*known: Known) -> tuple[str, ...]:
        years = year_ranges(year for year, so_far in best.items() if so_far in known)
        return (years,) if years else ()

    return Answered(
        AskedOf.YEARS,
        of(Known.ANSWERED, Known.IN_SOME_CODES, Known.COMPARED),
        of(Known.EXPLAINED),
        of(Known.OPEN),
    )
